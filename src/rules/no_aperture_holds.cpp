#include "rules/rules.hpp"

namespace norma::rules {

void no_aperture_holds(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* aperture = v.facts.find(fact::aperture);
  if (aperture == nullptr || aperture->state != plan::State::impossible) return;
  if (!v.facts.get(fact::near_needed)) return; // no aperture of the range exists at all
  const std::string teeth =
      v.view->must_be_sharp.known() ? model::to_text(v.view->must_be_sharp.get()) : "the teeth";
  auto& d =
      out.report(diag::make(catalogue::no_aperture_holds, place_of(v.view->must_be_sharp, v), teeth));
  d.with_evidence(
      evidence(v.facts, fact::narrowest_allowed, diag::Relation::at_least, fact::aperture_needed));
  d.with_note(note::no_aperture_holds_reach(
      v.facts.value(fact::focus), v.facts.value(fact::near_needed), v.facts.value(fact::far_needed),
      v.facts.value(fact::narrowest_allowed), v.facts.value(fact::ratio),
      v.facts.value(fact::near_depth), v.facts.value(fact::far_depth)));
  if (const auto focus = v.facts.get(fact::better_focus)) {
    d.with_help(focus->row == &plan::phrase::on_middle_of_depth
                    ? note::no_aperture_holds_middle_of_depth()
                    : note::no_aperture_holds_focus_instead(*focus));
  }
  const auto needed = v.facts.get(fact::aperture_needed);
  const auto narrowest = v.facts.get(fact::lens_narrowest);
  if (needed && narrowest && *needed > *narrowest) {
    d.with_note(fmt::format("it would take {}; the lens ends at {}",
                            v.facts.text(fact::aperture_needed),
                            v.facts.text(fact::lens_narrowest)));
  } else if (needed) {
    d.with_help(
        fmt::format("an aperture of {} would hold them", v.facts.text(fact::aperture_needed)));
  }
  if (v.facts.get(fact::ratio_for_depth)) {
    d.with_help(
        fmt::format("at {} the range would hold them", v.facts.text(fact::ratio_for_depth_asked)));
  }
  if (v.facts.get(fact::teeth_held)) {
    d.with_help(fmt::format("what {} holds: {}", v.facts.text(fact::narrowest_allowed),
                            v.facts.text(fact::teeth_held)));
  }
}

} // namespace norma::rules
