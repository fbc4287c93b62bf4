#include "rules/rules.hpp"

namespace norma::rules {

void mirror_may_fog(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->taken_in_mirror || !v.view->mirror.known() || v.view->mirror->warmed) return;
  if (v.view->air.broken() ||
      (v.view->air.known() && v.view->air->at == std::vector{model::HeldAt::on_the_mirror}))
    return;
  auto& d = out.report(diag::make(catalogue::mirror_may_fog, place_of(v.view->mirror, v)));
  d.with_help(note::mirror_may_fog_air());
}

} // namespace norma::rules
