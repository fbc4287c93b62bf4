#include "rules/unsettled.hpp"

#include <algorithm>

namespace norma::rules {
namespace {

constexpr std::string_view hidden = "whether teeth, gum, lips or cheeks hide what must show";
constexpr std::string_view light = "whether the light falls right";
constexpr std::string_view shadow = "whether the lamp throws a shadow on the teeth";
constexpr std::string_view glare = "whether the retractors glare";
constexpr std::string_view sent_back = "whether a retractor sends the lamp back to the lens";
constexpr std::string_view aperture = "which aperture to set";
constexpr std::string_view sharp = "whether the named teeth are sharp";
constexpr std::string_view flash = "whether the flash gives enough light";
constexpr std::string_view differs =
    "by how much the exposure differs from the view it is to match";
constexpr std::string_view cost = "what the mirror costs in light";
constexpr std::string_view distance = "how far the camera stands";
constexpr std::string_view fits = "whether what must show fits into the picture";
constexpr std::string_view reach = "whether the lens reaches the ratio";
constexpr std::string_view turned = "which way the picture must be turned";
constexpr std::string_view second_image = "whether the mirror gives a second image";

constexpr Unsettled table[] = {
    {"tooth_hidden", hidden},
    {"tooth_turned_away", hidden},
    {"mirror_too_narrow", hidden},
    {"mirror_does_not_fit", hidden},
    {"fallback_not_shown", hidden},
    {"smaller_mirror_would_do", hidden},
    {"mirror_not_needed", hidden},
    {"tooth_in_shadow", hidden},
    {"tooth_in_shadow", light},
    {"tooth_in_shadow", shadow},
    {"lamp_in_mirror", hidden},
    {"lamp_in_mirror", light},
    {"glare_from_metal", glare},
    {"glare_from_metal", sent_back},
    {"glint_from_plastic", glare},
    {"glint_from_plastic", sent_back},
    {"lamp_on_wrong_side", light},
    {"lamp_turns_with_camera", light},
    {"lamp_too_close", light},
    {"lamp_too_close", distance},
    {"light_unlike_asked", light},
    {"diffraction_softens", aperture},
    {"aperture_out_of_reach", aperture},
    {"no_aperture_holds", aperture},
    {"no_aperture_holds", sharp},
    {"focus_beside_sharp_teeth", sharp},
    {"flash_cannot_deliver", flash},
    {"mirror_offset_differs", differs},
    {"mirror_offset_differs", cost},
    {"mirror_loss_uncertain", cost},
    {"mirror_loss_stale", "whether the mirror's loss still holds"},
    {"reference_shot_stale", "whether the lamp's reference shot still holds"},
    {"frosting_due", "whether the frosting still holds"},
    {"distance_too_short", distance},
    {"no_room_before_lens", distance},
    {"guide_keeps_other_distance", distance},
    {"guide_keeps_other_distance", "whether the kit has the guide"},
    {"frame_larger_than_field", "whether the kit has the frame"},
    {"field_too_small", fits},
    {"field_needlessly_large", fits},
    {"field_too_tight", fits},
    {"picture_shape_differs", fits},
    {"held_the_other_way", fits},
    {"ratio_out_of_reach", reach},
    {"picture_turn_missing", turned},
    {"picture_impossible", turned},
    {"print_cannot_be_turned", turned},
    {"code_contradicts_view", turned},
    {"room_light_shows", "whether the room's light shows in the picture"},
    {"movement_blurs", "whether movement blurs the picture"},
    {"shutter_too_short", "whether the shutter is open all over for the flash"},
    {"ghost_from_rear_surface", second_image},
    {"too_many_hands", "whether there are hands enough"},
};

} // namespace

std::span<const Unsettled> unsettled_table() { return table; }

std::string missing_for(std::string_view finding, const plan::ViewPlan& view) {
  for (const Unsettled& row : table) {
    if (row.finding != finding) continue;
    const auto open =
        std::find_if(view.open.begin(), view.open.end(),
                     [&](const plan::OpenQuestion& q) { return q.what == row.question; });
    if (open != view.open.end()) return open->missing;
  }
  return {};
}

} // namespace norma::rules
