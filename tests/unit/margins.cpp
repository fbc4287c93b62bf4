// Margins: how a view stands when one thing is off, and how far that may be.
#include "margins/margin.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "direct_view.hpp"
#include "facts/facts.hpp"
#include "margins/together.hpp"
#include "physics/defaults.hpp"
#include "physics/mirror.hpp"
#include "physics/optics.hpp"
#include "placing/depth.hpp"
#include "placing/layout.hpp"
#include "placing/mirror.hpp"
#include "placing/outcome.hpp"
#include "placing/surfaces.hpp"
#include "work.hpp"

namespace norma::test::off_plan {
namespace {

namespace d = physics::defaults;
using doctest::Approx;
using margins::Error;
using margins::Margin;
using margins::Promise;
using margins::Standing;
using margins::Way;
using physics::Vec;

/// All that shows must be sharp at f/22.
placing::Setting sharp(placing::Setting s) {
  s.sharp = placing::Sharp{};
  s.sharp->surfaces = s.wanted;
  s.sharp->blur = 0.03 * mm;
  s.sharp->narrowest = FNumber{32};
  s.sharp->set = FNumber{22};
  s.sharp->pupil_ratio = PupilRatio{1.0};
  s.sharp->focal_length = 100.0 * mm;
  return s;
}
placing::Setting over_arch() {
  placing::Setting s = direct_view(Angle{}, {16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26});
  for (physics::Wanted& w : s.wanted)
    w.surface = physics::Surface::biting;
  const Angle opened = 45.0 * degree;
  s.mirror = placing::UsedMirror{placing::MirrorUse::over_arch, {}, opened};
  s.mirror->sheet.width = 70.0 * mm;
  s.mirror->sheet.length = 130.0 * mm;
  s.camera.axes =
      physics::in_mirror(physics::camera_axes(Angle{}, physics::camera_elevation(opened), Angle{}),
                         physics::arch_mirror_normal(true, opened));
  return *placing::of_mouth(s, s.mouth, d::opened_wide.value * mm);
}

Standing planned(const placing::Setting& s) { return margins::standing(s, *placing::pose_of(s)); }
margins::ViewMargins margins_of(const placing::Setting& s) {
  return margins::margins_of(planned(s));
}
const Margin& margin(const margins::ViewMargins& all, Error what, bool more) {
  const auto first = std::find_if(all.margins.begin(), all.margins.end(),
                                  [&](const Margin& m) { return m.what == what; });
  REQUIRE(first != all.margins.end());
  return *(more ? first + 1 : first);
}
/// What a margin is good for.
double tolerance(double size) { return std::max(margins::finest, size / 30) + 1e-9; }

bool near(Vec a, Vec b) { return physics::norm(a - b) < 1e-12; }
bool near(physics::Point a, physics::Point b) {
  return physics::norm(physics::direction(a, b)) < 1e-9;
}

/// Shipped protocols with shipped kits: each view that was placed.
void each_shipped_view(const auto& ask) {
  for (const char* protocol : {"five", "sides", "tongue_side", "orthodontic", "three"}) {
    for (const char* kit : {"chair_3", "chair_7", "child", "quarry"}) {
      const Work w(read_file(root() / "protocols" / (std::string(protocol) + ".norma")),
                   read_file(root() / "protocols/kits" / (std::string(kit) + ".yaml")));
      for (const report::Held& held : w.session->report().held) {
        for (const plan::ViewPlan& view : held.plan.views) {
          if (view.work->setting == nullptr) continue;
          CAPTURE(protocol);
          CAPTURE(kit);
          CAPTURE(view.view->name);
          ask(view);
        }
      }
    }
  }
}

} // namespace

TEST_CASE("margins of the focus are what the depth of field leaves") {
  placing::Setting s = sharp(direct_view(Angle{}, {11, 21}));
  s.camera.sensor = {90.0 * mm, 60.0 * mm}; // so that nothing else breaks
  const physics::Axes& axes = s.camera.axes;
  const auto reach = placing::reach_of(placing::depths_of(s.mouth, s.sharp->surfaces, axes));
  const Length focus = *placing::focus_of(s, axes);
  for (const auto& focal : {std::optional<Length>(100.0 * mm), std::optional<Length>()}) {
    s.sharp->focal_length = focal;
    const Length at = focal ? focus : reach.middle();
    // N c (1 + m/P) / (m^2 (1 +- N c/(m f))), worked out here anew; f/22 is 2^(27/6).
    const double nc = 22.0 * 0.03;
    const double bend = focal ? nc / (0.5 * 100.0) : 0.0;
    const double near_depth = nc * 1.5 / (0.25 * (1 + bend));
    const double far_depth = nc * 1.5 / (0.25 * (1 - bend));
    const auto all = margins_of(s);
    REQUIRE(!all.fails);
    // Too far away: what lies nearest comes out of the depth in front of it.
    const double farther = near_depth - (at - reach.nearest).in(mm);
    const double nearer = far_depth - (reach.farthest - at).in(mm);
    for (const auto& [more, leaves] : {std::pair(true, farther), std::pair(false, nearer)}) {
      const Margin& m = margin(all, Error::focus, more);
      CHECK(m.size <= leaves);
      CHECK(m.size >= leaves - tolerance(leaves));
      CHECK(m.breaks->promise == Promise::sharp);
    }
  }
}

TEST_CASE("nearer and focused anew, a view breaks where its ratio no longer frames it") {
  placing::Setting s = direct_view(Angle{}, {12, 11, 21, 22});
  s.camera.sensor = {17.0 * mm, 12.0 * mm};
  const auto all = margins_of(s);
  REQUIRE(!all.fails);
  const Margin& m = margin(all, Error::camera_distance, false);
  REQUIRE(m.breaks);
  CHECK(m.breaks->promise == Promise::framed);
  // A point x beside the axis and z behind the aim lies at m D x / (D + z) on the sensor; f = 100
  // mm, 1/m = D/f - 1.
  const auto whole = [&](double off) {
    const double away = s.camera.pupil_distance.in(mm) + off;
    const double ratio = 1 / (away / 100 - 1);
    for (const physics::Wanted& w : s.wanted) {
      for (const physics::SurfacePoint& p : placing::points_of(s.mouth, w)) {
        const physics::Point from = p.at - s.camera.aim;
        const double scale = ratio * away / (away + from.y.in(mm));
        if (std::abs(from.x.in(mm)) * scale > 8.5 || std::abs(from.z.in(mm)) * scale > 6)
          return false;
      }
    }
    return true;
  };
  CHECK(whole(-m.size));
  CHECK(!whole(-m.size - tolerance(m.size)));
  // Farther away all of it becomes smaller.
  CHECK(!margin(all, Error::camera_distance, true).breaks);
}

TEST_CASE("the margin of the aim is what the frame leaves: x = D tan(half field - edge)") {
  const placing::Setting s = direct_view(Angle{}, {12, 11, 21, 22});
  const auto all = margins_of(s);
  const physics::Pinhole lens = placing::eye_of(s, planned(s).pose).lens;
  double right = 0, left = 0, top = 0, bottom = 0; // tangents of the outermost ways
  for (const physics::Wanted& w : s.wanted) {
    for (const physics::SurfacePoint& p : placing::points_of(s.mouth, w)) {
      const auto at = physics::project(p.at, lens);
      const double x = at->right.in(mm) / (0.5 * lens.focus_distance.in(mm));
      const double y = at->up.in(mm) / (0.5 * lens.focus_distance.in(mm));
      right = std::max(right, x);
      left = std::max(left, -x);
      top = std::max(top, y);
      bottom = std::max(bottom, -y);
    }
  }
  const double away = s.camera.pupil_distance.in(mm);
  const auto leaves = [&](double half, double edge) {
    return away * std::tan(std::atan(half / away) - std::atan(edge));
  };
  for (const auto& [what, more, half, edge] : {std::tuple(Error::aim_across, false, 36.0, right),
                                               std::tuple(Error::aim_across, true, 36.0, left),
                                               std::tuple(Error::aim_up, false, 24.0, top),
                                               std::tuple(Error::aim_up, true, 24.0, bottom)}) {
    const Margin& m = margin(all, what, more);
    REQUIRE(m.breaks);
    CHECK(m.breaks->promise == Promise::framed);
    CHECK(m.size <= leaves(half, edge) + 1e-9);
    CHECK(m.size >= leaves(half, edge) - tolerance(m.size));
  }
}

TEST_CASE("a mirror off by an angle turns the picture by twice that, and leaves the camera") {
  const Standing plan = planned(over_arch());
  const physics::Pinhole camera = physics::camera_of(placing::eye_of(plan.setting, plan.pose));
  for (const Error what : {Error::mirror_angle, Error::mirror_turn, Error::mirror_slide}) {
    for (const double size : {-7.0, 3.0}) {
      const Standing off = margins::disturbed(plan, what, size);
      const physics::Pinhole then = physics::camera_of(placing::eye_of(off.setting, off.pose));
      CHECK(near(then.pupil, camera.pupil));
      CHECK(near(then.axes.forward, camera.axes.forward));
      CHECK(near(then.axes.right, camera.axes.right));
      const double turned =
          std::acos(std::min(1.0, physics::dot(off.pose.axes.forward, plan.pose.axes.forward)));
      const bool turns = what != Error::mirror_slide;
      if (what == Error::mirror_angle)
        CHECK(turned == Approx(physics::picture_turned(std::abs(size) * degree).in(radian)));
      // Seen at 45 degrees: 2 asin(sin e cos 45), by the half angle between both images.
      if (what == Error::mirror_turn)
        CHECK(turned ==
              Approx(2 * std::asin(std::sin(std::abs(size) * degree.in(radian)) * std::sqrt(0.5))));
      CHECK((turned > 0) == turns);
      CHECK(physics::dot(off.pose.mirror->normal, off.pose.mirror->along) == Approx(0));
    }
  }
  // Its inner end stays; opened wider, the outer one goes down, away from the upper teeth.
  const Standing wider = margins::disturbed(plan, Error::mirror_angle, 5);
  const auto end = [](const Standing& s, double which) {
    const physics::PlaneMirror& m = *s.pose.mirror;
    return m.middle + m.along * (which * m.length);
  };
  CHECK(near(end(wider, -0.5), end(plan, -0.5)));
  CHECK(end(wider, 0.5).z < end(plan, 0.5).z);
  CHECK(std::atan2(-wider.pose.mirror->along.z, -wider.pose.mirror->along.y) ==
        Approx((50.0 * degree).in(radian)));
}

TEST_CASE("a camera that is off stands where its angles say, and looks at the same point") {
  const placing::Setting s = sharp(direct_view(50.0 * degree, {13, 14, 15}));
  const Standing plan = planned(s);
  const Standing aside = margins::disturbed(plan, Error::camera_sideways, -6);
  // From the right, the picture's right is towards the front.
  CHECK(
      near(aside.pose.axes.forward, physics::camera_axes(56.0 * degree, Angle{}, Angle{}).forward));
  CHECK(margins::way_of(plan, Error::camera_sideways, false) == Way::back);
  CHECK(margins::way_of(plan, Error::camera_sideways, true) == Way::forward);
  const Standing above = margins::disturbed(plan, Error::camera_height, 9);
  CHECK(near(above.pose.axes.forward,
             physics::camera_axes(50.0 * degree, 9.0 * degree, Angle{}).forward));
  CHECK(margins::way_of(plan, Error::camera_height, true) == Way::up);
  const Standing rolled = margins::disturbed(plan, Error::camera_roll, 10);
  CHECK(near(rolled.pose.axes.up,
             plan.pose.axes.up * cos(10.0 * degree) + plan.pose.axes.right * sin(10.0 * degree)));
  for (const Standing& off : {aside, above, rolled}) {
    CHECK(off.setting.camera.aim == s.camera.aim);
    CHECK(!off.pose.axes.mirrored());
  }
  for (const margins::ErrorRow& row : margins::error_rows()) {
    CAPTURE(row.id);
    const Standing same = margins::disturbed(plan, row.what, 0);
    CHECK(near(same.pose.axes.forward, plan.pose.axes.forward));
    CHECK(near(same.setting.camera.aim, plan.setting.camera.aim));
    CHECK(same.focus == plan.focus);
  }
}

TEST_CASE("aside and higher, a view holds where one that is planned from there does") {
  for (const double from : {0.0, 35.0, 60.0}) {
    const placing::Setting s = direct_view(from * degree, {13, 14, 15});
    const Standing plan = planned(s);
    const margins::Judge judge(plan, physics::usual_pieces);
    for (double off = -28; off <= 28; off += 4) {
      placing::Setting other = s;
      other.camera.azimuth = (from - off) * degree;
      other.camera.axes = physics::camera_axes(other.camera.azimuth, Angle{}, Angle{});
      const auto outcome = placing::outcome_of(other);
      REQUIRE(outcome);
      CAPTURE(from);
      CAPTURE(off);
      CHECK(judge.holds(margins::disturbed(plan, Error::camera_sideways, off)) ==
            (outcome->seen && outcome->framed && !outcome->turned));
    }
  }
}

TEST_CASE("margins are those of a fine scan, on many views") {
  std::size_t views = 0;
  std::size_t all = 0;
  std::size_t other = 0;
  // Some promises come and go by a piece of a surface: a scan may find a gap that halving missed.
  for (double azimuth = -72; azimuth <= 72; azimuth += 3.6) {
    const bool right = azimuth > 0;
    const placing::Setting s =
        sharp(std::abs(azimuth) < 20 ? direct_view(azimuth * degree, {12, 11, 21})
              : right                ? direct_view(azimuth * degree, {13, 14})
                                     : direct_view(azimuth * degree, {23, 24}));
    const Standing plan = planned(s);
    const auto found = margins::margins_of(plan);
    if (found.fails) continue;
    ++views;
    const auto judge = margins::judge_for(plan);
    REQUIRE(judge);
    for (const Margin& m : found.margins) {
      const bool more = &m == &margin(found, m.what, true);
      const double step = tolerance(m.size);
      const double most = margins::row_of(m.what).most;
      double holds_to = 0;
      for (double size = step; size <= std::min(m.size + 2 * step, most); size += step) {
        if (judge->broken(margins::disturbed(plan, m.what, more ? size : -size))) break;
        holds_to = size;
      }
      ++all;
      if (std::abs(std::min(holds_to, most) - m.size) > 1.5 * step) ++other;
      if (m.breaks) {
        CHECK(m.size < most);
        CHECK(judge->holds(margins::disturbed(plan, m.what, more ? m.size : -m.size)));
      } else {
        CHECK(m.size == most);
      }
    }
  }
  MESSAGE(other, " of ", all, " margins differ, on ", views, " views");
  CHECK(views >= 20);
  CHECK(other * 50 <= all);
}

TEST_CASE("shipped views: within a margin all holds, beyond it something is broken") {
  std::size_t views = 0;
  std::size_t samples = 0;
  std::size_t other = 0;
  each_shipped_view([&](const plan::ViewPlan& view) {
    const auto pose = placing::pose_of(*view.work->setting);
    REQUIRE(pose);
    const Standing plan = margins::standing(*view.work->setting, *pose);
    const auto found = margins::margins_of(plan, 2);
    if (found.fails) return;
    ++views;
    const auto judge = margins::judge_for(plan);
    REQUIRE(judge);
    for (const Margin& m : found.margins) {
      const bool more = &m == &margin(found, m.what, true);
      const auto broken = [&](double size) {
        return judge->broken(margins::disturbed(plan, m.what, more ? size : -size));
      };
      for (const double share : {0.35, 0.8}) {
        ++samples;
        other += broken(share * m.size) ? 1u : 0u;
      }
      if (!m.breaks) continue;
      const auto beyond = broken(m.size + tolerance(m.size));
      ++samples;
      other += beyond ? 0u : 1u;
    }
  });
  MESSAGE(other, " of ", samples, " samples differ, on ", views, " views");
  CHECK(views >= 20);
  CHECK(other * 50 <= samples);
}

TEST_CASE("left and right have the same margins, the other way round") {
  const auto right = margins_of(sharp(direct_view(55.0 * degree, {13, 14})));
  const auto left = margins_of(sharp(direct_view(-55.0 * degree, {23, 24})));
  REQUIRE(!right.fails);
  REQUIRE(right.margins.size() == left.margins.size());
  for (const Margin& m : right.margins) {
    const bool turns = m.what == Error::camera_sideways || m.what == Error::camera_roll ||
                       m.what == Error::aim_across;
    const bool more = &m == &margin(right, m.what, true);
    const Margin& other = margin(left, m.what, turns != more);
    CAPTURE(margins::row_of(m.what).id);
    CHECK(m.size == Approx(other.size));
    CHECK(m.breaks.has_value() == other.breaks.has_value());
    if (!m.breaks || !other.breaks) continue;
    CHECK(m.breaks->promise == other.breaks->promise);
    REQUIRE(m.breaks->teeth.size() == other.breaks->teeth.size());
    for (const physics::Tooth tooth : m.breaks->teeth)
      CHECK(std::count(other.breaks->teeth.begin(), other.breaks->teeth.end(),
                       tooth.other_side()) == 1);
  }
  CHECK(margin(right, Error::camera_sideways, true).way == Way::forward);
  CHECK(margin(left, Error::camera_sideways, false).way == Way::forward);
}

TEST_CASE("more room, depth or leave gives no smaller margins") {
  const placing::Setting s = sharp(direct_view(55.0 * degree, {13, 14}));
  const auto before = margins_of(s);
  placing::Setting larger = s;
  larger.camera.sensor = {45.0 * mm, 30.0 * mm};
  placing::Setting deeper = s;
  deeper.sharp->set = FNumber{32};
  placing::Setting laxer = s;
  laxer.limits.turned = 80.0 * degree;
  laxer.limits.seen = Share{0.2};
  for (const placing::Setting& other : {larger, deeper, laxer}) {
    const auto after = margins_of(other);
    for (std::size_t i = 0; i < before.margins.size(); ++i) {
      CAPTURE(margins::row_of(before.margins[i].what).id);
      CHECK(after.margins[i].size + tolerance(after.margins[i].size) >= before.margins[i].size);
    }
  }
}

TEST_CASE("what does not hold as planned has no margins; threads change nothing") {
  placing::Setting s = direct_view(Angle{}, {12, 11, 21, 22});
  s.camera.sensor = {12.0 * mm, 8.0 * mm};
  const auto cut = margins_of(s);
  REQUIRE(cut.fails);
  CHECK(cut.fails->promise == Promise::framed);
  CHECK(!cut.fails->teeth.empty());
  CHECK(cut.margins.empty());

  const Standing plan = planned(over_arch());
  const auto one = margins::margins_of(plan);
  const auto three = margins::margins_of(plan, 3);
  REQUIRE(one.margins.size() == three.margins.size());
  CHECK(!one.margins.empty());
  for (std::size_t i = 0; i < one.margins.size(); ++i) {
    CHECK(one.margins[i].size == three.margins[i].size);
    CHECK(one.margins[i].breaks == three.margins[i].breaks);
  }
  // Nothing that must be sharp, and no mirror: no margins of these.
  const auto bare = margins_of(direct_view(Angle{}, {11, 21}));
  for (const Margin& m : bare.margins) {
    CHECK(m.what != Error::focus);
    CHECK(m.what != Error::mirror_angle);
  }
}

TEST_CASE("a tolerance that is wider than a margin is told, by the promise that breaks") {
  const std::string text = five();
  const std::string line = "must show        facial";
  const auto with = [&](std::string_view tolerance) {
    return Work(changed(text, line, "tolerance        " + std::string(tolerance) + "\n    " + line),
                chair(3));
  };
  const Work plain(text, chair(3));
  const plan::ViewPlan& front = plain.view("front");
  const auto found = margins::margins_of(
      margins::standing(*front.work->setting, *placing::pose_of(*front.work->setting)));
  double least = 90;
  for (const Error what : {Error::camera_sideways, Error::camera_height}) {
    for (const bool more : {false, true})
      least = std::min(least, margin(found, what, more).size);
  }
  const auto wide = with(fmt::format("{:.2f} deg of the camera", least + tolerance(least)));
  CHECK(wide.count("P084") == 1);
  const auto held = wide.view("front").facts.get(plan::fact::camera_angle_held);
  REQUIRE(held);
  CHECK(std::abs(held->in(degree)-least) <= tolerance(least) + 0.1);
  CHECK(with(fmt::format("{:.2f} deg of the camera", 0.9 * least)).count("P084") == 0);

  const double nearer = margin(found, Error::camera_distance, false).size;
  CHECK(with(fmt::format("{:.1f} mm of distance", nearer + 1)).count("P084") == 1);
  CHECK(with(fmt::format("{:.1f} mm of distance", nearer - 1)).count("P084") == 0);
  CHECK(plain.count("P084") == 0);
  // A view that fails as planned is told once, for that.
  const Work fails(changed(text, line, "tolerance        30 deg of the camera\n    " + line),
                   chair(7));
  CHECK(fails.count("P084") == 0);
}

TEST_CASE("all off at once: by one thing alone the share is what its margins leave of a normal") {
  const placing::Setting s = sharp(direct_view(Angle{}, {12, 11, 21, 22}));
  const Standing plan = planned(s);
  const auto all = margins::margins_of(plan);
  for (const auto& [what, by] : {std::pair(Error::focus, 1.2), std::pair(Error::aim_across, 15.0),
                                 std::pair(Error::camera_sideways, 6.0)}) {
    margins::Spreads spreads{};
    spreads[static_cast<std::size_t>(what)] = by;
    const auto shots = margins::together(plan, spreads, 2000, 3);
    const auto below = [&](double size) {
      return 0.5 * std::erfc(-size / by / std::numbers::sqrt2);
    };
    const double leaves =
        below(margin(all, what, true).size) - below(-margin(all, what, false).size);
    CAPTURE(margins::row_of(what).id);
    CHECK(leaves > 0.2);
    CHECK(leaves < 0.99);
    CHECK(shots.share() == Approx(leaves).epsilon(0.02));
  }
}

TEST_CASE("all off at once: more spread holds less, none holds all, threads change nothing") {
  const Standing plan = planned(sharp(direct_view(Angle{}, {12, 11, 21, 22})));
  margins::Spreads spreads{};
  CHECK(margins::together(plan, spreads, 50, 1).hold == 50);
  CHECK(margins::together(plan, spreads, 0, 1).share() == 0);
  for (const margins::ErrorRow& row : margins::error_rows())
    spreads[static_cast<std::size_t>(row.what)] = margins::spread_row(row.what).value;
  const auto usual = margins::together(plan, spreads, 400, 1);
  const auto threads = margins::together(plan, spreads, 400, 1, 3);
  CHECK(usual.hold == threads.hold);
  CHECK(usual.first == threads.first);
  CHECK(usual.error == threads.error);
  CHECK(usual.hold > 0);
  CHECK(usual.hold < 400);
  CHECK(usual.error > 0);
  std::size_t sum = usual.hold;
  for (const std::size_t one : usual.first)
    sum += one;
  CHECK(sum == 400);
  for (double& one : spreads)
    one *= 0.5;
  CHECK(margins::together(plan, spreads, 400, 1).hold > usual.hold);
  // Other shots of the same spread: as many hold, within what the error says.
  for (double& one : spreads)
    one *= 2;
  const auto other = margins::together(plan, spreads, 400, 77);
  CHECK(std::abs(other.share() - usual.share()) < 4 * std::hypot(usual.error, other.error) + 0.01);
}

} // namespace norma::test::off_plan
