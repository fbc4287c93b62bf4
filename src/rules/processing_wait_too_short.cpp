#include "rules/rules.hpp"

namespace norma::rules {

void processing_wait_too_short(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto takes = v.facts.get(fact::processing);
  if (!takes || v.view->wait_after.broken()) return;
  const Time wait = v.facts.get(fact::wait_after).value_or(Time{});
  if (wait >= *takes) return;
  // Where nothing is said of it, it is one finding about the camera, for all views together.
  const bool said = v.view->wait_after.known();
  const text::Span camera = c.kit->processing.span();
  auto& d = out.report(diag::make(
      catalogue::processing_wait_too_short, said ? v.view->wait_after.span() : camera, *takes,
      said ? note::processing_wait_too_short_after(v.facts.value(fact::wait_after))
           : note::processing_wait_too_short_at_once()));
  if (said) d.with_label(camera, note::kits_camera());
  d.with_help(note::processing_wait_too_short_write(*takes));
}

} // namespace norma::rules
