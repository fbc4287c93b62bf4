#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void no_fallback(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!c.protocol.adopted.known()) return; // a draft may still be incomplete
  const model::View& view = *v.view;
  if (!view.or_else_view.absent() || !view.if_not_possible.absent() || !view.or_else_show.absent())
    return;
  for (const model::Series& s : c.protocol.series) {
    const auto listed = std::find_if(s.entries.begin(), s.entries.end(), [&](const auto& e) {
      return e.view == view.name && !e.optional;
    });
    if (listed == s.entries.end()) continue;
    auto& d = out.report(diag::make(catalogue::no_fallback, view.heading, s.name));
    d.with_label(listed->span, note::no_fallback_listed());
    d.with_help(note::no_fallback_write());
    return;
  }
}

} // namespace norma::rules
