// A mouth as bodies in space: the crowns of both jaws, gum behind them, lips and cheeks.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "physics/anatomy/anatomy.hpp"
#include "physics/cheek.hpp"
#include "physics/scene/boxes.hpp"

namespace norma::physics {

/// How the mouth is held. The frame is that of the jaw that is shown.
struct MouthState {
  std::shared_ptr<const Anatomy> anatomy{}; // null: the mean adult
  bool of_upper = true;                     // the jaw that is shown, where only one is
  std::optional<JawPose> opened{};          // nothing: teeth together
  /// Corners of the mouth by each side's retractor; nothing where none holds a cheek there.
  std::optional<MouthCorner> right{};
  std::optional<MouthCorner> left{};
  std::vector<Tooth> missing{};       // their gum stands, low as a neck
  std::optional<Length> lips_clear{}; // nothing: `defaults::lip_clear`
};

struct Mouth {
  std::vector<Crown> crowns;
  std::vector<Box> boxes;
  std::shared_ptr<const Anatomy> anatomy{}; // whose teeth these are; null where nobody's

  /// The grid of n x n points of a surface of one of the crowns, where it stands as the anatomy has
  /// it: that was worked out there. Empty where it has to be worked out anew.
  [[nodiscard]] std::span<const SurfacePoint> grid_at_rest(const Crown& crown, Surface surface,
                                                           int n) const;
};

/// Crowns are cut in three across their
/// height, each part two boxes (the face is curved: its ends lie farther in than its middle), with
/// gum from the neck towards the root. A
/// cheek is a wall that begins at the corner of the mouth and runs back; a lip runs from corner to
/// corner around the front teeth, `defaults::lip_clear` beyond their necks.
Mouth make_mouth(const MouthState& state);

/// Crowns and gum of one jaw alone.
std::vector<Box> make_jaw(const MouthState& state, bool upper);

/// Palate and floor of the mouth as flat slabs between the teeth: no way of light to a tooth meets
/// them, but a mirror may.
std::array<Box, 2> palate_and_floor(const MouthState& state);

} // namespace norma::physics
