#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void view_never_used(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const model::Protocol& p = c.protocol;
  if (p.series.empty()) return;
  const std::string& name = v.view->name;
  // A name that leads nowhere may be meant for this view.
  if (std::any_of(p.series.begin(), p.series.end(),
                  [](const model::Series& x) { return !x.whole; }))
    return;
  const bool listed = std::any_of(p.series.begin(), p.series.end(), [&](const model::Series& s) {
    return std::any_of(s.entries.begin(), s.entries.end(),
                       [&](const auto& e) { return e.view == name; });
  });
  const bool named = std::any_of(p.views.begin(), p.views.end(), [&](const model::View& other) {
    return (other.or_else_view.known() && other.or_else_view.get() == name) ||
           (other.exposure.known() && other.exposure->as_view == name && other.name != name);
  });
  if (listed || named) return;
  auto& d = out.report(diag::make(catalogue::view_never_used, v.view->heading));
  d.with_help(note::view_never_used_list());
}

} // namespace norma::rules
