// Placing by itself: settings built by hand, without a protocol, a kit or facts.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <thread>
#include <vector>

#include "physics/defaults.hpp"
#include "physics/mirror.hpp"
#include "physics/optics.hpp"
#include "placing/arch_mirror.hpp"
#include "placing/cheek_mirror.hpp"
#include "placing/depth.hpp"
#include "placing/lamp.hpp"
#include "placing/layout.hpp"
#include "placing/mirror.hpp"
#include "placing/outcome.hpp"
#include "placing/outline.hpp"
#include "placing/remedies.hpp"
#include "placing/room.hpp"
#include "placing/tongue_mirror.hpp"

using namespace norma;
using namespace norma::placing;
using doctest::Approx;

namespace {

namespace d = physics::defaults;

physics::MouthCorner corner(const physics::Default& side, const physics::Default& back) {
  return {side.value * mm, back.value * mm};
}

std::vector<Wanted> surfaces(std::initializer_list<int> teeth, Surface surface) {
  std::vector<Wanted> out;
  for (const int iso : teeth)
    out.push_back({*Tooth::from_iso(iso), surface});
  return out;
}

/// A camera at 1:2 on 36 x 24 mm with a 100 mm lens, both corners held evenly, norma's own limits.
Setting setting(std::vector<Wanted> wanted) {
  Setting s;
  s.wanted = std::move(wanted);
  s.mouth.anatomy = physics::mean_anatomy(physics::Dentition::adult);
  s.mouth.of_upper = s.wanted.front().tooth.is_upper();
  s.mouth.right = s.mouth.left = corner(d::corner_side_even, d::corner_back_even);
  s.camera.ratio = Magnification{0.5};
  s.camera.pupil_distance = physics::pupil_distance(100.0 * mm, s.camera.ratio, PupilRatio{1.0});
  s.camera.sensor = {36.0 * mm, 24.0 * mm};
  s.limits = {Share{d::shown_share.value},        Share{d::mirror_share.value},
              Share{d::lit_share.value},          d::mirror_gap.value * mm,
              d::turned_elsewhere.value * degree, d::squarely.value * degree};
  s.corners.firm = corner(d::corner_side_firm, d::corner_back_firm);
  return s;
}

/// Aimed at the middle of what must show.
Setting aimed(const Setting& s, std::optional<Length> opening = std::nullopt) {
  const auto out = of_mouth(s, s.mouth, opening);
  REQUIRE(out.has_value());
  return *out;
}

/// Taken directly from so far aside.
Setting from_aside(Angle azimuth, std::vector<Wanted> wanted) {
  Setting s = setting(std::move(wanted));
  s.camera.azimuth = azimuth;
  s.camera.axes = physics::camera_axes(azimuth, Angle{}, Angle{});
  return aimed(s);
}

/// Over the upper arch, opened by 45 degrees, the camera square to the arch; the mouth opened wide.
Setting over_arch(Length width, Length length = 130.0 * mm) {
  Setting s =
      setting(surfaces({17, 16, 15, 14, 13, 12, 11, 21, 22, 23, 24, 25, 26, 27}, Surface::biting));
  const Angle opened = 45.0 * degree;
  s.mirror = UsedMirror{MirrorUse::over_arch, {}, opened};
  s.mirror->sheet.width = width;
  s.mirror->sheet.length = length;
  s.camera.axes =
      physics::in_mirror(physics::camera_axes(Angle{}, physics::camera_elevation(opened), Angle{}),
                         physics::arch_mirror_normal(true, opened));
  return aimed(s, d::opened_wide.value * mm);
}

/// By a mirror inside of the mouth, its image square to the teeth.
Setting by_mirror(MirrorUse use, Length width, Length length, std::vector<Wanted> wanted) {
  Setting s = setting(std::move(wanted));
  s.mirror = UsedMirror{use, {}, {}};
  s.mirror->sheet.width = width;
  s.mirror->sheet.length = length;
  return aimed(s, d::opened_wide.value * mm);
}

Setting in_cheek() {
  return by_mirror(MirrorUse::in_cheek, 40.0 * mm, 120.0 * mm,
                   surfaces({14, 15, 16, 17}, Surface::facial));
}
Setting beside_tongue(Length width) {
  return by_mirror(MirrorUse::beside_tongue, width, 150.0 * mm,
                   surfaces({44, 45, 46}, Surface::lingual));
}

/// The same of the other side of the mouth: teeth, corners, camera and lamp.
Setting mirrored(const Setting& s) {
  Setting out = s;
  for (Wanted& w : out.wanted)
    w.tooth = w.tooth.other_side();
  if (out.sharp) {
    for (Wanted& w : out.sharp->surfaces)
      w.tooth = w.tooth.other_side();
  }
  std::swap(out.mouth.right, out.mouth.left);
  for (Tooth& t : out.mouth.missing)
    t = t.other_side();
  out.camera.azimuth = -s.camera.azimuth;
  out.camera.aim.x = -s.camera.aim.x;
  const auto over = [](physics::Vec v) { return physics::Vec{-v.x, v.y, v.z}; };
  out.camera.axes.forward = over(s.camera.axes.forward);
  out.camera.axes.up = over(s.camera.axes.up);
  // The picture's right is the other way round: it is no mirror image itself.
  out.camera.axes.right = -over(s.camera.axes.right);
  if (out.lamp && out.lamp->side == CameraLamp::Side::right)
    out.lamp->side = CameraLamp::Side::left;
  return out;
}

/// A point beside the lens, `side` of it.
CameraLamp beside_lens(CameraLamp::Side side) {
  return {CameraLamp::Kind::beside, 255.0 * mm, 60.0 * mm, side};
}

Sharp all_sharp(const Setting& s) {
  Sharp sharp;
  sharp.surfaces = s.wanted;
  sharp.blur = 0.03 * mm;
  sharp.narrowest = FNumber{32};
  sharp.pupil_ratio = PupilRatio{1.0};
  return sharp;
}

/// Several views, each with a lamp and with what must be sharp.
std::vector<Setting> views() {
  std::vector<Setting> out{from_aside(60.0 * degree, surfaces({13, 14, 15, 16}, Surface::facial)),
                           from_aside(Angle{}, surfaces({12, 11, 21, 22}, Surface::facial)),
                           over_arch(70.0 * mm),
                           in_cheek(),
                           beside_tongue(26.0 * mm),
                           by_mirror(MirrorUse::round, 22.0 * mm, Length{},
                                     surfaces({32, 31, 41, 42}, Surface::lingual))};
  for (Setting& s : out) {
    s.lamp = beside_lens(CameraLamp::Side::right);
    s.sharp = all_sharp(s);
  }
  return out;
}

bool same(const Outcome& a, const Outcome& b) {
  const auto alike = [](const Shown& x, const Shown& y) {
    return x.tooth == y.tooth && x.seen == y.seen && x.beside == y.beside && x.lit == y.lit &&
           x.light == y.light && x.obliquity == y.obliquity && x.framed == y.framed;
  };
  return std::equal(a.shown.begin(), a.shown.end(), b.shown.begin(), b.shown.end(), alike) &&
         a.f_number_needed == b.f_number_needed && a.margins->left == b.margins->left &&
         a.margins->top == b.margins->top && a.lamp_in_mirror == b.lamp_in_mirror &&
         a.seen == b.seen && a.sharp == b.sharp && a.framed == b.framed && a.lit == b.lit &&
         a.fits == b.fits;
}

} // namespace

TEST_CASE("a wider and a longer mirror over the arch show no less") {
  double before = 0;
  for (double width = 30; width <= 90; width += 6) {
    const Setting s = over_arch(width * mm);
    const double seen = seen_in_all(look_at(s, *pose_of(s)));
    CHECK(seen >= before);
    before = seen;
  }
  const Setting widest = over_arch(90.0 * mm);
  for (const Shown& one : look_at(widest, *pose_of(widest)))
    CHECK(one.beside == 0); // nothing ends beside it
  before = 0;
  for (double length = 50; length <= 130; length += 10) {
    const Setting s = over_arch(70.0 * mm, length * mm);
    const double seen = seen_in_all(look_at(s, *pose_of(s)));
    CHECK(seen >= before);
    before = seen;
  }
  const Setting narrow = over_arch(40.0 * mm);
  const auto larger = larger_mirror_that_shows(narrow, *pose_of(narrow));
  REQUIRE(larger.has_value());
  CHECK_FALSE(larger->longer);
  CHECK_FALSE(shows_all(look_at(narrow, *pose_of(narrow))));
  CHECK(shows_all(look_at(narrow, larger->pose, nullptr, physics::fine_pieces)));
}

TEST_CASE("a mirror that is too short is answered with a longer one, no longer than it takes") {
  for (const double width : {60.0, 75.0, 90.0}) {
    const Setting s = over_arch(width * mm, 50.0 * mm);
    REQUIRE_FALSE(shows_all(look_at(s, *pose_of(s))));
    const auto larger = larger_mirror_that_shows(s, *pose_of(s));
    REQUIRE(larger.has_value());
    CHECK(larger->longer);
    const auto whole = [&](Length length) {
      const Setting other = over_arch(width * mm, length);
      const std::vector<Shown> shown = look_at(other, *pose_of(other));
      return std::none_of(shown.begin(), shown.end(), cut_off);
    };
    CHECK(whole(larger->sheet.length));
    CHECK_FALSE(whole(larger->sheet.length - 2.0 * mm));
  }
}

TEST_CASE("a thick mirror takes the opening that its front and its back take") {
  Setting s = over_arch(70.0 * mm);
  const Pose thin = *pose_of(s);
  const auto least = room_between_jaws(thin).least;
  REQUIRE(least.has_value());
  for (const double thick : {1.0, 3.0, 6.0}) {
    s.mirror->sheet.thickness = thick * mm;
    const auto found = room_between_jaws(*pose_of(s)).least;
    // Its back by itself: a plane that lies so far behind.
    Pose back = thin;
    back.mirror->middle = back.mirror->middle - back.mirror->normal * (thick * mm);
    const auto of_back = room_between_jaws(back).least;
    REQUIRE(found.has_value());
    REQUIRE(of_back.has_value());
    CHECK(*found == std::max(*least, *of_back));
    CHECK(*found > *least);
  }
}

TEST_CASE("both sides of the mouth come out alike in every kind of view") {
  for (const Setting& s : views()) {
    const Setting other = mirrored(s);
    const auto a = outcome_of(s);
    const auto b = outcome_of(other);
    REQUIRE(a.has_value());
    REQUIRE(b.has_value());
    CAPTURE(static_cast<int>(s.mirror ? s.mirror->use : MirrorUse::over_arch));
    REQUIRE(a->shown.size() == b->shown.size());
    for (const Shown& x : a->shown) {
      const auto y = std::find_if(b->shown.begin(), b->shown.end(), [&](const Shown& o) {
        return o.tooth == x.tooth.other_side() && o.surface == x.surface;
      });
      REQUIRE(y != b->shown.end());
      CHECK(x.seen == Approx(y->seen));
      CHECK(x.lit == Approx(y->lit));
      CHECK(x.obliquity.in(degree) == Approx(y->obliquity.in(degree)));
    }
    CHECK(a->margins->left.in(mm) == Approx(b->margins->right.in(mm)));
    CHECK(a->margins->top.in(mm) == Approx(b->margins->top.in(mm)));
    CHECK(a->f_number_needed->value() == Approx(b->f_number_needed->value()));
    CHECK(a->lamp_in_mirror == b->lamp_in_mirror);
  }
}

TEST_CASE("the same comes out on four threads, whatever runs beside it") {
  const std::vector<Setting> all = views();
  std::vector<Outcome> once;
  for (const Setting& s : all)
    once.push_back(*outcome_of(s));
  std::vector<int> alike(4, 0);
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < alike.size(); ++t) {
    threads.emplace_back([&, t] {
      for (std::size_t i = 0; i < all.size(); ++i) {
        const std::size_t at = (i + t) % all.size(); // each in another order
        alike[t] += same(*outcome_of(all[at]), once[at]) ? 1 : 0;
      }
    });
  }
  for (std::thread& t : threads)
    t.join();
  for (const int n : alike)
    CHECK(n == static_cast<int>(all.size()));
}

TEST_CASE("another mouth is looked at by the same rules, and the same one gives the same setting") {
  for (const Setting& s : views()) {
    const auto again = of_mouth(s, s.mouth, s.opening);
    REQUIRE(again.has_value());
    CHECK(same(*outcome_of(*again), *outcome_of(s)));
  }
  // A wider arch: a mirror that just shows the mean's last molars ends before theirs.
  physics::AnatomyValues wide;
  wide.set(d::upper_molar_width, d::upper_molar_width.value + 8);
  const Setting mean = over_arch(62.0 * mm);
  physics::MouthState mouth = mean.mouth;
  mouth.anatomy = physics::make_anatomy(physics::Dentition::adult, wide);
  REQUIRE(mouth.anatomy != nullptr);
  const auto other = of_mouth(mean, mouth, mean.opening);
  REQUIRE(other.has_value());
  CHECK(seen_in_all(outcome_of(*other)->shown) < seen_in_all(outcome_of(mean)->shown));
  // Beyond what a jaw comes to, or a tooth aimed at that is not there.
  CHECK_FALSE(of_mouth(mean, mean.mouth, 200.0 * mm).has_value());
  Setting on_tooth = from_aside(Angle{}, surfaces({11}, Surface::facial));
  on_tooth.camera.aimed_at = Centred{{{*Tooth::from_iso(12), Surface::facial}}};
  CHECK(of_mouth(on_tooth, on_tooth.mouth, {}).has_value());
  on_tooth.mouth.missing = {*Tooth::from_iso(12)};
  CHECK_FALSE(of_mouth(on_tooth, on_tooth.mouth, {}).has_value());
}

TEST_CASE("what must be sharp: depth, the f-number that holds it, a narrower one holds it, too") {
  Setting s = from_aside(Angle{}, surfaces({13, 12, 11, 21, 22, 23}, Surface::facial));
  CHECK_FALSE(f_number_for(s, s.camera.axes).asked);
  CHECK(outcome_of(s)->sharp); // nothing is asked for
  s.sharp = all_sharp(s);
  const auto needed = f_number_for(s, s.camera.axes).needed;
  REQUIRE(needed.has_value());
  const DepthReach reach = reach_of(depths_of(s.mouth, s.wanted, s.camera.axes));
  // Half of it on either side of the focus: N = m^2 T / (2 c (1 + m)), a long lens.
  const double m = s.camera.ratio.value();
  const double depth = (reach.farthest - reach.nearest).in(mm);
  CHECK(needed->value() == Approx(m * m * depth / (2 * 0.03 * (1 + m))));
  s.sharp->set = FNumber{needed->value() * 0.99};
  CHECK_FALSE(outcome_of(s)->sharp);
  s.sharp->set = FNumber{needed->value() * 1.01};
  CHECK(outcome_of(s)->sharp);
  // Focused on the foremost teeth it takes more.
  s.sharp->focus = TeethPair{*Tooth::from_iso(11), *Tooth::from_iso(21)};
  CHECK(f_number_for(s, s.camera.axes).needed->value() > needed->value());
}

TEST_CASE("a mirror over the arch: less room, flatter, and never through the other jaw") {
  const Setting s = over_arch(70.0 * mm);
  const Pose pose = *pose_of(s);
  const RoomBetweenJaws room = room_between_jaws(pose);
  REQUIRE(room.least.has_value());
  CHECK(clears(*pose.mirror, *other_jaw_at(pose, *room.least)));
  CHECK_FALSE(clears(*pose.mirror, *other_jaw_at(pose, *room.least - 1.0 * mm)));
  const Pose flat = opened_otherwise(s, pose, 30.0 * degree);
  CHECK(*room_between_jaws(flat).least < *room.least);
  Setting tight = s;
  tight.opening = *room.least - 2.0 * mm;
  if (const auto angle = flatter_that_fits(tight, pose)) {
    const Pose fits = opened_otherwise(tight, pose, *angle);
    CHECK(clears(*fits.mirror, *other_jaw_at(pose, *tight.opening)));
    CHECK(shows_all(look_at(tight, fits)));
  }
  CHECK(outcome_of(s)->fits == (*room.least <= *s.opening &&
                                room_at_corners(pose)->mirror <= room_at_corners(pose)->between));
}

TEST_CASE("where it goes is free of teeth and gum, and the corner of the mouth keeps it in") {
  Setting s = in_cheek();
  const auto found = place_cheek_mirror(s, bare_pose(s));
  REQUIRE(found.has_value());
  CHECK_FALSE(
      physics::runs_into(*found->at.pose.mirror, hard_bodies(found->at.pose.mouth.mouth())));
  int within = 0;
  for (Length less = 1.0 * mm; less <= 16.0 * mm; less += 1.0 * mm) {
    const Length side = found->at_corner - less;
    s.corners.by_mirror = physics::MouthCorner{side, d::corner_back_firm.value * mm};
    const auto held = place_cheek_mirror(s, bare_pose(s));
    REQUIRE(held.has_value());
    if (held->at_corner <= side) {
      ++within;
      CHECK(shows_all(look_at(s, held->at.pose)));
    } else if (held->within) {
      ++within;
      CHECK(held->within->opened < held->at.opened);
      CHECK(held->within->seen.size() < s.wanted.size());
    }
  }
  CHECK(within > 0);

  const Setting tongue = beside_tongue(26.0 * mm);
  const auto beside = place_tongue_mirror(tongue, bare_pose(tongue));
  REQUIRE(beside.has_value());
  CHECK(beside->pose.mirror->along.y < 0); // out of the mouth
  const Setting too_wide = beside_tongue(80.0 * mm);
  const auto fit = place_tongue_mirror_or_fit(too_wide, bare_pose(too_wide));
  REQUIRE(fit.width_that_fits.has_value());
  CHECK(*fit.width_that_fits < 80.0 * mm);
  const Setting narrower = beside_tongue(*fit.width_that_fits);
  CHECK(place_tongue_mirror(narrower, bare_pose(narrower))->all);
}

TEST_CASE("an outline: the end that goes in, round corners, the half of a mirror with two ends") {
  Sheet sheet;
  sheet.width = 70.0 * mm;
  sheet.narrow_end = 50.0 * mm;
  sheet.length = 130.0 * mm;
  CHECK(outline_of(sheet).width == 70.0 * mm);
  CHECK(outline_of(sheet).corner == Length{});
  sheet.small_end_in = true;
  CHECK(outline_of(sheet).width == 50.0 * mm);
  CHECK(outline_of(sheet).narrow_end == 70.0 * mm);
  sheet.shape = Sheet::Shape::rounded;
  CHECK(outline_of(sheet).corner.in(mm) == Approx(d::mirror_corner.value * 50));
  sheet.shape = Sheet::Shape::two_ends;
  CHECK(outline_of(sheet).length == 65.0 * mm);
  CHECK(outline_of(sheet).narrow_end == outline_of(sheet).width);
  CHECK(outline_of(lengthened(sheet, 10.0 * mm)).length == 75.0 * mm);
  CHECK(outline_of(scaled(sheet, 2.0)).width == 100.0 * mm);
  CHECK(outline_of(scaled(sheet, 2.0)).length == 65.0 * mm);
}

TEST_CASE("what is advised does show: another azimuth, no mirror, a firm pull") {
  Setting s = from_aside(30.0 * degree, surfaces({13, 14, 15, 16}, Surface::facial));
  s.mouth.right = corner(d::corner_side_light, d::corner_back_light);
  const Pose pose = bare_pose(s);
  REQUIRE_FALSE(none_hidden(look_at(s, pose)));
  CHECK_FALSE(none_hidden(look_farther_in(s, pose, nullptr)));
  if (least_seen_with_firm_pull(s, pose)) {
    Setting firm = s;
    firm.mouth.right = firm.mouth.left = s.corners.firm;
    CHECK(none_hidden(look_at(firm, bare_pose(firm))));
  }
  s.mouth.right = s.mouth.left = s.corners.firm;
  const auto other = azimuth_that_shows(s, bare_pose(s));
  REQUIRE(other.has_value());
  Setting there = s;
  there.camera.azimuth = other->azimuth;
  there.camera.axes = physics::camera_axes(other->azimuth, Angle{}, Angle{});
  CHECK(none_hidden(look_at(there, bare_pose(there))));
}

TEST_CASE("no focus takes less stopping down than the one that is found, by a fine scan") {
  const auto side = [](int back) {
    std::vector<Wanted> out;
    for (int place = 1; place <= back; ++place)
      out.push_back({*Tooth::from_iso(10 + place), Surface::facial});
    return out;
  };
  for (const double f : {40.0, 60.0, 105.0}) {
    for (const double m : {0.2, 0.5, 1.0}) {
      for (const int back : {2, 4, 7}) {
        CAPTURE(f);
        CAPTURE(m);
        CAPTURE(back);
        Setting s = from_aside(40.0 * degree, side(back));
        s.camera.ratio = Magnification{m};
        Sharp sharp;
        sharp.surfaces = s.wanted;
        sharp.blur = 0.030 * mm;
        sharp.narrowest = FNumber{32};
        sharp.pupil_ratio = PupilRatio{0.8};
        sharp.focal_length = f * mm;
        s.sharp = sharp;
        const auto found = f_number_for(s, s.camera.axes).needed;
        // Similar triangles from the pupil, x in front of the focus: a point at d behind it is
        // blurred by m f d / (N (x + d)), which is to be 0.030 mm at most.
        const DepthReach reach = reach_of(depths_of(s.mouth, s.wanted, s.camera.axes));
        const double x = f * (1.0 / m + 1.0 / 0.8);
        const double deep = (reach.farthest - reach.nearest).in(mm);
        double least = 1e9;
        for (int i = -2000; i <= 12000; ++i) {
          const double focus = deep * i / 10000.0; // behind the nearest point
          const double near = focus < x ? std::max(0.0, m * f * focus / (x - focus)) : 1e9;
          const double far = std::max(0.0, m * f * (deep - focus) / (x + deep - focus));
          least = std::min(least, std::max(near, far) / 0.030);
        }
        REQUIRE(found.has_value());
        CHECK(found->value() <= least * (1 + 1e-9));
        CHECK(found->value() == Approx(least).epsilon(0.001));
      }
    }
  }
}

TEST_CASE("a lamp beside the lens stands where it is said, and lights what it can reach") {
  Setting s = from_aside(60.0 * degree, surfaces({14, 15, 16}, Surface::facial));
  const Pose pose = bare_pose(s);
  CHECK_FALSE(lamp_of(s, pose).has_value());
  s.lamp = beside_lens(CameraLamp::Side::front_teeth);
  const auto off = [&](bool other_side) {
    return physics::along(lamp_of(s, pose, other_side)->points.front() - s.camera.aim,
                          pose.axes.right)
        .in(mm);
  };
  // From the right the front teeth lie at the right of the picture; upside down at its left.
  CHECK(off(false) == Approx(60));
  CHECK(off(true) == Approx(-60));
  s.camera.roll = 180.0 * degree;
  CHECK(off(false) == Approx(-60));
  s.camera.roll = Angle{};
  const auto lit_by = [&](CameraLamp::Side side) {
    s.lamp->side = side;
    const auto lamp = lamp_of(s, pose);
    double lit = 0;
    for (const Shown& one : look_at(s, pose, &*lamp))
      lit += one.lit;
    return lit;
  };
  // Past the cheek less light comes in.
  CHECK(lit_by(CameraLamp::Side::front_teeth) >= lit_by(CameraLamp::Side::cheek));
}

TEST_CASE("the light of two heads adds up") {
  Setting s = from_aside(60.0 * degree, surfaces({13, 14, 15, 16, 17}, Surface::facial));
  const Pose pose = bare_pose(s);
  const auto lit_by = [&](CameraLamp::Kind kind, CameraLamp::Side side) {
    s.lamp = beside_lens(side);
    s.lamp->kind = kind;
    const auto lamp = lamp_of(s, pose);
    return look_at(s, pose, &*lamp);
  };
  const auto right = lit_by(CameraLamp::Kind::beside, CameraLamp::Side::right);
  const auto left = lit_by(CameraLamp::Kind::beside, CameraLamp::Side::left);
  const auto twin = lit_by(CameraLamp::Kind::twin, CameraLamp::Side::right);
  REQUIRE(twin.size() == 5);
  for (std::size_t i = 0; i < twin.size(); ++i) {
    CAPTURE(twin[i].tooth.iso());
    CHECK(twin[i].light == Approx(right[i].light + left[i].light));
    CHECK(twin[i].lit <= std::min(1.0, right[i].lit + left[i].lit));
  }
  // On the axis both are one lamp, twice as strong: a stop.
  s.lamp->off_axis = Length{};
  const auto both = lamp_of(s, pose);
  const auto doubled = look_at(s, pose, &*both);
  s.lamp->kind = CameraLamp::Kind::beside;
  const auto one = lamp_of(s, pose);
  const auto single = look_at(s, pose, &*one);
  for (std::size_t i = 0; i < doubled.size(); ++i) {
    CHECK(doubled[i].light == Approx(2.0 * single[i].light));
    CHECK(doubled[i].lit == Approx(single[i].lit));
  }
}

TEST_CASE("heads stand across from each other; a mirror shows each of them by itself") {
  Setting s = from_aside(Angle{}, surfaces({11, 21}, Surface::facial));
  const Pose pose = bare_pose(s);
  s.lamp = beside_lens(CameraLamp::Side::above);
  s.lamp->kind = CameraLamp::Kind::twin;
  const auto lamp = lamp_of(s, pose);
  REQUIRE(lamp->points.size() == 2);
  CHECK(physics::along(lamp->points[0] - lamp->points[1], pose.axes.up).in(mm) == Approx(120));
  CHECK(physics::along(lamp->points[0] - lamp->points[1], pose.axes.right).in(mm) == Approx(0));
  CHECK(lamp->strengths.size() == 2);
}

TEST_CASE("a mirror that lies to one side takes its way aside twice between the corners") {
  Setting s = over_arch(46.0 * mm);
  s.wanted = surfaces({14, 15, 16, 17}, Surface::biting);
  s = aimed(s, d::opened_wide.value * mm);
  const Pose pose = *pose_of(s);
  REQUIRE(abs(pose.mirror->middle.x) > 1.0 * mm);
  CHECK(room_at_corners(pose)->mirror.in(mm) ==
        Approx((46.0 * mm + 2.0 * abs(pose.mirror->middle.x)).in(mm)));
}

TEST_CASE("a tooth is cut as soon as any of it is beyond the frame") {
  const auto shown = [](Length beyond) {
    Setting s = from_aside(Angle{}, surfaces({11, 21}, Surface::facial));
    // The patient's right lies at the left of the picture.
    s.camera.aim.x += beyond + margins_of(s, bare_pose(s))->left;
    std::vector<int> cut;
    for (const Shown& one : look_at(s, bare_pose(s))) {
      if (!cut_by_frame(one)) continue;
      cut.push_back(one.tooth.iso());
      CHECK(one.framed > 0.95); // no piece of it reaches so far
    }
    return cut;
  };
  CHECK(shown(-0.1 * mm).empty());
  CHECK(shown(0.1 * mm) == std::vector<int>{11});
}

TEST_CASE("how much of a surface may lie beside the mirror is a share of what faces the lens") {
  int told_apart = 0;
  for (const Surface surface : {Surface::facial, Surface::lingual, Surface::biting}) {
    for (double width = 30; width <= 80; width += 1) {
      Setting s = over_arch(width * mm);
      for (Wanted& w : s.wanted)
        w.surface = surface;
      s = aimed(s, d::opened_wide.value * mm);
      for (const Shown& one : look_at(s, *pose_of(s))) {
        CHECK(one.in_mirror == (one.beside <= 0.1 * one.facing + 1e-9));
        told_apart += one.beside > 0.1 * one.facing + 1e-9 && one.beside <= 0.1 ? 1 : 0;
      }
    }
  }
  CHECK(told_apart > 0);
}

TEST_CASE("a flatter mirror is offered where it shows all, the first one that passes, or none") {
  int none = 0;
  for (double length = 40; length <= 130; length += 10) {
    for (double opening = 20; opening <= 50; opening += 5) {
      const Setting made = over_arch(64.0 * mm, length * mm);
      const Pose pose = *pose_of(made);
      Setting s = made;
      s.opening = opening * mm;
      const auto other_jaw = other_jaw_at(pose, *s.opening);
      if (!other_jaw) continue;
      std::optional<Angle> wanted;
      for (Angle a = 40.0 * degree; a >= 20.0 * degree; a -= 5.0 * degree) {
        const Pose flat = opened_otherwise(s, pose, a);
        if (!clears(*flat.mirror, *other_jaw)) continue;
        if (shows_all(look_at(s, flat))) wanted = a;
        none += wanted ? 0 : 1;
        break;
      }
      CHECK(flatter_that_fits(s, pose).has_value() == wanted.has_value());
    }
  }
  CHECK(none > 0);
}

TEST_CASE("a point is lit where half of the lamp or more reaches it") {
  const Setting s = from_aside(Angle{}, surfaces({11, 21}, Surface::facial));
  const Pose pose = bare_pose(s);
  const physics::Eye eye = eye_of(s, pose);
  const physics::Point front = eye.pupil;
  const physics::Point behind = s.camera.aim + pose.axes.forward * (100.0 * mm);
  const auto lit = [&](const std::vector<physics::Point>& points) {
    const physics::Lamp lamp{points};
    double sum = 0;
    for (const Shown& one : look_at(s, pose, &lamp))
      sum += one.lit;
    return sum;
  };
  const double all = lit({front});
  REQUIRE(all > 0);
  CHECK(lit({front, front, behind, behind}) == all);
  CHECK(lit({front, behind, behind, behind}) == 0);
}

TEST_CASE("what is hidden does not count as lit unevenly") {
  Shown bright;
  bright.light = 2;
  Shown dim;
  dim.light = 1;
  CHECK(light_evenness({bright, dim})->in(stop) == Approx(1));
  Shown hidden;
  hidden.light = 0.125;
  hidden.hider = Hider::crown;
  hidden.enough_seen = false;
  CHECK(stands_behind(hidden));
  CHECK(light_evenness({bright, dim, hidden})->in(stop) == Approx(1));
}

TEST_CASE("of two angles as near the steeper one is offered") {
  Setting s = over_arch(70.0 * mm);
  s.opening.reset();
  const Pose pose = *pose_of(s);
  const auto any = nearest_good_angle(s, pose, [](const Pose&) { return true; });
  CHECK(any->in(degree) == Approx(50));
}
