#include "rules/rules.hpp"

namespace norma::rules {

void room_light_shows(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto under = v.facts.get(fact::room_light_under);
  const auto limit = v.facts.get(fact::room_light_limit);
  if (!under || !limit || *under >= *limit) return;
  const auto stops = [](Stops s) { return diag::Measure{physics::Kind::stops, s.base(), true}; };
  auto& d = out.report(diag::make(catalogue::room_light_shows, place_of(v.view->shutter, v),
                                  v.facts.value(fact::room_light),
                                  *under < Stops{} ? note::room_light_shows_brighter(stops(-*under))
                                                   : note::room_light_shows_within(stops(*under))));
  d.with_evidence(
      evidence(v.facts, fact::room_light_under, diag::Relation::at_least, fact::room_light_limit));
  if (c.kit->room_light.span().known())
    d.with_label(c.kit->room_light.span(), note::room_light_shows_measured());
  d.with_help(note::room_light_shows_turn_away());
}

} // namespace norma::rules
