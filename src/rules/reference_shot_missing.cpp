#include "rules/rules.hpp"

namespace norma::rules {

void reference_shot_missing(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (c.kit != nullptr && c.kit->exposes_by_itself()) return; // it meters, by no shot of ours
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || lamp->reference || !lamp->guide_number.known()) return;
  auto& d = out.report(
      diag::make(catalogue::reference_shot_missing, lamp->span, v.facts.value(fact::lamp)));
  d.with_note(note::reference_shot_missing_guide_number());
  d.with_help(note::photograph_grey_card());
}

} // namespace norma::rules
