#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void view_twice_in_series(const Context& /*c*/, const plan::SeriesPlan& s, Sink& out) {
  for (std::size_t i = 1; i < s.series->entries.size(); ++i) {
    const auto& entries = s.series->entries;
    const auto end = entries.begin() + static_cast<std::ptrdiff_t>(i);
    const auto first = std::find_if(entries.begin(), end,
                                    [&](const auto& e) { return e.view == entries[i].view; });
    if (first == end) continue;
    auto& d = out.report(diag::make(catalogue::view_twice_in_series, entries[i].span,
                                    s.series->name, entries[i].view));
    d.with_label(first->span, note::view_twice_in_series_first());
    d.with_help(note::view_twice_in_series_take_out());
  }
}

} // namespace norma::rules
