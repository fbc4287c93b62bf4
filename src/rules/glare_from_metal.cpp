#include "rules/rules.hpp"

namespace norma::rules {

void glare_from_metal(const Context& c, const plan::ViewPlan& v, diag::Findings& out) {
  const auto polished = [](const kit::Retractor* r) {
    return r != nullptr && r->material.known() && r->material.get() == kit::Material::metal &&
           r->finish.known() && r->finish.get() == kit::Finish::polished;
  };
  const kit::Retractor* right = v.chosen.right_retractor;
  const kit::Retractor* left = v.chosen.left_retractor;
  if (!polished(right) && !polished(left)) return;
  const kit::Retractor* first = polished(right) ? right : left;
  const auto& place = polished(right) ? v.view->right_retractor : v.view->left_retractor;
  auto& d = report(out, c, v,
                   diag::make(catalogue::glare_from_metal, place_of(place, v),
                              first->name.value_or("retractor")));
  if (first->finish.span().known()) d.with_label(first->finish.span(), "the kit's retractor");
  d.with_note("that the metal lies in the picture is assumed");
  d.with_help("use frosted metal or clear plastic in this view");
}

} // namespace norma::rules
