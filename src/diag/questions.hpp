// What nobody can say while a datum is missing: one row for each open question. Its texts stand in
// src/wording under `question.` and the name.
#pragma once

#include "diag/sentence.hpp"

namespace norma::diag {

// clang-format off
// NORMA_QUESTION(name, number of arguments)
#define NORMA_QUESTIONS(NORMA_QUESTION) \
  NORMA_QUESTION(scene_hidden, 0) \
  NORMA_QUESTION(light_falls, 0) \
  NORMA_QUESTION(lamp_shadow, 0) \
  NORMA_QUESTION(second_lamp, 0) \
  NORMA_QUESTION(retractors_glare, 0) \
  NORMA_QUESTION(lamp_sent_back, 0) \
  NORMA_QUESTION(aperture_to_set, 0) \
  NORMA_QUESTION(teeth_sharp, 0) \
  NORMA_QUESTION(shown_sharp, 0) \
  NORMA_QUESTION(flash_enough, 0) \
  NORMA_QUESTION(exposure_differs, 0) \
  NORMA_QUESTION(mirror_costs, 0) \
  NORMA_QUESTION(lamp_distance_adds, 0) \
  NORMA_QUESTION(camera_distance, 0) \
  NORMA_QUESTION(fits_picture, 0) \
  NORMA_QUESTION(item_shown, 1) \
  NORMA_QUESTION(item_sharp, 1) \
  NORMA_QUESTION(lens_reaches, 0) \
  NORMA_QUESTION(enough_pixels, 0) \
  NORMA_QUESTION(picture_turned, 0) \
  NORMA_QUESTION(second_image, 0) \
  NORMA_QUESTION(second_image_beside, 0) \
  NORMA_QUESTION(loss_holds, 0) \
  NORMA_QUESTION(shot_holds, 0) \
  NORMA_QUESTION(frosting_holds, 0) \
  NORMA_QUESTION(kit_has_guide, 0) \
  NORMA_QUESTION(kit_has_frame, 0) \
  NORMA_QUESTION(room_light, 0) \
  NORMA_QUESTION(white_balance_set, 0) \
  NORMA_QUESTION(white_balance_fits, 0) \
  NORMA_QUESTION(file_format_written, 0) \
  NORMA_QUESTION(as_last_visit, 1) \
  NORMA_QUESTION(movement, 0) \
  NORMA_QUESTION(shutter_open, 0) \
  NORMA_QUESTION(hands_enough, 0) \
  NORMA_QUESTION(retractor_holds_itself, 0) \
  NORMA_QUESTION(cheek_gives_way, 0) \
  NORMA_QUESTION(mirror_shows_camera, 0) \
  NORMA_QUESTION(mirror_stands_so, 1) \
  NORMA_QUESTION(third_seen, 0) \
  NORMA_QUESTION(fallback_seen, 0) \
  NORMA_QUESTION(picture_free, 1) \
  NORMA_QUESTION(accepted_comes_up, 1) \
  NORMA_QUESTION(record_settled, 0) \
  NORMA_QUESTION(what_else_hides, 0) \
  NORMA_QUESTION(this_patient, 0)
// clang-format on

namespace question {
#define NORMA_QUESTION(name, count) inline constexpr Sentence<count> name{"question." #name};
NORMA_QUESTIONS(NORMA_QUESTION)
#undef NORMA_QUESTION
} // namespace question

} // namespace norma::diag
