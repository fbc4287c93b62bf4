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
  if (right->tension != left->tension || right->tension == model::Tension::firm) return;
  const bool from_right = *azimuth > Angle{};
  auto& d = out.report(
      diag::make(catalogue::pull_alike_in_side_view, place_of(from_right ? right : left, v)));
  d.with_note(note::pull_alike_in_side_view_turns());
  const model::Side shown = from_right ? model::Side::right : model::Side::left;
  const model::Side other = from_right ? model::Side::left : model::Side::right;
  d.with_help(note::pull_alike_in_side_view_write(model::to_text(shown), model::to_text(other)));
}

} // namespace norma::rules
