#include "rules/rules.hpp"

namespace norma::rules {

void frame_larger_than_field(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto spare = v.facts.get(fact::frame_spare);
  constexpr Length slip = 0.25 * mm; // a field as large as the frame is what is wanted
  if (!spare || *spare >= -slip) return;
  auto& d = out.report(diag::make(catalogue::frame_larger_than_field, place_of(v.view->frame, v),
                                  v.facts.value(fact::frame_asked), physics::to_text(-*spare)));
  d.with_note(fmt::format("the field is {} by {}", v.facts.text(fact::field_width),
                          v.facts.text(fact::field_height)));
  d.with_help("a smaller image shows all of the frame, or take a smaller frame");
}

} // namespace norma::rules
