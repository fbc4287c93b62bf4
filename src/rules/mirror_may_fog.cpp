#include "rules/rules.hpp"

namespace norma::rules {

void mirror_may_fog(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->taken_in_mirror || !v.view->mirror.known() || v.view->mirror->warmed) return;
  if (v.view->air.broken() || (v.view->air.known() && v.view->air->what == "on the mirror")) return;
  auto& d =
      out.report(diag::make(catalogue::mirror_may_fog, place_of(v.view->mirror, v)));
  d.with_help("`air on the mirror, held by assistant`; without a free hand, a mirror that is "
              "`warmed` first");
}

} // namespace norma::rules
