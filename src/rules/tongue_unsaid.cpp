#include "rules/rules.hpp"

namespace norma::rules {

void tongue_unsaid(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->taken_in_mirror || !v.view->mirror.known() || !v.view->tongue.absent()) return;
  if (v.view->mirror->use == model::MirrorUse::buccal || !shows_lower_jaw(*v.view)) return;
  auto& d = out.report(diag::make(catalogue::tongue_unsaid, place_of(v.view->mirror, v)));
  d.with_help(note::tongue_unsaid_example());
}

} // namespace norma::rules
