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
  NORMA_MISSING(adopted, 0) \
  /* For the scene */ \
  NORMA_MISSING(place_in_mean_arch, 2) \
  NORMA_MISSING(tooth_of_those_named, 0) \
  NORMA_MISSING(tooth_said_missing, 1) \
  NORMA_MISSING(arch_widths, 0) \
  NORMA_MISSING(childrens_teeth, 0) \
  NORMA_MISSING(patients, 0) \
  NORMA_MISSING(scene_left_out, 0) \
  NORMA_MISSING(shorter_protocol, 1) \
  NORMA_MISSING(word_for, 0) \
  NORMA_MISSING(camera_and_mouth, 0) \
  NORMA_MISSING(lamp_place, 0) \
  NORMA_MISSING(kind_of_lamp, 0) \
  NORMA_MISSING(lamp_offset, 0) \
  NORMA_MISSING(ring_radius, 0) \
  NORMA_MISSING(side_of_lamp, 0) \
  NORMA_MISSING(working_distance, 0) \
  NORMA_MISSING(corner_by_mirror, 0) \
  NORMA_MISSING(jaw_shown_in_mirror, 0) \
  NORMA_MISSING(mirror_length, 0) \
  NORMA_MISSING(mirror_of_kit, 0) \
  NORMA_MISSING(mirror_place, 0) \
  NORMA_MISSING(mirror_width, 0) \
  NORMA_MISSING(narrow_end, 0) \
  NORMA_MISSING(which_mirror, 0) \
  NORMA_MISSING(aim, 0) \
  NORMA_MISSING(camera_looks_from, 0) \
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
