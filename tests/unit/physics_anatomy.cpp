// Teeth, crowns, arches, the jaw: what must hold for any numbers.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "physics/anatomy/anatomy.hpp"
#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

using doctest::Approx;

std::vector<Tooth> all_teeth() {
  std::vector<Tooth> out;
  for (int iso = 0; iso < 100; ++iso) {
    if (const auto t = Tooth::from_iso(iso)) out.push_back(*t);
  }
  return out;
}

double apart(Point a, Point b) {
  return norm({(a.x - b.x).in(mm), (a.y - b.y).in(mm), (a.z - b.z).in(mm)});
}

struct Arch {
  Dentition dentition;
  bool upper;
};
constexpr Arch arches[] = {{Dentition::adult, true},   {Dentition::adult, false},
                           {Dentition::mixed, true},   {Dentition::mixed, false},
                           {Dentition::primary, true}, {Dentition::primary, false}};

} // namespace

TEST_CASE("ISO 3950 has 32 permanent and 20 milk teeth, and no others") {
  int milk = 0;
  for (const Tooth t : all_teeth())
    milk += t.is_primary() ? 1 : 0;
  CHECK(all_teeth().size() == 52);
  CHECK(milk == 20);
  for (const int none : {-11, 0, 10, 19, 56, 60, 91, 99, 111}) {
    CAPTURE(none);
    CHECK_FALSE(Tooth::from_iso(none));
  }
}

TEST_CASE("the other side and the other jaw, twice, are the tooth itself") {
  for (const Tooth t : all_teeth()) {
    CAPTURE(t.iso());
    CHECK(t.other_side() != t);
    CHECK(t.other_side().other_side() == t);
    CHECK(t.other_jaw().other_jaw() == t);
    CHECK(t.other_side().is_right() != t.is_right());
    CHECK(t.other_side().is_upper() == t.is_upper());
    CHECK(t.other_jaw().is_upper() != t.is_upper());
    CHECK(t.other_jaw().is_right() == t.is_right());
    CHECK(t.other_jaw().is_primary() == t.is_primary());
    CHECK(t.other_jaw().position() == t.position());
  }
}

TEST_CASE("every tooth has sizes, alike on both sides, and is narrower at its neck") {
  for (const Tooth t : all_teeth()) {
    CAPTURE(t.iso());
    const CrownSize s = crown_size(t);
    CHECK(s.height > 4.0 * mm);
    CHECK(s.width_at_neck < s.width);
    CHECK(s.depth_at_neck < s.depth);
    CHECK(s.width == crown_size(t.other_side()).width);
  }
}

TEST_CASE("a curve is found for every row, and meets both widths") {
  for (const Arch& a : arches) {
    const ToothRow row = tooth_row(a.dentition, a.upper);
    REQUIRE(solve_arch(row));
    const auto& crowns = mean_arch(a.dentition, a.upper);
    CHECK(crowns.size() == 2 * row.standing);
    const Crown& canine = *find_crown(crowns, row.teeth[2]);
    CHECK(2.0 * std::abs(canine.edge.x.in(mm)) ==
          Approx(row.widths.canines.in(mm)).epsilon(0.0001));
  }
}

TEST_CASE("of milk teeth twenty stand, and the permanent molar only marks its place") {
  for (const bool upper : {true, false}) {
    const auto& arch = mean_arch(Dentition::primary, upper);
    CHECK(arch.size() == 10);
    for (const Crown& c : arch)
      CHECK(c.tooth.is_primary());
  }
}

TEST_CASE("widths that the teeth cannot meet have no curve") {
  AnatomyValues values;
  values.set(defaults::upper_canine_width, 80);
  CHECK_FALSE(solve_arch(tooth_row(Dentition::adult, true, values)));
  CHECK(make_anatomy(Dentition::adult, values) == nullptr);
  CHECK(make_anatomy(Dentition::mixed, values) != nullptr); // which it does not concern
}

TEST_CASE("wide and flat arches have a curve, too") {
  // Found by damped Newton steps elsewhere: A = -7.9e-10, B = 0.0257 for the first.
  for (const auto& widths : {std::pair{35.0, 72.0}, {34.0, 70.0}}) {
    const double canines = widths.first;
    const double molars = widths.second;
    CAPTURE(canines);
    AnatomyValues values;
    values.set(defaults::upper_canine_width, canines);
    values.set(defaults::upper_molar_width, molars);
    const auto curve = solve_arch(tooth_row(Dentition::adult, true, values));
    REQUIRE(curve);
    const auto own = make_anatomy(Dentition::adult, values);
    REQUIRE(own);
    const Crown& molar = *find_crown(own->upper, *Tooth::from_iso(16));
    CHECK(-2.0 * (molar.edge.x + 0.5 * molar.size.depth * molar.facial.x).in(mm) ==
          Approx(molars).epsilon(0.0001));
  }
}

TEST_CASE("sizes of single teeth: both sides have them, and the arch closes up behind them") {
  // Handbook, upper lateral: 9 high, 6.5 wide and 5 at the neck, 6 deep and 5 at the neck.
  AnatomyValues values;
  values.set({*Tooth::from_iso(22), std::nullopt, 5.2 * mm, std::nullopt});
  values.set({*Tooth::from_iso(46), 6.0 * mm, std::nullopt, 9.0 * mm});
  const CrownSize lateral = crown_size(*Tooth::from_iso(12), values);
  CHECK(lateral.width.in(mm) == Approx(5.2));
  CHECK(lateral.width_at_neck.in(mm) == Approx(4.0)); // 5.2 * 5 / 6.5
  CHECK(lateral.height.in(mm) == Approx(9.0));
  CHECK(lateral.depth.in(mm) == Approx(6.0));
  const auto own = make_anatomy(Dentition::adult, values);
  REQUIRE(own);
  for (const int iso : {12, 22})
    CHECK(find_crown(own->upper, *Tooth::from_iso(iso))->size.width.in(mm) == Approx(5.2));
  const Crown& molar = *find_crown(own->lower, *Tooth::from_iso(36));
  CHECK(molar.size.height.in(mm) == Approx(6.0));
  CHECK(molar.size.depth.in(mm) == Approx(9.0));
  // The biting table is 0.62 of the depth.
  CHECK(molar.shape.edge_depth.in(mm) == Approx(0.62 * 9.0));
  // The canines keep their distance, and stand 1.3 mm less of arch behind the midline.
  const Crown& canine = *find_crown(own->upper, *Tooth::from_iso(13));
  const Crown& usual = *find_crown(adult_arch(true), *Tooth::from_iso(13));
  CHECK(canine.edge.x.in(mm) == Approx(usual.edge.x.in(mm)).epsilon(0.0001));
  CHECK(canine.edge.y < usual.edge.y);
  CHECK(make_anatomy(Dentition::adult, {}) != nullptr);
  CHECK(
      find_crown(make_anatomy(Dentition::mixed, values)->upper, *Tooth::from_iso(53))->size.width ==
      crown_size(*Tooth::from_iso(53)).width);
}

TEST_CASE("a clinic's own sizes: the arch meets them, and the jaw closes by them") {
  AnatomyValues values;
  values.set(defaults::upper_canine_width, 36);
  values.set(defaults::lower_molar_width, 52);
  values.set(defaults::overjet, 6);
  values.set(defaults::overbite, 1);
  const auto own = make_anatomy(Dentition::adult, values);
  REQUIRE(own);
  const Crown& canine = *find_crown(own->upper, *Tooth::from_iso(13));
  CHECK(-2.0 * canine.edge.x.in(mm) == Approx(36).epsilon(0.0001));
  const Crown& molar = *find_crown(own->lower, *Tooth::from_iso(46));
  CHECK(-2.0 * (molar.edge.x + 0.5 * molar.size.depth * molar.facial.x).in(mm) ==
        Approx(52).epsilon(0.0001));
  const Crown& incisor = *find_crown(own->lower, *Tooth::from_iso(41));
  const Crown& above = *find_crown(own->upper, *Tooth::from_iso(11));
  // The arches' curves start at 6 mm from each other; the incisors' middles lie a little behind.
  const ArchCurve upper = *solve_arch(tooth_row(Dentition::adult, true, values));
  const ArchCurve lower = *solve_arch(tooth_row(Dentition::adult, false, values));
  CHECK((incisor.edge.y - lower.back_at(incisor.edge.x)).in(mm) == Approx(6));
  CHECK((above.edge.y - upper.back_at(above.edge.x)).in(mm) == Approx(0).epsilon(1e-9));
  // The incisor's middle stands beside the midline, where the bite is a little less deep.
  const Length canine_arc = (5.0 + 5.5 + 3.5) * mm;
  CHECK(incisor.edge.z.in(mm) == Approx(1.0 - 2.5 * mm / canine_arc));
  const auto pose = jaw_open(own->jaw, 30.0 * mm);
  REQUIRE(pose);
  CHECK(apart(in_pose(Point{Length{}, 6.0 * mm, 1.0 * mm}, *pose), Point{}) == Approx(30));
}

TEST_CASE("both halves of an arch are each other's image in the midline") {
  for (const Arch& a : arches) {
    for (const Crown& c : mean_arch(a.dentition, a.upper)) {
      CAPTURE(c.tooth.iso());
      const Crown* other = find_crown(mean_arch(a.dentition, a.upper), c.tooth.other_side());
      REQUIRE(other != nullptr);
      CHECK(other->edge.x == -c.edge.x);
      CHECK(other->edge.y == c.edge.y);
      CHECK(other->edge.z == c.edge.z);
      CHECK(other->facial.x == Approx(-c.facial.x));
      CHECK(other->facial.y == Approx(c.facial.y));
      CHECK((c.edge.x < Length{}) == c.tooth.is_right());
    }
  }
}

TEST_CASE("a crown's axes are square to each other, its face looks out of the mouth") {
  for (const Arch& a : arches) {
    for (const Crown& c : mean_arch(a.dentition, a.upper)) {
      CAPTURE(c.tooth.iso());
      CHECK(dot(c.along, c.facial) == Approx(0).epsilon(1e-12));
      CHECK(dot(c.along, c.root) == 0);
      CHECK(norm(c.facial) == Approx(1));
      CHECK(c.facial.x * c.edge.x.in(mm) > 0);
      CHECK(c.facial.y < 0);
      CHECK(c.root.z == (a.upper ? 1.0 : -1.0));
    }
  }
}

TEST_CASE("neighbours stand about the sum of their half widths apart") {
  for (const Arch& a : arches) {
    const auto& crowns = mean_arch(a.dentition, a.upper);
    for (std::size_t i = 1; i < crowns.size(); ++i) {
      CAPTURE(crowns[i].tooth.iso());
      const auto in_plan = [](Point p) { return Point{p.x, p.y, Length{}}; };
      const double between = apart(in_plan(crowns[i - 1].edge), in_plan(crowns[i].edge));
      const double contact = 0.5 * (crowns[i - 1].size.width + crowns[i].size.width).in(mm);
      // A chord is a little shorter than the arc; the canine's tip stands outside by 1 mm.
      CHECK(between < contact + 1.0);
      CHECK(between > contact - 1.0);
    }
  }
}

TEST_CASE("the arc along the curve is as long as asked for") {
  const ArchCurve curve = *solve_arch(tooth_row(Dentition::adult, true));
  const double asked = 45;
  const double side = curve.side_at_arc(asked * mm).in(mm);
  double arc = 0;
  const int steps = 20000;
  for (int i = 0; i < steps; ++i) {
    const double x0 = side * i / steps;
    const double x1 = side * (i + 1) / steps;
    arc += std::hypot(x1 - x0, (curve.back_at(x1 * mm) - curve.back_at(x0 * mm)).in(mm));
  }
  CHECK(arc == Approx(asked).epsilon(1e-5));
  CHECK(curve.side_at_arc(Length{}) == Length{});
}

TEST_CASE("a surface's grid covers it from edge to edge, with unit normals that look outwards") {
  const Crown& c = *find_crown(adult_arch(true), *Tooth::from_iso(11));
  for (const int n : {2, 3, 5, 9}) {
    for (const Surface s : {Surface::facial, Surface::biting, Surface::lingual}) {
      const auto grid = surface_grid(c, s, n);
      CHECK(grid.size() == static_cast<std::size_t>(n * n));
      Length highest;
      Length widest;
      for (const SurfacePoint& p : grid) {
        CHECK(norm(p.normal) == Approx(1));
        const Point q = p.at - c.edge;
        highest = std::max(highest, along(q, c.root));
        widest = std::max(widest, abs(along(q, c.along)));
        const Vec out = s == Surface::facial    ? c.facial
                        : s == Surface::lingual ? -c.facial
                                                : -c.root;
        CHECK(dot(p.normal, out) > 0);
      }
      CHECK(widest.in(mm) == Approx(0.5 * 8.5));
      if (s != Surface::biting) CHECK(highest.in(mm) == Approx(10.5));
    }
  }
}

TEST_CASE("a jaw that is closed stands where it was laid out") {
  for (const Crown& c : adult_arch(false)) {
    const Crown still = in_pose(c, JawPose{});
    CHECK(apart(still.edge, c.edge) < 1e-9);
    CHECK(norm(still.facial - c.facial) < 1e-12);
  }
}

TEST_CASE("the opening is the straight distance between the edges, and all lower teeth go down") {
  const Point edge{Length{}, defaults::overjet.value * mm, defaults::overbite.value * mm};
  for (const double opening : {6.0, 17.0, 30.0, 46.0, 55.0}) {
    CAPTURE(opening);
    const auto pose = jaw_open(opening * mm);
    REQUIRE(pose);
    const Point opened = in_pose(edge, *pose);
    CHECK(apart(opened, Point{}) == Approx(opening));
    CHECK(opened.z < Length{});
    CHECK(opened.x == Length{});
    for (const Crown& c : adult_arch(false)) {
      const Crown moved = in_pose(c, *pose);
      CHECK(moved.edge.z < c.edge.z);
      CHECK(norm(moved.root) == Approx(1));
      CHECK(dot(moved.root, moved.facial) == Approx(0).epsilon(1e-12));
    }
  }
}

TEST_CASE("molars open less than incisors") {
  const JawPose pose = *jaw_open(40.0 * mm);
  const auto drop = [&](int iso) {
    const Crown& c = *find_crown(adult_arch(false), *Tooth::from_iso(iso));
    return c.edge.z - in_pose(c, pose).edge.z;
  };
  CHECK(drop(47) < drop(44));
  CHECK(drop(44) < drop(41));
}

TEST_CASE("the wider the opening, the further the jaw turns") {
  Angle before;
  for (double opening = 5; opening <= 60; opening += 2.5) {
    const auto pose = jaw_open(opening * mm);
    REQUIRE(pose);
    CHECK(pose->rotation > before);
    before = pose->rotation;
  }
}

TEST_CASE("no pose for an opening less than edge to edge, or out of reach") {
  CHECK_FALSE(jaw_open(Length{}));
  CHECK_FALSE(jaw_open(2.0 * mm));
  CHECK_FALSE(jaw_open(-10.0 * mm));
  CHECK_FALSE(jaw_open(200.0 * mm));
}

TEST_CASE("the table of defaults names each value once and gives each a source") {
  for (std::size_t i = 0; i < defaults::all.size(); ++i) {
    const Default& d = *defaults::all[i];
    CAPTURE(std::string(d.name));
    CHECK_FALSE(d.source.empty());
    CHECK(std::isfinite(d.value));
    for (std::size_t j = 0; j < i; ++j)
      CHECK(d.name != defaults::all[j]->name);
  }
}

} // namespace norma::physics
