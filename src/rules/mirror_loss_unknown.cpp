#include "rules/rules.hpp"

namespace norma::rules {

void mirror_loss_unknown(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* loss = v.facts.find(fact::mirror_loss);
  if (v.chosen.mirror == nullptr || loss == nullptr || loss->state != plan::State::unknown) return;
  auto& d = out.report(diag::make(catalogue::mirror_loss_unknown, place_of(v.view->mirror, v),
                                  name_of(v.chosen.mirror->name, note::the_mirror)));
  d.with_label(v.chosen.mirror->span, note::kits_mirror());
  d.with_note(note::mirror_loss_unknown_half_a_stop());
  d.with_help(note::mirror_loss_unknown_measure());
}

} // namespace norma::rules
