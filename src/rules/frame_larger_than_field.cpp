#include "rules/rules.hpp"

namespace norma::rules {

void frame_larger_than_field(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto spare = v.facts.get(fact::frame_spare);
  constexpr Length slip = 0.25 * mm; // a field as large as the frame is what is wanted
  if (!spare || *spare >= -slip) return;
  auto& d = out.report(diag::make(catalogue::frame_larger_than_field, place_of(v.view->frame, v),
                                  v.facts.value(fact::frame_asked), -*spare));
  d.with_note(note::frame_larger_than_field_field(v.facts.value(fact::field_width),
                                                  v.facts.value(fact::field_height)));
  d.with_help(note::frame_larger_than_field_smaller());
}

} // namespace norma::rules
