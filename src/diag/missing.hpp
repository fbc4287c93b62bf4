// The data for want of which a question stays open: one row each. Their texts stand in src/wording
// under `missing.` and the name.
#pragma once

#include "diag/sentence.hpp"

namespace norma::diag {

// clang-format off
// NORMA_MISSING(name, number of arguments)
#define NORMA_ALL_MISSING(NORMA_MISSING) \
  NORMA_MISSING(model_of_them, 0) \
  NORMA_MISSING(this_patients_sizes, 0) \
  NORMA_MISSING(kit, 0) \
  NORMA_MISSING(readable_kit, 0) \
  NORMA_MISSING(kit_named, 2) \
  NORMA_MISSING(adopted, 0) \
  /* Data of a view, by the part of the planner that wants them */ \
  NORMA_MISSING(frames, 0) \
  NORMA_MISSING(guides, 0) \
  NORMA_MISSING(given_camera, 0) \
  NORMA_MISSING(given_opening, 0) \
  NORMA_MISSING(thirds, 0) \
  NORMA_MISSING(jaw_in_mirror, 0) \
  NORMA_MISSING(must_show, 0) \
  NORMA_MISSING(one_side, 0) \
  NORMA_MISSING(place_of_mirror, 0) \
  NORMA_MISSING(which_mirror, 0) \
  NORMA_MISSING(aperture_to_set, 0) \
  NORMA_MISSING(flash_duration, 0) \
  NORMA_MISSING(iso, 0) \
  NORMA_MISSING(room_light, 0) \
  NORMA_MISSING(shortest_shutter, 0) \
  NORMA_MISSING(shutter, 0) \
  NORMA_MISSING(camera_looks_from, 0) \
  NORMA_MISSING(model_of_the_rest, 0) \
  NORMA_MISSING(model_of_a_face, 0) \
  NORMA_MISSING(place_in_mean_arch, 2) \
  NORMA_MISSING(size_of, 1) \
  NORMA_MISSING(tooth_of_those_named, 0) \
  NORMA_MISSING(tooth_said_missing, 1) \
  NORMA_MISSING(tooth_of_the_chair, 0) \
  NORMA_MISSING(what_must_show, 0) \
  NORMA_MISSING(where_lies, 1) \
  NORMA_MISSING(who_holds, 1) \
  NORMA_MISSING(retractor_held, 0) \
  NORMA_MISSING(finish_of_retractors, 0) \
  NORMA_MISSING(lamp, 0) \
  NORMA_MISSING(lamp_temperature, 0) \
  NORMA_MISSING(preset_temperature, 0) \
  NORMA_MISSING(white_balances, 0) \
  NORMA_MISSING(file_formats, 0) \
  NORMA_MISSING(last_visit, 0) \
  NORMA_MISSING(kind_of_lamp, 0) \
  NORMA_MISSING(side_of_lamp, 0) \
  NORMA_MISSING(upright_turn, 0) \
  NORMA_MISSING(meter, 0) \
  NORMA_MISSING(camera_exposes, 0) \
  NORMA_MISSING(reference_or_guide_number, 0) \
  NORMA_MISSING(settings_of_view, 1) \
  NORMA_MISSING(whole_reference_shot, 0) \
  NORMA_MISSING(working_distance, 0) \
  NORMA_MISSING(day_measured, 0) \
  NORMA_MISSING(day_measured_ahead, 0) \
  NORMA_MISSING(glass, 0) \
  NORMA_MISSING(grey_cards, 1) \
  NORMA_MISSING(loss, 1) \
  NORMA_MISSING(silver, 0) \
  NORMA_MISSING(wanted_picture, 0) \
  NORMA_MISSING(focal_length, 0) \
  NORMA_MISSING(lens, 0) \
  NORMA_MISSING(lens_ratios, 0) \
  NORMA_MISSING(one_ratio, 0) \
  NORMA_MISSING(pixels, 0) \
  NORMA_MISSING(close_up_in_reach, 0) \
  NORMA_MISSING(ratio, 0) \
  NORMA_MISSING(ratio_of_camera, 0) \
  NORMA_MISSING(sensor, 0) \
  NORMA_MISSING(sensor_of_ratios, 0) \
  NORMA_MISSING(working_distance_at, 1) \
  NORMA_MISSING(working_distances, 0) \
  NORMA_MISSING(aperture_of_view_or_lens, 0) \
  NORMA_MISSING(aperture_or_sharp, 0) \
  NORMA_MISSING(focused_tooth, 0) \
  NORMA_MISSING(sharp_tooth_that_stands, 0) \
  NORMA_MISSING(what_must_be_sharp, 0) \
  NORMA_MISSING(day_frosted, 1) \
  NORMA_MISSING(day_frosted_ahead, 1) \
  NORMA_MISSING(day_taken, 0) \
  NORMA_MISSING(day_taken_ahead, 0) \
  /* For the scene */ \
  NORMA_MISSING(arch_widths, 0) \
  NORMA_MISSING(childrens_teeth, 0) \
  NORMA_MISSING(patients, 0) \
  NORMA_MISSING(scene_left_out, 0) \
  NORMA_MISSING(shorter_protocol, 1) \
  NORMA_MISSING(word_for, 0) \
  NORMA_MISSING(camera_and_mouth, 0) \
  NORMA_MISSING(lamp_place, 0) \
  NORMA_MISSING(lamp_offset, 0) \
  NORMA_MISSING(ring_radius, 0) \
  NORMA_MISSING(heads_apart, 0) \
  NORMA_MISSING(model_of_second_lamp, 0) \
  NORMA_MISSING(light_of_each_lamp, 0) \
  NORMA_MISSING(corner_by_mirror, 0) \
  NORMA_MISSING(jaw_shown_in_mirror, 0) \
  NORMA_MISSING(mirror_length, 0) \
  NORMA_MISSING(mirror_of_kit, 0) \
  NORMA_MISSING(mirror_place, 0) \
  NORMA_MISSING(mirror_width, 0) \
  NORMA_MISSING(narrow_end, 0) \
  NORMA_MISSING(aim, 0) \
  NORMA_MISSING(focal_length_and_ratio, 0) \
  NORMA_MISSING(mouth_opening, 0) \
  NORMA_MISSING(possible_opening, 0) \
  NORMA_MISSING(ratio_and_sensor, 0) \
  NORMA_MISSING(retractor_of_side, 0) \
  NORMA_MISSING(retractors, 0) \
  NORMA_MISSING(teeth_apart, 0)
// clang-format on

namespace missing {
#define NORMA_MISSING(name, count) inline constexpr Sentence<count> name{"missing." #name};
NORMA_ALL_MISSING(NORMA_MISSING)
#undef NORMA_MISSING
} // namespace missing

} // namespace norma::diag
