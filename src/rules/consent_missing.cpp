#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void consent_missing(const Context& c, Sink& out) {
  if (!c.protocol.adopted.known() || !c.protocol.consent.absent()) return;
  const auto& views = c.protocol.views;
  const bool by_views =
      !views.empty() &&
      std::all_of(views.begin(), views.end(), [](const auto& v) { return !v.consent.absent(); });
  if (by_views) return;
  auto& d = out.report(diag::make(catalogue::consent_missing, c.protocol.heading));
  d.with_note(note::consent_missing_purposes());
  d.with_help(note::consent_missing_example());
}

} // namespace norma::rules
