#include "emit/refused.hpp"

#include "emit/list_words.hpp"
#include "report/unread.hpp"

namespace norma::emit {

const std::string& title_of(const model::Protocol& protocol) {
  return protocol.title.empty() ? protocol.name : protocol.title;
}

std::optional<Document> refused(const report::Report& report, const report::Held& held,
                                const wording::Language& in) {
  const report::Unread unread = report::unread_of(report, held);
  if (unread.whole()) return std::nullopt;
  Document out{{BlockKind::title, in.text(list::do_not_use(title_of(*held.plan.protocol)))}};
  for (const diag::Diagnostic* d : unread.findings)
    out.push_back({BlockKind::bullet, in.text(d->message)});
  return out;
}

} // namespace norma::emit
