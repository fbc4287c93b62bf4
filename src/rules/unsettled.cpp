#include "rules/unsettled.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"
#include "diag/questions.hpp"

namespace norma::rules {
namespace {

namespace catalogue = diag::catalogue;
namespace question = diag::question;

constexpr Unsettled table[] = {
    {&catalogue::tooth_hidden, &question::scene_hidden},
    {&catalogue::tooth_hidden, &question::item_shown},
    {&catalogue::tooth_turned_away, &question::scene_hidden},
    {&catalogue::tooth_turned_away, &question::item_shown},
    {&catalogue::unwanted_shows, &question::picture_free},
    {&catalogue::tolerance_too_wide, &question::scene_hidden},
    {&catalogue::mirror_too_narrow, &question::scene_hidden},
    {&catalogue::mirror_too_narrow, &question::item_shown},
    {&catalogue::mirror_does_not_fit, &question::scene_hidden},
    {&catalogue::mirror_does_not_fit, &question::item_shown},
    {&catalogue::fallback_not_shown, &question::scene_hidden},
    {&catalogue::smaller_mirror_would_do, &question::scene_hidden},
    {&catalogue::mirror_not_needed, &question::scene_hidden},
    {&catalogue::tooth_in_shadow, &question::scene_hidden},
    {&catalogue::tooth_in_shadow, &question::light_falls},
    {&catalogue::tooth_in_shadow, &question::lamp_shadow},
    {&catalogue::lamp_in_mirror, &question::scene_hidden},
    {&catalogue::lamp_in_mirror, &question::light_falls},
    {&catalogue::glare_from_metal, &question::retractors_glare},
    {&catalogue::glare_from_metal, &question::lamp_sent_back},
    {&catalogue::glint_from_plastic, &question::retractors_glare},
    {&catalogue::glint_from_plastic, &question::lamp_sent_back},
    {&catalogue::lamp_on_wrong_side, &question::light_falls},
    {&catalogue::lamp_turns_with_camera, &question::light_falls},
    {&catalogue::lamp_too_close, &question::light_falls},
    {&catalogue::lamp_too_close, &question::camera_distance},
    {&catalogue::light_unlike_asked, &question::light_falls},
    {&catalogue::diffraction_softens, &question::aperture_to_set},
    {&catalogue::aperture_out_of_reach, &question::aperture_to_set},
    {&catalogue::no_aperture_holds, &question::aperture_to_set},
    {&catalogue::no_aperture_holds, &question::teeth_sharp},
    {&catalogue::no_aperture_holds, &question::item_sharp},
    {&catalogue::focus_beside_sharp_teeth, &question::teeth_sharp},
    {&catalogue::focus_beside_sharp_teeth, &question::item_sharp},
    {&catalogue::flash_cannot_deliver, &question::flash_enough},
    {&catalogue::mirror_offset_differs, &question::exposure_differs},
    {&catalogue::mirror_offset_differs, &question::mirror_costs},
    {&catalogue::mirror_loss_uncertain, &question::mirror_costs},
    {&catalogue::mirror_loss_stale, &question::loss_holds},
    {&catalogue::reference_shot_stale, &question::shot_holds},
    {&catalogue::frosting_due, &question::frosting_holds},
    {&catalogue::distance_too_short, &question::camera_distance},
    {&catalogue::distance_differs, &question::camera_distance},
    {&catalogue::no_room_before_lens, &question::camera_distance},
    {&catalogue::guide_keeps_other_distance, &question::camera_distance},
    {&catalogue::guide_keeps_other_distance, &question::kit_has_guide},
    {&catalogue::frame_larger_than_field, &question::kit_has_frame},
    {&catalogue::field_too_small, &question::fits_picture},
    {&catalogue::field_too_small, &question::item_shown},
    {&catalogue::field_needlessly_large, &question::fits_picture},
    {&catalogue::field_needlessly_large, &question::item_shown},
    {&catalogue::field_too_tight, &question::fits_picture},
    {&catalogue::field_too_tight, &question::item_shown},
    {&catalogue::picture_shape_differs, &question::fits_picture},
    {&catalogue::held_the_other_way, &question::fits_picture},
    {&catalogue::ratio_out_of_reach, &question::lens_reaches},
    {&catalogue::picture_turn_missing, &question::picture_turned},
    {&catalogue::picture_impossible, &question::picture_turned},
    {&catalogue::print_cannot_be_turned, &question::picture_turned},
    {&catalogue::code_contradicts_view, &question::picture_turned},
    {&catalogue::room_light_shows, &question::room_light},
    {&catalogue::white_balance_out_of_reach, &question::white_balance_set},
    {&catalogue::white_balance_off_lamp, &question::white_balance_fits},
    {&catalogue::file_format_out_of_reach, &question::file_format_written},
    {&catalogue::movement_blurs, &question::movement},
    {&catalogue::shutter_too_short, &question::shutter_open},
    {&catalogue::ghost_from_rear_surface, &question::second_image},
    {&catalogue::too_many_hands, &question::hands_enough},
    {&catalogue::retractor_needs_hand, &question::retractor_holds_itself},
};

} // namespace

std::span<const Unsettled> unsettled_table() { return table; }

diag::Said missing_for(const diag::Definition& finding, const plan::ViewPlan& view) {
  for (const Unsettled& row : table) {
    if (row.finding != &finding) continue;
    const auto open =
        std::find_if(view.open.begin(), view.open.end(),
                     [&](const plan::OpenQuestion& q) { return q.what.row == row.question; });
    if (open != view.open.end()) return open->missing;
  }
  return {};
}

} // namespace norma::rules
