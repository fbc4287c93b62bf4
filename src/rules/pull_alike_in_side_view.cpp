#include "rules/rules.hpp"

namespace norma::rules {

void pull_alike_in_side_view(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto azimuth = v.facts.get(fact::azimuth);
  if (!azimuth || v.view->taken_in_mirror || v.view->kind == model::ViewKind::face) return;
  if (abs(*azimuth) < 45.0 * degree) return;
  const auto& right = v.view->right_retractor;
  const auto& left = v.view->left_retractor;
  if (!right.known() || !left.known()) return;
  if (right->none || left->none || right->mirror_takes_place || left->mirror_takes_place) return;
  if (right->tension != left->tension || right->tension == "firm") return;
  const bool from_right = *azimuth > Angle{};
  auto& d = out.report(diag::make(catalogue::pull_alike_in_side_view, place_of(from_right ? right : left, v)));
  d.with_note("more pull on the side that is shown and less on the other turns the mouth to the "
              "camera");
  d.with_help(fmt::format("`retractor {} tension firm, outwards and back`, `retractor {} tension "
                          "light`",
                          from_right ? "right" : "left", from_right ? "left" : "right"));
}

} // namespace norma::rules
