#include "rules/rules.hpp"

namespace norma::rules {

void retractor_needs_hand(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  text::Span told; // `retractor both` is said once
  const auto look = [&](const text::Sourced<model::Retractor>& said, const kit::Retractor* piece) {
    if (!said.known() || said->held_by != model::Person::itself || piece == nullptr) return;
    if (!piece->held.known() || piece->held.get() != kit::RetractorHeld::by_hand) return;
    const text::Span place = place_of(said, v);
    if (place == told) return;
    told = place;
    auto& d = out.report(diag::make(catalogue::retractor_needs_hand, place,
                                    name_of(piece->name, note::retractor_needs_hand_kits)));
    d.with_label(piece->held.span(), note::retractor_needs_hand_kits());
    d.with_help(note::retractor_needs_hand_say());
  };
  look(v.view->right_retractor, v.chosen.right_retractor);
  look(v.view->left_retractor, v.chosen.left_retractor);
}

} // namespace norma::rules
