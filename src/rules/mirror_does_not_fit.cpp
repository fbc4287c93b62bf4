#include "rules/rules.hpp"

namespace norma::rules {
namespace {

void between_jaws(const plan::ViewPlan& v, Sink& out) {
  const auto needed = v.facts.get(fact::opening_for_mirror);
  const auto opening = v.facts.get(fact::mouth_opening);
  const bool never = v.facts.get(fact::mirror_at_no_opening).has_value();
  if (!never && (!needed || !opening || *needed <= *opening)) return;
  const std::string why =
      never
          ? fmt::format("opened {} it runs into the other jaw, even with the mouth open by {}",
                        v.facts.text(fact::mirror_angle), v.facts.text(fact::mirror_at_no_opening))
          : fmt::format("opened {} it needs a mouth open by {}, and it is open by {}",
                        v.facts.text(fact::mirror_angle), v.facts.text(fact::opening_for_mirror),
                        v.facts.text(fact::mouth_opening));
  auto& d = out.report(diag::make(catalogue::mirror_does_not_fit, place_of(v.view->mirror, v),
                              v.facts.text(fact::mirror), why));
  if (!never)
    d.with_evidence(
        evidence(v.facts, fact::mouth_opening, diag::Relation::at_least, fact::opening_for_mirror));
  d.with_note("worked out for the mean mouth; nothing is forced");
  note_fallback(v, d);
  if (v.facts.get(fact::mirror_angle_that_fits)) {
    d.with_help(
        fmt::format("opened {} it fits and shows all", v.facts.text(fact::mirror_angle_that_fits)));
  }
}

void between_corners(const plan::ViewPlan& v, Sink& out) {
  if (!plan::exceeds(v.facts, fact::mirror_at_corners, fact::between_corners)) return;
  auto& d = out.report(diag::make(
          catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.text(fact::mirror),
          fmt::format("it is {} wide between the corners of the mouth, and they "
                      "are {} apart",
                      v.facts.text(fact::mirror_at_corners), v.facts.text(fact::between_corners))));
  d.with_evidence(
      evidence(v.facts, fact::between_corners, diag::Relation::at_least, fact::mirror_at_corners));
  d.with_note("where the corners of the mouth are held is assumed; nothing is forced");
  note_fallback(v, d);
  d.with_help("take a narrower mirror, or pull the corners of the mouth further apart");
}

/// A mirror between cheek and teeth.
void in_cheek(const plan::ViewPlan& v, Sink& out) {
  if (!plan::exceeds(v.facts, fact::mirror_at_corner, fact::corner_by_mirror)) return;
  auto& d = out.report(diag::make(
          catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.text(fact::mirror),
          fmt::format(
              "where it shows most it holds the corner of the mouth {} from the midline, and "
              "it may be held {} from it",
              v.facts.text(fact::mirror_at_corner), v.facts.text(fact::corner_by_mirror))));
  d.with_evidence(
      evidence(v.facts, fact::corner_by_mirror, diag::Relation::at_least, fact::mirror_at_corner));
  d.with_note("worked out for the mean mouth; nothing is forced");
  note_fallback(v, d);
  const auto seen = v.facts.get(fact::seen_with_room);
  if (seen && !seen->empty()) {
    d.with_help(fmt::format("opened {} from the midline it has room and shows {}",
                            v.facts.text(fact::mirror_from_midline_with_room),
                            v.facts.text(fact::seen_with_room)));
  }
  d.with_help("name fewer teeth");
}

void beside_tongue(const plan::ViewPlan& v, Sink& out) {
  const bool nowhere = v.facts.get(fact::mirror_no_place).has_value();
  const auto fits = v.facts.get(fact::mirror_width_that_fits);
  if (!nowhere && !fits) return;
  const bool narrower = fits && *fits < *v.facts.get(fact::mirror_width);
  if (!nowhere && !narrower && v.facts.get(fact::teeth_beside_mirror))
    return; // it has room, and is too narrow: that is told there
  auto& d = out.report(diag::make(
      catalogue::mirror_does_not_fit, place_of(v.view->mirror, v), v.facts.text(fact::mirror),
      nowhere
          ? fmt::format(
                "{} wide, it finds no place between tongue and teeth in which it shows them, the "
                "mouth open by {}",
                v.facts.text(fact::mirror_width), v.facts.text(fact::mouth_opening))
          : fmt::format("{} wide, it finds a place only where it does not show all, "
                        "the mouth open by {}",
                        v.facts.text(fact::mirror_width), v.facts.text(fact::mouth_opening))));
  if (v.chosen.mirror != nullptr && v.chosen.mirror->width.span().known())
    d.with_label(v.chosen.mirror->width.span(), "the kit's mirror");
  if (fits) {
    d.with_evidence(evidence(v.facts, fact::mirror_width,
                             narrower ? diag::Relation::at_most : diag::Relation::at_least,
                             fact::mirror_width_that_fits));
  }
  d.with_note("worked out for the mean mouth; nothing is forced");
  note_fallback(v, d);
  if (fits) {
    d.with_help(fmt::format("a mirror of this shape, {} wide, goes in and shows all of them",
                            v.facts.text(fact::mirror_width_that_fits)));
  }
  d.with_help("name fewer teeth");
}

} // namespace

void mirror_does_not_fit(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  between_jaws(v, out);
  between_corners(v, out);
  in_cheek(v, out);
  beside_tongue(v, out);
}

} // namespace norma::rules
