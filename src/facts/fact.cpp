#include "facts/fact.hpp"

#include <algorithm>

#include "facts/facts.hpp"
#include "facts/phrases.hpp"

namespace norma::facts {

const diag::Row& row_of(Status s) {
  switch (s) {
  case Status::asked: return phrase::asked_for;
  case Status::measured: return phrase::measured;
  case Status::published: return phrase::published;
  case Status::handbook: return phrase::handbook;
  case Status::assumed: return phrase::assumed;
  }
  return phrase::assumed;
}

const Fact* Facts::find(const FactRow& row) const {
  const auto place = static_cast<std::size_t>(row.place);
  if (place >= index_.size() || index_[place] == 0) return nullptr;
  return &facts_[index_[place] - 1u];
}

std::optional<double> Fact::number() const {
  if (!value) return std::nullopt;
  if (const auto* measure = std::get_if<diag::Measure>(&value->is)) return measure->number;
  if (const auto* count = std::get_if<int>(&value->is)) return *count;
  return std::nullopt;
}

diag::Value Facts::value(const FactRow& row) const {
  const Fact* f = find(row);
  return f == nullptr || f->state != State::value ? diag::Value() : *f->value;
}

void Facts::put(Fact f) {
  const auto place = static_cast<std::size_t>(f.row->place);
  if (place >= index_.size()) index_.resize(place + 1, 0);
  if (index_[place] == 0) {
    facts_.push_back(std::move(f));
    index_[place] = static_cast<std::uint16_t>(facts_.size());
  } else {
    facts_[index_[place] - 1u] = std::move(f);
  }
}

void Facts::set_unknown(const FactRow& row, diag::Said missing) {
  Fact f;
  f.row = &row;
  f.state = State::unknown;
  f.why = std::move(missing);
  put(std::move(f));
}

void Facts::set_broken(const FactRow& row) {
  Fact f;
  f.row = &row;
  f.state = State::broken;
  put(std::move(f));
}

bool Facts::needs(const FactRow& row, const std::vector<const FactRow*>& inputs) {
  const Fact* worst = nullptr;
  for (const FactRow* input : inputs) {
    const Fact* f = find(*input);
    if (f == nullptr) {
      set_unknown(row, {*input, {}});
      return false;
    }
    if (f->state == State::value) continue;
    // A broken input silences; what cannot be had leaves the rest open for the same reason.
    if (worst == nullptr || f->state == State::broken) worst = f;
  }
  if (worst == nullptr) return true;
  Fact f;
  f.row = &row;
  f.state = worst->state == State::broken ? State::broken : State::unknown;
  f.why = worst->state == State::impossible ? diag::Said(*worst->row, {}) : worst->why;
  f.inputs = inputs;
  put(std::move(f));
  return false;
}

Status Facts::weakest(const std::vector<const FactRow*>& inputs, Status own) const {
  Status status = own;
  for (const FactRow* input : inputs) {
    if (const Fact* f = find(*input)) status = std::max(status, f->status);
  }
  return status;
}

bool exceeds(const Facts& facts, const FactDef<Length>& needed, const FactDef<Length>& room) {
  constexpr Length least_difference = 0.1 * mm;
  const auto n = facts.get(needed);
  const auto r = facts.get(room);
  return n && r && *n > *r + least_difference;
}

namespace fact {

std::span<const FactRow* const> all() {
  static constexpr const FactRow* rows[] = {
#define NORMA_FACT(type, name, kind, formula, source, question) &name,
#include "facts/facts.def"
#undef NORMA_FACT
  };
  return rows;
}

} // namespace fact
} // namespace norma::facts
