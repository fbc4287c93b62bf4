#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {
namespace {

constexpr Rule view_rules[] = {
    field_too_small,
    ratio_out_of_reach,
    no_aperture_holds,
    diffraction_softens,
    tooth_in_shadow,
    glare_from_metal,
    mirror_loss_unknown,
    mirror_loss_stale,
    mirror_offset_differs,
    flash_cannot_deliver,
    ghost_from_rear_surface,
    picture_turn_missing,
    picture_impossible,
    code_contradicts_view,
    instrument_missing,
    too_many_hands,
    distance_too_short,
    aperture_out_of_reach,
    tooth_hidden,
    tooth_turned_away,
    mirror_too_narrow,
    mirror_does_not_fit,
    field_needlessly_large,
    field_too_tight,
    picture_shape_differs,
    held_the_other_way,
    sides_differ,
    ratio_without_sensor,
    focus_beside_sharp_teeth,
    light_unlike_asked,
    frosting_due,
    glint_from_plastic,
    retractor_end_unsuited,
    retractor_in_mirrors_place,
    teeth_closed_on_mirror,
    insertion_unsaid,
    mirror_may_fog,
    tongue_unsaid,
    lamp_turns_with_camera,
    lamp_on_wrong_side,
    room_light_shows,
    shutter_too_short,
    movement_blurs,
    automatic_flash_in_mirror,
    reference_shot_missing,
    reference_shot_stale,
    exposure_test_missing,
    no_room_before_lens,
    lamp_too_close,
    processing_wait_too_short,
    camera_hand_in_mouth,
    print_cannot_be_turned,
    guide_in_mirror_view,
    pull_alike_in_side_view,
    retractor_goes_in_dry,
    mirror_packed_with_instruments,
    smaller_mirror_would_do,
    mirror_not_needed,
    missing_tooth_shown,
    code_with_additions,
    nothing_to_turn_over,
    acceptance_missing,
    retakes_without_limit,
    no_fallback,
    view_never_used,
    care_unsaid,
    grey_cards_poor,
    mirror_loss_uncertain,
    frame_larger_than_field,
    guide_keeps_other_distance,
    lamp_in_mirror,
    mirror_on_other_side,
    mouth_both_ways,
    iso_out_of_reach,
    fallback_asks_as_much,
    fallback_not_shown,
};
constexpr SeriesRule series_rules[] = {view_twice_in_series, goes_in_twice, many_insertions,
                                       long_in_the_mouth};
constexpr ProtocolRule protocol_rules[] = {revision_missing, review_overdue, consent_missing,
                                           record_keeping_unsaid};

} // namespace

void apply(const Context& context, diag::Findings& out) {
  for (const Rule rule : view_rules) {
    for (const plan::ViewPlan& view : context.plan.views)
      rule(context, view, out);
  }
  for (const SeriesRule rule : series_rules) {
    for (const plan::SeriesPlan& series : context.plan.series)
      rule(context, series, out);
  }
  for (const ProtocolRule rule : protocol_rules)
    rule(context, out);
}

diag::Diagnostic& report(diag::Findings& out, const Context& context, const plan::ViewPlan& view,
                         diag::Diagnostic d) {
  std::string kit;
  if (context.kit != nullptr) kit = context.kit->name.value_or("");
  d.about(plan::label(context.protocol, *view.view), std::move(kit));
  return out.add(std::move(d));
}

diag::Diagnostic& report_of_view(diag::Findings& out, const Context& context,
                                 const plan::ViewPlan& view, diag::Diagnostic d) {
  d.about(plan::label(context.protocol, *view.view));
  return out.add(std::move(d));
}

bool shows_lower_jaw(const model::View& view) {
  if (view.must_show.known()) {
    const model::Faces& faces = view.must_show.get();
    return std::none_of(faces.begin(), faces.end(),
                        [](const model::NamedFace& f) { return f.tooth.is_upper(); });
  }
  const auto& things = view.things_shown;
  return things.known() &&
         std::find(things->begin(), things->end(), "lower ridge") != things->end();
}

text::Span entry_span(const model::Series& series, std::string_view view) {
  const auto entry = std::find_if(series.entries.begin(), series.entries.end(),
                                  [&](const model::SeriesEntry& e) { return e.view == view; });
  return entry == series.entries.end() ? series.span : entry->span;
}

void note_fallback(const plan::ViewPlan& view, diag::Diagnostic& d) {
  const std::string seen = view.facts.text(fact::fallback_seen);
  if (!seen.empty()) d.with_note("what `or else show` names is seen: " + seen);
  if (view.facts.get(fact::fallback_without_room))
    d.with_note("for what `or else show` names the mirror has no room either");
}

diag::Evidence evidence(const plan::Facts& facts, const plan::FactRow& actual,
                        diag::Relation relation, const plan::FactRow& limit) {
  const plan::Fact* a = facts.find(actual);
  const plan::Fact* l = facts.find(limit);
  return {std::string(actual.label), actual.kind, a == nullptr ? 0 : a->number, relation,
          l == nullptr ? 0 : l->number};
}

} // namespace norma::rules
