#include "rules/rules.hpp"

namespace norma::rules {

void flash_cannot_deliver(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto shortfall = v.facts.get(fact::shortfall);
  const auto excess = v.facts.get(fact::excess);
  const bool too_dark = shortfall && *shortfall > 0.0 * stop;
  const bool too_bright = excess && *excess > 0.0 * stop;
  if (!too_dark && !too_bright) return;
  const std::string message =
      too_dark
          ? fmt::format("at full power the flash is {} short", physics::to_text(*shortfall))
          : fmt::format("at its least power the flash is {} too bright", physics::to_text(*excess));
  auto& d =
      out.report(diag::make(catalogue::flash_cannot_deliver, place_of(v.view->aperture, v), message));
  d.with_evidence({diag::Said(too_dark ? fact::shortfall : fact::excess, {}),
                   physics::Kind::stops, too_dark ? shortfall->base() : excess->base(),
                   diag::Relation::at_most, 0});
  d.with_note(fmt::format("{} at ISO {}, {}, lamp {} from the teeth", v.facts.text(fact::aperture),
                          v.facts.text(fact::iso), v.facts.text(fact::ratio),
                          v.facts.text(fact::lamp_distance)));
  if (v.facts.get(fact::iso_that_does))
    d.with_help(fmt::format("at ISO {} it has enough", v.facts.text(fact::iso_that_does)));
  d.with_help(too_dark ? "raise the ISO, open the aperture, or use a stronger flash"
                       : "lower the ISO or close the aperture");
}

} // namespace norma::rules
