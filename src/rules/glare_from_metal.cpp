#include "rules/rules.hpp"

namespace norma::rules {

void glare_from_metal(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto at = v.facts.get(fact::glare_at);
  if (!at) return;
  const bool on_right = *at != plan::GlintAt::left_corner;
  const kit::Retractor* retractor = on_right ? v.chosen.right_retractor : v.chosen.left_retractor;
  const auto& place = on_right ? v.view->right_retractor : v.view->left_retractor;
  const diag::Value name = retractor->name.known()
                               ? diag::Value(retractor->name.get())
                               : diag::Value(note::glare_from_metal_retractor());
  auto& d = out.report(diag::make(catalogue::glare_from_metal, place_of(place, v), name,
                                  v.facts.value(fact::glare_at)));
  if (retractor->finish.span().known())
    d.with_label(retractor->finish.span(), note::kits_retractor());
  d.with_note(note::glare_from_metal_blade());
  d.with_help(note::glare_from_metal_other());
}

} // namespace norma::rules
