// Every number that norma takes for granted, with where it comes from. docs/model.md shows this
// table; a test holds the two against each other.
#pragma once

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
};

namespace defaults {

// Adult arches. Widths are between the right and the left landmark that the name says.
inline constexpr Default upper_canine_width{"upper canines apart, cusp tips", 35.2, "mm",
                                            Origin::published,
                                            "mean of both sexes, Wankhede et al., J Oral "
                                            "Maxillofac Pathol 2023;27:121-129 (36.08 and 34.31)"};
inline constexpr Default lower_canine_width{"lower canines apart, cusp tips", 26.9, "mm",
                                            Origin::published,
                                            "76 casts, Class I, Nepal: 26.85 +- 1.59"};
inline constexpr Default upper_molar_width{"upper first molars apart, facial-axis points", 57.92,
                                           "mm", Origin::published,
                                           "Mina et al., Odontology 2017;105:229-236 (+- 4.75)"};
inline constexpr Default lower_molar_width{"lower first molars apart, facial-axis points", 54.19,
                                           "mm", Origin::published,
                                           "Mina et al., Odontology 2017;105:229-236 (+- 5.31)"};

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

// Light and optics.
inline constexpr Default blur{
    "blur allowed on a sensor of 36 x 24 mm", 0.030, "mm", Origin::handbook,
    "convention of depth-of-field tables; in proportion to the diagonal elsewhere"};
inline constexpr Default airy{"width of the Airy disc counted, in wavelengths times f-number", 1.03,
                              "", Origin::handbook,
                              "full width at half maximum of the Airy pattern"};
inline constexpr Default pupil{"pupil ratio where the kit gives none", 1, "", Origin::assumed,
                               "a symmetrical lens"};
inline constexpr Default glass_index{
    "refractive index of a mirror's glass where the kit gives none", 1.52, "", Origin::handbook,
    "crown glass"};
inline constexpr Default mirror_angle{"mirror opened from the biting plane", 45, "deg",
                                      Origin::published,
                                      "draft ANSI/ADA 1100 (2025); common practice"};
inline constexpr Default mirror_gap{"mirror's back edge behind the last tooth", 2, "mm",
                                    Origin::assumed, "it does not touch the last tooth"};
inline constexpr Default loss_good_for{"months until a mirror's loss is measured again", 12,
                                       "months", Origin::assumed, "norma's choice"};

inline constexpr std::array all{&upper_canine_width,
                                &lower_canine_width,
                                &upper_molar_width,
                                &lower_molar_width,
                                &canine_tip,
                                &overjet,
                                &overbite,
                                &curve_of_spee,
                                &incisor_edge,
                                &canine_edge,
                                &table_share,
                                &face_sag,
                                &contact_height,
                                &crest_height,
                                &corner_side_light,
                                &corner_back_light,
                                &corner_side_even,
                                &corner_back_even,
                                &corner_side_firm,
                                &corner_back_firm,
                                &blur,
                                &airy,
                                &pupil,
                                &glass_index,
                                &mirror_angle,
                                &mirror_gap,
                                &loss_good_for};

} // namespace defaults
} // namespace norma::physics
