#include <algorithm>

#include "review/parts.hpp"

namespace norma::review {
namespace {

std::string name_after(const Around& around, const std::string& view) {
  return around.name ? around.name(view) : view;
}

/// Its views in their order; those that may be left out are told as such.
std::vector<std::string> taken(const model::Series& series) {
  std::vector<std::string> out;
  for (const model::SeriesEntry& e : series.entries)
    out.push_back(e.view);
  return out;
}

Feature feature(const Around& around, const model::Series& series, bool old) {
  Feature out;
  out.name = series.name;
  const auto named = [&](const std::string& view) { return old ? name_after(around, view) : view; };
  for (const model::SeriesEntry& e : series.entries) {
    const std::string part = named(e.view) + (e.optional ? "?" : "");
    out.said += part + " ";
    out.parts.push_back(part);
  }
  for (const auto& row : series.rows) {
    out.said += "/ ";
    for (const std::string& view : row)
      out.said += named(view) + " ";
  }
  std::sort(out.parts.begin(), out.parts.end());
  return out;
}

bool same_entries(const Around& around, const model::Series& a, const model::Series& b) {
  return std::equal(a.entries.begin(), a.entries.end(), b.entries.begin(), b.entries.end(),
                    [&](const model::SeriesEntry& x, const model::SeriesEntry& y) {
                      return name_after(around, x.view) == y.view && x.optional == y.optional;
                    });
}

bool same_rows(const Around& around, const model::Series& a, const model::Series& b) {
  auto rows = a.rows;
  for (auto& row : rows) {
    for (std::string& view : row)
      view = name_after(around, view);
  }
  return rows == b.rows;
}

Planned planned_series(const report::Report& report, const report::Held& held, int series) {
  const plan::SeriesPlan& planned = held.plan.series[static_cast<std::size_t>(series)];
  return {&report, held.about.of_series(series), {&planned.facts}, nullptr};
}

} // namespace

std::vector<SeriesChange> compare_series(const Around& around) {
  const model::Protocol& before = *around.protocol.old_protocol();
  const model::Protocol& after = *around.protocol.new_protocol();
  std::vector<Feature> old_ones;
  std::vector<Feature> new_ones;
  for (const model::Series& s : before.series)
    old_ones.push_back(feature(around, s, true));
  for (const model::Series& s : after.series)
    new_ones.push_back(feature(around, s, false));
  const std::size_t kits = around.kits.size();
  std::vector<SeriesChange> out;
  for (const auto& [b, a] : match(old_ones, new_ones)) {
    SeriesChange change;
    change.before = b;
    change.after = a;
    if (b < 0 || a < 0) {
      change.entries.push_back(plain_entry(b < 0 ? Cause::came : Cause::went,
                                           b < 0 ? Kind::series_added : Kind::series_lost, kits));
      out.push_back(std::move(change));
      continue;
    }
    const model::Series& x = before.series[static_cast<std::size_t>(b)];
    const model::Series& y = after.series[static_cast<std::size_t>(a)];
    const bool other_order = !same_entries(around, x, y);
    if (other_order) {
      change.order_before = taken(x);
      change.order_after = taken(y);
      change.entries.push_back(plain_entry(Cause::asked, Kind::order, kits));
    }
    AtKits at;
    for (std::size_t k = 0; k < kits; ++k) {
      at.before.push_back(planned_series(*around.before, *around.protocol.before[k], b));
      at.after.push_back(planned_series(*around.after, *around.protocol.after[k], a));
      at.effects.push_back(effects_of(at.before.back(), at.after.back()));
      at.kitless.push_back(around.kits[k].name.empty());
    }
    for (Entry& e : entries_of({}, std::move(at), other_cause(around))) {
      if (!other_order) {
        change.entries.push_back(std::move(e));
        continue;
      }
      // What follows from the order stands with it.
      for (std::size_t k = 0; k < kits; ++k) {
        Entry::AtKit& here = change.entries.front().kits[k];
        here.effect = std::max(here.effect, e.kits[k].effect);
        here.effects = std::move(e.kits[k].effects);
      }
    }
    if (!same_rows(around, x, y))
      change.entries.push_back(plain_entry(Cause::asked, Kind::record, kits));
    change.renamed = x.name != y.name;
    if (change.renamed) change.entries.push_back(plain_entry(Cause::name, Kind::renamed, kits));
    if (!change.entries.empty()) out.push_back(std::move(change));
  }
  return out;
}

Class SeriesChange::gravest() const { return gravest_of(entries); }

} // namespace norma::review
