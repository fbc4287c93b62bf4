// Straight ways through a mouth against Embree 3, an independent ray tracer, on the same boxes.
#include <doctest/doctest.h>

#include <numeric>
#include <random>
#include <vector>

#include "physics/defaults.hpp"
#include "physics/scene/mouth.hpp"
#include "support/embree.hpp"

using namespace norma;
using namespace norma::physics;

namespace {

Mouth mouth_with(std::optional<JawPose> opened) {
  const MouthCorner corner{defaults::corner_side_even.value * mm,
                           defaults::corner_back_even.value * mm};
  MouthState state;
  state.opened = opened;
  state.right = state.left = corner;
  return make_mouth(state);
}

/// All faces moved outwards (or inwards, below 0).
std::vector<Box> grown(std::vector<Box> boxes, Length by) {
  for (Box& b : boxes) {
    for (Length& half : b.half)
      half += by;
  }
  return boxes;
}

Boxes all_of(const std::vector<Box>& boxes) {
  std::vector<std::size_t> order(boxes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  return {boxes, order};
}

bool inside_one(const std::vector<Box>& boxes, Point p) {
  for (const Box& b : boxes) {
    bool in = true;
    for (std::size_t i = 0; i < 3; ++i)
      in = in && abs(along(p - b.middle, b.axes[i])) < b.half[i] + 0.05 * mm;
    if (in) return true;
  }
  return false;
}

} // namespace

TEST_CASE("ways through teeth, gum, lips and cheeks: as Embree finds them") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> near(-45, 45);
  std::uniform_real_distribution<double> far(-250, 250);
  for (const auto& opened : {std::optional<JawPose>(), jaw_open(44.0 * mm)}) {
    const Mouth mouth = mouth_with(opened);
    const Boxes ours = all_of(mouth.boxes);
    const std::vector<Box> wider = grown(mouth.boxes, 0.01 * mm);
    const std::vector<Box> tighter = grown(mouth.boxes, -0.01 * mm);
    const Boxes wide = all_of(wider);
    const Boxes tight = all_of(tighter);
    const norma::test::EmbreeBoxes theirs(mouth.boxes);
    int met = 0;
    int free = 0;
    int grazing = 0;
    while (met + free < 20000) {
      const Point from{near(random) * mm, (near(random) + 20) * mm, near(random) * mm};
      const Point to{far(random) * mm, far(random) * mm, far(random) * mm};
      // A way that begins or ends in a body crosses no face of it: not the same question.
      if (inside_one(mouth.boxes, from) || inside_one(mouth.boxes, to)) continue;
      const bool hit = ours.first_hit(from, to).has_value();
      // Grazing ways are decided by the last digit, in both.
      if (wide.first_hit(from, to).has_value() != tight.first_hit(from, to).has_value()) {
        ++grazing;
        continue;
      }
      CHECK(hit == theirs.occluded(from, to));
      ++(hit ? met : free);
    }
    CHECK(met > 4000);
    CHECK(free > 4000);
    CHECK(grazing < 200);
  }
}
