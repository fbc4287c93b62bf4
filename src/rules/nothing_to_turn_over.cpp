#include "rules/rules.hpp"

namespace norma::rules {

void nothing_to_turn_over(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->mirror.known() || !v.view->mirror->turned_over) return;
  for (const model::Series& s : c.protocol.series) {
    for (std::size_t i = 0; i < s.entries.size(); ++i) {
      if (s.entries[i].view != v.view->name) continue;
      const model::View* before = i == 0 ? nullptr : c.protocol.view(s.entries[i - 1].view);
      const bool same =
          before != nullptr && before->mirror.known() && before->mirror->use == v.view->mirror->use;
      if (same) continue;
      auto& d = out.report(
          diag::make(catalogue::nothing_to_turn_over, place_of(v.view->mirror, v), s.name));
      d.with_label(s.entries[i].span, note::nothing_to_turn_over_here());
      d.with_help(note::nothing_to_turn_over_put_before());
    }
  }
}

} // namespace norma::rules
