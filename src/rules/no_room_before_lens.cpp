#include "rules/rules.hpp"

namespace norma::rules {

void no_room_before_lens(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto room = v.facts.get(fact::lens_clearance);
  if (!room || *room > Length{}) return;
  auto& d = out.report(
      diag::make(catalogue::no_room_before_lens, place_of_ratio(v), v.facts.value(fact::ratio),
                 v.facts.get(fact::stands_out) ? note::no_room_before_lens_in_lamp()
                                               : note::no_room_before_lens_in_lens()));
  if (v.facts.get(fact::stands_out)) {
    d.with_label(v.chosen.lamp->stands_out.span(), note::no_room_before_lens_stands_out());
    d.with_note(note::no_room_before_lens_teeth_stand(v.facts.value(fact::working_distance)));
  }
  d.with_help(note::no_room_before_lens_farther());
}

} // namespace norma::rules
