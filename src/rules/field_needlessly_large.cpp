#include "rules/rules.hpp"

namespace norma::rules {

void field_needlessly_large(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  // What else must show, nobody knows how large, may take the rest.
  if (v.view->things_shown.known()) return;
  const auto use = v.facts.get(fact::field_use);
  const auto least = v.facts.get(fact::field_use_least);
  if (!use || !least || *use >= *least || v.view->kind == model::ViewKind::face) return;
  // One ratio for several views lets them be laid side by side: that is worth the empty margin.
  if (v.company.get(fact::views_with_ratio).value_or(1) > 1) return;
  // Where the lens goes no closer there is nothing to choose.
  const auto fits = v.facts.get(fact::ratio_in_reach);
  if (!fits || *fits <= *v.facts.get(fact::ratio)) return;
  auto& d =
      out.report(diag::make(catalogue::field_needlessly_large, place_of_ratio(v),
                            v.facts.value(fact::field_use), v.facts.value(fact::field_use_least)));
  d.with_evidence(
      evidence(v.facts, fact::field_use, diag::Relation::at_least, fact::field_use_least));
  d.with_help(note::field_needlessly_large_fits(
      for_both(v.facts, fact::ratio_in_reach_asked, fact::ratio_in_reach)));
}

} // namespace norma::rules
