// What stands in the picture, held against straight ways from points of the teeth to the lens.
#include <doctest/doctest.h>

#include <algorithm>

#include <fmt/core.h>

#include <cmath>
#include <cstdlib>
#include <string>

#include "emit/view_picture.hpp"
#include "physics/mirror.hpp"
#include "physics/scene/viewfinder.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using physics::Pictured;
using physics::PicturedBody;
using physics::SensorPoint;

/// Does a convex outline hold the point?
bool holds(const physics::PictureOutline& outline, SensorPoint p) {
  int left = 0;
  int right = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const SensorPoint& a = outline[i];
    const SensorPoint& b = outline[(i + 1) % outline.size()];
    const double turn = (b.right - a.right).in(mm) * (p.up - a.up).in(mm) -
                        (b.up - a.up).in(mm) * (p.right - a.right).in(mm);
    (turn > 0 ? left : right) += turn == 0 ? 0 : 1;
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

namespace {

struct Drawn {
  std::vector<std::pair<double, double>> corners;
  std::string look;
};
/// All polygons of a picture, in the order in which they are drawn.
std::vector<Drawn> polygons(const std::string& svg) {
  std::vector<Drawn> out;
  constexpr std::string_view begin = "<polygon points=\"";
  for (std::size_t at = svg.find(begin); at != std::string::npos; at = svg.find(begin, at + 1)) {
    Drawn one;
    const char* p = svg.c_str() + at + begin.size();
    while (*p != '"') {
      char* end = nullptr;
      const double x = std::strtod(p, &end);
      const double y = std::strtod(end + 1, &end);
      one.corners.emplace_back(x, y);
      p = *end == ' ' ? end + 1 : end;
    }
    one.look = svg.substr(svg.find('"', at + begin.size()) + 1);
    one.look = one.look.substr(0, one.look.find('>'));
    out.push_back(std::move(one));
  }
  return out;
}
bool holds(const Drawn& d, double x, double y) { // ways across the edges
  bool in = false;
  for (std::size_t i = 0, j = d.corners.size() - 1; i < d.corners.size(); j = i++) {
    const auto& [ax, ay] = d.corners[i];
    const auto& [bx, by] = d.corners[j];
    if ((ay > y) != (by > y) && x < (bx - ax) * (y - ay) / (by - ay) + ax) in = !in;
  }
  return in;
}

} // namespace

TEST_CASE("drawn by mirror: what hides the second leg stands before what it hides") {
  // Opened so flat the mirror shows the molars past the front teeth, which hide them.
  const Work w(changed(five(), "occlusal, held", "occlusal, opened 25 deg, held"), chair(3));
  const plan::ViewPlan& view = w.view("upper");
  const std::string svg = emit::view_picture(view, wording::english());
  const auto all = polygons(svg);
  int hidden = 0;
  int open = 0;
  for (const physics::Shown& s : view.shown) {
    const std::string number = fmt::format(">{}</text>", s.tooth.iso());
    const std::string in_brackets = fmt::format(">({})</text>", s.tooth.iso());
    std::size_t text = svg.find(in_brackets);
    if (text == std::string::npos) text = svg.find(number);
    REQUIRE(text != std::string::npos);
    const std::size_t element = svg.rfind("<text x=\"", text);
    char* end = nullptr;
    const double x = std::strtod(svg.c_str() + element + 9, &end);
    const double y = std::strtod(end + 5, &end);
    const Drawn* top = nullptr;
    for (const Drawn& d : all) {
      // The last thing drawn there; what is seen through hides nothing.
      if (d.look.find("fill-opacity") == std::string::npos &&
          d.look.find("fill=\"none\"") == std::string::npos && holds(d, x, y))
        top = &d;
    }
    REQUIRE(top != nullptr);
    CAPTURE(s.tooth.iso());
    const bool of_asked = top->look.find("#fffbe8") != std::string::npos;
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
