#include "rules/rules.hpp"

namespace norma::rules {
namespace {

void check_side(const plan::ViewPlan& v, const plan::FactDef<Length>& field,
                const plan::FactDef<Length>& needed, const plan::FactDef<Length>& spare,
                const diag::Term& side, Sink& out) {
  const auto rest = v.facts.get(spare);
  if (!rest || *rest >= 0.0 * mm) return;
  auto& d = out.report(diag::make(catalogue::field_too_small, place_of(v.view->must_show, v),
                                  side(), v.facts.value(field), v.facts.value(needed)));
  d.with_evidence(evidence(v.facts, field, diag::Relation::at_least, needed));
  d.with_note(note::field_too_small_at(v.facts.value(fact::ratio), v.facts.value(fact::sensor),
                                       v.facts.value(fact::camera_held), v.facts.value(fact::aim)));
  if (const auto exact = v.facts.get(fact::fits_unrounded)) {
    d.severity = diag::Severity::advice;
    d.with_help(note::field_too_small_unrounded(*exact, v.facts.value(fact::ratio)));
    return;
  }
  if (const auto fits = v.facts.get(fact::fits_in_mouths)) {
    d.severity = in_mouths_severity(*fits);
    d.in_mouths = {*fits, false};
    d.with_note(fits_in(v.facts, *fits));
  }
  const auto others = v.facts.get(fact::does_not_fit_for);
  const auto fits_teeth = v.facts.get(fact::fits_for);
  if (others && (fits_teeth || others->size() > 1)) {
    d.with_note(fits_teeth ? note::field_too_small_tooth(*fits_teeth, *others)
                           : note::field_too_small_no_tooth(*others));
  }
  if (const auto cut = v.facts.get(fact::teeth_cut)) d.with_note(note::field_too_small_cut(*cut));
  if (v.facts.has(fact::ratio_that_fits_asked)) {
    d.with_help(note::field_too_small_fits(
        for_both(v.facts, fact::ratio_that_fits_asked, fact::ratio_that_fits)));
  }
}

} // namespace

void field_too_small(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  check_side(v, fact::field_width, fact::needed_width, fact::spare_width,
             note::field_too_small_width, out);
  check_side(v, fact::field_height, fact::needed_height, fact::spare_height,
             note::field_too_small_height, out);
}

} // namespace norma::rules
