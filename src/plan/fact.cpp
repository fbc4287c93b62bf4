#include "plan/fact.hpp"

#include <algorithm>

namespace norma::plan {

std::string_view to_text(Status s) {
  switch (s) {
  case Status::asked: return "asked for";
  case Status::measured: return "measured";
  case Status::published: return "published";
  case Status::handbook: return "handbook";
  case Status::assumed: return "assumed";
  }
  return "";
}

const Fact* Facts::find(const FactRow& row) const {
  const auto place = static_cast<std::size_t>(row.place);
  if (place >= index_.size() || index_[place] == 0) return nullptr;
  return &facts_[index_[place] - 1u];
}

std::string Facts::text(const FactRow& row) const {
  const Fact* f = find(row);
  if (f == nullptr || f->state != State::value) return {};
  return row.is_text ? f->text : print(row, f->number);
}

void Facts::put(Fact f) {
  const auto place = static_cast<std::size_t>(f.row->place);
  if (place >= index_.size()) index_.resize(place + 1, 0);
  if (index_[place] == 0) {
    facts_.push_back(std::move(f));
    index_[place] = static_cast<std::uint8_t>(facts_.size()); // rows are fewer than 255: a test
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
      set_unknown(row, input->label);
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
  f.why = worst->state == State::impossible ? diag::Said(worst->row->label) : worst->why;
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

std::string print(const FactRow& row, double number) {
  using physics::Kind;
  switch (row.kind) {
  case Kind::length: return physics::to_text(Length::from_base(number));
  case Kind::fine_length: return physics::to_text_fine(Length::from_base(number));
  case Kind::angle: return physics::to_text(Angle::from_base(number));
  case Kind::stops: return physics::to_text(Stops::from_base(number), true);
  case Kind::time: return physics::to_text(Time::from_base(number));
  case Kind::f_number: return physics::to_text(FNumber{number});
  case Kind::ratio: return physics::to_text(Magnification{number});
  case Kind::power: return physics::to_text(Power{number});
  case Kind::iso: return physics::to_text(IsoSpeed{number});
  case Kind::illuminance: return physics::to_text(Illuminance::from_base(number));
  case Kind::count: return physics::fixed(number, 1);
  case Kind::share: return physics::fixed(number * 100, 1) + " %";
  }
  return {};
}

bool exceeds(const Facts& facts, const FactDef<Length>& needed, const FactDef<Length>& room) {
  constexpr Length least_difference = 0.1 * mm;
  const auto n = facts.get(needed);
  const auto r = facts.get(room);
  return n && r && *n > *r + least_difference;
}

} // namespace norma::plan
