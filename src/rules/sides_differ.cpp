#include "rules/rules.hpp"

namespace norma::rules {

void sides_differ(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto differs = v.company.get(fact::other_side_differs);
  // Once for a pair: at the view of the left side.
  if (!differs || *v.facts.get(fact::azimuth) > Angle{}) return;
  const diag::Said name = *v.company.get(fact::other_side_view);
  auto& d = out.report(diag::make(catalogue::sides_differ, v.view->heading, name, *differs));
  const model::View* other = c.protocol.view(name.own);
  if (other != nullptr) d.with_label(other->heading, note::sides_differ_other());
  d.with_help(note::sides_differ_same_as(name));
}

} // namespace norma::rules
