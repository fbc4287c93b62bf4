#include "rules/rules.hpp"

namespace norma::rules {

void sides_differ(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto differs = v.company.get(fact::other_side_differs);
  // Once for a pair: at the view of the left side.
  if (!differs || *v.facts.get(fact::azimuth) > Angle{}) return;
  auto& d = out.report(diag::make(catalogue::sides_differ, v.view->heading,
                              v.company.text(fact::other_side_view), *differs));
  const model::View* other = c.protocol.view(v.company.text(fact::other_side_view));
  if (other != nullptr) d.with_label(other->heading, "the other side");
  d.with_help(fmt::format("make it from that view: `same as {}, for the other side`",
                          v.company.text(fact::other_side_view)));
}

} // namespace norma::rules
