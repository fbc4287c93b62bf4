#include "kit/due.hpp"

namespace norma::kit {

Age age_of(const Sourced<words::Date>& day, words::Date on) {
  if (day.absent()) return {Age::Since::nobody_said, 0};
  if (day.broken()) return {Age::Since::unreadable, 0};
  if (on < day.get()) return {Age::Since::ahead, 0};
  return {Age::Since::day, words::months_between(day.get(), on)};
}

std::optional<Frosting> frosting_of(const Retractor& retractor, words::Date on) {
  const bool frosted = retractor.finish.known() && retractor.finish.get() == Finish::frosted &&
                       retractor.material.known() && retractor.material.get() == Material::metal;
  if (!frosted) return std::nullopt;
  Frosting frosting{std::nullopt, age_of(retractor.frosted_on, on)};
  if (retractor.cycles_since_frosted.known() && retractor.frosting_lasts_cycles.known())
    frosting.cycles =
        Cycles{retractor.cycles_since_frosted.get(), retractor.frosting_lasts_cycles.get()};
  return frosting;
}

std::optional<Age> loss_age_of(const Mirror& mirror, words::Date on) {
  if (mirror.loss.absent() && mirror.grey_card.absent() && mirror.reflectance.absent())
    return std::nullopt;
  return age_of(mirror.measured, on);
}

} // namespace norma::kit
