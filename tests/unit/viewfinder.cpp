// What stands in the picture, held against straight ways from points of the teeth to the lens.
#include <doctest/doctest.h>

#include <algorithm>

#include <fmt/core.h>

#include <cmath>
#include <cstdlib>
#include <string>

#include "drawn.hpp"
#include "emit/view_drawings.hpp"
#include "physics/mirror.hpp"
#include "physics/scene/viewfinder.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using physics::Pictured;
using physics::PicturedBody;
using physics::SensorPoint;

/// Does a convex outline hold the point, or pass through it?
bool holds(const physics::PictureOutline& outline, SensorPoint p) {
  int left = 0;
  int right = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const SensorPoint& a = outline[i];
    const SensorPoint& b = outline[(i + 1) % outline.size()];
    const double turn = (b.right - a.right).in(mm) * (p.up - a.up).in(mm) -
                        (b.up - a.up).in(mm) * (p.right - a.right).in(mm);
    constexpr double noise = 1e-8; // mm^2: the outline leaves out corners that are none
    (turn > 0 ? left : right) += std::abs(turn) <= noise ? 0 : 1;
  }
  return left == 0 || right == 0;
}

/// What is drawn last over a point of the picture.
const PicturedBody* on_top(const std::vector<PicturedBody>& bodies, SensorPoint p) {
  const auto mirror = std::find_if(bodies.begin(), bodies.end(), [](const PicturedBody& b) {
    return b.what == Pictured::mirror;
  });
  const bool in_mirror = mirror != bodies.end() && holds(mirror->outline, p);
  const PicturedBody* out = nullptr;
  for (const PicturedBody& b : bodies) {
    if ((!b.in_mirror || in_mirror) && holds(b.outline, p)) out = &b;
  }
  return out;
}

struct Agreement {
  int seen = 0;   // points with a free way to the lens
  int drawn = 0;  // of them, those where their own tooth is drawn last
  int hidden = 0; // points of teeth with something in the way
  int covered = 0;
};

/// Points of the teeth that must show: is what the ways say what the picture shows?
Agreement agreement(const plan::ViewPlan& view) {
  const plan::Scene& scene = *view.scene;
  const physics::Mouth mouth = physics::make_mouth(scene.mouth);
  const auto bodies = physics::pictured(mouth, scene.eye);
  Agreement out;
  for (const physics::Shown& s : view.shown) {
    const physics::Crown* crown = physics::find_crown(mouth.crowns, s.tooth);
    const bool all = s.seen > 0.99 * s.facing && s.facing > 0.99;
    const bool none = s.seen < 0.01;
    if (!all && !none) continue;
    for (const physics::SurfacePoint& p : physics::surface_grid(*crown, s.surface, 5)) {
      const auto at = physics::project(p.at, scene.eye.lens);
      if (!at || abs(at->right) > 0.5 * scene.eye.sensor.width ||
          abs(at->up) > 0.5 * scene.eye.sensor.height)
        continue;
      const PicturedBody* top = on_top(bodies, *at);
      const bool own = top != nullptr && top->what == Pictured::crown && top->tooth == s.tooth;
      (all ? out.seen : out.hidden) += 1;
      if (all && own) ++out.drawn;
      if (none && !own) ++out.covered;
    }
  }
  return out;
}

const PicturedBody* body(const std::vector<PicturedBody>& all, Pictured what, int tooth,
                         bool in_mirror) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const PicturedBody& b) {
    return b.what == what && b.in_mirror == in_mirror && b.tooth.iso() == tooth;
  });
  return found == all.end() ? nullptr : &*found;
}

} // namespace

TEST_CASE("drawn in its order, the picture shows what straight ways reach") {
  const Work w(five(), chair(3));
  for (const char* name : {"front", "upper", "lower", "right", "left"}) {
    CAPTURE(name);
    const Agreement a = agreement(w.view(name));
    CAPTURE(a.drawn);
    CAPTURE(a.seen);
    CHECK(a.seen > 60);
    // Outlines are a little rounder than the teeth: a point on an edge may lie below its neighbour.
    CHECK(a.drawn > 0.93 * a.seen);
    CHECK(a.covered >= 0.9 * a.hidden);
  }
}

TEST_CASE("a hidden tooth has little to be seen, a free one all; a mirror shows what lies in it") {
  const Work w(five(), chair(3));
  const plan::Scene& side = *w.view("right").scene;
  const auto right = physics::pictured(physics::make_mouth(side.mouth), side.eye);
  CHECK(body(right, Pictured::crown, 13, false)->visible > 0.95);
  CHECK(body(right, Pictured::crown, 17, false)->visible < 0.3);
  const plan::Scene& arch = *w.view("upper").scene;
  const auto upper = physics::pictured(physics::make_mouth(arch.mouth), arch.eye);
  const PicturedBody* in_mirror = body(upper, Pictured::crown, 15, true);
  REQUIRE(in_mirror != nullptr);
  CHECK(in_mirror->visible > 0.95);
  CHECK(in_mirror->framed > 0.99);
  // The mirror stands before the lower arch.
  const PicturedBody* behind = body(upper, Pictured::crown, 45, false);
  CHECK((behind == nullptr || behind->visible < 0.05));
  // Nothing has a share beyond the whole, and each lies in the frame.
  for (const auto* all : {&right, &upper}) {
    for (const PicturedBody& b : *all) {
      CHECK(b.framed > 0);
      CHECK(b.framed <= 1);
      CHECK(b.visible >= 0);
      CHECK(b.visible <= 1);
      CHECK(b.nearest <= b.farthest);
      CHECK(b.outline.size() >= 3);
    }
  }
}

TEST_CASE("a finer grid says the same") {
  const Work w(five(), chair(3));
  const plan::Scene& scene = *w.view("right").scene;
  const physics::Mouth mouth = physics::make_mouth(scene.mouth);
  const auto coarse = physics::pictured(mouth, scene.eye);
  const auto fine = physics::pictured(mouth, scene.eye, 360);
  for (const int iso : {11, 12, 13, 14, 15, 16, 41, 43, 45}) {
    CAPTURE(iso);
    const PicturedBody* a = body(coarse, Pictured::crown, iso, false);
    const PicturedBody* b = body(fine, Pictured::crown, iso, false);
    REQUIRE((a != nullptr && b != nullptr));
    CHECK(a->visible == doctest::Approx(b->visible).epsilon(0.05));
    CHECK(a->framed == doctest::Approx(b->framed).epsilon(1e-9));
  }
}

namespace {} // namespace

TEST_CASE("drawn by mirror: what hides the second leg stands before what it hides") {
  // Opened so flat the mirror shows the molars past the front teeth, which hide them.
  const Work w(changed(five(), "occlusal, held", "occlusal, opened 25 deg, held"), chair(3));
  const plan::ViewPlan& view = w.view("upper");
  const auto drawn = emit::view_drawings(view, emit::Numbers::of_asked, wording::english());
  REQUIRE(drawn);
  int hidden = 0;
  int open = 0;
  for (const physics::Shown& s : view.shown) {
    const std::string number = fmt::format("{}", s.tooth.iso());
    const drawing::Label* label = nullptr;
    for (const drawing::Item* item : flat(drawn->finder)) {
      if (item->label && (item->label->text == number || item->label->text == "(" + number + ")"))
        label = &*item->label;
    }
    REQUIRE(label != nullptr);
    // The label's baseline lies a little below the middle of the tooth.
    const drawing::Role top =
        top_at(drawn->finder.items, label->at - drawing::Spot{0, 0.35 * label->size});
    CAPTURE(s.tooth.iso());
    const bool of_asked = top == drawing::Role::tooth || top == drawing::Role::table;
    if (s.seen < 0.05 * s.facing && s.hider == physics::Hider::crown) {
      CHECK_FALSE(of_asked);
      ++hidden;
    } else if (s.seen > 0.95 * s.facing) {
      CHECK(of_asked);
      ++open;
    }
  }
  CHECK(hidden > 0);
  CHECK(open > 0);
}

TEST_CASE("a round mirror is drawn round") {
  physics::PlaneMirror disc;
  disc.normal = {0, 0, 1};
  disc.across = {1, 0, 0};
  disc.along = {0, 1, 0};
  disc.width = disc.narrow_end = disc.length = 24.0 * mm;
  disc.corner = 12.0 * mm;
  const auto edge = physics::mirror_edge(disc);
  double twice = 0;
  for (std::size_t i = 0; i < edge.size(); ++i) {
    const physics::Point& a = edge[i];
    const physics::Point& b = edge[(i + 1) % edge.size()];
    CHECK(std::hypot(a.x.in(mm), a.y.in(mm)) == doctest::Approx(12.0));
    twice += a.x.in(mm)*b.y.in(mm)-b.x.in(mm)*a.y.in(mm);
  }
  // Steps of 15 degrees, by hand: 24 triangles of 72 sin 15 deg.
  CHECK(0.5 * std::abs(twice) == doctest::Approx(24 * 72 * std::sin(3.14159265358979 / 12)));
}

} // namespace norma::test
