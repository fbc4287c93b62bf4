// Words for a shot that is off what was planned: what is off, which way, and what breaks by it.
#pragma once

#include <cmath>

#include "facts/fact.hpp"
#include "facts/phrases.hpp"
#include "margins/promise.hpp"

namespace norma::facts {

template <> struct TermsOf<margins::Error> {
  using E = margins::Error;
  static constexpr std::pair<E, const diag::Row*> all[] = {
      {E::camera_sideways, &phrase::off_camera_sideways},
      {E::camera_height, &phrase::off_camera_height},
      {E::camera_roll, &phrase::off_camera_roll},
      {E::camera_distance, &phrase::off_camera_distance},
      {E::aim_across, &phrase::off_aim_across},
      {E::aim_up, &phrase::off_aim_up},
      {E::focus, &phrase::off_focus},
      {E::mirror_angle, &phrase::off_mirror_angle},
      {E::mirror_turn, &phrase::off_mirror_turn},
      {E::mirror_slide, &phrase::off_mirror_slide},
      {E::corner_aside, &phrase::off_corner_aside},
      {E::corner_back, &phrase::off_corner_back}};
};

template <> struct TermsOf<margins::Way> {
  using W = margins::Way;
  static constexpr std::pair<W, const diag::Row*> all[] = {
      {W::right, &phrase::way_right},
      {W::left, &phrase::way_left},
      {W::forward, &phrase::way_forward},
      {W::back, &phrase::way_back},
      {W::up, &phrase::way_up},
      {W::down, &phrase::way_down},
      {W::clockwise, &phrase::way_clockwise},
      {W::anticlockwise, &phrase::way_anticlockwise},
      {W::nearer, &phrase::way_nearer},
      {W::farther, &phrase::way_farther},
      {W::picture_right, &phrase::way_picture_right},
      {W::picture_left, &phrase::way_picture_left},
      {W::picture_top, &phrase::way_picture_top},
      {W::picture_bottom, &phrase::way_picture_bottom},
      {W::more, &phrase::way_more},
      {W::less, &phrase::way_less}};
};

template <> struct TermsOf<margins::Promise> {
  using P = margins::Promise;
  static constexpr std::pair<P, const diag::Row*> all[] = {
      {P::clear, &phrase::broken_clear},   {P::fits, &phrase::broken_fits},
      {P::framed, &phrase::broken_framed}, {P::sharp, &phrase::broken_sharp},
      {P::turned, &phrase::broken_turned}, {P::in_mirror, &phrase::broken_in_mirror},
      {P::seen, &phrase::broken_seen},     {P::lit, &phrase::broken_lit}};
};

/// What is broken: `17 is hidden`.
inline diag::Said broken_said(const margins::Broken& broken) {
  const diag::Said word = term_of(broken.promise);
  switch (broken.teeth.size()) {
  case 0: return word;
  case 1: return phrase::broken_one(broken.teeth, word);
  default: return phrase::broken_several(broken.teeth, word);
  }
}

/// A size as it is told: never more than was found, in tenths below 10 and whole above.
inline double size_told(double size) {
  constexpr double hair = 1e-9;
  return size < 10 ? std::floor(10 * size + hair) / 10 : std::floor(size + hair);
}
inline diag::Measure size_said(margins::Error what, double size) {
  const physics::Kind kind = margins::row_of(what).kind;
  const double told = size_told(size);
  return {kind, kind == physics::Kind::angle ? (told * degree).base() : (told * mm).base(), true};
}

} // namespace norma::facts
