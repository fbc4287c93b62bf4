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

const FactRow* Inputs::Iterator::operator*() const { return fact::all()[*at_ & ~only_whether]; }

bool Facts::has(const FactRow& row) const {
  const Fact* f = find(row);
  return f != nullptr && f->state == State::value;
}

diag::Value Facts::value(const FactRow& row) const {
  const Fact* f = find(row);
  return f == nullptr || f->state != State::value ? diag::Value() : *f->value;
}

void Facts::put(Fact f, std::span<const std::uint16_t> inputs) {
  constexpr std::size_t usual_facts = 96; // of a view that is looked at in three dimensions
  if (index_.empty()) {
    index_.resize(fact::all().size(), 0);
    facts_.reserve(usual_facts);
    inputs_.reserve(8 * usual_facts);
  }
  std::uint16_t& at = index_[f.row->place];
  f.first_input = static_cast<std::uint32_t>(inputs_.size());
  for (const std::uint16_t place : inputs) {
    // Worked out anew from what it was: what that came from still counts.
    if ((place & ~Inputs::only_whether) != f.row->place) {
      inputs_.push_back(place);
    } else if (at != 0) {
      const Fact& before = facts_[at - 1u];
      for (std::uint32_t i = 0; i < before.input_count; ++i)
        inputs_.push_back(inputs_[before.first_input + i]);
    }
  }
  f.input_count = static_cast<std::uint16_t>(inputs_.size() - f.first_input);
  if (at == 0) {
    facts_.push_back(std::move(f));
    at = static_cast<std::uint16_t>(facts_.size());
  } else {
    facts_[at - 1u] = std::move(f);
  }
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
