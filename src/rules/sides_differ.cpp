#include "rules/rules.hpp"

namespace norma::rules {
namespace {

/// Of two that are each other's other side, the one that is made from the other, else the left one:
/// wherever they stand in the file.
bool told_at_the_other(const plan::ViewPlan& v, const plan::ViewPlan& other) {
  const auto back = other.company.get(fact::other_side_view);
  if (!back || back->own != v.view->name) return false;
  if (v.view->made_from == other.view->name) return false;
  if (other.view->made_from == v.view->name) return true;
  return *v.facts.get(fact::azimuth) > Angle{};
}

} // namespace

void sides_differ(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto differs = v.company.get(fact::other_side_differs);
  if (!differs) return;
  const diag::Said name = *v.company.get(fact::other_side_view);
  const plan::ViewPlan* other = c.plan.view(name.own);
  if (other != nullptr && told_at_the_other(v, *other)) return;
  auto& d = out.report(diag::make(catalogue::sides_differ, v.view->heading, name, *differs));
  if (other != nullptr) d.with_label(other->view->heading, note::sides_differ_other());
  d.with_help(note::sides_differ_same_as(name));
}

} // namespace norma::rules
