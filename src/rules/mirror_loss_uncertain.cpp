#include "rules/rules.hpp"

namespace norma::rules {

void mirror_loss_uncertain(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto spread = v.facts.get(fact::mirror_loss_spread);
  const auto limit = v.facts.get(fact::mirror_loss_spread_limit);
  if (!spread || !limit || *spread <= *limit || v.chosen.mirror == nullptr) return;
  auto& d = out.report(diag::make(catalogue::mirror_loss_uncertain, place_of(v.view->mirror, v),
                                  name_of(v.chosen.mirror->name, note::the_mirror),
                                  diag::Measure{physics::Kind::stops, spread->base(), true}));
  const kit::Mirror& m = *v.chosen.mirror;
  d.with_label(m.loss.known() ? m.loss.span() : m.grey_card.span(), note::kits_mirror());
  d.with_evidence(evidence(v.facts, fact::mirror_loss_spread, diag::Relation::at_most,
                           fact::mirror_loss_spread_limit));
  d.with_note(note::mirror_loss_uncertain_as_much());
  d.with_help(note::mirror_loss_uncertain_again());
}

} // namespace norma::rules
