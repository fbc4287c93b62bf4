// Every number that norma takes for granted, with where it comes from. docs/model.md shows this
// table; a test holds the two against each other.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>

#include "physics/quantity.hpp"

namespace norma::physics {

enum class Origin { published, handbook, assumed };

struct Default {
  std::string_view name;
  double value;
  std::string_view unit;
  Origin origin;
  std::string_view source;
  double spread = 0; // one standard deviation among people, where it is published
};

namespace defaults {

// Adult arches. Widths are between the right and the left landmark that the name says.
inline constexpr Default upper_canine_width{"upper canines apart, cusp tips", 35.2, "mm",
                                            Origin::published,
                                            "mean of both sexes, Wankhede et al., J Oral "
                                            "Maxillofac Pathol 2023;27:121-129 (36.08 and 34.31)"};
inline constexpr Default lower_canine_width{
    "lower canines apart, cusp tips",          26.9, "mm", Origin::published,
    "76 casts, Class I, Nepal: 26.85 +- 1.59", 1.59};
inline constexpr Default upper_molar_width{
    "upper first molars apart, facial-axis points",       57.92, "mm", Origin::published,
    "Mina et al., Odontology 2017;105:229-236 (+- 4.75)", 4.75};
inline constexpr Default lower_molar_width{
    "lower first molars apart, facial-axis points",       54.19, "mm", Origin::published,
    "Mina et al., Odontology 2017;105:229-236 (+- 5.31)", 5.31};

// Arches at about nine years.
inline constexpr Default upper_canine_width_mixed{
    "upper milk canines apart at 9 years", 31.67, "mm", Origin::published,
    "525 children, revestomatologia.sld.cu article 623; landmark not stated, cusp tips assumed"};
inline constexpr Default lower_canine_width_mixed{
    "lower milk canines apart at 9 years", 25.61, "mm", Origin::published,
    "525 children, revestomatologia.sld.cu article 623; landmark not stated, cusp tips assumed"};
inline constexpr Default upper_molar_width_mixed{
    "upper first molars apart at 9 years, middles", 43.38, "mm", Origin::handbook,
    "Moyers et al. 1976, mean of both sexes at 8 and 10 years (from memory)"};
inline constexpr Default lower_molar_width_mixed{
    "lower first molars apart at 9 years, middles", 40.93, "mm", Origin::handbook,
    "Moyers et al. 1976, mean of both sexes at 8 and 10 years (from memory)"};

// Arches of milk teeth. The curve is laid through the place where the first permanent molars come:
// no width between milk molars was found.
inline constexpr Default upper_canine_width_milk{
    "upper milk canines apart at 3 years", 27.3, "mm", Origin::published,
    "525 children, revestomatologia.sld.cu article 623; landmark not stated, cusp tips assumed; "
    "nearly steady until the incisors change: Tsujino and Machida, Jpn J Pediatr Dent "
    "1997;35:670-683"};
inline constexpr Default lower_canine_width_milk{
    "lower milk canines apart at 3 years", 23.19, "mm", Origin::published,
    "525 children, revestomatologia.sld.cu article 623; landmark not stated, cusp tips assumed"};
inline constexpr Default upper_spaces{
    "spaces between the upper front teeth and first premolars, together", 0, "mm", Origin::handbook,
    "neighbours touch (Wheeler's Dental Anatomy, from memory); teeth that are smaller than the "
    "handbook's leave spaces in an arch of usual width"};
inline constexpr Default lower_spaces{
    "spaces between the lower front teeth and first premolars, together", 0, "mm", Origin::handbook,
    "neighbours touch (Wheeler's Dental Anatomy, from memory); teeth that are smaller than the "
    "handbook's leave spaces in an arch of usual width"};
inline constexpr Default upper_spaces_milk{
    "spaces between the upper milk front teeth and molars, together", 4, "mm", Origin::handbook,
    "mean, 0 to 8, by textbooks of children's dentistry (from memory); without them the teeth are "
    "too small for the width"};
inline constexpr Default lower_spaces_milk{
    "spaces between the lower milk front teeth and molars, together", 3, "mm", Origin::handbook,
    "mean, 1 to 7, by textbooks of children's dentistry (from memory); without them the teeth are "
    "too small for the width"};
inline constexpr Default upper_molar_width_milk{
    "upper first molars apart at 6 years, middles", 41.6, "mm", Origin::handbook,
    "Moyers et al. 1976, mean of both sexes (from memory)"};
inline constexpr Default lower_molar_width_milk{
    "lower first molars apart at 6 years, middles", 40.1, "mm", Origin::handbook,
    "Moyers et al. 1976, mean of both sexes (from memory)"};

inline constexpr Default canine_tip{
    "canine's tip outside of the line through the contacts", 1.0, "mm", Origin::assumed,
    "norma's choice: at 0 the upper incisors would stand in a hollow, which no arch does"};

// How the jaws meet.
inline constexpr Default overjet{"lower incisors behind the upper ones", 2.5, "mm", Origin::assumed,
                                 "common teaching, 2 to 3 mm (from memory)"};
inline constexpr Default overbite{"lower incisors above the upper edges", 2.5, "mm",
                                  Origin::assumed, "common teaching, 2 to 3 mm (from memory)"};
inline constexpr Default curve_of_spee{
    "depth of the curve of Spee", 2.17, "mm", Origin::published,
    "at 12.4 years, then steady: Marshall et al., AJODO 2008;134:344-352"};

inline constexpr Default curve_of_spee_mixed{
    "depth of the curve of Spee at 9 years", 1.64, "mm", Origin::published,
    "between 1.32 at 6.9 and 2.17 at 12.4 years: Marshall et al., AJODO 2008;134:344-352"};

inline constexpr Default curve_of_spee_milk{"depth of the curve of Spee, milk teeth", 0.25, "mm",
                                            Origin::published,
                                            "0.24 to 0.25 at 4 to 5 years: Marshall et al., AJODO "
                                            "2008;134:344-352"};

// How the lower jaw opens: a hinge at first, then the condyles slide forwards as well.
inline constexpr Default condyle_distance{"condyle to the contact of the lower incisors", 101.6,
                                          "mm", Origin::handbook,
                                          "Bonwill's triangle, four inches a side (from memory)"};
inline constexpr Default balkwill_angle{"Bonwill's triangle to the biting plane", 26, "deg",
                                        Origin::handbook, "Balkwill's angle (from memory)"};
inline constexpr Default hinge_opening{"opening up to which the jaw only turns", 17, "mm",
                                       Origin::handbook, "Woelfel's Dental Anatomy, 2014"};
inline constexpr Default condyle_slide{"slide of the condyles at 46 mm opening", 13, "mm",
                                       Origin::assumed,
                                       "norma's choice; 10 to 15 in teaching "
                                       "(from memory)"};
inline constexpr Default condyle_path{"path of the condyles, downwards from the biting plane", 30,
                                      "deg", Origin::assumed, "norma's choice (from memory)"};
inline constexpr Default opened_wide{"mouth opened wide", 44.3, "mm", Origin::published,
                                     "greatest opening of women, +- 6.7 (men 51.3 +- 8.3): "
                                     "PMC3428458"};

inline constexpr Default opened_wide_mixed{
    "mouth opened wide at about 10 years", 45, "mm", Origin::published,
    "mean greatest opening of 20,719 children, mean age 10: Muller et al., Pediatr Rheumatol "
    "2013;11:17"};

inline constexpr Default palate_height{
    "height of the palate over the biting edges, at the first molars", 15.61, "mm",
    Origin::published, "109 adult casts, +- 2.7: Alaqeely et al., Medicina 2025"};

inline constexpr Default floor_depth{"floor of the mouth under the biting edges of the lower teeth",
                                     20, "mm", Origin::assumed, "norma's choice: no value found"};

// Shapes of crowns, where the tables give sizes only.
inline constexpr Default incisor_edge{"thickness of an incisor's edge", 1.5, "mm", Origin::assumed,
                                      "norma's choice"};
inline constexpr Default canine_edge{"thickness of a canine at its tip", 2.5, "mm", Origin::assumed,
                                     "norma's choice"};
inline constexpr Default table_share{"biting surface of a back tooth, share of its depth", 0.62, "",
                                     Origin::assumed, "norma's choice"};
inline constexpr Default face_sag{"curve of a tooth's face across its width, share of the width",
                                  0.12, "", Origin::assumed, "norma's choice"};
inline constexpr Default contact_height{
    "greatest width of a crown, share of its height from the edge", 0.35, "", Origin::assumed,
    "norma's choice"};
inline constexpr Default crest_height{
    "greatest depth of a crown, share of its height from the edge", 0.6, "", Origin::assumed,
    "norma's choice"};

// Corner of the mouth, drawn aside by a retractor: from the midline and behind the incisors. Nobody
// has published it; results that rest on it are warnings at most.
inline constexpr Default corner_side_light{"corner of the mouth from the midline, light pull", 31,
                                           "mm", Origin::assumed, "no published value found"};
inline constexpr Default corner_back_light{"corner of the mouth behind the incisors, light pull",
                                           14, "mm", Origin::assumed, "no published value found"};
inline constexpr Default corner_side_even{"corner of the mouth from the midline, even pull", 34,
                                          "mm", Origin::assumed, "no published value found"};
inline constexpr Default corner_back_even{"corner of the mouth behind the incisors, even pull", 20,
                                          "mm", Origin::assumed, "no published value found"};
inline constexpr Default corner_side_firm{"corner of the mouth from the midline, firm pull", 38,
                                          "mm", Origin::assumed, "no published value found"};
inline constexpr Default corner_back_firm{"corner of the mouth behind the incisors, firm pull", 28,
                                          "mm", Origin::assumed, "no published value found"};

inline constexpr Default lip_clear{"lips held clear of the front teeth's necks by", 4, "mm",
                                   Origin::assumed, "norma's choice: no published value found"};
inline constexpr Default shown_share{"share of a tooth's surface that must be seen", 0.5, "",
                                     Origin::assumed, "norma's choice"};
inline constexpr Default mirror_share{
    "share of a tooth's surface, of what is turned to the lens, that must lie in the mirror", 0.9,
    "", Origin::assumed, "norma's choice: what must show is whole; a corner of it may be lost"};
inline constexpr Default lit_share{"share of what is seen of a tooth that must be lit", 0.9, "",
                                   Origin::assumed, "norma's choice"};
inline constexpr Default shadow_filled{
    "share of the light of several lamp heads that is enough to fill a shadow", 0.25, "",
    Origin::assumed, "norma's choice: two stops, as a fill of 1 : 3 leaves (common practice)"};
inline constexpr Default turned_straight{
    "largest angle at which a tooth's surface counts as shown, view straight ahead", 80, "deg",
    Origin::assumed, "the faces of 14 to 16 stand far round by nature"};
inline constexpr Default turned_elsewhere{
    "largest angle at which a tooth's surface counts as shown, other views", 60, "deg",
    Origin::assumed, "norma's choice"};
inline constexpr Default squarely{"largest angle at which a tooth's surface is seen squarely", 45,
                                  "deg", Origin::assumed, "norma's choice"};

// A retractor's blade, for what it mirrors.
inline constexpr Default blade_radius{"retractor's blade, radius of its hook in plan", 5, "mm",
                                      Origin::assumed, "norma's choice"};
inline constexpr Default blade_height{"retractor's blade, height", 24, "mm", Origin::assumed,
                                      "norma's choice"};
inline constexpr Default blade_bend{"retractor's blade, bent back at both ends by", 30, "deg",
                                    Origin::assumed, "norma's choice"};

// Light and optics.
inline constexpr Default blur{
    "blur allowed on a sensor of 36 x 24 mm", 0.030, "mm", Origin::handbook,
    "convention of depth-of-field tables; in proportion to the diagonal elsewhere"};
inline constexpr Default airy{"width of the Airy disc counted, in wavelengths times f-number", 1.03,
                              "", Origin::handbook,
                              "full width at half maximum of the Airy pattern"};
inline constexpr Default pupil{"pupil ratio where the kit gives none", 1, "", Origin::assumed,
                               "a symmetrical lens"};
inline constexpr Default shortest_lens{
    "shortest lens for a close-up, where none is known", 40, "mm", Origin::assumed,
    "norma's choice: behind the focus a shorter lens is sharp farther back"};
inline constexpr Default glass_index{
    "refractive index of a mirror's glass where the kit gives none", 1.52, "", Origin::handbook,
    "crown glass"};
inline constexpr Default mirror_angle{"mirror opened from the biting plane", 45, "deg",
                                      Origin::published,
                                      "draft ANSI/ADA 1100 (2025); common practice"};
inline constexpr Default mirror_corner{"corner radius of a rounded mirror, share of its width",
                                       0.25, "", Origin::assumed, "norma's choice"};
inline constexpr Default mirror_gap{"mirror's back edge behind the last tooth", 2, "mm",
                                    Origin::assumed, "it does not touch the last tooth"};
inline constexpr Default loss_good_for{"months until a mirror's loss is measured again", 12,
                                       "months", Origin::assumed, "norma's choice"};
inline constexpr Default frosting_good_for{
    "months until frosting is looked at, where cycles are not counted", 6, "months",
    Origin::assumed, "common practice, no source: sterilising wears it off in six to twelve"};
inline constexpr Default shot_good_for{"months until a lamp's reference shot is taken again", 12,
                                       "months", Origin::assumed, "norma's choice"};
inline constexpr Default ambient_margin{"room's light under the flash by at least", 5, "stops",
                                        Origin::assumed,
                                        "norma's choice: at 5 stops it adds 3 % of the light"};
inline constexpr Default daylight{"colour temperature of daylight", 5500, "K", Origin::handbook,
                                  "photographic daylight, ISO 7589 (from memory)"};
inline constexpr Default white_balance_off{
    "white balance off the lamp's colour by at most", 20, "mired", Origin::assumed,
    "norma's choice: some four of the least steps that are seen side by side, 5.5 mired (Judd, J "
    "Opt Soc Am 1933;23:7-14, from memory)"};
inline constexpr Default patient_moves{"movement across the picture in a second", 5, "mm",
                                       Origin::assumed, "norma's choice"};
inline constexpr Default field_used{
    "share of the picture that what must show takes, at least", 0.4, "", Origin::assumed,
    "norma's choice; told only where the view has a ratio of its own"};
inline constexpr Default room_to_spare{"room around what must show, each side", 0.5, "mm",
                                       Origin::assumed, "norma's choice"};

// What a patient is asked to bear.
inline constexpr Default insertions_most{"times something goes into the mouth in one series", 12,
                                         "", Origin::assumed, "norma's choice"};
inline constexpr Default minutes_most{"minutes in the mouth in one series", 10, "min",
                                      Origin::assumed, "norma's choice"};
inline constexpr Default minutes_for_view{"minutes that one view takes", 1, "min", Origin::assumed,
                                          "norma's choice"};
inline constexpr Default minutes_for_insertion{"minutes that one insertion takes", 0.5, "min",
                                               Origin::assumed, "norma's choice"};

// Measuring.
inline constexpr Default meter_constant{"C of incident-light meters, flat receptor", 250, "lx s",
                                        Origin::published, "ISO 2720"};
inline constexpr Default clipped_dark{"grey card clipped at or below", 5, "of 255", Origin::assumed,
                                      "norma's choice"};
inline constexpr Default clipped_bright{"grey card clipped at or above", 250, "of 255",
                                        Origin::assumed, "norma's choice"};
inline constexpr Default outlier_limit{
    "robust standard deviations beyond which a pair is an outlier", 3.5, "", Origin::handbook,
    "Iglewicz and Hoaglin, How to Detect and Handle Outliers, ASQC 1993 (from memory)"};
inline constexpr Default outlier_spread{"least robust standard deviation of a mirror's loss", 0.03,
                                        "stop", Origin::assumed, "one value of 255 in middle grey"};
inline constexpr Default outlier_pairs{"pairs from which on outliers are looked for", 4, "",
                                       Origin::assumed, "norma's choice"};

// How far shots are off what is planned.
inline constexpr Default camera_angle_off{
    "camera off its angle, aside and in height, one standard deviation", 3, "deg", Origin::assumed,
    "norma's choice: no published value found"};
inline constexpr Default camera_roll_off{"camera turned about its axis, one standard deviation", 2,
                                         "deg", Origin::assumed,
                                         "norma's choice: no published value found"};
inline constexpr Default camera_distance_off{"camera off its distance, one standard deviation", 10,
                                             "mm", Origin::assumed,
                                             "norma's choice: no published value found"};
inline constexpr Default aim_off{"aim off, across and up, one standard deviation", 3, "mm",
                                 Origin::assumed, "norma's choice: no published value found"};
inline constexpr Default focus_off{"plane that is sharp off, one standard deviation", 1, "mm",
                                   Origin::assumed, "norma's choice: no published value found"};
inline constexpr Default mirror_angle_off{
    "mirror off its angle, opened and turned, one standard deviation", 3, "deg", Origin::assumed,
    "norma's choice: no published value found"};
inline constexpr Default mirror_slide_off{"mirror slid along its length, one standard deviation", 2,
                                          "mm", Origin::assumed,
                                          "norma's choice: no published value found"};
inline constexpr Default corner_off{
    "corner of the mouth off, aside and back, one standard deviation", 2, "mm", Origin::assumed,
    "norma's choice: no published value found"};

// How positions are said at the chair.
inline constexpr Default thumb_breadth{"breadth of a thumb", 20, "mm", Origin::handbook,
                                       "ANSUR, mean of men and women (from memory)"};
inline constexpr Default hand_breadth{"breadth of a hand, without the thumb", 80, "mm",
                                      Origin::handbook,
                                      "ANSUR, mean of men and women (from memory)"};
inline constexpr Default careful_angle{"slip of a careful hand, angle", 1, "deg", Origin::assumed,
                                       "norma's choice: no published value found"};
inline constexpr Default careful_length{"slip of a careful hand, length", 1, "mm", Origin::assumed,
                                        "norma's choice: no published value found"};
inline constexpr Default roundest_angle{"a camera's angle is said no farther off than", 5, "deg",
                                        Origin::assumed, "norma's choice"};

inline constexpr Default at_edge{"share of the picture within which a tooth lies at its edge", 0.1,
                                 "", Origin::assumed, "norma's choice"};
inline constexpr Default alike_at_edge{"teeth that lie alike at an edge, apart", 1, "mm",
                                       Origin::assumed, "norma's choice"};

/// What a patient's mouth is built from: sizes that a clinic can set in place of the published
/// means.
inline constexpr std::array anatomy{&upper_canine_width,
                                    &lower_canine_width,
                                    &upper_molar_width,
                                    &lower_molar_width,
                                    &upper_canine_width_mixed,
                                    &lower_canine_width_mixed,
                                    &upper_molar_width_mixed,
                                    &lower_molar_width_mixed,
                                    &upper_canine_width_milk,
                                    &lower_canine_width_milk,
                                    &upper_molar_width_milk,
                                    &lower_molar_width_milk,
                                    &upper_spaces,
                                    &lower_spaces,
                                    &upper_spaces_milk,
                                    &lower_spaces_milk,
                                    &canine_tip,
                                    &overjet,
                                    &overbite,
                                    &curve_of_spee,
                                    &curve_of_spee_mixed,
                                    &curve_of_spee_milk,
                                    &condyle_distance,
                                    &balkwill_angle,
                                    &hinge_opening,
                                    &condyle_slide,
                                    &condyle_path,
                                    &palate_height,
                                    &floor_depth,
                                    &incisor_edge,
                                    &canine_edge,
                                    &table_share,
                                    &face_sag,
                                    &contact_height,
                                    &crest_height};

/// How views are planned and judged.
inline constexpr std::array others{&opened_wide,
                                   &opened_wide_mixed,
                                   &corner_side_light,
                                   &corner_back_light,
                                   &corner_side_even,
                                   &corner_back_even,
                                   &corner_side_firm,
                                   &corner_back_firm,
                                   &lip_clear,
                                   &shown_share,
                                   &mirror_share,
                                   &lit_share,
                                   &shadow_filled,
                                   &turned_straight,
                                   &turned_elsewhere,
                                   &squarely,
                                   &blade_radius,
                                   &blade_height,
                                   &blade_bend,
                                   &blur,
                                   &airy,
                                   &pupil,
                                   &shortest_lens,
                                   &glass_index,
                                   &mirror_angle,
                                   &mirror_corner,
                                   &mirror_gap,
                                   &loss_good_for,
                                   &frosting_good_for,
                                   &shot_good_for,
                                   &ambient_margin,
                                   &daylight,
                                   &white_balance_off,
                                   &patient_moves,
                                   &field_used,
                                   &room_to_spare,
                                   &insertions_most,
                                   &minutes_most,
                                   &minutes_for_view,
                                   &minutes_for_insertion,
                                   &meter_constant,
                                   &clipped_dark,
                                   &clipped_bright,
                                   &outlier_limit,
                                   &outlier_spread,
                                   &outlier_pairs,
                                   &camera_angle_off,
                                   &camera_roll_off,
                                   &camera_distance_off,
                                   &aim_off,
                                   &focus_off,
                                   &mirror_angle_off,
                                   &mirror_slide_off,
                                   &corner_off,
                                   &thumb_breadth,
                                   &hand_breadth,
                                   &careful_angle,
                                   &careful_length,
                                   &roundest_angle,
                                   &at_edge,
                                   &alike_at_edge};

inline constexpr auto all = [] {
  std::array<const Default*, anatomy.size() + others.size()> out{};
  std::copy(others.begin(), others.end(), std::copy(anatomy.begin(), anatomy.end(), out.begin()));
  return out;
}();

} // namespace defaults
} // namespace norma::physics
