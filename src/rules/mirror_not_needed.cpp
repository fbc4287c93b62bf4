#include "rules/rules.hpp"

namespace norma::rules {

void mirror_not_needed(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::direct_azimuth)) return;
  auto& d = out.report(diag::make(catalogue::mirror_not_needed, place_of(v.view->mirror, v),
                              v.facts.text(fact::direct_azimuth)));
  d.with_note("worked out for the mean mouth; where the corner of the mouth is held is assumed");
  d.with_help("a direct view spares the patient the mirror, and its light");
}

} // namespace norma::rules
