// The rules: each reads facts and complains. One rule, one file; one explicit list (rules.cpp).
// A rule computes nothing: a number that it lacks is a fact to be added in plan/.
#pragma once

#include "diag/catalogue.hpp"
#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "plan/facts.hpp"
#include "plan/plan.hpp"
#include "words/literal.hpp"

namespace norma::rules {

namespace catalogue = diag::catalogue;
namespace fact = plan::fact;

/// What a rule may look at.
struct Context {
  const model::Protocol& protocol;
  const kit::Kit* kit; // null without a kit
  const plan::Plan& plan;
  words::Date on;
};

/// Rules over one view, over one series, over the protocol as a whole.
using Rule = void (*)(const Context& context, const plan::ViewPlan& view, diag::Findings& out);
using SeriesRule = void (*)(const Context& context, const plan::SeriesPlan& series,
                            diag::Findings& out);
using ProtocolRule = void (*)(const Context& context, diag::Findings& out);

/// Runs all rules.
void apply(const Context& context, diag::Findings& out);

/// Where a finding about `value` stands: where it was said, else the view's heading.
template <class T> text::Span place_of(const text::Sourced<T>& value, const plan::ViewPlan& view) {
  return value.span().known() ? value.span() : view.view->heading;
}

/// Adds a finding that speaks of the view and, where there is one, of the kit.
diag::Diagnostic& report(diag::Findings& out, const Context& context, const plan::ViewPlan& view,
                         diag::Diagnostic d);

/// The same for what is said of the view whichever kit is at hand.
diag::Diagnostic& report_of_view(diag::Findings& out, const Context& context,
                                 const plan::ViewPlan& view, diag::Diagnostic d);

/// Does the view show the lower jaw, and it alone?
bool shows_lower_jaw(const model::View& view);
/// Where a series lists a view.
text::Span entry_span(const model::Series& series, std::string_view view);

/// Says whether what `or else show` names can be had.
void note_fallback(const plan::ViewPlan& view, diag::Diagnostic& d);

/// `actual` against `limit` as evidence, both facts that have values.
diag::Evidence evidence(const plan::Facts& facts, const plan::FactRow& actual,
                        diag::Relation relation, const plan::FactRow& limit);

// The rules, in the order of their codes.
void field_too_small(const Context&, const plan::ViewPlan&, diag::Findings&);
void ratio_out_of_reach(const Context&, const plan::ViewPlan&, diag::Findings&);
void no_aperture_holds(const Context&, const plan::ViewPlan&, diag::Findings&);
void diffraction_softens(const Context&, const plan::ViewPlan&, diag::Findings&);
void tooth_in_shadow(const Context&, const plan::ViewPlan&, diag::Findings&);
void glare_from_metal(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_loss_unknown(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_loss_stale(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_offset_differs(const Context&, const plan::ViewPlan&, diag::Findings&);
void flash_cannot_deliver(const Context&, const plan::ViewPlan&, diag::Findings&);
void ghost_from_rear_surface(const Context&, const plan::ViewPlan&, diag::Findings&);
void picture_turn_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void picture_impossible(const Context&, const plan::ViewPlan&, diag::Findings&);
void code_contradicts_view(const Context&, const plan::ViewPlan&, diag::Findings&);
void instrument_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void too_many_hands(const Context&, const plan::ViewPlan&, diag::Findings&);
void distance_too_short(const Context&, const plan::ViewPlan&, diag::Findings&);
void aperture_out_of_reach(const Context&, const plan::ViewPlan&, diag::Findings&);
void tooth_hidden(const Context&, const plan::ViewPlan&, diag::Findings&);
void tooth_turned_away(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_too_narrow(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_does_not_fit(const Context&, const plan::ViewPlan&, diag::Findings&);
void field_needlessly_large(const Context&, const plan::ViewPlan&, diag::Findings&);
void field_too_tight(const Context&, const plan::ViewPlan&, diag::Findings&);
void picture_shape_differs(const Context&, const plan::ViewPlan&, diag::Findings&);
void held_the_other_way(const Context&, const plan::ViewPlan&, diag::Findings&);
void sides_differ(const Context&, const plan::ViewPlan&, diag::Findings&);
void ratio_without_sensor(const Context&, const plan::ViewPlan&, diag::Findings&);
void focus_beside_sharp_teeth(const Context&, const plan::ViewPlan&, diag::Findings&);
void light_unlike_asked(const Context&, const plan::ViewPlan&, diag::Findings&);
void frosting_due(const Context&, const plan::ViewPlan&, diag::Findings&);
void glint_from_plastic(const Context&, const plan::ViewPlan&, diag::Findings&);
void retractor_end_unsuited(const Context&, const plan::ViewPlan&, diag::Findings&);
void retractor_in_mirrors_place(const Context&, const plan::ViewPlan&, diag::Findings&);
void teeth_closed_on_mirror(const Context&, const plan::ViewPlan&, diag::Findings&);
void insertion_unsaid(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_may_fog(const Context&, const plan::ViewPlan&, diag::Findings&);
void tongue_unsaid(const Context&, const plan::ViewPlan&, diag::Findings&);
void lamp_turns_with_camera(const Context&, const plan::ViewPlan&, diag::Findings&);
void lamp_on_wrong_side(const Context&, const plan::ViewPlan&, diag::Findings&);
void room_light_shows(const Context&, const plan::ViewPlan&, diag::Findings&);
void shutter_too_short(const Context&, const plan::ViewPlan&, diag::Findings&);
void movement_blurs(const Context&, const plan::ViewPlan&, diag::Findings&);
void automatic_flash_in_mirror(const Context&, const plan::ViewPlan&, diag::Findings&);
void reference_shot_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void reference_shot_stale(const Context&, const plan::ViewPlan&, diag::Findings&);
void exposure_test_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void no_room_before_lens(const Context&, const plan::ViewPlan&, diag::Findings&);
void lamp_too_close(const Context&, const plan::ViewPlan&, diag::Findings&);
void processing_wait_too_short(const Context&, const plan::ViewPlan&, diag::Findings&);
void camera_hand_in_mouth(const Context&, const plan::ViewPlan&, diag::Findings&);
void print_cannot_be_turned(const Context&, const plan::ViewPlan&, diag::Findings&);
void guide_in_mirror_view(const Context&, const plan::ViewPlan&, diag::Findings&);
void pull_alike_in_side_view(const Context&, const plan::ViewPlan&, diag::Findings&);
void retractor_goes_in_dry(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_packed_with_instruments(const Context&, const plan::ViewPlan&, diag::Findings&);
void smaller_mirror_would_do(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_not_needed(const Context&, const plan::ViewPlan&, diag::Findings&);
void missing_tooth_shown(const Context&, const plan::ViewPlan&, diag::Findings&);
void code_with_additions(const Context&, const plan::ViewPlan&, diag::Findings&);
void nothing_to_turn_over(const Context&, const plan::ViewPlan&, diag::Findings&);
void grey_cards_poor(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_loss_uncertain(const Context&, const plan::ViewPlan&, diag::Findings&);
void frame_larger_than_field(const Context&, const plan::ViewPlan&, diag::Findings&);
void guide_keeps_other_distance(const Context&, const plan::ViewPlan&, diag::Findings&);
void lamp_in_mirror(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_on_other_side(const Context&, const plan::ViewPlan&, diag::Findings&);
void mouth_both_ways(const Context&, const plan::ViewPlan&, diag::Findings&);
void iso_out_of_reach(const Context&, const plan::ViewPlan&, diag::Findings&);
void fallback_asks_as_much(const Context&, const plan::ViewPlan&, diag::Findings&);
void fallback_not_shown(const Context&, const plan::ViewPlan&, diag::Findings&);
void revision_missing(const Context&, diag::Findings&);
void review_overdue(const Context&, diag::Findings&);
void consent_missing(const Context&, diag::Findings&);
void acceptance_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void retakes_without_limit(const Context&, const plan::ViewPlan&, diag::Findings&);
void no_fallback(const Context&, const plan::ViewPlan&, diag::Findings&);
void view_never_used(const Context&, const plan::ViewPlan&, diag::Findings&);
void view_twice_in_series(const Context&, const plan::SeriesPlan&, diag::Findings&);
void goes_in_twice(const Context&, const plan::SeriesPlan&, diag::Findings&);
void many_insertions(const Context&, const plan::SeriesPlan&, diag::Findings&);
void long_in_the_mouth(const Context&, const plan::SeriesPlan&, diag::Findings&);
void record_keeping_unsaid(const Context&, diag::Findings&);
void care_unsaid(const Context&, const plan::ViewPlan&, diag::Findings&);

} // namespace norma::rules
