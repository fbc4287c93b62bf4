#include "rules/rules.hpp"

namespace norma::rules {

void exposure_test_missing(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (c.kit != nullptr && c.kit->exposes_by_itself()) return; // it meters, by no shot of ours
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || lamp->reference || !lamp->guide_number.absent()) return;
  auto& d = out.report(
      diag::make(catalogue::exposure_test_missing, lamp->span, v.facts.value(fact::lamp)));
  d.with_note(note::exposure_test_missing_unknown());
  d.with_help(note::photograph_grey_card());
}

} // namespace norma::rules
