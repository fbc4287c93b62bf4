// Every finding norma can make, in one list. S syntax, R names and structure, M meaning and units,
// K kits and project files, P the plan against the kit, Q the protocol as a whole. A code keeps its
// meaning for good. The messages stand in src/wording under the code; Def<n>: a message with n
// arguments.
#pragma once

#include <span>
#include <string_view>

#include "diag/diagnostic.hpp"

namespace norma::diag::catalogue {

inline constexpr Severity error = Severity::error;
inline constexpr Severity warning = Severity::warning;
inline constexpr Severity advice = Severity::advice;

// clang-format off

// S: the text itself ------------------------------------------------------------------------------
inline constexpr Def<1> not_text{"S001", "not_text", error};
inline constexpr Def<1> unreadable{"S002", "unreadable", error};
inline constexpr Def<0> string_not_closed{"S003", "string_not_closed", error};
inline constexpr Def<1> block_not_closed{"S004", "block_not_closed", error};
inline constexpr Def<0> brace_closes_nothing{"S005", "brace_closes_nothing", error};
inline constexpr Def<1> too_deep{"S006", "too_deep", error};
inline constexpr Def<1> comma_for_point{"S007", "comma_for_point", error};
inline constexpr Def<1> no_word_first{"S008", "no_word_first", error};
inline constexpr Def<0> line_break_missing{"S009", "line_break_missing", error};
inline constexpr Def<0> nothing_after_comma{"S010", "nothing_after_comma", error};

// R: names and structure --------------------------------------------------------------------------
inline constexpr Def<0> edition_missing{"R001", "edition_missing", error};
inline constexpr Def<1> edition_unknown{"R002", "edition_unknown", error};
inline constexpr Def<0> protocol_missing{"R003", "protocol_missing", error};
inline constexpr Def<1> name_taken{"R004", "name_taken", error};
inline constexpr Def<1> unknown_view{"R005", "unknown_view", error};
inline constexpr Def<1> goes_in_circles{"R006", "goes_in_circles", error};
inline constexpr Def<1> said_twice{"R007", "said_twice", error};
inline constexpr Def<1> both_and_side{"R008", "both_and_side", error};
inline constexpr Def<1> side_in_text{"R009", "side_in_text", warning};
inline constexpr Def<2> wrong_jaw{"R010", "wrong_jaw", error};
inline constexpr Def<2> base_unreadable{"R011", "base_unreadable", error};
inline constexpr Def<1> base_outside{"R012", "base_outside", error};
inline constexpr Def<3> base_name_differs{"R013", "base_name_differs", error};
inline constexpr Def<1> built_too_deep{"R014", "built_too_deep", error};
inline constexpr Def<2> edit_without_base{"R015", "edit_without_base", error};
inline constexpr Def<2> source_dropped{"R016", "source_dropped", error};
inline constexpr Def<2> dropped_from_series{"R017", "dropped_from_series", error};
inline constexpr Def<3> fixed_by_base{"R018", "fixed_by_base", error};
inline constexpr Def<1> accept_unknown{"R019", "accept_unknown", error};
inline constexpr Def<2> accept_meets_nothing{"R020", "accept_meets_nothing", warning};
inline constexpr Def<1> nothing_inherited{"R021", "nothing_inherited", warning};
inline constexpr Def<1> nothing_to_remove{"R022", "nothing_to_remove", warning};
inline constexpr Def<1> protocol_too_large{"R023", "protocol_too_large", error};
inline constexpr Def<1> unknown_series{"R024", "unknown_series", error};
inline constexpr Def<3> base_moved{"R025", "base_moved", warning};
inline constexpr Def<1> no_fingerprint{"R026", "no_fingerprint", error};
inline constexpr Def<3> exception_over{"R027", "exception_over", warning};

// M: meaning and units ----------------------------------------------------------------------------
inline constexpr Def<1> unknown_word{"M001", "unknown_word", error};
inline constexpr Def<2> misplaced_word{"M002", "misplaced_word", error};
inline constexpr Def<2> wrong_value{"M003", "wrong_value", error};
inline constexpr Def<2> missing_value{"M004", "missing_value", error};
inline constexpr Def<1> unknown_unit{"M005", "unknown_unit", error};
inline constexpr Def<2> wrong_unit{"M006", "wrong_unit", error};
inline constexpr Def<2> out_of_range{"M007", "out_of_range", error};
inline constexpr Def<1> not_a_tooth{"M008", "not_a_tooth", error};
inline constexpr Def<2> range_across_jaws{"M009", "range_across_jaws", error};
inline constexpr Def<2> not_a_mark{"M010", "not_a_mark", error};
inline constexpr Def<1> no_such_date{"M011", "no_such_date", error};
inline constexpr Def<1> unknown_code{"M012", "unknown_code", error};
inline constexpr Def<1> milk_tooth{"M013", "milk_tooth", warning};
inline constexpr Def<1> block_out_of_place{"M014", "block_out_of_place", error};
inline constexpr Def<1> also_not_a_list{"M015", "also_not_a_list", error};
inline constexpr Def<2> nothing_filled_in{"M016", "nothing_filled_in", error};
inline constexpr Def<2> permanent_tooth{"M017", "permanent_tooth", warning};
inline constexpr Def<1> adults_with_milk_teeth{"M018", "adults_with_milk_teeth", error};
inline constexpr Def<1> range_backwards{"M019", "range_backwards", warning};

// K: kits and project files -----------------------------------------------------------------------
inline constexpr Def<1> not_yaml{"K001", "not_yaml", error};
inline constexpr Def<0> yaml_empty{"K002", "yaml_empty", error};
inline constexpr Def<1> unknown_key{"K003", "unknown_key", error};
inline constexpr Def<1> key_twice{"K004", "key_twice", error};
inline constexpr Def<0> alias_in_yaml{"K005", "alias_in_yaml", error};
inline constexpr Def<0> second_document{"K006", "second_document", error};
inline constexpr Def<2> missing_key{"K007", "missing_key", error};
inline constexpr Def<2> wrong_key_value{"K008", "wrong_key_value", error};
inline constexpr Def<2> key_value_range{"K009", "key_value_range", error};
inline constexpr Def<0> yaml_too_deep{"K010", "yaml_too_deep", error};
inline constexpr Def<0> tag_in_yaml{"K011", "tag_in_yaml", error};
inline constexpr Def<1> leading_zero{"K012", "leading_zero", error};

// P: the plan against the kit ---------------------------------------------------------------------
inline constexpr Def<3> field_too_small{"P001", "field_too_small", error};
inline constexpr Def<2> ratio_out_of_reach{"P002", "ratio_out_of_reach", error};
inline constexpr Def<2> no_aperture_holds{"P003", "no_aperture_holds", error};
inline constexpr Def<2> diffraction_softens{"P004", "diffraction_softens", warning};
inline constexpr Def<2> tooth_in_shadow{"P005", "tooth_in_shadow", warning};
inline constexpr Def<2> glare_from_metal{"P006", "glare_from_metal", warning};
inline constexpr Def<1> mirror_loss_unknown{"P007", "mirror_loss_unknown", warning};
inline constexpr Def<2> mirror_loss_stale{"P008", "mirror_loss_stale", warning};
inline constexpr Def<2> mirror_offset_differs{"P009", "mirror_offset_differs", warning};
inline constexpr Def<1> flash_cannot_deliver{"P010", "flash_cannot_deliver", error};
inline constexpr Def<2> ghost_from_rear_surface{"P011", "ghost_from_rear_surface", warning};
inline constexpr Def<0> picture_turn_missing{"P012", "picture_turn_missing", error};
inline constexpr Def<1> picture_impossible{"P013", "picture_impossible", error};
inline constexpr Def<2> code_contradicts_view{"P014", "code_contradicts_view", error};
inline constexpr Def<1> instrument_missing{"P015", "instrument_missing", error};
inline constexpr Def<3> too_many_hands{"P016", "too_many_hands", error};
inline constexpr Def<3> distance_too_short{"P017", "distance_too_short", error};
inline constexpr Def<2> aperture_out_of_reach{"P018", "aperture_out_of_reach", error};
inline constexpr Def<2> tooth_hidden{"P019", "tooth_hidden", warning};
inline constexpr Def<2> tooth_turned_away{"P020", "tooth_turned_away", warning};
inline constexpr Def<2> mirror_too_narrow{"P021", "mirror_too_narrow", warning};
inline constexpr Def<2> mirror_does_not_fit{"P022", "mirror_does_not_fit", warning};
inline constexpr Def<2> field_needlessly_large{"P023", "field_needlessly_large", advice};
inline constexpr Def<2> field_too_tight{"P024", "field_too_tight", advice};
inline constexpr Def<2> picture_shape_differs{"P025", "picture_shape_differs", advice};
inline constexpr Def<2> held_the_other_way{"P026", "held_the_other_way", advice};
inline constexpr Def<2> sides_differ{"P027", "sides_differ", warning};
inline constexpr Def<1> ratio_without_sensor{"P028", "ratio_without_sensor", warning};
inline constexpr Def<2> focus_beside_sharp_teeth{"P029", "focus_beside_sharp_teeth", advice};
inline constexpr Def<3> light_unlike_asked{"P030", "light_unlike_asked", warning};
inline constexpr Def<2> frosting_due{"P031", "frosting_due", warning};
inline constexpr Def<1> glint_from_plastic{"P032", "glint_from_plastic", advice};
inline constexpr Def<1> retractor_end_unsuited{"P033", "retractor_end_unsuited", advice};
inline constexpr Def<1> retractor_in_mirrors_place{"P034", "retractor_in_mirrors_place", error};
inline constexpr Def<1> teeth_closed_on_mirror{"P035", "teeth_closed_on_mirror", error};
inline constexpr Def<0> insertion_unsaid{"P036", "insertion_unsaid", advice};
inline constexpr Def<0> mirror_may_fog{"P037", "mirror_may_fog", advice};
inline constexpr Def<0> tongue_unsaid{"P038", "tongue_unsaid", advice};
inline constexpr Def<2> lamp_turns_with_camera{"P039", "lamp_turns_with_camera", advice};
inline constexpr Def<3> lamp_on_wrong_side{"P040", "lamp_on_wrong_side", warning};
inline constexpr Def<2> room_light_shows{"P041", "room_light_shows", warning};
inline constexpr Def<2> shutter_too_short{"P042", "shutter_too_short", error};
inline constexpr Def<2> movement_blurs{"P043", "movement_blurs", warning};
inline constexpr Def<1> automatic_flash_in_mirror{"P044", "automatic_flash_in_mirror", warning};
inline constexpr Def<1> reference_shot_missing{"P045", "reference_shot_missing", warning};
inline constexpr Def<2> reference_shot_stale{"P046", "reference_shot_stale", warning};
inline constexpr Def<1> exposure_test_missing{"P047", "exposure_test_missing", warning};
inline constexpr Def<2> no_room_before_lens{"P048", "no_room_before_lens", error};
inline constexpr Def<2> lamp_too_close{"P049", "lamp_too_close", warning};
inline constexpr Def<2> processing_wait_too_short{"P050", "processing_wait_too_short", warning};
inline constexpr Def<1> camera_hand_in_mouth{"P051", "camera_hand_in_mouth", error};
inline constexpr Def<0> print_cannot_be_turned{"P052", "print_cannot_be_turned", error};
inline constexpr Def<0> guide_in_mirror_view{"P053", "guide_in_mirror_view", warning};
inline constexpr Def<0> pull_alike_in_side_view{"P054", "pull_alike_in_side_view", advice};
inline constexpr Def<0> retractor_goes_in_dry{"P055", "retractor_goes_in_dry", advice};
inline constexpr Def<1> mirror_packed_with_instruments{"P056", "mirror_packed_with_instruments", advice};
inline constexpr Def<2> smaller_mirror_would_do{"P057", "smaller_mirror_would_do", advice};
inline constexpr Def<1> mirror_not_needed{"P058", "mirror_not_needed", advice};
inline constexpr Def<2> missing_tooth_shown{"P059", "missing_tooth_shown", error};
inline constexpr Def<2> code_with_additions{"P060", "code_with_additions", warning};
inline constexpr Def<1> nothing_to_turn_over{"P061", "nothing_to_turn_over", warning};
inline constexpr Def<2> grey_cards_poor{"P062", "grey_cards_poor", warning};
inline constexpr Def<2> mirror_loss_uncertain{"P063", "mirror_loss_uncertain", warning};
inline constexpr Def<2> frame_larger_than_field{"P064", "frame_larger_than_field", error};
inline constexpr Def<3> guide_keeps_other_distance{"P065", "guide_keeps_other_distance", warning};
inline constexpr Def<2> lamp_in_mirror{"P066", "lamp_in_mirror", warning};
inline constexpr Def<2> mirror_on_other_side{"P067", "mirror_on_other_side", error};
inline constexpr Def<2> mouth_both_ways{"P068", "mouth_both_ways", error};
inline constexpr Def<2> iso_out_of_reach{"P069", "iso_out_of_reach", error};
inline constexpr Def<1> fallback_asks_as_much{"P070", "fallback_asks_as_much", advice};
inline constexpr Def<1> fallback_not_shown{"P071", "fallback_not_shown", warning};
inline constexpr Def<3> wrong_side{"P072", "wrong_side", error};
inline constexpr Def<0> mirror_left_unused{"P073", "mirror_left_unused", error};
inline constexpr Def<2> title_names_other_side{"P074", "title_names_other_side", warning};
inline constexpr Def<1> head_turned_along{"P075", "head_turned_along", warning};
inline constexpr Def<1> blur_seen_by_eye{"P076", "blur_seen_by_eye", warning};
inline constexpr Def<2> white_balance_out_of_reach{"P077", "white_balance_out_of_reach", error};
inline constexpr Def<3> white_balance_off_lamp{"P078", "white_balance_off_lamp", warning};
inline constexpr Def<0> grey_card_not_taken{"P079", "grey_card_not_taken", warning};
inline constexpr Def<2> file_format_out_of_reach{"P080", "file_format_out_of_reach", error};
inline constexpr Def<1> retractor_needs_hand{"P081", "retractor_needs_hand", error};
inline constexpr Def<1> unwanted_shows{"P082", "unwanted_shows", warning};
inline constexpr Def<3> distance_differs{"P083", "distance_differs", warning};
inline constexpr Def<1> tolerance_too_wide{"P084", "tolerance_too_wide", warning};

// Q: the protocol as a whole: record, care, series --------------------------------------------------
inline constexpr Def<0> revision_missing{"Q001", "revision_missing", warning};
inline constexpr Def<1> review_overdue{"Q002", "review_overdue", warning};
inline constexpr Def<0> consent_missing{"Q003", "consent_missing", warning};
inline constexpr Def<0> acceptance_missing{"Q004", "acceptance_missing", advice};
inline constexpr Def<0> retakes_without_limit{"Q005", "retakes_without_limit", advice};
inline constexpr Def<1> no_fallback{"Q006", "no_fallback", advice};
inline constexpr Def<0> view_never_used{"Q007", "view_never_used", advice};
inline constexpr Def<2> view_twice_in_series{"Q008", "view_twice_in_series", warning};
inline constexpr Def<3> goes_in_twice{"Q009", "goes_in_twice", advice};
inline constexpr Def<2> many_insertions{"Q010", "many_insertions", advice};
inline constexpr Def<2> long_in_the_mouth{"Q011", "long_in_the_mouth", advice};
inline constexpr Def<1> record_keeping_unsaid{"Q012", "record_keeping_unsaid", advice};
inline constexpr Def<1> care_unsaid{"Q013", "care_unsaid", advice};
// clang-format on

/// All rows above, in order of their codes.
std::span<const Definition* const> all();
/// By code or by name, upper and lower case alike; null where there is none.
const Definition* find(std::string_view code_or_name);

} // namespace norma::diag::catalogue
