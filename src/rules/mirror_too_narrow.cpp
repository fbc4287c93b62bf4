#include "rules/rules.hpp"

namespace norma::rules {

void mirror_too_narrow(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const Mouths mouths{&fact::in_mirror_in_mouths, &fact::in_mirror_hangs_on};
  const bool in_mean = v.facts.has(fact::teeth_beside_mirror);
  if (!in_mean && (!in_some_mouths(v.facts, mouths) || !v.facts.has(fact::beside_in_some))) return;
  auto& d = out.report(diag::make(
      catalogue::mirror_too_narrow, place_of(v.view->mirror, v), v.facts.value(fact::mirror),
      in_mean ? v.facts.value(fact::teeth_beside_mirror)
              : teeth_in_mouths(v.facts, fact::beside_in_some, mouths)));
  if (never_seen(v.facts, fact::teeth_beside_mirror)) d.severity = diag::Severity::error;
  if (v.chosen.mirror != nullptr && v.chosen.mirror->width.span().known())
    d.with_label(v.chosen.mirror->width.span(), note::kits_mirror());
  if (v.facts.get(fact::mirror_width_that_shows)) {
    d.with_evidence(evidence(v.facts, fact::mirror_width, diag::Relation::at_least,
                             fact::mirror_width_that_shows));
  }
  const bool over_arch =
      v.view->mirror.known() && v.view->mirror->use == model::MirrorUse::occlusal;
  if (!note_mouths(v.facts, mouths, in_mean, d)) {
    d.with_note(over_arch ? note::mirror_too_narrow_behind_last_tooth()
                          : note::mirror_too_narrow_mean_mouth());
  }
  note_fallback(v, d);
  if (const auto wide = v.facts.get(fact::mirror_width_that_shows)) {
    d.with_help(v.facts.get(fact::wider_mirror_without_room)
                    ? note::mirror_too_narrow_wide_without_room(*wide)
                    : note::mirror_too_narrow_wide(*wide));
  }
  const auto fits = v.facts.get(fact::mirror_width_that_fits);
  const auto width = v.facts.get(fact::mirror_width);
  if (fits && width && *fits > *width) {
    d.with_help(note::mirror_of_this_shape_fits(*fits));
  }
  if (const auto length = v.facts.get(fact::mirror_length_that_shows))
    d.with_help(note::mirror_too_narrow_long(*length));
  d.with_help(note::name_fewer_teeth());
}

} // namespace norma::rules
