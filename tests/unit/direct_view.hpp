// A view taken directly, without protocol, kit or plan.
#pragma once

#include <initializer_list>

#include "physics/anatomy/anatomy.hpp"
#include "physics/defaults.hpp"
#include "physics/optics.hpp"
#include "physics/orientation.hpp"
#include "placing/setting.hpp"
#include "placing/surfaces.hpp"

namespace norma::test {

/// Facial surfaces of adults' teeth, both corners held so far, at 1:2 on 36 x 24 mm with a 100 mm
/// lens, by norma's own limits.
inline placing::Setting
direct_view(Angle azimuth, std::initializer_list<int> teeth,
            const physics::Default& aside = physics::defaults::corner_side_firm,
            const physics::Default& back = physics::defaults::corner_back_firm) {
  namespace d = physics::defaults;
  placing::Setting s;
  for (const int iso : teeth)
    s.wanted.push_back({*physics::Tooth::from_iso(iso), physics::Surface::facial});
  s.mouth.anatomy = physics::mean_anatomy(physics::Dentition::adult);
  s.mouth.right = s.mouth.left = physics::MouthCorner{aside.value * mm, back.value * mm};
  s.camera.azimuth = azimuth;
  s.camera.axes = physics::camera_axes(azimuth, Angle{}, Angle{});
  s.camera.ratio = Magnification{0.5};
  s.camera.pupil_distance = physics::pupil_distance(100.0 * mm, s.camera.ratio, PupilRatio{1.0});
  s.camera.sensor = {36.0 * mm, 24.0 * mm};
  s.camera.aim = *placing::middle_of(s.mouth, s.wanted, s.camera.axes);
  s.limits = {Share{d::shown_share.value},        Share{d::mirror_share.value},
              Share{d::lit_share.value},          d::mirror_gap.value * mm,
              d::turned_elsewhere.value * degree, d::squarely.value * degree};
  s.corners.firm = {d::corner_side_firm.value * mm, d::corner_back_firm.value * mm};
  return s;
}

} // namespace norma::test
