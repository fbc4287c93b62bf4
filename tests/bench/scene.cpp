// How long a look takes, and the ray test against Embree on the same boxes and rays.
#include <embree3/rtcore.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <numeric>
#include <random>
#include <vector>

#include "physics/defaults.hpp"
#include "physics/mirror.hpp"
#include "physics/optics.hpp"
#include "physics/scene/look.hpp"
#include "support/embree.hpp"

namespace {

using namespace norma;
using namespace norma::physics;

constexpr Magnification half_size{0.5};

/// Median of the milliseconds of many runs.
double milliseconds(const std::function<void()>& run) {
  std::vector<double> times;
  for (int i = 0; i < 201; ++i) {
    const auto start = std::chrono::steady_clock::now();
    run();
    times.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
            .count());
  }
  std::nth_element(times.begin(), times.begin() + 100, times.end());
  return times[100];
}

std::vector<Wanted> teeth(std::initializer_list<int> numbers, Surface surface) {
  std::vector<Wanted> out;
  for (const int iso : numbers)
    out.push_back({*Tooth::from_iso(iso), surface});
  return out;
}

void direct_view() {
  MouthState state;
  state.right = {defaults::corner_side_firm.value * mm, defaults::corner_back_firm.value * mm};
  state.left = {defaults::corner_side_light.value * mm, defaults::corner_back_light.value * mm};
  const Axes axes = camera_axes(60.0 * degree, Angle{}, Angle{});
  const Length far = pupil_distance(100.0 * mm, half_size, PupilRatio{1.0});
  const auto wanted = teeth({12, 13, 14, 15, 16, 17, 42, 43, 44, 45, 46, 47}, Surface::facial);
  double sum = 0;
  const double ms = milliseconds([&] {
    const Mouth mouth = make_mouth(state);
    const Point aim = find_crown(mouth.crowns, *Tooth::from_iso(14))->edge;
    Eye eye;
    eye.pupil = aim - axes.forward * far;
    eye.lens = {eye.pupil, axes, half_size, far};
    eye.sensor = {36.0 * mm, 24.0 * mm};
    const Lamp lamp = ring_lamp(aim - axes.forward * (255.0 * mm), axes, 35.0 * mm, 16);
    for (const Shown& s : look(mouth, eye, &lamp, wanted))
      sum += s.seen;
  });
  std::printf("  direct view, 12 surfaces: %.3f ms (target 0.3)%s\n", ms, sum > 0 ? "" : "!");
}

struct ByMirror {
  Mouth mouth;
  Eye eye;
  Lamp lamp;
};
ByMirror mirror_view(Angle opened) {
  MouthState state;
  state.opened = jaw_open(44.3 * mm);
  state.right =
      state.left = {defaults::corner_side_even.value * mm, defaults::corner_back_even.value * mm};
  ByMirror out{make_mouth(state), {}, {}};
  const Axes seen = in_mirror(camera_axes(Angle{}, camera_elevation(opened), Angle{}),
                              arch_mirror_normal(true, opened));
  const Length far = pupil_distance(100.0 * mm, half_size, PupilRatio{1.0});
  const Point aim{Length{}, 25.0 * mm, Length{}};
  PlaneMirror m;
  m.normal = arch_mirror_normal(true, opened);
  m.across = {1, 0, 0};
  m.along = {0, -cos(opened), -sin(opened)};
  m.length = 130.0 * mm;
  m.width = m.narrow_end = 60.0 * mm;
  m.middle = Point{Length{}, 50.0 * mm, Length{}} + m.along * (0.5 * m.length);
  out.eye.lens = {aim - seen.forward * far, seen, half_size, far};
  out.eye.pupil = reflected(out.eye.lens.pupil, m.middle, m.normal);
  out.eye.sensor = {36.0 * mm, 24.0 * mm};
  out.eye.mirror = m;
  out.lamp = ring_lamp(aim - seen.forward * (255.0 * mm), seen, 35.0 * mm, 16);
  for (Point& p : out.lamp.points)
    p = reflected(p, m.middle, m.normal);
  return out;
}

void mirror_views() {
  const auto wanted =
      teeth({17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27}, Surface::biting);
  double sum = 0;
  const double one = milliseconds([&] {
    const ByMirror v = mirror_view(45.0 * degree);
    for (const Shown& s : look(v.mouth, v.eye, &v.lamp, wanted))
      sum += s.seen;
  });
  std::printf("  by mirror, 14 surfaces: %.3f ms (target 0.6)%s\n", one, sum > 0 ? "" : "!");
  const double search = milliseconds([&] {
    for (double a = 20; a <= 70; a += 5) {
      const ByMirror v = mirror_view(a * degree);
      for (const Shown& s : look(v.mouth, v.eye, nullptr, wanted))
        sum += s.seen;
    }
  });
  std::printf("  mirror angle, searched from 20 to 70 degrees: %.2f ms (target 20)\n", search);
}

/// Thirty boxes and random ways, as many hit as miss or nearly.
void rays() {
  Mouth mouth = make_mouth({});
  std::vector<Box> boxes;
  for (std::size_t i = 0; i < mouth.boxes.size() && boxes.size() < 30; i += 6)
    boxes.push_back(mouth.boxes[i]);
  std::vector<std::size_t> order(boxes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const Boxes ours(boxes, order);
  const norma::test::EmbreeBoxes theirs(boxes);
  std::mt19937 random(5);
  std::uniform_real_distribution<double> near(-45, 45);
  std::uniform_real_distribution<double> far(-250, 250);
  constexpr std::size_t count = 4096;
  std::vector<Point> from;
  std::vector<Point> to;
  for (std::size_t i = 0; i < count; ++i) {
    from.push_back({near(random) * mm, (near(random) + 20) * mm, 0.3 * near(random) * mm});
    to.push_back({far(random) * mm, far(random) * mm, 0.3 * far(random) * mm});
  }
  std::size_t hits = 0;
  const double our_time = milliseconds([&] {
    for (std::size_t i = 0; i < count; ++i)
      hits += ours.first_hit(from[i], to[i]) ? 1 : 0;
  });
  const double their_time = milliseconds([&] {
    for (std::size_t i = 0; i < count; ++i)
      hits += theirs.occluded(from[i], to[i]) ? 1 : 0;
  });
  const double packet_time = milliseconds([&] {
    alignas(32) int valid[8];
    std::fill(std::begin(valid), std::end(valid), -1);
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    for (std::size_t i = 0; i < count; i += 8) {
      alignas(32) RTCRay8 packet{};
      for (std::size_t k = 0; k < 8; ++k) {
        const Point a = from[i + k];
        const Point b = to[i + k];
        packet.org_x[k] = static_cast<float>(a.x.in(mm));
        packet.org_y[k] = static_cast<float>(a.y.in(mm));
        packet.org_z[k] = static_cast<float>(a.z.in(mm));
        packet.dir_x[k] = static_cast<float>((b.x - a.x).in(mm));
        packet.dir_y[k] = static_cast<float>((b.y - a.y).in(mm));
        packet.dir_z[k] = static_cast<float>((b.z - a.z).in(mm));
        packet.tfar[k] = 1.0f;
        packet.mask[k] = ~0u;
      }
      rtcOccluded8(valid, theirs.scene(), &context, &packet);
      hits += packet.tfar[0] < 0 ? 1 : 0;
    }
  });
  const auto rate = [&](double ms) { return static_cast<double>(count) / ms / 1000.0; };
  std::printf("  %zu boxes, million rays a second: norma %.1f; Embree one by one %.1f, by eights "
              "%.1f; norma to Embree %.2f and %.2f (target 0.6)%s\n",
              boxes.size(), rate(our_time), rate(their_time), rate(packet_time),
              their_time / our_time, packet_time / our_time, hits > 0 ? "" : "!");
}

} // namespace

int main() {
  direct_view();
  mirror_views();
  rays();
}
