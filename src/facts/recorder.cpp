#include "facts/recorder.hpp"

#include "facts/facts.hpp"

namespace norma::facts {
namespace {

Status status_of(physics::Origin origin) {
  switch (origin) {
  case physics::Origin::published: return Status::published;
  case physics::Origin::handbook: return Status::handbook;
  case physics::Origin::assumed: return Status::assumed;
  }
  return Status::assumed;
}

} // namespace

Given::Given(const physics::Default& row) : value_(row.value), status_(status_of(row.origin)) {}

Given::Given(const physics::Default& row, std::optional<double> of_kit) : Given(row) {
  if (!of_kit) return;
  value_ = *of_kit;
  status_ = Status::measured;
}

Given::Given(const physics::Default& row, const text::Sourced<Length>& of_kit)
    : Given(row, of_kit.known() ? std::optional(of_kit->in(mm)) : std::nullopt) {}

Recorder::Recorder(Facts& facts, const Facts* under)
    : facts_(facts), under_(under), noted_(fact::all().size(), 0) {
  constexpr std::size_t usual = 32;
  read_.reserve(usual);
}

const Facts* Recorder::facts_at(const FactRow& row) const {
  if (facts_.find(row) != nullptr) return &facts_;
  return under_ != nullptr && under_->find(row) != nullptr ? under_ : nullptr;
}

const Fact* Recorder::find(const FactRow& row) {
  const Facts* there = facts_at(row);
  if (there == nullptr) return nullptr;
  const Fact* f = there->find(row);
  note(row.place);
  note(f->status);
  return f;
}

bool Recorder::has(const FactRow& row) {
  const Facts* there = facts_at(row);
  if (there == nullptr) return false;
  note(static_cast<std::uint16_t>(row.place | Inputs::only_whether));
  return there->has(row);
}

void Recorder::note(std::uint16_t place) {
  std::uint8_t& noted = noted_[row_of(place)];
  if ((noted & (bit_of(place) | value_read)) != 0) return;
  noted = static_cast<std::uint8_t>(noted | bit_of(place));
  read_.push_back(place);
}

const Fact* Recorder::find_in(const Facts& there, const FactRow& row) {
  const Fact* f = there.find(row);
  if (f == nullptr) return nullptr;
  note(f->status);
  std::vector<bool> seen(fact::all().size(), false);
  follow(there, row, seen, false);
  return f;
}

void Recorder::follow(const Facts& there, const FactRow& row, std::vector<bool>& seen,
                      bool to_roots) {
  const Fact* f = there.find(row);
  if (f == nullptr || seen[row.place]) return;
  seen[row.place] = true;
  const Inputs inputs = there.inputs(*f);
  if (to_roots ? inputs.empty() : facts_at(row) != nullptr) return note(row.place);
  for (const FactRow* input : inputs)
    follow(there, *input, seen, to_roots);
}

void Recorder::use(const Record& record) {
  for (const std::uint16_t place : record.read)
    note(place);
  note(record.weakest);
}

void Recorder::told_by(const Record& record) {
  for (const std::uint16_t place : record.read)
    note(static_cast<std::uint16_t>(place | Inputs::only_whether));
}

void Recorder::put(Fact f) {
  inputs_.clear();
  for (const std::uint16_t place : read_) {
    // What was read by value, too, counts as that.
    const bool twice = bit_of(place) == whether && (noted_[row_of(place)] & value_read) != 0;
    if (!twice) inputs_.push_back(place);
  }
  facts_.put(std::move(f), inputs_);
}

void Recorder::use(const Facts& there, const Record& record) {
  std::vector<bool> seen(fact::all().size(), false);
  for (const std::uint16_t place : record.read)
    follow(there, *fact::all()[row_of(place)], seen, false);
  note(record.weakest);
}

void Recorder::put_chosen(const FactRow& row, diag::Value value, Status status) {
  Fact f = fresh(row, State::value);
  f.value = std::move(value);
  f.status = status;
  inputs_.clear();
  for (const std::uint16_t place : read_) {
    if (bit_of(place) == value_read || (noted_[row_of(place)] & value_read) == 0)
      inputs_.push_back(static_cast<std::uint16_t>(place | Inputs::only_whether));
  }
  facts_.put(std::move(f), inputs_);
}

void Recorder::put_unknown(const FactRow& row, diag::Said missing) {
  Fact f = fresh(row, State::unknown);
  f.why = std::move(missing);
  put(std::move(f));
}

bool Recorder::needs(const FactRow& row, std::span<const FactRow* const> inputs) {
  const Fact* worst = nullptr;
  for (const FactRow* input : inputs) {
    const Fact* f = find(*input);
    if (f == nullptr) {
      put_unknown(row, {*input, {}});
      return false;
    }
    if (f->state == State::value) continue;
    // A broken input silences; what cannot be had leaves the rest open for the same reason.
    if (worst == nullptr || f->state == State::broken) worst = f;
  }
  if (worst == nullptr) return true;
  if (worst->state == State::broken) {
    put_broken(row);
  } else {
    put_unknown(row, worst->state == State::impossible ? diag::Said(*worst->row, {}) : worst->why);
  }
  return false;
}

} // namespace norma::facts
