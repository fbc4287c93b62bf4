#include "rules/rules.hpp"

namespace norma::rules {

void revision_missing(const Context& c, Sink& out) {
  if (!c.protocol.adopted.known() || !c.protocol.revision.absent()) return;
  auto& d = out.report(diag::make(catalogue::revision_missing, c.protocol.adopted.span()));
  d.with_note("pictures carry the revision by which they were taken; without one nobody can tell "
              "them apart after a change");
  d.with_help("write `revision 1`, and count up with every change");
}

} // namespace norma::rules
