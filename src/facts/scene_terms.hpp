// Words for what the facts of the scene hold that is no number: each value of an enum has a row.
#pragma once

#include "facts/choices.hpp"
#include "facts/fact.hpp"
#include "facts/phrases.hpp"
#include "model/protocol.hpp"

namespace norma::facts {

/// At which corner of the mouth the blade of a retractor glints.
enum class GlintAt { right_corner, left_corner, both_corners };

/// A part of the picture as shot: its thirds, row by row from the bottom left.
enum class PicturePart {
  bottom_left,
  bottom,
  bottom_right,
  middle_left,
  middle,
  middle_right,
  top_left,
  top,
  top_right,
};

/// What `or else show` asks for, held against what comes first: no less.
enum class FallbackAsks { the_same, more };

template <> struct TermsOf<model::Face> {
  static constexpr std::pair<model::Face, const diag::Row*> all[] = {
      {model::Face::facial, &phrase::facial},
      {model::Face::biting, &phrase::occlusal},
      {model::Face::lingual, &phrase::lingual}};
};

template <> struct TermsOf<GlintAt> {
  static constexpr std::pair<GlintAt, const diag::Row*> all[] = {
      {GlintAt::right_corner, &phrase::right_corner},
      {GlintAt::left_corner, &phrase::left_corner},
      {GlintAt::both_corners, &phrase::right_corner_and_left}};
};

template <> struct TermsOf<PicturePart> {
  static constexpr std::pair<PicturePart, const diag::Row*> all[] = {
      {PicturePart::bottom_left, &phrase::bottom_left},
      {PicturePart::bottom, &phrase::bottom},
      {PicturePart::bottom_right, &phrase::bottom_right},
      {PicturePart::middle_left, &phrase::middle_left},
      {PicturePart::middle, &phrase::middle},
      {PicturePart::middle_right, &phrase::middle_right},
      {PicturePart::top_left, &phrase::top_left},
      {PicturePart::top, &phrase::top},
      {PicturePart::top_right, &phrase::top_right}};
};

template <> struct TermsOf<FallbackAsks> {
  static constexpr std::pair<FallbackAsks, const diag::Row*> all[] = {
      {FallbackAsks::the_same, &phrase::the_same}, {FallbackAsks::more, &phrase::all_and_more}};
};

} // namespace norma::facts
