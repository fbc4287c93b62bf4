#include "rules/rules.hpp"

namespace norma::rules {

void sides_differ(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto differs = v.company.get(fact::other_side_differs);
  if (!differs) return;
  const diag::Said name = *v.company.get(fact::other_side_view);
  const model::View* other = c.protocol.view(name.own);
  // Once for a pair: at the view that comes later.
  if (other != nullptr && c.protocol.view(v.view->name) < other) return;
  auto& d = out.report(diag::make(catalogue::sides_differ, v.view->heading, name, *differs));
  if (other != nullptr) d.with_label(other->heading, note::sides_differ_other());
  d.with_help(note::sides_differ_same_as(name));
}

} // namespace norma::rules
