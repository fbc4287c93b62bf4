// What the camera takes for white, and the colour of the light that falls.
#include <algorithm>

#include "physics/colour.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

Said white_balance_said(const model::WhiteBalanceSet& asked) {
  return asked.to ? model::term_of(*asked.to) : phrase::at_temperature(*asked.temperature);
}

kit::WhiteBalance wanted_of_camera(const model::WhiteBalanceSet& asked) {
  if (!asked.to) return kit::WhiteBalance::kelvin;
  switch (*asked.to) {
  case model::WhiteBalance::flash: return kit::WhiteBalance::flash;
  case model::WhiteBalance::daylight: return kit::WhiteBalance::daylight;
  case model::WhiteBalance::from_grey_card: break;
  }
  return kit::WhiteBalance::grey_card;
}

/// Why the camera cannot be set to it; empty where it can, or nobody has said.
Said why_not_set(const kit::Kit& kit, const model::WhiteBalanceSet& asked) {
  const auto& ways = kit.white_balance;
  if (!ways.empty() && std::find(ways.begin(), ways.end(), wanted_of_camera(asked)) == ways.end()) {
    List has;
    for (const kit::WhiteBalance way : ways)
      has.items.emplace_back(term_of(way));
    return phrase::camera_has_white_balances(std::move(has));
  }
  const bool range = kit.warmest.known() && kit.coldest.known();
  if (asked.temperature && range &&
      (*asked.temperature < kit.warmest.get() || *asked.temperature > kit.coldest.get()))
    return phrase::camera_goes_from_to(kit.warmest.get(), kit.coldest.get());
  return {};
}

/// Has the kit said whether the camera can be set to it?
bool camera_said(const kit::Kit& kit, const model::WhiteBalanceSet& asked) {
  if (asked.temperature && kit.warmest.known()) return true;
  return !kit.white_balance.empty() && (!asked.temperature || !kit.warmest.broken());
}

void set_white_balance(Job& job, const model::WhiteBalanceSet& asked) {
  const Recording one(job.facts);
  const kit::Kit* kit = job.kit();
  if (kit != nullptr) {
    if (Said why = why_not_set(*kit, asked); !why.empty())
      return job.facts.put_impossible(fact::white_balance, std::move(why));
  }
  job.facts.put_asked(fact::white_balance, white_balance_said(asked));
  if (kit == nullptr) {
    job.open(question::white_balance_set, missing::kit());
  } else if (!camera_said(*kit, asked)) {
    job.open(question::white_balance_set, missing::white_balances());
  }
}

void set_lamp_temperature(Job& job) {
  const Recording one(job.facts);
  const kit::Lamp* lamp = job.lamp();
  if (lamp == nullptr) return; // asked where the lamp is chosen
  if (lamp->colour_temperature.known()) {
    job.facts.put_of_kit(fact::lamp_temperature, lamp->colour_temperature.get());
  } else if (lamp->colour_temperature.broken()) {
    job.facts.put_broken(fact::lamp_temperature);
  } else {
    job.facts.put_unknown(fact::lamp_temperature, missing::lamp_temperature());
  }
}

} // namespace

void plan_white_balance(Job& job) {
  const auto& said = job.view.white_balance;
  if (said.broken()) job.facts.put_broken(fact::white_balance);
  if (!said.known()) return;
  const model::WhiteBalanceSet& asked = said.get();
  set_white_balance(job, asked);
  if (asked.to == model::WhiteBalance::from_grey_card) return; // it is the light's own colour
  if (asked.to == model::WhiteBalance::flash) {
    if (job.has_kit()) job.open(question::white_balance_fits, missing::preset_temperature());
    return;
  }
  if (asked.temperature) {
    job.facts.give_asked(fact::white_balance_temperature, *asked.temperature);
  } else {
    job.facts.give(fact::white_balance_temperature, physics::defaults::daylight);
  }
  if (!job.has_kit()) return;
  set_lamp_temperature(job);
  if (job.facts.work_out(fact::white_balance_off, physics::colours_apart,
                         fact::white_balance_temperature, fact::lamp_temperature))
    job.give_limit(fact::white_balance_off_limit, physics::defaults::white_balance_off);
}

} // namespace norma::plan
