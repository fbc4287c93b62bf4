#include "rules/rules.hpp"

namespace norma::rules {

void mirror_loss_stale(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto age = v.facts.get(fact::mirror_loss_age);
  const auto limit = v.facts.get(fact::mirror_loss_age_limit);
  if (!age || !limit || *age < *limit || v.chosen.mirror == nullptr) return;
  auto& d = out.report(diag::make(catalogue::mirror_loss_stale, place_of(v.view->mirror, v),
                                  name_of(v.chosen.mirror->name, note::the_mirror), *age));
  d.with_evidence(evidence(v.facts, fact::mirror_loss_age, diag::Relation::at_most,
                           fact::mirror_loss_age_limit));
  d.with_label(v.chosen.mirror->measured.span(), note::mirror_loss_stale_measured());
  d.with_help(note::mirror_loss_stale_again());
}

} // namespace norma::rules
