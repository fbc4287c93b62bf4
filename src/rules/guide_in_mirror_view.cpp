#include "rules/rules.hpp"

namespace norma::rules {

void guide_in_mirror_view(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->guide.known() || v.view->guide.get() != model::Guide::on_chin) return;
  if (!v.view->taken_in_mirror) return;
  auto& d = out.report(diag::make(catalogue::guide_in_mirror_view, place_of(v.view->guide, v)));
  d.with_note(note::guide_in_mirror_view_farther());
  d.with_help(note::guide_in_mirror_view_write());
}

} // namespace norma::rules
