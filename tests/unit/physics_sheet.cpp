// Where a flat sheet has room between bodies, against trying every place.
#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "physics/scene/look.hpp"
#include "physics/scene/sheet_room.hpp"

using namespace norma;
using namespace norma::physics;

TEST_CASE("the nearest free place of a sheet is what trying every place finds") {
  const MouthState state{.of_upper = false, .opened = jaw_open(44.0 * mm)};
  std::vector<Box> bodies = make_mouth(state).boxes;
  for (const Box& b : palate_and_floor(state))
    bodies.push_back(b);
  constexpr Length gap = 0.1 * mm;
  constexpr Length room = 15.0 * mm;
  constexpr Length grain = 0.25 * mm;
  std::mt19937 random(20261126);
  std::uniform_real_distribution<double> any(-1, 1);
  int found = 0;
  int blocked = 0;
  int moved = 0;
  for (int i = 0; i < 200; ++i) {
    PlaneMirror m;
    m.normal = unit({any(random), any(random), 0.5 * any(random)});
    m.along = unit(cross(m.normal, {any(random), 0.3 * any(random), any(random)}));
    m.across = cross(m.normal, m.along);
    m.width = (20.0 + 10.0 * any(random)) * mm;
    m.narrow_end = 0.7 * m.width;
    m.length = (60.0 + 20.0 * any(random)) * mm;
    m.corner = 0.3 * m.narrow_end;
    const Point on{10.0 * any(random) * mm, (25.0 + 15.0 * any(random)) * mm,
                   (10.0 + 8.0 * any(random)) * mm};
    const Length begin = -0.5 * m.length;
    const auto lines = static_cast<std::size_t>(std::ceil(m.length.in(mm)));
    std::vector<Length> half;
    for (std::size_t l = 0; l <= lines; ++l)
      half.push_back(
          *m.half_width((static_cast<double>(l) / static_cast<double>(lines) - 0.5) * m.length));
    const SheetRoom sheet(bodies, m.normal, m.along, m.across);
    const auto section = sheet.section(on, begin, lines + 1, m.length / static_cast<double>(lines));
    const auto side = nearest_free(section, half, Length{}, room, gap, 1.0);
    const auto runs = [&](Length at) {
      m.middle = on + m.across * at;
      return runs_into(m, bodies);
    };
    CAPTURE(i);
    if (side) {
      ++found;
      CHECK(abs(*side) <= room);
      CHECK_FALSE(runs(*side));
    } else {
      ++blocked;
    }
    if (side && *side != Length{}) ++moved;
    // No place nearer is free, but for the gap.
    const Length as_far = side ? abs(*side) - 2.0 * gap : room - 2.0 * gap;
    for (Length off; off < as_far; off += grain) {
      // A slip of space less wide than two gaps is none.
      const auto free_by_gap = [&](Length at) {
        return !runs(at) && !runs(at - 1.1 * gap) && !runs(at + 1.1 * gap);
      };
      CHECK_FALSE(free_by_gap(off));
      CHECK_FALSE(free_by_gap(-off));
    }
  }
  CHECK(found > 30);
  CHECK(blocked > 30);
  CHECK(moved > 10);
}

TEST_CASE("of two free places as near, a sheet takes the one that is asked for first") {
  // A post in its middle, 4 mm wide: the sheet, 10 mm wide, goes 7 mm and the gap to either side.
  Box post;
  post.axes = {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}};
  post.half = {2.0 * mm, 2.0 * mm, 10.0 * mm};
  const std::vector<Box> bodies{post};
  const SheetRoom sheet(bodies, {0, 0, 1}, {0, 1, 0}, {1, 0, 0});
  const auto section = sheet.section(Point{}, -10.0 * mm, 21, 1.0 * mm);
  REQUIRE(section.ends.size() == 1);
  CHECK(section.taken.size() == 5); // lines at -2 to 2 mm
  const std::vector<Length> half(21, 5.0 * mm);
  const auto place = [&](double wanted, double room, double first) {
    const auto found = nearest_free(section, half, wanted * mm, room * mm, 0.25 * mm, first);
    return found ? found->in(mm) : 99.0;
  };
  CHECK(place(0, 20, 1) == 7.25);
  CHECK(place(0, 20, -1) == -7.25);
  CHECK(place(1, 20, -1) == 7.25); // nearer
  CHECK(place(-1, 20, 1) == -7.25);
  CHECK(place(0, 7.25, 1) == 7.25); // just so far
  CHECK(place(0, 7, 1) == 99.0);
  CHECK(place(7.25, 0, 1) == 7.25); // touches, but for the gap
  CHECK(place(-7.25, 0, 1) == -7.25);
  // What stands beyond the room does not count.
  CHECK(place(30, 5, 1) == 30);
}
