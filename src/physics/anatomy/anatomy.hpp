// A patient's teeth and jaw, as the scene needs them: worked out once, looked at by many views.
#pragma once

#include <array>
#include <memory>
#include <mutex>
#include <vector>

#include "physics/anatomy/arch.hpp"
#include "physics/anatomy/jaw.hpp"

namespace norma::physics {

struct Anatomy {
  Dentition dentition = Dentition::adult;
  /// From the patient's right to the left, teeth together.
  std::vector<Crown> upper;
  std::vector<Crown> lower;
  Jaw jaw;
  Length palate; // its height over the upper biting edges
  Length floor;  // of the mouth, under the lower biting edges

  [[nodiscard]] const std::vector<Crown>& arch(bool of_upper) const {
    return of_upper ? upper : lower;
  }
  static constexpr int grid_side = 5;
  /// The grid of 5 x 5 points of a surface; `crown` is one of this patient's.
  [[nodiscard]] const std::vector<SurfacePoint>& surface(const Crown& crown, Surface surface) const;

 private:
  /// Of one surface of all teeth of a jaw: worked out when one of them is asked for.
  struct Grids {
    std::once_flag made;
    std::vector<std::vector<SurfacePoint>> by_place;
  };
  mutable std::array<std::array<Grids, 3>, 2> grids_; // by jaw and surface
};

/// Null where no curve meets the widths with teeth of these sizes.
std::shared_ptr<const Anatomy> make_anatomy(Dentition dentition, const AnatomyValues& values);

/// The mean patient of a group, by norma's defaults. Worked out once; never null.
const std::shared_ptr<const Anatomy>& mean_anatomy(Dentition dentition);

/// Depth of the mean adult's arch, from the incisors' faces to the facial-axis points of the first
/// molars. Published 31.59 +- 2.90 (upper), 28.10 +- 2.59 (lower), Mina et al. 2017: sizes and
/// widths are kept, and the depth gives.
Length adult_arch_depth(bool upper);

/// Shorthand for the teeth of `mean_anatomy`.
const std::vector<Crown>& mean_arch(Dentition dentition, bool upper);
const std::vector<Crown>& adult_arch(bool upper);

} // namespace norma::physics
