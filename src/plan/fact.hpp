// Facts: every number norma works out, once, with its formula, its source, how far it can be
// trusted, and what it was worked out from. Rules cite facts, explanations walk them, cards print
// them; nothing else holds a number.
//
// The folder plan/ turns protocol and kit into facts. It never complains: that is for rules/.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diag/sentence.hpp"
#include "physics/quantity.hpp"
#include "physics/quantity_text.hpp"

namespace norma::plan {

/// Where a value comes from; a worked-out one is as good as the weakest it rests on (later =
/// weaker).
enum class Status { asked, measured, published, handbook, assumed };
std::string_view to_text(Status s);

/// One row of the list of facts. `question` is what nobody knows where this fact is missing; null
/// where another fact asks it.
struct FactRow {
  std::string_view id;
  std::string_view label;
  physics::Kind kind = physics::Kind::count;
  bool is_text = false;
  std::string_view formula;
  std::string_view source;
  const diag::Row* question = nullptr;
  int place = 0; // in the list: no two rows have the same
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
  double number = 0; // in base units of its kind
  std::string text;
  diag::Said why;
  bool has_nearest = false;
  Status status = Status::asked;
  std::vector<const FactRow*> inputs;
};

namespace detail {
template <class T> struct Convert;
template <Dim D> struct Convert<Quantity<D>> {
  static double to(Quantity<D> q) { return q.base(); }
  static Quantity<D> from(double d) { return Quantity<D>::from_base(d); }
};
template <class Tag> struct Convert<Number<Tag>> {
  static double to(Number<Tag> n) { return n.value(); }
  static Number<Tag> from(double d) { return Number<Tag>{d}; }
};
template <> struct Convert<int> {
  static double to(int i) { return i; }
  static int from(double d) { return static_cast<int>(d); }
};
} // namespace detail

/// All facts of one view with one kit, in the order in which they were worked out.
class Facts {
 public:
  /// The value, or nothing where there is none for whatever reason.
  template <class T> [[nodiscard]] std::optional<T> get(const FactDef<T>& def) const {
    const Fact* f = find(def);
    if (f == nullptr || f->state != State::value) return std::nullopt;
    if constexpr (std::is_same_v<T, std::string>) {
      return f->text;
    } else {
      return detail::Convert<T>::from(f->number);
    }
  }
  [[nodiscard]] const Fact* find(const FactRow& row) const;
  [[nodiscard]] const std::vector<Fact>& all() const { return facts_; }
  /// Printed form of a fact that has a value; "" otherwise.
  [[nodiscard]] std::string text(const FactRow& row) const;

  template <class T>
  void set(const FactDef<T>& def, const std::type_identity_t<T>& value, Status status,
           std::vector<const FactRow*> inputs = {}) {
    Fact f;
    f.row = &def;
    f.state = State::value;
    if constexpr (std::is_same_v<T, std::string>) {
      f.text = value;
    } else {
      f.number = detail::Convert<T>::to(value);
    }
    f.status = status;
    f.inputs = std::move(inputs);
    put(std::move(f));
  }
  /// A worked-out value: its status is the weakest of its inputs' and `own`.
  template <class T>
  void derive(const FactDef<T>& def, const std::type_identity_t<T>& value,
              std::vector<const FactRow*> inputs, Status own = Status::asked) {
    const Status status = weakest(inputs, own);
    set(def, value, status, std::move(inputs));
  }
  void set_unknown(const FactRow& row, diag::Said missing);
  void set_broken(const FactRow& row);
  template <class T>
  void set_impossible(const FactDef<T>& def, diag::Said why, std::optional<T> nearest,
                      std::vector<const FactRow*> inputs) {
    Fact f;
    f.row = &def;
    f.state = State::impossible;
    f.why = std::move(why);
    f.has_nearest = nearest.has_value();
    if constexpr (!std::is_same_v<T, std::string>) {
      if (nearest) f.number = detail::Convert<T>::to(*nearest);
    }
    f.status = weakest(inputs, Status::asked);
    f.inputs = std::move(inputs);
    put(std::move(f));
  }
  /// `row` cannot be had because one of `inputs` could not: unknown or broken like the first such.
  /// True where all inputs have values, so that the caller works it out.
  bool needs(const FactRow& row, const std::vector<const FactRow*>& inputs);

 private:
  [[nodiscard]] Status weakest(const std::vector<const FactRow*>& inputs, Status own) const;
  void put(Fact f);
  std::vector<Fact> facts_;
  std::vector<std::uint8_t> index_; // by the row's place: where its fact stands, counted from 1
};

/// Is the one length greater than the other? Less than is printed of a length is no difference; no,
/// where one of them is missing.
bool exceeds(const Facts& facts, const FactDef<Length>& needed, const FactDef<Length>& room);

/// A fact's number with its unit, by the fixed step of its kind.
std::string print(const FactRow& row, double number);

} // namespace norma::plan
