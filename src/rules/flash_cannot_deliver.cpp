#include "rules/rules.hpp"

namespace norma::rules {

void flash_cannot_deliver(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto shortfall = v.facts.get(fact::shortfall);
  const auto excess = v.facts.get(fact::excess);
  const bool too_dark = shortfall && *shortfall > 0.0 * stop;
  const bool too_bright = excess && *excess > 0.0 * stop;
  if (!too_dark && !too_bright) return;
  const Stops off = too_dark ? *shortfall : *excess;
  const diag::Measure by{physics::Kind::stops, off.base(), true};
  const diag::Said why =
      too_dark ? note::flash_cannot_deliver_short(by) : note::flash_cannot_deliver_bright(by);
  auto& d =
      out.report(diag::make(catalogue::flash_cannot_deliver, place_of(v.view->aperture, v), why));
  d.with_evidence({diag::Said(too_dark ? fact::shortfall : fact::excess, {}), physics::Kind::stops,
                   off.base(), diag::Relation::at_most, 0});
  d.with_note(note::flash_cannot_deliver_at(v.facts.value(fact::aperture), v.facts.value(fact::iso),
                                            v.facts.value(fact::ratio),
                                            v.facts.value(fact::lamp_distance)));
  if (const auto iso = v.facts.get(fact::iso_that_does))
    d.with_help(note::flash_cannot_deliver_iso(*iso));
  d.with_help(too_dark ? note::flash_cannot_deliver_more() : note::flash_cannot_deliver_less());
}

} // namespace norma::rules
