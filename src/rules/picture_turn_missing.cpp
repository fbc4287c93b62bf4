#include "rules/rules.hpp"

namespace norma::rules {

void picture_turn_missing(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  if (!view.taken_in_mirror || view.picture.broken()) return;
  if (view.picture.known()) {
    const model::Picture& p = view.picture.get();
    const bool marked = p.stays_mirrored && !p.mark.empty();
    if (p.as_seen || marked) return;
  }
  const text::Span place = view.picture.known() ? view.picture.span() : view.taken_in;
  auto& d = out.report(diag::make(catalogue::picture_turn_missing, place));
  if (const auto shot = v.facts.get(fact::orientation_shot))
    d.with_note(note::picture_turn_missing_as_shot(v.facts.value(fact::mirrored), *shot));
  d.with_note(note::picture_turn_missing_changed_over());
  d.with_help(note::picture_turn_missing_write());
}

} // namespace norma::rules
