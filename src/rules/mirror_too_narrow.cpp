#include "rules/rules.hpp"

namespace norma::rules {

void mirror_too_narrow(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_beside_mirror)) return;
  auto& d =
      out.report(diag::make(catalogue::mirror_too_narrow, place_of(v.view->mirror, v),
                            v.facts.value(fact::mirror), v.facts.value(fact::teeth_beside_mirror)));
  if (v.chosen.mirror != nullptr && v.chosen.mirror->width.span().known())
    d.with_label(v.chosen.mirror->width.span(), note::kits_mirror());
  if (v.facts.get(fact::mirror_width_that_shows)) {
    d.with_evidence(evidence(v.facts, fact::mirror_width, diag::Relation::at_least,
                             fact::mirror_width_that_shows));
  }
  const bool over_arch =
      v.view->mirror.known() && v.view->mirror->use == model::MirrorUse::occlusal;
  d.with_note(over_arch ? note::mirror_too_narrow_behind_last_tooth()
                        : note::mirror_too_narrow_mean_mouth());
  note_fallback(v, d);
  if (const auto wide = v.facts.get(fact::mirror_width_that_shows)) {
    d.with_help(v.facts.get(fact::wider_mirror_without_room)
                    ? note::mirror_too_narrow_wide_without_room(*wide)
                    : note::mirror_too_narrow_wide(*wide));
  }
  const auto fits = v.facts.get(fact::mirror_width_that_fits);
  if (fits && *fits > *v.facts.get(fact::mirror_width)) {
    d.with_help(note::mirror_of_this_shape_fits(*fits));
  }
  if (const auto length = v.facts.get(fact::mirror_length_that_shows))
    d.with_help(note::mirror_too_narrow_long(*length));
  d.with_help(note::name_fewer_teeth());
}

} // namespace norma::rules
