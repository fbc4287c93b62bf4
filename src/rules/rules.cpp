#include "rules/rules.hpp"

namespace norma::rules {
namespace {

constexpr Rule list[] = {
    field_too_small,      ratio_out_of_reach,      no_aperture_holds,
    diffraction_softens,  tooth_in_shadow,         glare_from_metal,
    mirror_loss_unknown,  mirror_loss_stale,       mirror_offset_differs,
    flash_cannot_deliver, ghost_from_rear_surface, picture_turn_missing,
    picture_impossible,   code_contradicts_view,   instrument_missing,
    too_many_hands,       distance_too_short,      aperture_out_of_reach,
    tooth_hidden,         tooth_turned_away,       mirror_too_narrow,
    mirror_does_not_fit,
};

} // namespace

void apply(const Context& context, diag::Findings& out) {
  for (const Rule rule : list) {
    for (const plan::ViewPlan& view : context.plan.views)
      rule(context, view, out);
  }
}

diag::Diagnostic& report(diag::Findings& out, const Context& context, const plan::ViewPlan& view,
                         diag::Diagnostic d) {
  std::string kit;
  if (context.kit != nullptr) kit = context.kit->name.value_or("");
  d.about(plan::label(context.protocol, *view.view), std::move(kit));
  return out.add(std::move(d));
}

diag::Evidence evidence(const plan::Facts& facts, const plan::FactRow& actual,
                        diag::Relation relation, const plan::FactRow& limit) {
  const plan::Fact* a = facts.find(actual);
  const plan::Fact* l = facts.find(limit);
  return {std::string(actual.label), actual.kind, a == nullptr ? 0 : a->number, relation,
          l == nullptr ? 0 : l->number};
}

} // namespace norma::rules
