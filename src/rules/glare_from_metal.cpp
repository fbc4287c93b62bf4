#include "rules/rules.hpp"

namespace norma::rules {

void glare_from_metal(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto at = v.facts.get(fact::glare_at);
  if (!at) return;
  const bool on_right = *at != plan::GlintAt::left_corner;
  const kit::Retractor* retractor = on_right ? v.chosen.right_retractor : v.chosen.left_retractor;
  const auto& place = on_right ? v.view->right_retractor : v.view->left_retractor;
  auto& d =
      out.report(diag::make(catalogue::glare_from_metal, place_of(place, v),
                            retractor->name.value_or("retractor"), v.facts.value(fact::glare_at)));
  if (retractor->finish.span().known())
    d.with_label(retractor->finish.span(), "the kit's retractor");
  d.with_note("the blade lies in the frame and its curve turns the lamp's light to the lens; its "
              "shape and place are assumed");
  d.with_help("use frosted metal or clear plastic in this view");
}

} // namespace norma::rules
