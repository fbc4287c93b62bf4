#include "rules/rules.hpp"

namespace norma::rules {

void room_light_shows(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto under = v.facts.get(fact::room_light_under);
  const auto limit = v.facts.get(fact::room_light_limit);
  if (!under || !limit || *under >= *limit) return;
  auto& d = out.report(diag::make(catalogue::room_light_shows, place_of(v.view->shutter, v),
                              v.facts.text(fact::room_light),
                              *under < Stops{}
                                  ? fmt::format("is {} brighter than", physics::to_text(-*under))
                                  : fmt::format("comes within {} of", physics::to_text(*under))));
  d.with_evidence(
      evidence(v.facts, fact::room_light_under, diag::Relation::at_least, fact::room_light_limit));
  if (c.kit->room_light.span().known())
    d.with_label(c.kit->room_light.span(), "measured at the teeth");
  d.with_help("turn the lamp of the chair away; a shorter shutter or a narrower aperture keeps it "
              "out");
}

} // namespace norma::rules
