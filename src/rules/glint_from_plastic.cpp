#include "rules/rules.hpp"

namespace norma::rules {

void glint_from_plastic(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto at = v.facts.get(fact::plastic_glint_at);
  if (!at) return;
  const bool on_right = *at != plan::GlintAt::left_corner;
  const kit::Retractor* retractor = on_right ? v.chosen.right_retractor : v.chosen.left_retractor;
  const auto& place = on_right ? v.view->right_retractor : v.view->left_retractor;
  auto& d = out.report(diag::make(catalogue::glint_from_plastic, place_of(place, v),
                                  v.facts.value(fact::plastic_glint_at)));
  d.with_label(retractor->finish.span(), note::kits_retractor());
  d.with_note(note::glint_from_plastic_faint());
  d.with_help(note::glint_from_plastic_frosted());
}

} // namespace norma::rules
