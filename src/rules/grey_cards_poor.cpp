#include "rules/rules.hpp"

namespace norma::rules {

void grey_cards_poor(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto used = v.facts.get(fact::grey_cards_used);
  if (!used || v.chosen.mirror == nullptr) return;
  const int clipped = v.facts.get(fact::grey_cards_clipped).value_or(0);
  const int outliers = v.facts.get(fact::grey_cards_outliers).value_or(0);
  const int least = v.facts.get(fact::grey_cards_least).value_or(0);
  diag::List what;
  if (clipped > 0) what.items.emplace_back(note::grey_cards_poor_clipped(clipped));
  if (outliers > 0) what.items.emplace_back(note::grey_cards_poor_outliers(outliers));
  if (*used < least) what.items.emplace_back(note::grey_cards_poor_left(*used));
  if (what.items.empty()) return;
  const auto& name = v.chosen.mirror->name;
  auto& d = out.report(
      diag::make(catalogue::grey_cards_poor, v.chosen.mirror->grey_card.span(),
                 name.known() ? diag::Value(name.get()) : diag::Value(note::the_mirror()), what));
  d.with_evidence(
      evidence(v.facts, fact::grey_cards_used, diag::Relation::at_least, fact::grey_cards_least));
  if (const auto pairs = v.facts.get(fact::grey_cards_left_out))
    d.with_note(note::grey_cards_poor_left_out(*pairs));
  d.with_help(note::grey_cards_poor_again());
}

} // namespace norma::rules
