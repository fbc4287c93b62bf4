#include "rules/rules.hpp"

namespace norma::rules {

void picture_impossible(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  for (const plan::FactRow* row : {static_cast<const plan::FactRow*>(&fact::orientation_wanted),
                                   static_cast<const plan::FactRow*>(&fact::turn)}) {
    const plan::Fact* f = v.facts.find(*row);
    if (f == nullptr || f->state != plan::State::impossible) continue;
    auto& d =
        out.report(diag::make(catalogue::picture_impossible, place_of(v.view->picture, v), f->why));
    if (v.facts.get(fact::orientation_shot)) {
      d.with_note(note::picture_impossible_as_shot(v.facts.value(fact::orientation_shot),
                                                   v.facts.value(fact::mirrored)));
    }
    return;
  }
}

} // namespace norma::rules
