#include "rules/rules.hpp"

namespace norma::rules {

void teeth_closed_on_mirror(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->mirror.known() || v.view->mirror->use == model::MirrorUse::buccal) return;
  if (!v.view->teeth.known() || !v.view->teeth_together()) return;
  auto& d = out.report(diag::make(catalogue::teeth_closed_on_mirror, place_of(v.view->teeth, v)));
  d.with_label(v.view->mirror.span(), note::the_mirror());
  d.with_help(note::teeth_closed_on_mirror_write());
}

} // namespace norma::rules
