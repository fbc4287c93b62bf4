#include "rules/rules.hpp"

namespace norma::rules {

void mirror_on_other_side(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto mirror = v.facts.get(fact::mirror_side);
  const auto teeth = v.facts.get(fact::teeth_side);
  if (!mirror || !teeth || *mirror == *teeth) return;
  auto& d = out.report(
      diag::make(catalogue::mirror_on_other_side, place_of(v.view->mirror, v), *mirror, *teeth));
  if (v.view->must_show.span().known())
    d.with_label(v.view->must_show.span(), note::mirror_on_other_side_teeth());
  d.with_help(note::mirror_on_other_side_put(*teeth, *mirror));
}

} // namespace norma::rules
