#include <algorithm>

#include "model/content.hpp"
#include "review/parts.hpp"

namespace norma::review {
namespace {

const model::View& view_at(const model::Protocol& protocol, int place) {
  return protocol.views[static_cast<std::size_t>(place)];
}

std::vector<model::Statement> statements_of(const model::Protocol& protocol, int place) {
  const int content = view_at(protocol, place).content;
  if (content < 0) return {};
  return model::read_content(protocol.contents[static_cast<std::size_t>(content)]);
}

Planned planned_view(const report::Report& report, const report::Held& held, int view) {
  const plan::ViewPlan& planned = held.plan.views[static_cast<std::size_t>(view)];
  return {&report, held.about.of_view(view), {&planned.facts, &planned.company}, &planned.acts};
}

} // namespace

ViewChange compare_view(const Around& around, std::pair<int, int> views) {
  ViewChange out;
  out.before = views.first;
  out.after = views.second;
  const std::size_t kits = around.kits.size();
  if (out.before < 0 || out.after < 0) {
    const bool came = out.before < 0;
    out.entries.push_back(plain_entry(came ? Cause::came : Cause::went,
                                      came ? Kind::view_added : Kind::view_lost, kits));
    return out;
  }
  const model::Protocol& before = *around.protocol.old_protocol();
  const model::Protocol& after = *around.protocol.new_protocol();
  const model::View& old_view = view_at(before, out.before);
  const model::View& new_view = view_at(after, out.after);
  std::vector<Asked> asked =
      asked_otherwise(statements_of(before, out.before), statements_of(after, out.after),
                      around.name, new_view.kind == model::ViewKind::face);
  AtKits at;
  for (std::size_t k = 0; k < kits; ++k) {
    at.before.push_back(planned_view(*around.before, *around.protocol.before[k], out.before));
    at.after.push_back(planned_view(*around.after, *around.protocol.after[k], out.after));
    at.effects.push_back(effects_of(at.before.back(), at.after.back()));
    at.kitless.push_back(around.kits[k].name.empty());
  }
  out.entries = entries_of(std::move(asked), std::move(at), other_cause(around));
  out.renamed = old_view.name != new_view.name;
  if (out.renamed) out.entries.push_back(plain_entry(Cause::name, Kind::renamed, kits));
  // A view without a title is called by its name.
  const bool titled = old_view.title != old_view.name || new_view.title != new_view.name;
  if (titled && old_view.title != new_view.title)
    out.entries.push_back(plain_entry(Cause::name, Kind::wording, kits));
  return out;
}

bool ViewChange::told_here() const {
  return std::any_of(entries.begin(), entries.end(), [](const Entry& e) { return e.as_in < 0; });
}

Class ViewChange::gravest() const { return gravest_of(entries); }

} // namespace norma::review
