// The same boxes in Embree, a library for tracing rays (Debian: libembree-dev), as triangles.
#pragma once

#include <embree3/rtcore.h>

#include <cmath>
#include <limits>
#include <span>

#include "physics/scene/boxes.hpp"

namespace norma::test {

class EmbreeBoxes {
 public:
  explicit EmbreeBoxes(std::span<const physics::Box> boxes)
      : device_(rtcNewDevice("threads=1")), scene_(rtcNewScene(device_)) {
    rtcSetSceneFlags(scene_, RTC_SCENE_FLAG_ROBUST);
    for (const physics::Box& b : boxes)
      add(b);
    rtcCommitScene(scene_);
  }
  EmbreeBoxes(const EmbreeBoxes&) = delete;
  EmbreeBoxes& operator=(const EmbreeBoxes&) = delete;
  ~EmbreeBoxes() {
    rtcReleaseScene(scene_);
    rtcReleaseDevice(device_);
  }

  /// Does the straight way from `a` to `b` cross a face of a box?
  [[nodiscard]] bool occluded(physics::Point a, physics::Point b) const {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    RTCRay ray{};
    ray.org_x = static_cast<float>(a.x.in(mm));
    ray.org_y = static_cast<float>(a.y.in(mm));
    ray.org_z = static_cast<float>(a.z.in(mm));
    ray.dir_x = static_cast<float>((b.x - a.x).in(mm));
    ray.dir_y = static_cast<float>((b.y - a.y).in(mm));
    ray.dir_z = static_cast<float>((b.z - a.z).in(mm));
    ray.tfar = 1.0f;
    ray.mask = ~0u;
    rtcOccluded1(scene_, &context, &ray);
    return ray.tfar < 0;
  }
  [[nodiscard]] RTCScene scene() const { return scene_; }

 private:
  void add(const physics::Box& b) {
    RTCGeometry mesh = rtcNewGeometry(device_, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* corner = static_cast<float*>(rtcSetNewGeometryBuffer(
        mesh, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), 8));
    for (int i = 0; i < 8; ++i) {
      const auto sign = [&](int bit) { return (i >> bit & 1) != 0 ? 1.0 : -1.0; };
      const physics::Point p = b.middle + b.axes[0] * (b.half[0] * sign(0)) +
                               b.axes[1] * (b.half[1] * sign(1)) +
                               b.axes[2] * (b.half[2] * sign(2));
      *corner++ = static_cast<float>(p.x.in(mm));
      *corner++ = static_cast<float>(p.y.in(mm));
      *corner++ = static_cast<float>(p.z.in(mm));
    }
    constexpr unsigned faces[12][3] = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6},
                                       {0, 1, 5}, {0, 5, 4}, {2, 6, 7}, {2, 7, 3},
                                       {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
    auto* index = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        mesh, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), 12));
    for (const auto& face : faces) {
      for (const unsigned i : face)
        *index++ = i;
    }
    rtcCommitGeometry(mesh);
    rtcAttachGeometry(scene_, mesh);
    rtcReleaseGeometry(mesh);
  }
  RTCDevice device_;
  RTCScene scene_;
};

} // namespace norma::test
