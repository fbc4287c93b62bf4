#include "rules/rules.hpp"

namespace norma::rules {

void field_too_tight(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto spare = v.facts.get(fact::least_spare);
  const auto wanted = v.facts.get(fact::least_spare_wanted);
  if (!spare || !wanted || *spare < Length{} || *spare >= *wanted) return;
  auto& d = out.report(diag::make(catalogue::field_too_tight, place_of(v.view->ratio, v),
                              v.facts.text(fact::least_spare)));
  d.with_evidence(
      evidence(v.facts, fact::least_spare, diag::Relation::at_least, fact::least_spare_wanted));
  d.with_note("mean teeth; larger ones are cut");
  d.with_help("a smaller image leaves room, or name fewer teeth");
}

} // namespace norma::rules
