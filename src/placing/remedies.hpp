// What would show what a pose does not show, found by trying it.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

/// A camera that looks from elsewhere aside, without a mirror.
struct OtherAzimuth {
  Angle azimuth; // aside, 0 or more
  bool sharp;    // what must be sharp is, at the narrowest aperture
  double least;  // placing::least_seen
};
/// The nearest, in steps of 5 degrees from 20 to 90, from which nothing is hidden and nothing is
/// turned away, one where all is sharp first. Nothing where there is none, or in a view that is not
/// taken from aside.
std::optional<OtherAzimuth> azimuth_that_shows(const Setting& setting, const Pose& pose);

/// Where nothing is hidden with retractors that hold a corner of the mouth pulled firmly: the least
/// share seen there (placing::least_seen). Nothing else.
std::optional<double> least_seen_with_firm_pull(const Setting& setting, const Pose& pose);

/// What is seen, and lit, where the corners of the mouth stand 5 mm farther in and forwards. `lamp`
/// may be null.
std::vector<Shown> look_farther_in(const Setting& setting, const Pose& pose,
                                   const physics::Lamp* lamp);

/// For a side view by mirror: the nearest azimuth, from 30 to 75 degrees aside, from which all is
/// seen squarely without it, the retractor pulled firmly in its place. Nothing where there is none.
std::optional<Angle> azimuth_without_mirror(const Setting& setting, const Pose& pose);

/// A larger mirror of the same shape that shows all, or of which nothing ends beside it.
struct LargerMirror {
  Pose pose;
  Sheet sheet;
  bool longer = false; // else wider
};
/// The first in steps of 2 mm, up to 60 mm wider (a round one: up to 50 mm in all), or up to 100 mm
/// longer; longer ones come first where more is lost beyond the mirror's ends than beside it.
/// Nothing where there is none, and beside the tongue.
std::optional<LargerMirror> larger_mirror_that_shows(const Setting& setting, const Pose& pose);

/// The narrowest of `sheets` that shows all over the arch, of those that come before: each one
/// narrower than the one found so far is tried, `tried` at most.
std::optional<std::size_t> narrower_mirror_that_shows(const Setting& setting, const Pose& pose,
                                                      std::span<const Sheet> sheets, int tried = 4);

} // namespace norma::placing
