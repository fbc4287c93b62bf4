#include "plan/light_set.hpp"

#include "facts/facts.hpp"

namespace norma::plan {

LightSet light_set(const kit::Kit* kit, const ViewPlan& view) {
  using Is = LightSet::Is;
  if (kit != nullptr && kit->exposes_by_itself()) return {Is::by_camera};
  const kit::Lamp* lamp = view.chosen.lamp;
  if (lamp == nullptr) return {Is::none};
  if (lamp->light.known() && lamp->light.get() == kit::LampLight::steady) return {Is::steady};
  if (lamp->control.known() && lamp->control.get() == kit::LampControl::automatic)
    return {Is::automatic};
  const Facts& facts = view.facts;
  if (facts.has(fact::power))
    return {Is::power, facts.value(fact::power), facts.get(fact::power_spread)};
  const auto shortfall = facts.get(fact::shortfall);
  if (shortfall && *shortfall > Stops{}) return {Is::short_of, {}, {}, shortfall};
  const Fact* needed = facts.find(fact::power_needed);
  return {Is::not_settled, {}, {}, {}, needed == nullptr ? diag::Said() : needed->why};
}

} // namespace norma::plan
