#include "rules/rules.hpp"

namespace norma::rules {

void record_keeping_unsaid(const Context& c, Sink& out) {
  const model::Protocol& p = c.protocol;
  if (!p.adopted.known()) return;
  std::string what;
  const auto add = [&](bool unsaid, std::string_view name) {
    if (unsaid) what += (what.empty() ? "" : ", ") + std::string(name);
  };
  add(p.originals.absent(), "originals");
  add(p.crops.absent(), "crops");
  add(p.file_names.absent(), "file names");
  if (what.empty()) return;
  auto& d = out.report(diag::make(catalogue::record_keeping_unsaid, p.heading, what));
  d.with_note("pictures are part of the record: originals stay as they are, flips and crops are "
              "noted, file names hold no patient's name");
  d.with_help("`originals kept unaltered`, `crops noted`, `file names by record number, without "
              "name of the patient`");
}

} // namespace norma::rules
