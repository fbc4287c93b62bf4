#include "placing/round_mirror.hpp"

#include "placing/mirror.hpp"

namespace norma::placing {

std::optional<RoundMirror> search_round_mirror(const Setting& setting, const Pose& pose,
                                               Length diameter) {
  const physics::Vec ahead = pose.axes.forward; // of the camera's image: from behind the teeth
  const std::vector<physics::Box> bodies = hard_bodies(pose.mouth.mouth());
  const double up = setting.mouth.of_upper ? 1.0 : -1.0;
  double best = 0;
  std::optional<RoundMirror> found;
  Pose tried = pose;
  for (Angle below = 10.0 * degree; below <= 60.0 * degree; below += 10.0 * degree) {
    const physics::Vec looks{0, cos(below), up * sin(below)};
    physics::PlaneMirror m;
    m.normal = -physics::unit(looks - ahead); // towards the teeth
    m.across = {1, 0, 0};
    m.along = physics::cross(m.normal, m.across);
    m.width = m.narrow_end = m.length = diameter;
    m.corner = 0.5 * diameter;
    for (Length behind = 0.5 * diameter; behind <= 40.0 * mm; behind += 2.0 * mm) {
      m.middle = setting.camera.aim - ahead * behind;
      if (physics::runs_into(m, bodies)) continue;
      tried.mirror = m;
      const double seen = worth_of_place(setting, tried);
      if (seen <= best + a_hair) continue;
      best = seen;
      found = RoundMirror{tried, behind, below};
      if (best + a_hair >= most_worth(setting)) return found;
    }
  }
  return found;
}

} // namespace norma::placing
