#include "rules/rules.hpp"

namespace norma::rules {

void revision_missing(const Context& c, Sink& out) {
  if (!c.protocol.adopted.known() || !c.protocol.revision.absent()) return;
  auto& d = out.report(diag::make(catalogue::revision_missing, c.protocol.adopted.span()));
  d.with_note(note::revision_missing_told_apart());
  d.with_help(note::revision_missing_write());
}

} // namespace norma::rules
