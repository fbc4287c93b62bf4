// Every finding norma can make, in one list. S syntax, R names and structure, M meaning and units,
// K kits, P the plan against the kit, Q the protocol as a whole. A code keeps its meaning for good.
#pragma once

#include <span>
#include <string_view>

#include "diag/diagnostic.hpp"

namespace norma::diag::catalogue {

using Text = std::string_view;
inline constexpr Severity error = Severity::error;
inline constexpr Severity warning = Severity::warning;
inline constexpr Severity advice = Severity::advice;

// clang-format off

// S: the text itself ------------------------------------------------------------------------------
inline constexpr Def<Text> not_text{{"S001", "not_text", error}, "this is not UTF-8 text: {}"};
inline constexpr Def<Text> unreadable{{"S002", "unreadable", error}, "cannot read `{}` here"};
inline constexpr Def<> string_not_closed{{"S003", "string_not_closed", error}, "this text has no closing quote on its line"};
inline constexpr Def<Text> block_not_closed{{"S004", "block_not_closed", error}, "the block of {} has no closing `}}`"};
inline constexpr Def<> brace_closes_nothing{{"S005", "brace_closes_nothing", error}, "this `}}` closes nothing"};
inline constexpr Def<int> too_deep{{"S006", "too_deep", error}, "blocks stand more than {} deep in each other"};
inline constexpr Def<Text> comma_for_point{{"S007", "comma_for_point", error}, "a comma stands inside the number `{}`"};
inline constexpr Def<Text> no_word_first{{"S008", "no_word_first", error}, "a statement starts with a word, not with {}"};
inline constexpr Def<> line_break_missing{{"S009", "line_break_missing", error}, "a new line is missing after `}}`"};
inline constexpr Def<> nothing_after_comma{{"S010", "nothing_after_comma", error}, "nothing follows this comma"};

// R: names and structure --------------------------------------------------------------------------
inline constexpr Def<> edition_missing{{"R001", "edition_missing", error}, "the file does not start with `norma 1`"};
inline constexpr Def<Text> edition_unknown{{"R002", "edition_unknown", error}, "this file is written for edition {} of the language; this norma knows edition 1"};
inline constexpr Def<> protocol_missing{{"R003", "protocol_missing", error}, "there is no protocol in this file"};
inline constexpr Def<Text> name_taken{{"R004", "name_taken", error}, "the name `{}` is taken"};
inline constexpr Def<Text> unknown_view{{"R005", "unknown_view", error}, "there is no view `{}` in this protocol"};
inline constexpr Def<Text> goes_in_circles{{"R006", "goes_in_circles", error}, "this leads back to where it starts: {}"};
inline constexpr Def<Text> said_twice{{"R007", "said_twice", error}, "`{}` is said twice here"};
inline constexpr Def<Text> both_and_side{{"R008", "both_and_side", error}, "`{} both` stands beside one for a single side"};
inline constexpr Def<Text> side_in_text{{"R009", "side_in_text", warning}, "a text with the word `{}` in it is taken over as it stands"};
inline constexpr Def<Text, Text> wrong_jaw{{"R010", "wrong_jaw", error}, "this view is made for the {0} jaw, but `{1}` shows the {0} jaw already"};
inline constexpr Def<Text, Text> base_unreadable{{"R011", "base_unreadable", error}, "the protocol `{}` that this one builds on cannot be read: {}"};
inline constexpr Def<Text> base_outside{{"R012", "base_outside", error}, "`{}` leads out of the folder that protocols are read from"};
inline constexpr Def<Text, Text, Text> base_name_differs{{"R013", "base_name_differs", error}, "{} holds the protocol `{}`, not `{}`"};
inline constexpr Def<int> built_too_deep{{"R014", "built_too_deep", error}, "protocols build on each other more than {} deep"};
inline constexpr Def<Text, Text> edit_without_base{{"R015", "edit_without_base", error}, "`{}` has nothing to change: {}"};
inline constexpr Def<Text, Text> source_dropped{{"R016", "source_dropped", error}, "view `{}` is dropped, and {} needs it"};
inline constexpr Def<Text, Text> dropped_from_series{{"R017", "dropped_from_series", error}, "view `{}` is dropped, and series `{}` lists it"};
inline constexpr Def<Text, Text, Text> fixed_by_base{{"R018", "fixed_by_base", error}, "`{}` of view `{}` is fixed by protocol `{}`"};
inline constexpr Def<Text> accept_unknown{{"R019", "accept_unknown", error}, "there is no finding with the name `{}`"};
inline constexpr Def<Text, Text> accept_meets_nothing{{"R020", "accept_meets_nothing", warning}, "there is nothing to accept: `{}` does not come up in view `{}`"};
inline constexpr Def<Text> nothing_inherited{{"R021", "nothing_inherited", warning}, "`also {}` adds to nothing: none is inherited here"};
inline constexpr Def<Text> nothing_to_remove{{"R022", "nothing_to_remove", warning}, "`no {}` removes nothing: none is inherited here"};
inline constexpr Def<Text> protocol_too_large{{"R023", "protocol_too_large", error}, "{}"};

// M: meaning and units ----------------------------------------------------------------------------
inline constexpr Def<Text> unknown_word{{"M001", "unknown_word", error}, "`{}` is not a word of the language"};
inline constexpr Def<Text, Text> misplaced_word{{"M002", "misplaced_word", error}, "`{}` does not belong in {}"};
inline constexpr Def<Text, Text> wrong_value{{"M003", "wrong_value", error}, "`{}` cannot stand here: {}"};
inline constexpr Def<Text, Text> missing_value{{"M004", "missing_value", error}, "`{}` needs {}"};
inline constexpr Def<Text> unknown_unit{{"M005", "unknown_unit", error}, "`{}` is not a unit norma knows"};
inline constexpr Def<Text, Text> wrong_unit{{"M006", "wrong_unit", error}, "`{}` is not {}"};
inline constexpr Def<Text, Text> out_of_range{{"M007", "out_of_range", error}, "`{}` cannot be: {}"};
inline constexpr Def<Text> not_a_tooth{{"M008", "not_a_tooth", error}, "there is no tooth {}"};
inline constexpr Def<Text, Text> range_across_jaws{{"M009", "range_across_jaws", error}, "{} to {} is no run of teeth"};
inline constexpr Def<Text, Text> not_a_mark{{"M010", "not_a_mark", error}, "f/{} is not on the aperture scale; the marks beside it are {}"};
inline constexpr Def<Text> no_such_date{{"M011", "no_such_date", error}, "there is no day {}"};
inline constexpr Def<Text> unknown_code{{"M012", "unknown_code", error}, "`{}` is not a standard view code"};
inline constexpr Def<Text> milk_tooth{{"M013", "milk_tooth", warning}, "milk teeth, {}, in a protocol for adults"};
inline constexpr Def<Text> block_out_of_place{{"M014", "block_out_of_place", error}, "{}"};
inline constexpr Def<Text> also_not_a_list{{"M015", "also_not_a_list", error}, "nothing can be added to `{}`: it is not a list"};
inline constexpr Def<Text, Text> nothing_filled_in{{"M016", "nothing_filled_in", error}, "`that {}` speaks of something that is named at the chair, and the view has no `{}`"};
inline constexpr Def<Text, Text> permanent_tooth{{"M017", "permanent_tooth", warning}, "permanent teeth, {}, in a protocol for children with {}"};
inline constexpr Def<Text> adults_with_milk_teeth{{"M018", "adults_with_milk_teeth", error}, "adults with {} are no group of patients: children have them"};

// K: kits -----------------------------------------------------------------------------------------
inline constexpr Def<Text> not_yaml{{"K001", "not_yaml", error}, "this is not YAML: {}"};
inline constexpr Def<> kit_empty{{"K002", "kit_empty", error}, "the kit file is empty"};
inline constexpr Def<Text> unknown_key{{"K003", "unknown_key", error}, "a kit has no key `{}` here"};
inline constexpr Def<Text> key_twice{{"K004", "key_twice", error}, "the key `{}` is given twice"};
inline constexpr Def<> alias_in_kit{{"K005", "alias_in_kit", error}, "a kit file has no anchors and aliases"};
inline constexpr Def<> second_document{{"K006", "second_document", error}, "a kit file holds one document; a second one starts here"};
inline constexpr Def<Text, Text> missing_key{{"K007", "missing_key", error}, "{} has no `{}`"};
inline constexpr Def<Text, Text> wrong_kit_value{{"K008", "wrong_kit_value", error}, "`{}` cannot stand here: {}"};
inline constexpr Def<Text, Text> kit_value_range{{"K009", "kit_value_range", error}, "`{}` cannot be: {}"};
inline constexpr Def<> kit_too_deep{{"K010", "kit_too_deep", error}, "the kit file is nested too deeply"};
inline constexpr Def<> tag_in_kit{{"K011", "tag_in_kit", error}, "a kit file has no tags"};
inline constexpr Def<Text> leading_zero{{"K012", "leading_zero", error}, "`{}` starts with a zero; YAML readers disagree on what it means"};

// P: the plan against the kit ---------------------------------------------------------------------
inline constexpr Def<Text, Text, Text> field_too_small{{"P001", "field_too_small", error}, "the {} of the field is {}, and what must show needs {}"};
inline constexpr Def<Text, Text> ratio_out_of_reach{{"P002", "ratio_out_of_reach", error}, "the lens cannot be set to {}; it goes {}"};
inline constexpr Def<Text> no_aperture_holds{{"P003", "no_aperture_holds", error}, "no aperture of the range holds {} sharp"};
inline constexpr Def<Text, Text> diffraction_softens{{"P004", "diffraction_softens", warning}, "at {} diffraction blurs every point to {} on the sensor, more than is allowed"};
inline constexpr Def<Text, Text> tooth_in_shadow{{"P005", "tooth_in_shadow", warning}, "the lamp throws a shadow on {}: {} stands in its way"};
inline constexpr Def<Text, Text> glare_from_metal{{"P006", "glare_from_metal", warning}, "polished metal mirrors the lamp into the lens: `{}` at {}"};
inline constexpr Def<Text> mirror_loss_unknown{{"P007", "mirror_loss_unknown", warning}, "nobody has measured what `{}` takes from the light"};
inline constexpr Def<Text, int> mirror_loss_stale{{"P008", "mirror_loss_stale", warning}, "the loss of `{}` was measured {} months ago"};
inline constexpr Def<Text, Text> mirror_offset_differs{{"P009", "mirror_offset_differs", warning}, "the protocol gives {} for this view, and with this kit it takes {}"};
inline constexpr Def<Text> flash_cannot_deliver{{"P010", "flash_cannot_deliver", error}, "{}"};
inline constexpr Def<Text, Text> ghost_from_rear_surface{{"P011", "ghost_from_rear_surface", warning}, "the mirror's silver lies behind glass: a second image stands {} beside the first, {} on the sensor"};
inline constexpr Def<> picture_turn_missing{{"P012", "picture_turn_missing", error}, "the picture is taken in a mirror, and nothing says how it is turned"};
inline constexpr Def<Text> picture_impossible{{"P013", "picture_impossible", error}, "the wanted picture cannot be had: {}"};
inline constexpr Def<Text, Text> code_contradicts_view{{"P014", "code_contradicts_view", error}, "code {} does not fit this view: {}"};
inline constexpr Def<Text> instrument_missing{{"P015", "instrument_missing", error}, "the kit has no {}"};
inline constexpr Def<Text, int, int> too_many_hands{{"P016", "too_many_hands", error}, "the {} has {} to hold, and {} hands"};
inline constexpr Def<Text, Text, Text> distance_too_short{{"P017", "distance_too_short", error}, "at {} the camera stands {} from the subject, and the view asks for at least {}"};
inline constexpr Def<Text, Text> aperture_out_of_reach{{"P018", "aperture_out_of_reach", error}, "the lens has no aperture of the range {}; {}"};
inline constexpr Def<Text, Text> tooth_hidden{{"P019", "tooth_hidden", warning}, "the lens does not see enough of {}, which must show: hidden by {}"};
inline constexpr Def<Text, Text> tooth_turned_away{{"P020", "tooth_turned_away", warning}, "the lens sees {} turned by more than {}, and they must show"};
inline constexpr Def<Text, Text> mirror_too_narrow{{"P021", "mirror_too_narrow", warning}, "`{}` ends before it shows all of {}"};
inline constexpr Def<Text, Text> mirror_does_not_fit{{"P022", "mirror_does_not_fit", warning}, "`{}` has no room: {}"};
inline constexpr Def<Text, Text> field_needlessly_large{{"P023", "field_needlessly_large", advice}, "what must show takes {} of the picture; {} and more is well used"};
inline constexpr Def<Text> field_too_tight{{"P024", "field_too_tight", advice}, "around what must show there is {} of room: the least slip of the camera cuts it"};
inline constexpr Def<Text, Text> picture_shape_differs{{"P025", "picture_shape_differs", advice}, "the kit's pictures are {}, and the protocol is made for {}"};
inline constexpr Def<Text, Text> held_the_other_way{{"P026", "held_the_other_way", advice}, "held {}, the camera sees less of it than held {}"};
inline constexpr Def<Text, Text> sides_differ{{"P027", "sides_differ", warning}, "this view and view `{}` of the other side are not alike: {}"};
inline constexpr Def<Text> ratio_without_sensor{{"P028", "ratio_without_sensor", warning}, "{} means another field on every sensor, and the protocol names none"};
inline constexpr Def<Text, Text> focus_beside_sharp_teeth{{"P029", "focus_beside_sharp_teeth", advice}, "the focus {} lies {} outside of what must be sharp"};
inline constexpr Def<Text, Text, Text> light_unlike_asked{{"P030", "light_unlike_asked", warning}, "{} is asked for, and `{}` is {}"};
inline constexpr Def<Text, Text> frosting_due{{"P031", "frosting_due", warning}, "the frosting of `{}` is due: {}"};
inline constexpr Def<Text> glint_from_plastic{{"P032", "glint_from_plastic", advice}, "clear plastic may glint at {}"};
inline constexpr Def<Text> retractor_end_unsuited{{"P033", "retractor_end_unsuited", advice}, "{}, and the patients are children"};
inline constexpr Def<Text> retractor_in_mirrors_place{{"P034", "retractor_in_mirrors_place", error}, "a mirror goes between cheek and teeth on the {0}, and a retractor is on the {0}, too"};
inline constexpr Def<> teeth_closed_on_mirror{{"P035", "teeth_closed_on_mirror", error}, "the mirror stands between the jaws, and the teeth are together"};
inline constexpr Def<> insertion_unsaid{{"P036", "insertion_unsaid", advice}, "the teeth are together, and nothing says how the mirror goes in"};
inline constexpr Def<> mirror_may_fog{{"P037", "mirror_may_fog", advice}, "nobody keeps the mirror from fogging"};
inline constexpr Def<> tongue_unsaid{{"P038", "tongue_unsaid", advice}, "a mirror shows the lower jaw, and nothing says where the tongue goes"};
inline constexpr Def<Text, Text> lamp_turns_with_camera{{"P039", "lamp_turns_with_camera", advice}, "the camera is upside down, and `{}` goes with it: it is at the {} of the lens"};
inline constexpr Def<Text, Text, Text> lamp_on_wrong_side{{"P040", "lamp_on_wrong_side", warning}, "the lamp is wanted towards {}, and `{}` is towards {}"};
inline constexpr Def<Text, Text> room_light_shows{{"P041", "room_light_shows", warning}, "the room's light, {}, {} the flash"};
inline constexpr Def<Text, Text> shutter_too_short{{"P042", "shutter_too_short", error}, "at {} the shutter is not open all over when the flash burns; the lamp needs {}"};
inline constexpr Def<Text, Text> movement_blurs{{"P043", "movement_blurs", warning}, "light falls for {}: a small movement blurs the picture by {} on the sensor"};
inline constexpr Def<Text> automatic_flash_in_mirror{{"P044", "automatic_flash_in_mirror", warning}, "`{}` meters the light itself, and in a mirror it meters what is beside the teeth"};
inline constexpr Def<Text> reference_shot_missing{{"P045", "reference_shot_missing", warning}, "nobody has taken a reference shot with `{}`: its power is worked out from the guide number"};
inline constexpr Def<Text, int> reference_shot_stale{{"P046", "reference_shot_stale", warning}, "the reference shot of `{}` is {} months old"};
inline constexpr Def<Text> exposure_test_missing{{"P047", "exposure_test_missing", warning}, "nobody has tested the exposure with `{}`"};
inline constexpr Def<Text, Text> no_room_before_lens{{"P048", "no_room_before_lens", error}, "at {} the teeth would have to be {}"};
inline constexpr Def<Text, Text> lamp_too_close{{"P049", "lamp_too_close", warning}, "the ring is {} from the teeth, less than its radius of {}"};
inline constexpr Def<Text, Text> processing_wait_too_short{{"P050", "processing_wait_too_short", warning}, "a print takes {}, and the series goes on {}"};
inline constexpr Def<Text> camera_hand_in_mouth{{"P051", "camera_hand_in_mouth", error}, "the operator holds the camera, and is to hold {}"};
inline constexpr Def<> print_cannot_be_turned{{"P052", "print_cannot_be_turned", error}, "the picture is a mirrored print, and a print cannot be flipped"};
inline constexpr Def<> guide_in_mirror_view{{"P053", "guide_in_mirror_view", warning}, "the guide rests on the chin, and the picture is taken in a mirror"};
inline constexpr Def<> pull_alike_in_side_view{{"P054", "pull_alike_in_side_view", advice}, "a side view, and both retractors are pulled alike"};
inline constexpr Def<> retractor_goes_in_dry{{"P055", "retractor_goes_in_dry", advice}, "the retractor goes in dry"};
inline constexpr Def<Text> mirror_packed_with_instruments{{"P056", "mirror_packed_with_instruments", advice}, "`{}` goes through the autoclave with other instruments"};
inline constexpr Def<Text, Text> smaller_mirror_would_do{{"P057", "smaller_mirror_would_do", advice}, "`{}` is chosen, and the narrower `{}` shows all that must show"};
inline constexpr Def<Text> mirror_not_needed{{"P058", "mirror_not_needed", advice}, "without the mirror, from {} and with a firm pull, all that must show is seen squarely, too"};
inline constexpr Def<Text, Text> missing_tooth_shown{{"P059", "missing_tooth_shown", error}, "{} {}, and the protocol says that the patients do not have it"};
inline constexpr Def<Text, Text> code_with_additions{{"P060", "code_with_additions", warning}, "code {} stands for the plain view, and this one has {} in it"};
inline constexpr Def<Text> nothing_to_turn_over{{"P061", "nothing_to_turn_over", warning}, "the mirror of the view before is turned over, and in series `{}` no such mirror comes before"};
inline constexpr Def<Text, Text> grey_cards_poor{{"P062", "grey_cards_poor", warning}, "the loss of `{}` rests on poor grey cards: {}"};
inline constexpr Def<Text, Text> mirror_loss_uncertain{{"P063", "mirror_loss_uncertain", warning}, "the loss of `{}` is known to {} only, give or take"};
inline constexpr Def<Text, Text> frame_larger_than_field{{"P064", "frame_larger_than_field", error}, "a frame of {} does not fit into the picture: it reaches {} beyond it"};
inline constexpr Def<Text, Text, Text> guide_keeps_other_distance{{"P065", "guide_keeps_other_distance", warning}, "the guide keeps the lens {} from the teeth, and at {} it is in focus at {}"};
inline constexpr Def<Text, Text> lamp_in_mirror{{"P066", "lamp_in_mirror", warning}, "`{}` shows the lamp itself, in the picture's {}"};
inline constexpr Def<Text, Text> mirror_on_other_side{{"P067", "mirror_on_other_side", error}, "the mirror is on the patient's {}, and what must show is on the {}"};
inline constexpr Def<Text, Text> mouth_both_ways{{"P068", "mouth_both_ways", error}, "{}, and {}: a mouth cannot be both"};
inline constexpr Def<Text, Text> iso_out_of_reach{{"P069", "iso_out_of_reach", error}, "the camera has no ISO {}: {}"};
inline constexpr Def<Text> fallback_asks_as_much{{"P070", "fallback_asks_as_much", advice}, "`or else show` asks for {}: where that cannot be had, it cannot either"};
inline constexpr Def<Text> fallback_not_shown{{"P071", "fallback_not_shown", warning}, "what `or else show` asks for cannot be had: {}"};

// Q: the protocol as a whole: record, care, series --------------------------------------------------
inline constexpr Def<> revision_missing{{"Q001", "revision_missing", warning}, "the protocol is adopted, and has no revision"};
inline constexpr Def<int> review_overdue{{"Q002", "review_overdue", warning}, "the protocol was to be looked at again {} days ago"};
inline constexpr Def<> consent_missing{{"Q003", "consent_missing", warning}, "the protocol is adopted, and says nothing of consent"};
inline constexpr Def<> acceptance_missing{{"Q004", "acceptance_missing", advice}, "nothing says when a picture is to be taken again"};
inline constexpr Def<> retakes_without_limit{{"Q005", "retakes_without_limit", advice}, "nothing says how often a picture is taken again"};
inline constexpr Def<Text> no_fallback{{"Q006", "no_fallback", advice}, "series `{}` needs this view, and nothing says what is done where it cannot be had"};
inline constexpr Def<> view_never_used{{"Q007", "view_never_used", advice}, "no series lists this view, and no other view falls back on it"};
inline constexpr Def<Text, Text> view_twice_in_series{{"Q008", "view_twice_in_series", warning}, "series `{}` lists view `{}` twice"};
inline constexpr Def<Text, Text, Text> goes_in_twice{{"Q009", "goes_in_twice", advice}, "in series `{}` the {} comes out and goes in again for view `{}`"};
inline constexpr Def<Text, int> many_insertions{{"Q010", "many_insertions", advice}, "in series `{}` something goes into the mouth {} times"};
inline constexpr Def<Text, Text> long_in_the_mouth{{"Q011", "long_in_the_mouth", advice}, "series `{}` holds the mouth for about {} minutes"};
inline constexpr Def<Text> record_keeping_unsaid{{"Q012", "record_keeping_unsaid", advice}, "the protocol is adopted, and says nothing of {}"};
inline constexpr Def<Text> care_unsaid{{"Q013", "care_unsaid", advice}, "{}, and nothing is said to the patient, and nothing about when to stop"};
// clang-format on

/// All rows above, in order of their codes.
std::span<const Definition* const> all();
/// By code or by name, upper and lower case alike; null where there is none.
const Definition* find(std::string_view code_or_name);

} // namespace norma::diag::catalogue
