#include "rules/rules.hpp"

namespace norma::rules {

void no_aperture_holds(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* aperture = v.facts.find(fact::aperture);
  if (aperture == nullptr || aperture->state != plan::State::impossible) return;
  if (!v.facts.get(fact::near_needed)) return; // no aperture of the range exists at all
  const diag::Value teeth = v.view->must_be_sharp.known()
                                ? diag::Value(model::to_text(v.view->must_be_sharp.get()))
                                : diag::Value(note::no_aperture_holds_the_teeth());
  auto& d = out.report(
      diag::make(catalogue::no_aperture_holds, place_of(v.view->must_be_sharp, v), teeth));
  d.with_evidence(
      evidence(v.facts, fact::narrowest_allowed, diag::Relation::at_least, fact::aperture_needed));
  d.with_note(note::no_aperture_holds_reach(
      v.facts.value(fact::focus), v.facts.value(fact::near_needed), v.facts.value(fact::far_needed),
      v.facts.value(fact::narrowest_allowed), v.facts.value(fact::ratio),
      v.facts.value(fact::near_depth), v.facts.value(fact::far_depth)));
  if (v.facts.get(fact::better_focus)) {
    d.with_help(v.facts.text(fact::better_focus) == plan::middle_of_depth
                    ? note::no_aperture_holds_middle_of_depth()
                    : note::no_aperture_holds_focus_instead(v.facts.value(fact::better_focus)));
  }
  const auto needed = v.facts.get(fact::aperture_needed);
  const auto narrowest = v.facts.get(fact::lens_narrowest);
  if (needed && narrowest && *needed > *narrowest) {
    d.with_note(note::no_aperture_holds_lens_ends(*needed, *narrowest));
  } else if (needed) {
    d.with_help(note::no_aperture_holds_aperture_would(*needed));
  }
  if (v.facts.get(fact::ratio_for_depth))
    d.with_help(note::no_aperture_holds_ratio_would(v.facts.value(fact::ratio_for_depth_asked)));
  if (const auto held = v.facts.get(fact::teeth_held)) {
    d.with_help(
        note::no_aperture_holds_what_is_held(v.facts.value(fact::narrowest_allowed), *held));
  }
}

} // namespace norma::rules
