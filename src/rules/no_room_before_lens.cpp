#include "rules/rules.hpp"

namespace norma::rules {

void no_room_before_lens(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto room = v.facts.get(fact::lens_clearance);
  if (!room || *room > Length{}) return;
  auto& d =
      out.report(diag::make(catalogue::no_room_before_lens, place_of(v.view->ratio, v),
                        v.facts.text(fact::ratio),
                        v.facts.get(fact::stands_out) ? "inside the lamp" : "inside the lens"));
  if (v.facts.get(fact::stands_out)) {
    d.with_label(v.chosen.lamp->stands_out.span(), "the lamp stands out beyond the lens");
    d.with_note(fmt::format("they stand {} from the front of the lens",
                            v.facts.text(fact::working_distance)));
  }
  d.with_help("a smaller image is had from farther away");
}

} // namespace norma::rules
