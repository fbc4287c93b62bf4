#include "rules/rules.hpp"

namespace norma::rules {

void mirror_loss_unknown(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* loss = v.facts.find(fact::mirror_loss);
  if (v.chosen.mirror == nullptr || loss == nullptr || loss->state != plan::State::unknown) return;
  auto& d = out.report(diag::make(catalogue::mirror_loss_unknown, place_of(v.view->mirror, v),
                              v.chosen.mirror->name.value_or("the mirror")));
  d.with_label(v.chosen.mirror->span, "the kit's mirror");
  d.with_note(
      "mirrors take half a stop, some take one (common practice): without a measurement the "
      "pictures come out darker than the direct ones by a step nobody knows");
  d.with_help(
      "take a grey card direct and in this mirror, and write the difference into the kit as "
      "`loss`");
}

} // namespace norma::rules
