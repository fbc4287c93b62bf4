#include "rules/rules.hpp"

namespace norma::rules {

void fallback_not_shown(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  diag::List why{{}, true};
  const auto unseen = v.facts.get(fact::fallback_not_seen);
  const auto cut = v.facts.get(fact::fallback_cut);
  const diag::Value other = v.facts.value(fact::fallback_of_other_face);
  if (unseen && !unseen->empty()) why.items.emplace_back(note::fallback_not_shown_unseen(*unseen));
  if (cut && !cut->empty()) why.items.emplace_back(note::fallback_not_shown_cut(*cut));
  if (!other.empty()) why.items.emplace_back(note::fallback_not_shown_other_face(other));
  if (why.items.empty()) return;
  auto& d =
      out.report(diag::make(catalogue::fallback_not_shown, place_of(v.view->or_else_show, v), why));
  if (other.empty()) d.with_note(note::fallback_not_shown_mean_mouth());
  d.with_help(note::fallback_not_shown_name());
}

} // namespace norma::rules
