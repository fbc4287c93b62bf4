#include "diag/catalogue.hpp"

#include <algorithm>
#include <array>

namespace norma::diag::catalogue {
namespace {

// One line for each row of the header; a test holds the two against each other.
constexpr std::array rows = std::to_array<const Definition*>({
    &not_text,
    &unreadable,
    &string_not_closed,
    &block_not_closed,
    &brace_closes_nothing,
    &too_deep,
    &comma_for_point,
    &no_word_first,
    &line_break_missing,
    &nothing_after_comma,

    &edition_missing,
    &edition_unknown,
    &protocol_missing,
    &name_taken,
    &unknown_view,
    &goes_in_circles,
    &said_twice,
    &both_and_side,
    &side_in_text,
    &wrong_jaw,
    &base_unreadable,
    &base_outside,
    &base_name_differs,
    &built_too_deep,
    &edit_without_base,
    &source_dropped,
    &dropped_from_series,
    &fixed_by_base,
    &accept_unknown,
    &accept_meets_nothing,
    &nothing_inherited,
    &nothing_to_remove,
    &protocol_too_large,

    &unknown_word,
    &misplaced_word,
    &wrong_value,
    &missing_value,
    &unknown_unit,
    &wrong_unit,
    &out_of_range,
    &not_a_tooth,
    &range_across_jaws,
    &not_a_mark,
    &no_such_date,
    &unknown_code,
    &milk_tooth,
    &block_out_of_place,
    &also_not_a_list,
    &nothing_filled_in,

    &not_yaml,
    &kit_empty,
    &unknown_key,
    &key_twice,
    &alias_in_kit,
    &second_document,
    &missing_key,
    &wrong_kit_value,
    &kit_value_range,
    &kit_too_deep,
    &tag_in_kit,
    &leading_zero,

    &field_too_small,
    &ratio_out_of_reach,
    &no_aperture_holds,
    &diffraction_softens,
    &tooth_in_shadow,
    &glare_from_metal,
    &mirror_loss_unknown,
    &mirror_loss_stale,
    &mirror_offset_differs,
    &flash_cannot_deliver,
    &ghost_from_rear_surface,
    &picture_turn_missing,
    &picture_impossible,
    &code_contradicts_view,
    &instrument_missing,
    &too_many_hands,
    &distance_too_short,
    &aperture_out_of_reach,
    &tooth_hidden,
    &tooth_turned_away,
    &mirror_too_narrow,
    &mirror_does_not_fit,
    &field_needlessly_large,
    &field_too_tight,
    &picture_shape_differs,
    &held_the_other_way,
    &sides_differ,
    &ratio_without_sensor,
    &focus_beside_sharp_teeth,
    &light_unlike_asked,
    &frosting_due,
    &glint_from_plastic,
    &retractor_end_unsuited,
    &retractor_in_mirrors_place,
    &teeth_closed_on_mirror,
    &insertion_unsaid,
    &mirror_may_fog,
    &tongue_unsaid,
    &lamp_turns_with_camera,
    &lamp_on_wrong_side,
    &room_light_shows,
    &shutter_too_short,
    &movement_blurs,
    &automatic_flash_in_mirror,
    &reference_shot_missing,
    &reference_shot_stale,
    &exposure_test_missing,
    &no_room_before_lens,
    &lamp_too_close,
    &processing_wait_too_short,
    &camera_hand_in_mouth,
    &print_cannot_be_turned,
    &guide_in_mirror_view,
    &pull_alike_in_side_view,
    &retractor_goes_in_dry,
    &mirror_packed_with_instruments,
    &smaller_mirror_would_do,
    &mirror_not_needed,
    &missing_tooth_shown,
    &code_with_additions,
    &nothing_to_turn_over,
    &grey_cards_poor,
    &mirror_loss_uncertain,
    &frame_larger_than_field,
    &guide_keeps_other_distance,

    &revision_missing,
    &review_overdue,
    &consent_missing,
    &acceptance_missing,
    &retakes_without_limit,
    &no_fallback,
    &view_never_used,
    &view_twice_in_series,
    &goes_in_twice,
    &many_insertions,
    &long_in_the_mouth,
    &record_keeping_unsaid,
    &care_unsaid,
});

bool alike(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
}

} // namespace

std::span<const Definition* const> all() { return rows; }

const Definition* find(std::string_view code_or_name) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Definition* d) {
    return alike(d->code, code_or_name) || alike(d->name, code_or_name);
  });
  return found == rows.end() ? nullptr : *found;
}

} // namespace norma::diag::catalogue
