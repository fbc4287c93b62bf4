// Facts: every number norma works out, once, with its formula, its source, how far it can be
// trusted, and what it was worked out from. Rules cite facts, explanations walk them, cards print
// them; nothing else holds a number.
//
// The folder facts/ holds what a fact can be and the list of them; plan/ works them out.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diag/sentence.hpp"
#include "model/choices.hpp"
#include "physics/quantity.hpp"
#include "physics/quantity_text.hpp"

namespace norma::facts {

/// Where a value comes from; a worked-out one is as good as the weakest it rests on (later =
/// weaker).
enum class Status { asked, measured, published, handbook, assumed };
/// What it is called.
const diag::Row& row_of(Status s);

/// One row of the list of facts; as a row of what is said it is what the fact is called. `question`
/// is what nobody knows where this fact is missing; null where another fact asks it.
struct FactRow : diag::Row {
  std::string_view name;
  physics::Kind kind = physics::Kind::count; // of its number, where it is one
  std::string_view formula;
  std::string_view source;
  const diag::Row* question = nullptr;
  std::uint16_t place = 0; // in the list
};

template <class T> struct FactDef : FactRow {};

/// Four ways a fact can come out.
enum class State {
  value,
  impossible, // `why` says what stands against it, `number` is the nearest that would do, if any
  unknown,    // `why` names the datum that is missing
  broken,     // what it needs could not be read; that was reported where it stands
};

struct Fact {
  const FactRow* row = nullptr;
  State state = State::unknown;
  /// The value; for an impossible fact the nearest that would do, where there is one.
  std::optional<diag::Value> value;
  diag::Said why;
  Status status = Status::asked;
  std::uint32_t first_input = 0; // where its inputs begin in the pool of its Facts
  std::uint16_t input_count = 0;

  /// The number in base units of its kind; nothing where its value, or nearest, is none.
  [[nodiscard]] std::optional<double> number() const;
};

/// The terms of an enum that facts hold, one for each of its values: specialised beside the enum as
/// `static constexpr std::pair<E, const diag::Row*> all[]`.
template <class E> struct TermsOf;

/// The term of one of them.
template <class E> diag::Said term_of(E e) {
  for (const auto& [value, term] : TermsOf<E>::all) {
    if (value == e) return {*term, {}};
  }
  return {};
}

namespace detail {
/// A value of a type as what facts hold, and back.
template <class T> struct Convert;
template <Dim D> struct Convert<Quantity<D>> {
  static diag::Value to(const FactRow& row, Quantity<D> q) {
    return diag::Measure{row.kind, q.base()};
  }
  static Quantity<D> from(const diag::Value& v) {
    return Quantity<D>::from_base(std::get<diag::Measure>(v.is).number);
  }
};
template <class Tag> struct Convert<Number<Tag>> {
  static diag::Value to(const FactRow& row, Number<Tag> n) {
    return diag::Measure{row.kind, n.value()};
  }
  static Number<Tag> from(const diag::Value& v) {
    return Number<Tag>{std::get<diag::Measure>(v.is).number};
  }
};
template <> struct Convert<int> {
  static diag::Value to(const FactRow& /*row*/, int i) { return i; }
  static int from(const diag::Value& v) { return std::get<int>(v.is); }
};
/// A word of a protocol is its term.
template <model::IsChoice E> struct Convert<E> {
  static diag::Value to(const FactRow& /*row*/, E e) { return model::term_of(e); }
  static E from(const diag::Value& v) {
    const diag::Row* row = std::get<diag::Said>(v.is).row;
    for (const model::Choice<E>& c : model::Choices<E>::all) {
      if (&c.term == row) return c.value;
    }
    return {};
  }
};
template <class E>
requires(std::is_enum_v<E> && !model::IsChoice<E>) struct Convert<E> {
  static diag::Value to(const FactRow& /*row*/, E e) { return term_of(e); }
  static E from(const diag::Value& v) {
    const diag::Row* row = std::get<diag::Said>(v.is).row;
    for (const auto& [value, term] : TermsOf<E>::all) {
      if (term == row) return value;
    }
    return {};
  }
};
template <> struct Convert<diag::Said> {
  static diag::Value to(const FactRow& /*row*/, diag::Said said) { return said; }
  static const diag::Said& from(const diag::Value& v) { return std::get<diag::Said>(v.is); }
};
template <> struct Convert<Size> {
  static diag::Value to(const FactRow& /*row*/, Size size) { return size; }
  static Size from(const diag::Value& v) { return std::get<Size>(v.is); }
};
template <> struct Convert<diag::List> {
  static diag::Value to(const FactRow& /*row*/, diag::List list) { return list; }
  static const diag::List& from(const diag::Value& v) { return std::get<diag::List>(v.is); }
};
template <> struct Convert<diag::Teeth> {
  static diag::Value to(const FactRow& /*row*/, diag::Teeth teeth) { return teeth; }
  static const diag::Teeth& from(const diag::Value& v) { return std::get<diag::Teeth>(v.is); }
};
} // namespace detail

/// What a fact was worked out from, in the order in which it was read: a range of `const FactRow*`.
class Inputs {
 public:
  /// In the pool of inputs: only whether the fact is told hangs on this one.
  static constexpr std::uint16_t only_whether = 0x8000;

  class Iterator {
   public:
    Iterator(const std::uint16_t* at, const std::uint16_t* end, bool values)
        : at_(at), end_(end), values_(values) {
      skip();
    }
    const FactRow* operator*() const;
    Iterator& operator++() {
      ++at_;
      skip();
      return *this;
    }
    friend bool operator==(const Iterator& a, const Iterator& b) { return a.at_ == b.at_; }

   private:
    void skip() {
      while (values_ && at_ != end_ && (*at_ & only_whether) != 0)
        ++at_;
    }
    const std::uint16_t* at_;
    const std::uint16_t* end_;
    bool values_;
  };
  /// `values`: without those on which only hangs whether the fact is told.
  Inputs(std::span<const std::uint16_t> places, bool values) : places_(places), values_(values) {}
  [[nodiscard]] Iterator begin() const { return {places_.data(), last(), values_}; }
  [[nodiscard]] Iterator end() const { return {last(), last(), values_}; }
  [[nodiscard]] bool empty() const { return begin() == end(); }

 private:
  [[nodiscard]] const std::uint16_t* last() const { return places_.data() + places_.size(); }
  std::span<const std::uint16_t> places_;
  bool values_;
};

/// All facts of one view with one kit, in the order in which they were worked out. They are read
/// here; only a Recorder writes them.
class Facts {
 public:
  /// The value, or nothing where there is none for whatever reason.
  template <class T> [[nodiscard]] std::optional<T> get(const FactDef<T>& def) const {
    const Fact* f = find(def);
    if (f == nullptr || f->state != State::value) return std::nullopt;
    return detail::Convert<T>::from(*f->value);
  }
  [[nodiscard]] const Fact* find(const FactRow& row) const;
  [[nodiscard]] const std::vector<Fact>& all() const { return facts_; }
  /// Has it a value?
  [[nodiscard]] bool has(const FactRow& row) const;
  /// The value, to be said; empty where there is none for whatever reason.
  [[nodiscard]] diag::Value value(const FactRow& row) const;
  /// All that one of these facts hangs on.
  [[nodiscard]] Inputs inputs(const Fact& fact) const { return {places(fact), false}; }
  /// Those of it that its value was worked out from.
  [[nodiscard]] Inputs worked_out_from(const Fact& fact) const { return {places(fact), true}; }

 private:
  friend class Recorder;
  void put(Fact f, std::span<const std::uint16_t> inputs);
  [[nodiscard]] std::span<const std::uint16_t> places(const Fact& fact) const {
    return std::span(inputs_).subspan(fact.first_input, fact.input_count);
  }
  std::vector<Fact> facts_;
  std::vector<std::uint16_t> index_;  // by the row's place: where its fact stands, counted from 1
  std::vector<std::uint16_t> inputs_; // of all facts: places of rows
};

/// Is the one length greater than the other? Less than is printed of a length is no difference; no,
/// where one of them is missing.
bool exceeds(const Facts& facts, const FactDef<Length>& needed, const FactDef<Length>& room);

} // namespace norma::facts
