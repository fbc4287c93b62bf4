#include "emit/hands.hpp"

#include "facts/facts.hpp"

namespace norma::emit {

namespace phrase = plan::phrase;

std::array<std::vector<diag::Value>, 3> held_by(const plan::Facts& facts) {
  std::array<std::vector<diag::Value>, 3> out;
  const auto held = facts.get(plan::fact::held_things);
  if (!held || held->arguments.empty()) return out;
  const auto* all = std::get_if<diag::List>(&held->arguments.front().is);
  if (all == nullptr) return out;
  for (const diag::Value& one : all->items) {
    const auto* by = std::get_if<diag::Said>(&one.is);
    if (by == nullptr || by->arguments.empty()) continue;
    const plan::Who who = by->row == &phrase::held_by_patient     ? plan::Who::patient
                          : by->row == &phrase::held_by_assistant ? plan::Who::assistant
                                                                  : plan::Who::operator_;
    out[static_cast<std::size_t>(who)].push_back(by->arguments.front());
  }
  return out;
}

} // namespace norma::emit
