#include "rules/rules.hpp"

namespace norma::rules {

void retractor_in_mirrors_place(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->mirror.known() || v.view->mirror->use != model::MirrorUse::buccal ||
      !v.view->mirror->side)
    return;
  const bool right = *v.view->mirror->side == model::Side::right;
  const auto& there = right ? v.view->right_retractor : v.view->left_retractor;
  if (!there.known() || there->none || there->mirror_takes_place || there->by_fingers) return;
  auto& d = out.report(diag::make(catalogue::retractor_in_mirrors_place, place_of(there, v),
                                  right ? note::retractor_in_mirrors_place_right()
                                        : note::retractor_in_mirrors_place_left()));
  d.with_label(v.view->mirror.span(), note::the_mirror());
  d.with_help(note::retractor_in_mirrors_place_write(model::to_text(*v.view->mirror->side)));
}

} // namespace norma::rules
