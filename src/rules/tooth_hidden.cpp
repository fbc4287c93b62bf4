#include "rules/rules.hpp"

namespace norma::rules {

void tooth_hidden(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_hidden)) return;
  auto& d =
      out.report(diag::make(catalogue::tooth_hidden, place_of(v.view->must_show, v),
                            v.facts.text(fact::teeth_hidden), v.facts.value(fact::hidden_by)));
  const plan::Fact* corner = v.facts.find(fact::corner_side);
  const bool measured = corner != nullptr && corner->status == plan::Status::measured;
  d.with_note(measured
                  ? "worked out for mean teeth, the corner of the mouth as the kit has it"
                  : "worked out for the mean mouth; where lips and cheeks are held is assumed");
  note_fallback(v, d);
  if (v.facts.get(fact::azimuth_that_shows)) {
    d.with_help(fmt::format("with the camera {} from the midline all of them are seen{}",
                            v.facts.text(fact::azimuth_that_shows),
                            v.facts.get(fact::azimuth_not_sharp)
                                ? ", but not all that must be sharp lies within the depth there"
                                : ""));
  }
  if (v.facts.get(fact::mirror_angle_that_shows)) {
    d.with_help(fmt::format("with the mirror opened {} from the biting plane all of them are seen",
                            v.facts.text(fact::mirror_angle_that_shows)));
  }
  if (v.facts.get(fact::seen_with_firm_pull))
    d.with_help("with a firm pull on the retractors all of them are seen");
  if (v.facts.get(fact::mirror_that_shows)) {
    d.with_help(fmt::format(
        "the kit's `{}` between cheek and teeth shows all of them{}",
        v.facts.text(fact::mirror_that_shows),
        v.facts.get(fact::corner_by_mirror) ? "" : ", where the cheek gives way for it"));
  }
  if (v.view->mirror.known() && !v.view->taken_in_mirror)
    d.with_help("the view has a mirror: write `taken in mirror`");
  const bool by_mirror = v.view->taken_in_mirror || v.facts.get(fact::mirror_that_shows);
  d.with_help(by_mirror ? "name fewer teeth" : "show them in a mirror, or name fewer teeth");
}

} // namespace norma::rules
