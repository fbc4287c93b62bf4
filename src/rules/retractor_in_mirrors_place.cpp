#include "rules/rules.hpp"

namespace norma::rules {

void retractor_in_mirrors_place(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->mirror.known() || v.view->mirror->use != model::MirrorUse::buccal ||
      !v.view->mirror->side)
    return;
  const bool right = *v.view->mirror->side == model::Side::right;
  const auto& there = right ? v.view->right_retractor : v.view->left_retractor;
  if (!there.known() || there->none || there->mirror_takes_place) return;
  auto& d = out.report(diag::make(catalogue::retractor_in_mirrors_place, place_of(there, v),
                                      right ? "right" : "left"));
  d.with_label(v.view->mirror.span(), "the mirror");
  d.with_help(
      fmt::format("write `retractor {} none, mirror takes its place`", right ? "right" : "left"));
}

} // namespace norma::rules
