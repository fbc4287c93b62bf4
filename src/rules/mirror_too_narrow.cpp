#include "rules/rules.hpp"

namespace norma::rules {

void mirror_too_narrow(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_beside_mirror)) return;
  auto& d =
      out.report(diag::make(catalogue::mirror_too_narrow, place_of(v.view->mirror, v),
                            v.facts.value(fact::mirror), v.facts.text(fact::teeth_beside_mirror)));
  if (v.chosen.mirror != nullptr && v.chosen.mirror->width.span().known())
    d.with_label(v.chosen.mirror->width.span(), "the kit's mirror");
  if (v.facts.get(fact::mirror_width_that_shows)) {
    d.with_evidence(evidence(v.facts, fact::mirror_width, diag::Relation::at_least,
                             fact::mirror_width_that_shows));
  }
  const bool over_arch =
      v.view->mirror.known() && v.view->mirror->use == model::MirrorUse::occlusal;
  d.with_note(over_arch
                  ? "worked out for the mean mouth, the mirror's end just behind the last tooth"
                  : "worked out for the mean mouth");
  note_fallback(v, d);
  if (v.facts.get(fact::mirror_width_that_shows)) {
    d.with_help(fmt::format("a mirror of this shape, {} wide, would show all of them{}",
                            v.facts.text(fact::mirror_width_that_shows),
                            v.facts.get(fact::wider_mirror_without_room)
                                ? ", but it has no room between the corners of the mouth"
                                : ""));
  }
  const auto fits = v.facts.get(fact::mirror_width_that_fits);
  if (fits && *fits > *v.facts.get(fact::mirror_width)) {
    d.with_help(fmt::format("a mirror of this shape, {} wide, goes in and shows all of them",
                            v.facts.text(fact::mirror_width_that_fits)));
  }
  if (v.facts.get(fact::mirror_length_that_shows)) {
    d.with_help(fmt::format("a mirror {} long would show all of them",
                            v.facts.text(fact::mirror_length_that_shows)));
  }
  d.with_help("name fewer teeth");
}

} // namespace norma::rules
