#include "rules/rules.hpp"

namespace norma::rules {

void grey_cards_poor(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto used = v.facts.get(fact::grey_cards_used);
  if (!used || v.chosen.mirror == nullptr) return;
  const int clipped = v.facts.get(fact::grey_cards_clipped).value_or(0);
  const int outliers = v.facts.get(fact::grey_cards_outliers).value_or(0);
  const int least = v.facts.get(fact::grey_cards_least).value_or(0);
  std::string what;
  const auto add = [&](bool is, const std::string& text) {
    if (is) what += (what.empty() ? "" : ", ") + text;
  };
  add(clipped > 0, fmt::format("{} too dark or too bright", clipped));
  add(outliers > 0, fmt::format("{} far from the others", outliers));
  add(*used < least, fmt::format("{} left", *used));
  if (what.empty()) return;
  auto& d = out.report(diag::make(catalogue::grey_cards_poor, v.chosen.mirror->grey_card.span(),
                              v.chosen.mirror->name.value_or("the mirror"), what));
  d.with_evidence(
      evidence(v.facts, fact::grey_cards_used, diag::Relation::at_least, fact::grey_cards_least));
  if (const auto pairs = v.facts.get(fact::grey_cards_left_out))
    d.with_note(note::grey_cards_poor_left_out(*pairs));
  d.with_help("photograph the card again, in the middle of the scale, four times and more");
}

} // namespace norma::rules
