#include "rules/rules.hpp"

namespace norma::rules {

void teeth_closed_on_mirror(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->mirror.known() || v.view->mirror->use == model::MirrorUse::buccal) return;
  const bool together = v.view->teeth.known() && v.view->teeth_together();
  const bool closed = v.view->mouth.known() && v.view->mouth.get() == model::MouthState::closed;
  if (!together && !closed) return;
  out.cause(catalogue::teeth_closed_on_mirror);
  const text::Span place = together ? v.view->teeth.span() : v.view->mouth.span();
  auto& d = out.report(diag::make(catalogue::teeth_closed_on_mirror, place,
                                  together ? note::teeth_closed_on_mirror_together()
                                           : note::teeth_closed_on_mirror_mouth()));
  d.with_label(v.view->mirror.span(), note::the_mirror());
  d.with_help(together ? note::teeth_closed_on_mirror_write()
                       : note::teeth_closed_on_mirror_open());
}

} // namespace norma::rules
