#include "rules/rules.hpp"

namespace norma::rules {

void mirror_not_needed(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::direct_azimuth)) return;
  auto& d = out.report(diag::make(catalogue::mirror_not_needed, place_of(v.view->mirror, v),
                                  v.facts.value(fact::direct_azimuth)));
  d.with_note(note::mirror_not_needed_corner_assumed());
  d.with_help(note::mirror_not_needed_spares());
}

} // namespace norma::rules
