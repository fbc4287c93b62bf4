#include "rules/rules.hpp"

namespace norma::rules {

void retractor_goes_in_dry(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto& right = v.view->right_retractor;
  const auto& left = v.view->left_retractor;
  const bool by_right = right.known() && right->dry;
  if (!by_right && !(left.known() && left->dry)) return;
  auto& d = out.report(
      diag::make(catalogue::retractor_goes_in_dry, place_of(by_right ? right : left, v)));
  d.with_note(note::retractor_goes_in_dry_sticks());
  d.with_help(note::retractor_goes_in_dry_wet());
}

} // namespace norma::rules
