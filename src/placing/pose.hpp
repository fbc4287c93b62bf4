// Where mouth, camera and mirror of a setting stand, and what is seen from there.
#pragma once

#include <algorithm>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "placing/setting.hpp"

namespace norma::placing {

using physics::Hider;
using physics::Shown;

/// A mouth as it is held, built once: copies share it.
class HeldMouth {
 public:
  explicit HeldMouth(physics::MouthState state);
  [[nodiscard]] const physics::MouthState& state() const { return held_->state; }
  [[nodiscard]] const physics::Mouth& mouth() const { return held_->mouth; }

 private:
  struct Held {
    physics::MouthState state;
    physics::Mouth mouth;
  };
  std::shared_ptr<const Held> held_;
};

/// What of a setting is tried in several ways.
struct Pose {
  HeldMouth mouth;
  Angle azimuth;      // of the camera, or of its image in a mirror
  physics::Axes axes; // of the picture as shot
  std::optional<physics::PlaneMirror> mirror;
};

/// The pose of a setting without a mirror.
Pose bare_pose(const Setting& setting);
/// The same pose, a corner of the mouth or both held otherwise; nothing: by no retractor.
Pose with_corners(const Pose& pose, std::optional<physics::MouthCorner> right,
                  std::optional<physics::MouthCorner> left);

physics::Eye eye_of(const Setting& setting, const Pose& pose);
/// What is seen of each surface that is wanted, judged by the setting's limits. `pieces`: as for
/// physics::look, finer ones where shares are told.
std::vector<Shown> look_at(const Setting& setting, const Pose& pose,
                           const physics::Lamp* lamp = nullptr, int pieces = physics::usual_pieces);
/// How finely it is looked: by few pieces, and by many where those lie near a limit.
struct Pieces {
  int few = physics::usual_pieces;
  int many = physics::usual_pieces;
};
/// The same as far as is needed to judge them, not to tell shares.
std::vector<Shown> look_as_needed(const Setting& setting, const Pose& pose,
                                  const physics::Lamp* lamp, std::span<const Wanted> wanted,
                                  Pieces pieces);
/// The same as if nothing stood in the way: how they lie to the lens, and whether in the mirror.
std::vector<Shown> look_past_bodies(const Setting& setting, const Pose& pose,
                                    std::span<const Wanted> wanted, Pieces pieces);
/// The same, finely, where `good` holds of it; nothing else. It is tried with the usual pieces
/// first.
std::optional<std::vector<Shown>>
look_that_is(const std::function<bool(const std::vector<Shown>&)>& good, const Setting& setting,
             const Pose& pose);
/// Crowns and gum: what a mirror cannot go through.
std::vector<physics::Box> hard_bodies(const physics::Mouth& mouth);
/// Azimuth of the camera itself, which looks into the mirror.
Angle camera_itself(const Pose& pose);

// What is said of a look -------------------------------------------------------------------------

/// Does a part of the surface fall beside the sensor?
inline bool cut_by_frame(const Shown& s) { return s.cut; }
/// The mirror ends before it shows the surface whole.
bool cut_off(const Shown& s);
/// Hidden by something that stands in front; a surface turned from the lens is another matter.
bool stands_behind(const Shown& s);
/// In a shadow that a body throws on it, by more than shares are good for: where the mirror ends,
/// light is missing, but nothing throws a shadow.
bool in_shadow(const Shown& s);
/// Is one of them cut off, turned away, hidden or in shadow?
bool fails(const std::vector<Shown>& shown, const Limits& limits);
/// Enough of every surface is seen.
inline bool shows_all(const std::vector<Shown>& shown) {
  return std::all_of(shown.begin(), shown.end(), physics::enough_of);
}
inline bool none_hidden(const std::vector<Shown>& shown) {
  return std::none_of(shown.begin(), shown.end(), stands_behind);
}
/// The least share seen of any surface, of what of it is turned to the lens.
double least_seen(const std::vector<Shown>& shown);
/// Shares seen of what is turned to the lens, added to `sum` surface by surface.
double seen_in_all(const std::vector<Shown>& shown, double sum = 0);
/// The teeth of those surfaces of which `which` is true.
std::vector<Tooth> teeth_of(const std::vector<Shown>& shown, auto which) {
  std::vector<Tooth> out;
  for (const Shown& s : shown) {
    if (which(s)) out.push_back(s.tooth);
  }
  return out;
}

} // namespace norma::placing
