#include "rules/rules.hpp"

namespace norma::rules {

void insertion_unsaid(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->mirror.known() || v.view->mirror->use != model::MirrorUse::buccal) return;
  if (!v.view->teeth.known() || !v.view->teeth_together() || !v.view->insert_with.absent()) return;
  auto& d = out.report(diag::make(catalogue::insertion_unsaid, place_of(v.view->mirror, v)));
  d.with_note(note::insertion_unsaid_pinches());
  d.with_help(note::insertion_unsaid_write());
}

} // namespace norma::rules
