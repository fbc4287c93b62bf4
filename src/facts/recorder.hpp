// Working facts out. What a fact rests on, and how far it can be trusted, is not written by hand:
// the recorder notes what is read, and a fact that is put takes inputs and status from that.
//
// A read counts for all that is put after it until the `Recording` around it ends: so a forgotten
// Recording makes inputs too many, never too few. What leaves a Recording as anything but a fact
// takes its record along (`kept`, `use`).
#pragma once

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <span>
#include <type_traits>
#include <utility>
#include <vector>

#include "facts/fact.hpp"
#include "physics/defaults.hpp"
#include "text/sourced.hpp"

namespace norma::facts {

/// What was read for a value that is no fact.
struct Record {
  std::vector<std::uint16_t> read; // places of rows, as in the pool of inputs
  Status weakest = Status::asked;
};

/// One of norma's defaults, or the kit's own value in its place; in the unit of the row.
class Given {
 public:
  Given(const physics::Default& row); // NOLINT(google-explicit-constructor)
  Given(const physics::Default& row, std::optional<double> of_kit);
  Given(const physics::Default& row, const text::Sourced<Length>& of_kit);

  [[nodiscard]] double value() const { return value_; }
  [[nodiscard]] Status status() const { return status_; }
  template <class T> [[nodiscard]] T as() const {
    if constexpr (std::is_same_v<T, int>) {
      return static_cast<int>(value_);
    } else if constexpr (std::is_same_v<T, Length>) {
      return value_ * mm;
    } else if constexpr (std::is_same_v<T, Angle>) {
      return value_ * degree;
    } else if constexpr (std::is_same_v<T, Stops>) {
      return value_ * stop;
    } else if constexpr (std::is_same_v<T, ColourTemperature>) {
      return value_ * kelvin;
    } else if constexpr (std::is_same_v<T, ReciprocalTemperature>) {
      return value_ * mired;
    } else {
      return T{value_}; // a number without a unit
    }
  }

 private:
  double value_;
  Status status_;
};

class Recorder {
 public:
  /// `under`: facts that are read here, too, and kept elsewhere; null where there are none.
  explicit Recorder(Facts& facts, const Facts* under = nullptr);

  // Reading ----------------------------------------------------------------------

  /// A fact that is there, whatever its state; noted.
  const Fact* find(const FactRow& row);
  /// The value, or nothing where there is none for whatever reason; noted.
  template <class T> std::optional<T> get(const FactDef<T>& def) {
    const Fact* f = find(def);
    if (f == nullptr || f->state != State::value) return std::nullopt;
    return detail::Convert<T>::from(*f->value);
  }
  /// Has it a value? Where only this is read, what is put hangs on the fact by being there at all,
  /// not by what it says: it is an input, but its status does not count.
  bool has(const FactRow& row);
  /// The value, to be said; empty where there is none for whatever reason.
  diag::Value value(const FactRow& row) {
    const Fact* f = find(row);
    return f == nullptr || f->state != State::value ? diag::Value() : *f->value;
  }
  /// A fact of another view. It cannot be named here: its status counts, and the fact that names
  /// that view stands for it.
  template <class T> std::optional<T> get_of_other(const Facts& there, const FactDef<T>& def) {
    if (const Fact* f = there.find(def)) note(f->status);
    return there.get(def);
  }
  /// A fact of the same view, worked out another way; where there is none such here, what it was
  /// worked out from counts.
  const Fact* find_in(const Facts& there, const FactRow& row);
  template <class T> std::optional<T> get_in(const Facts& there, const FactDef<T>& def) {
    find_in(there, def);
    return there.get(def);
  }
  /// A fact as it came out before, in the place of which another one is put now: what it rests on
  /// in the end counts.
  template <class T> std::optional<T> get_before(const Facts& there, const FactDef<T>& def) {
    if (const Fact* f = there.find(def)) note(f->status);
    std::vector<bool> seen(noted_.size(), false);
    follow(there, def, seen, true);
    return there.get(def);
  }
  /// Something that is no fact and is as certain as this.
  void note(Status status) { weakest_ = std::max(weakest_, status); }
  /// A default that has no fact of its own.
  double take(const Given& given) {
    note(given.status());
    return given.value();
  }
  /// One that has: it is put where it is not there yet, and read.
  template <class T> T take(const FactDef<T>& def, const Given& given) {
    if (facts_.find(def) == nullptr) give(def, given);
    return *get(def);
  }

  /// What was read up to here, for a value that leaves the Recording.
  [[nodiscard]] Record kept() const { return {read_, weakest_}; }
  void use(const Record& record);
  /// Only whether something is told at all hangs on what was read: as `has`.
  void told_by(const Record& record);
  /// The same of a record that was kept beside other facts.
  void use(const Facts& there, const Record& record);

  // Writing ----------------------------------------------------------------------

  template <class T> void put(const FactDef<T>& def, const std::type_identity_t<T>& value) {
    Fact f = fresh(def, State::value);
    f.value = detail::Convert<T>::to(def, value);
    put(std::move(f));
  }
  /// One of norma's defaults, or what the kit has in its place: it rests on nothing that was read.
  template <class T> void give(const FactDef<T>& def, const Given& given) {
    Fact f;
    f.row = &def;
    f.state = State::value;
    f.value = detail::Convert<T>::to(def, given.as<T>());
    f.status = given.status();
    facts_.put(std::move(f), {});
  }
  /// A word of the protocol, the same.
  template <class T> void give_asked(const FactDef<T>& def, const std::type_identity_t<T>& value) {
    Fact f;
    f.row = &def;
    f.state = State::value;
    f.value = detail::Convert<T>::to(def, value);
    facts_.put(std::move(f), {});
  }
  /// A piece of the kit, or a size of it. It is what it is, however it was chosen: as certain as
  /// the kit, while only whether it is this one hangs on what was read.
  template <class T> void put_of_kit(const FactDef<T>& def, const std::type_identity_t<T>& value) {
    put_chosen(def, detail::Convert<T>::to(def, value), Status::measured);
  }
  /// The same of a word of the protocol.
  template <class T> void put_asked(const FactDef<T>& def, const std::type_identity_t<T>& value) {
    put_chosen(def, detail::Convert<T>::to(def, value), Status::asked);
  }
  void put_unknown(const FactRow& row, diag::Said missing);
  void put_broken(const FactRow& row) { put(fresh(row, State::broken)); }
  template <class T>
  void put_impossible(const FactDef<T>& def, diag::Said why,
                      const std::type_identity_t<std::optional<T>>& nearest = {}) {
    Fact f = fresh(def, State::impossible);
    f.why = std::move(why);
    if (nearest) f.value = detail::Convert<T>::to(def, *nearest);
    put(std::move(f));
  }
  /// `row` cannot be had because one of `inputs` could not: unknown or broken like the first such.
  /// True where all inputs have values, so that the caller works it out.
  bool needs(const FactRow& row, std::span<const FactRow* const> inputs);
  bool needs(const FactRow& row, std::initializer_list<const FactRow*> inputs) {
    return needs(row, std::span(inputs.begin(), inputs.size()));
  }
  /// A fact that is a function of others, and of nothing else; where one of them is missing it
  /// cannot be had either. True where it has a value.
  template <class T, class F, class... In>
  bool work_out(const FactDef<T>& def, F f, const FactDef<In>&... inputs);

 private:
  friend class Recording;
  [[nodiscard]] const Facts* facts_at(const FactRow& row) const;
  void note(std::uint16_t place);
  static std::uint8_t bit_of(std::uint16_t place) {
    return (place & Inputs::only_whether) != 0 ? whether : value_read;
  }
  static std::uint16_t row_of(std::uint16_t place) {
    return static_cast<std::uint16_t>(place & ~Inputs::only_whether);
  }
  static constexpr std::uint8_t value_read = 1;
  static constexpr std::uint8_t whether = 2;
  void follow(const Facts& there, const FactRow& row, std::vector<bool>& seen, bool to_roots);
  [[nodiscard]] Fact fresh(const FactRow& row, State state) const {
    Fact f;
    f.row = &row;
    f.state = state;
    f.status = weakest_;
    return f;
  }
  void put(Fact f);
  void put_chosen(const FactRow& row, diag::Value value, Status status);

  Facts& facts_;
  const Facts* under_;
  std::vector<std::uint16_t> read_;   // by what is worked out, in order, each once
  std::vector<std::uint8_t> noted_;   // by place: how it is among them
  std::vector<std::uint16_t> inputs_; // of the fact that is put
  Status weakest_ = Status::asked;
};

/// What is read while it lives counts for what is put while it lives.
class Recording {
 public:
  explicit Recording(Recorder& recorder)
      : recorder_(recorder), read_(recorder.read_.size()), weakest_(recorder.weakest_) {}
  Recording(const Recording&) = delete;
  Recording& operator=(const Recording&) = delete;
  ~Recording() {
    for (std::size_t i = read_; i < recorder_.read_.size(); ++i)
      recorder_.noted_[Recorder::row_of(recorder_.read_[i])] &=
          static_cast<std::uint8_t>(~Recorder::bit_of(recorder_.read_[i]));
    recorder_.read_.resize(read_);
    recorder_.weakest_ = weakest_;
  }

 private:
  Recorder& recorder_;
  std::size_t read_;
  Status weakest_;
};

template <class T, class F, class... In>
bool Recorder::work_out(const FactDef<T>& def, F f, const FactDef<In>&... inputs) {
  // Without captures it can read nothing but what it is given.
  static_assert(std::is_empty_v<F> || std::is_function_v<std::remove_pointer_t<F>>);
  const Recording one(*this);
  if (!needs(def, {&inputs...})) return false;
  put(def, f(*get(inputs)...));
  return true;
}

} // namespace norma::facts
