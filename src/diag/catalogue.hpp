// Every finding norma can make, in one list. S syntax, R names and structure, M meaning and units,
// K kits, P the plan against the kit. A code keeps its meaning for good.
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
inline constexpr Def<Text> edit_without_base{{"R015", "edit_without_base", error}, "`{}` changes a base protocol, and this protocol builds on none"};
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
inline constexpr Def<Text, Text> range_across_jaws{{"M009", "range_across_jaws", error}, "{} to {} is no run of teeth in one jaw"};
inline constexpr Def<Text, Text> not_a_mark{{"M010", "not_a_mark", error}, "f/{} is not on the aperture scale; the marks beside it are {}"};
inline constexpr Def<Text> no_such_date{{"M011", "no_such_date", error}, "there is no day {}"};
inline constexpr Def<Text> unknown_code{{"M012", "unknown_code", error}, "`{}` is not a standard view code"};
inline constexpr Def<Text> milk_tooth{{"M013", "milk_tooth", warning}, "{} is a milk tooth, and the protocol is for adults"};
inline constexpr Def<Text> block_out_of_place{{"M014", "block_out_of_place", error}, "{}"};
inline constexpr Def<Text> also_not_a_list{{"M015", "also_not_a_list", error}, "nothing can be added to `{}`: it is not a list"};
inline constexpr Def<Text, Text> nothing_filled_in{{"M016", "nothing_filled_in", error}, "`that {}` speaks of something that is named at the chair, and the view has no `{}`"};

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
inline constexpr Def<Text, Text> mirror_too_narrow{{"P021", "mirror_too_narrow", warning}, "`{}` ends before it shows {}"};
inline constexpr Def<Text, Text> mirror_does_not_fit{{"P022", "mirror_does_not_fit", warning}, "`{}` has no room: {}"};
// clang-format on

/// All rows above, in order of their codes.
std::span<const Definition* const> all();
/// By code or by name, upper and lower case alike; null where there is none.
const Definition* find(std::string_view code_or_name);

} // namespace norma::diag::catalogue
