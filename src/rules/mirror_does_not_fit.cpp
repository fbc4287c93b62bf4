#include "rules/rules.hpp"

namespace norma::rules {
namespace {

void between_jaws(const plan::ViewPlan& v, Sink& out) {
  const auto needed = v.facts.get(fact::opening_for_mirror);
  const auto opening = v.facts.get(fact::mouth_opening);
  const auto never = v.facts.get(fact::mirror_at_no_opening);
  if (!never && (!needed || !opening || *needed <= *opening)) return;
  const diag::Value angle = v.facts.value(fact::mirror_angle);
  const diag::Said why = never ? note::mirror_does_not_fit_never(angle, *never)
                               : note::mirror_does_not_fit_opening(angle, *needed, *opening);
  auto& d = out.report(diag::make(catalogue::mirror_does_not_fit, place_of(v.view->mirror, v),
                                  v.facts.value(fact::mirror), why));
  if (!never)
    d.with_evidence(
        evidence(v.facts, fact::mouth_opening, diag::Relation::at_least, fact::opening_for_mirror));
  d.with_note(note::mirror_does_not_fit_mean_mouth());
  note_fallback(v, d);
  if (const auto fits = v.facts.get(fact::mirror_angle_that_fits))
    d.with_help(note::mirror_does_not_fit_opened(*fits));
}

void between_corners(const plan::ViewPlan& v, Sink& out) {
  if (!plan::exceeds(v.facts, fact::mirror_at_corners, fact::between_corners)) return;
  auto& d = out.report(diag::make(
      catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.value(fact::mirror),
      note::mirror_does_not_fit_corners(v.facts.value(fact::mirror_at_corners),
                                        v.facts.value(fact::between_corners))));
  d.with_evidence(
      evidence(v.facts, fact::between_corners, diag::Relation::at_least, fact::mirror_at_corners));
  d.with_note(note::mirror_does_not_fit_corners_assumed());
  note_fallback(v, d);
  d.with_help(note::mirror_does_not_fit_narrower());
}

/// A mirror between cheek and teeth.
void in_cheek(const plan::ViewPlan& v, Sink& out) {
  if (!plan::exceeds(v.facts, fact::mirror_at_corner, fact::corner_by_mirror)) return;
  auto& d = out.report(diag::make(
      catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.value(fact::mirror),
      note::mirror_does_not_fit_cheek(v.facts.value(fact::mirror_at_corner),
                                      v.facts.value(fact::corner_by_mirror))));
  d.with_evidence(
      evidence(v.facts, fact::corner_by_mirror, diag::Relation::at_least, fact::mirror_at_corner));
  d.with_note(note::mirror_does_not_fit_mean_mouth());
  note_fallback(v, d);
  const auto seen = v.facts.get(fact::seen_with_room);
  if (seen && !seen->empty()) {
    d.with_help(note::mirror_does_not_fit_with_room(
        v.facts.value(fact::mirror_from_midline_with_room), *seen));
  }
  d.with_help(note::name_fewer_teeth());
}

void beside_tongue(const plan::ViewPlan& v, Sink& out) {
  const auto nowhere = v.facts.get(fact::mirror_no_place);
  const auto fits = v.facts.get(fact::mirror_width_that_fits);
  if (!nowhere && !fits) return;
  const bool narrower = fits && *fits < *v.facts.get(fact::mirror_width);
  if (!nowhere && !narrower && v.facts.get(fact::teeth_beside_mirror))
    return; // it has room, and is too narrow: that is told there
  const diag::Value wide = v.facts.value(fact::mirror_width);
  const diag::Value open = v.facts.value(fact::mouth_opening);
  auto& d = out.report(diag::make(catalogue::mirror_does_not_fit, place_of(v.view->mirror, v),
                                  v.facts.value(fact::mirror),
                                  nowhere ? note::mirror_does_not_fit_no_place(wide, *nowhere, open)
                                          : note::mirror_does_not_fit_not_all(wide, open)));
  if (v.chosen.mirror != nullptr && v.chosen.mirror->width.span().known())
    d.with_label(v.chosen.mirror->width.span(), note::kits_mirror());
  if (fits) {
    d.with_evidence(evidence(v.facts, fact::mirror_width,
                             narrower ? diag::Relation::at_most : diag::Relation::at_least,
                             fact::mirror_width_that_fits));
  }
  d.with_note(note::mirror_does_not_fit_mean_mouth());
  note_fallback(v, d);
  if (fits) d.with_help(note::mirror_of_this_shape_fits(*fits));
  d.with_help(note::name_fewer_teeth());
}

} // namespace

void mirror_does_not_fit(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  between_jaws(v, out);
  between_corners(v, out);
  in_cheek(v, out);
  beside_tongue(v, out);
}

} // namespace norma::rules
