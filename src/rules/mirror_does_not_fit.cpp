#include "rules/rules.hpp"

namespace norma::rules {
namespace {

constexpr Mouths in_other_mouths{&fact::mirror_fits_in_mouths, &fact::mirror_fits_hangs_on};

/// In how many mouths it comes up, and what hangs on the angle.
void note_other_mouths(const plan::ViewPlan& v, const diag::Said& else_said, diag::Diagnostic& d) {
  if (!note_mouths(v.facts, in_other_mouths, true, d)) {
    d.with_note(else_said);
  } else if (v.facts.get(*in_other_mouths.in) == 0 && !v.facts.has(fact::mirror_angle_that_fits)) {
    d.severity = diag::Severity::error;
  }
}

/// It fits in the mean mouth, and not in all.
void in_some(const plan::ViewPlan& v, Sink& out) {
  if (!in_some_mouths(v.facts, in_other_mouths)) return;
  auto& d = out.report(diag::make(
      catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.value(fact::mirror),
      note::mirror_does_not_fit_in_mouths(100 - *v.facts.get(*in_other_mouths.in))));
  note_mouths(v.facts, in_other_mouths, false, d);
  note_fallback(v, d);
}

/// True where it does not fit.
bool between_jaws(const plan::ViewPlan& v, Sink& out) {
  const auto needed = v.facts.get(fact::opening_for_mirror);
  const auto opening = v.facts.get(fact::mouth_opening);
  const auto never = v.facts.get(fact::mirror_at_no_opening);
  if (!never && (!needed || !opening || *needed <= *opening)) return false;
  const diag::Value angle = v.facts.value(fact::mirror_angle);
  const diag::Said why = never ? note::mirror_does_not_fit_never(angle, *never)
                               : note::mirror_does_not_fit_opening(angle, *needed, *opening);
  auto& d = out.report(diag::make(catalogue::mirror_does_not_fit, place_of(v.view->mirror, v),
                                  v.facts.value(fact::mirror), why));
  if (!never)
    d.with_evidence(
        evidence(v.facts, fact::mouth_opening, diag::Relation::at_least, fact::opening_for_mirror));
  note_other_mouths(v, note::mirror_does_not_fit_mean_mouth(), d);
  note_fallback(v, d);
  if (const auto fits = v.facts.get(fact::mirror_angle_that_fits))
    d.with_help(note::mirror_does_not_fit_opened(*fits));
  return true;
}

/// The same.
bool between_corners(const plan::ViewPlan& v, Sink& out) {
  if (!plan::exceeds(v.facts, fact::mirror_at_corners, fact::between_corners)) return false;
  auto& d = out.report(diag::make(
      catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.value(fact::mirror),
      note::mirror_does_not_fit_corners(v.facts.value(fact::mirror_at_corners),
                                        v.facts.value(fact::between_corners))));
  d.with_evidence(
      evidence(v.facts, fact::between_corners, diag::Relation::at_least, fact::mirror_at_corners));
  note_other_mouths(v, note::mirror_does_not_fit_corners_assumed(), d);
  note_fallback(v, d);
  d.with_help(note::mirror_does_not_fit_narrower());
  return true;
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
  const bool jaws = between_jaws(v, out);
  const bool corners = between_corners(v, out);
  if (!jaws && !corners) in_some(v, out);
  in_cheek(v, out);
  beside_tongue(v, out);
}

} // namespace norma::rules
