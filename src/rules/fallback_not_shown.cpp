#include "rules/rules.hpp"

namespace norma::rules {

void fallback_not_shown(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  std::string why;
  const auto add = [&](const std::string& what) { why += (why.empty() ? "" : "; ") + what; };
  const std::string unseen = v.facts.text(fact::fallback_not_seen);
  const std::string cut = v.facts.text(fact::fallback_cut);
  const auto face = v.facts.get(fact::fallback_of_other_face);
  const std::string other(face ? model::to_text(*face) : "");
  if (!unseen.empty()) add(fmt::format("not enough of {} is seen", unseen));
  if (!cut.empty()) add(fmt::format("the picture's edge cuts {}", cut));
  if (!other.empty()) add(fmt::format("the view is about {} surfaces", other));
  if (why.empty()) return;
  auto& d = out.report(diag::make(catalogue::fallback_not_shown, place_of(v.view->or_else_show, v), why));
  if (other.empty())
    d.with_note("worked out for the mean mouth, with this in the place of what must show");
  d.with_help("name in `or else show` what is seen all the same, or another view: `or else view`");
}

} // namespace norma::rules
