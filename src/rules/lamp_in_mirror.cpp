#include "rules/rules.hpp"

namespace norma::rules {

void lamp_in_mirror(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::lamp_in_mirror_at)) return;
  auto& d =
      out.report(diag::make(catalogue::lamp_in_mirror, place_of(v.view->mirror, v),
                            v.facts.text(fact::mirror), v.facts.value(fact::lamp_in_mirror_at)));
  d.with_note("worked out for the mean mouth: the mirror stands almost square to the lens");
  if (v.facts.get(fact::mirror_angle_without_lamp)) {
    d.with_help(fmt::format("opened {} it does not, and shows all",
                            v.facts.text(fact::mirror_angle_without_lamp)));
  } else {
    d.with_help("let the camera look into the mirror from farther aside, above or below");
  }
}

} // namespace norma::rules
