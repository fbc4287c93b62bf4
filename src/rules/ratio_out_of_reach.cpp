#include "rules/rules.hpp"

namespace norma::rules {

void ratio_out_of_reach(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* ratio = v.facts.find(fact::ratio);
  if (ratio == nullptr || ratio->state != plan::State::impossible) return;
  const auto exact = v.facts.get(fact::ratio_exact);
  const auto greatest = v.facts.get(fact::lens_greatest);
  if (!exact) return;
  const bool too_large = greatest && *exact > *greatest;
  const diag::Said reach =
      too_large ? note::ratio_out_of_reach_no_closer(*greatest)
                : note::ratio_out_of_reach_no_farther(v.facts.value(fact::lens_least));
  auto& d = out.report(diag::make(catalogue::ratio_out_of_reach, place_of_ratio(v), *exact, reach));
  d.with_evidence(
      too_large ? evidence(v.facts, fact::ratio_exact, diag::Relation::at_most, fact::lens_greatest)
                : evidence(v.facts, fact::ratio_exact, diag::Relation::at_least, fact::lens_least));
  if (v.facts.value(fact::reference_sensor) != v.facts.value(fact::sensor)) {
    d.with_note(note::ratio_out_of_reach_same_field(
        v.facts.value(fact::ratio_asked), v.facts.value(fact::reference_sensor),
        v.facts.value(fact::ratio_exact), v.facts.value(fact::sensor)));
  }
  d.with_help(too_large ? note::ratio_out_of_reach_extension_ring()
                        : note::ratio_out_of_reach_more_distance());
}

} // namespace norma::rules
