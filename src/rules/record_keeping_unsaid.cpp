#include "rules/rules.hpp"

namespace norma::rules {

void record_keeping_unsaid(const Context& c, Sink& out) {
  const model::Protocol& p = c.protocol;
  if (!p.adopted.known()) return;
  diag::List what;
  const auto add = [&](bool unsaid, const diag::Term& name) {
    if (unsaid) what.items.emplace_back(name());
  };
  add(p.originals.absent(), note::record_keeping_unsaid_originals);
  add(p.crops.absent(), note::record_keeping_unsaid_crops);
  add(p.file_names.absent(), note::record_keeping_unsaid_file_names);
  if (what.items.empty()) return;
  auto& d = out.report(diag::make(catalogue::record_keeping_unsaid, p.heading, what));
  d.with_note(note::record_keeping_unsaid_part_of_record());
  d.with_help(note::record_keeping_unsaid_write());
}

} // namespace norma::rules
