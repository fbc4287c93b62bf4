// The Patient Orientation of standard views against what the camera's geometry gives. Sources:
// draft ANSI/ADA 1100 (2025) and the IHE Dental profile draft for the codes, DICOM PS3.3
// C.7.6.1.1.1 for the letters.
#include "physics/orientation.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "words/codes.hpp"

namespace norma::physics {
namespace {

using words::MirrorState;
using words::ViewCode;

Orientation printed(const ViewCode& code) { return {code.row.front(), code.column.front()}; }

/// A view of biting surfaces as shot in a mirror opened by 45 degrees.
Axes arch_in_mirror(bool upper, bool behind_head) {
  const Angle roll = (behind_head ? 180.0 : 0.0) * degree;
  return in_mirror(camera_axes(Angle{}, Angle{}, roll), arch_mirror_normal(upper, 45.0 * degree));
}

/// The picture a code means, from where the camera stands; nothing for codes that leave it open.
std::optional<Axes> picture_of(const ViewCode& code) {
  if (code.row.empty() || code.column.empty()) return std::nullopt;
  const bool arch = code.has_part("OV");
  if (arch) {
    const bool upper = code.has_part("MX");
    const Axes shot = arch_in_mirror(upper, false);
    if (code.mirror == MirrorState::uncorrected) return shot;
    // Corrected: the front teeth lie at the top of the upper arch, at the bottom of the lower one.
    const auto turn =
        turn_for(shot, Wish{{0, -1, 0}, upper ? PictureEdge::top : PictureEdge::bottom});
    REQUIRE(turn);
    return turned(shot, *turn);
  }
  const bool right = code.has_part("RB") || code.has_part("RL") || code.has_part("RP");
  const bool left = code.has_part("LB") || code.has_part("LL") || code.has_part("LP");
  const bool front = code.has_part("FV") || code.has_part("FF");
  if (!right && !left && !front) return std::nullopt;
  const double aside = code.has_part("45") ? 45.0 : 60.0;
  const Angle azimuth = (right ? aside : left ? -aside : 0.0) * degree;
  Axes axes = camera_axes(azimuth, Angle{}, Angle{});
  if (code.mirror == MirrorState::none) return axes;
  // A mirror between cheek and teeth: the image looks from the same side and is reversed.
  axes.right = -axes.right;
  if (code.mirror == MirrorState::uncorrected) return axes;
  const auto turn = turn_for(axes, std::nullopt);
  REQUIRE(turn);
  return turned(axes, *turn);
}

} // namespace

TEST_CASE("the printed orientation of the standard views is the one that comes out") {
  std::vector<std::string> contradict;
  int checked = 0;
  for (const ViewCode& code : words::view_codes()) {
    const auto picture = picture_of(code);
    if (!picture) continue;
    CAPTURE(std::string(code.code));
    ++checked;
    CHECK(picture->mirrored() == (code.mirror == MirrorState::uncorrected));
    if (!agrees(*picture, printed(code))) contradict.emplace_back(code.code);
  }
  CHECK(checked >= 60);
  // IV24, the upper arch as shot in the mirror, is printed R\A.
  CHECK(contradict == std::vector<std::string>{"IV24"});
}

TEST_CASE("IV24 contradicts its own mirror state: its letters are those of an unmirrored picture") {
  const ViewCode* code = words::find_code("IV24");
  REQUIRE(code != nullptr);
  CHECK(code->mirror == MirrorState::uncorrected);
  const Orientation o = printed(*code);
  CHECK(to_text(o) == "R\\A");
  // The upper arch is looked at upwards. Row x column along the viewing direction: not mirrored.
  const Vec viewing{0, 0, 1};
  CHECK(dot(cross(*direction_of(o.row), *direction_of(o.column)), viewing) > 0);
  // What is expected instead:
  CHECK(to_text(orientation(arch_in_mirror(true, false))) == "L\\A");
  CHECK(to_text(orientation(arch_in_mirror(true, true))) == "R\\P");
  CHECK(arch_in_mirror(true, false).mirrored());
  CHECK(arch_in_mirror(true, true).mirrored());
}

TEST_CASE("the letters themselves, for the views that have them in both drafts") {
  const auto letters = [](const char* name) {
    const ViewCode* code = words::find_code(name);
    REQUIRE(code != nullptr);
    return to_text(orientation(*picture_of(*code)));
  };
  CHECK(letters("IV01") == "A\\F");
  CHECK(letters("IV02") == "P\\F");
  CHECK(letters("IV03") == "A\\F");
  CHECK(letters("IV07") == "L\\F");
  CHECK(letters("IV18") == "P\\F");
  CHECK(letters("IV19") == "A\\F");
  CHECK(letters("IV20") == "P\\F");
  CHECK(letters("IV25") == "L\\P");
  CHECK(letters("IV26") == "L\\P");
  CHECK(letters("IV27") == "L\\A");
}

TEST_CASE("what the standard orders for a mirrored arch (draft ANSI/ADA 1100, note to table 2.3)") {
  const Wish front_up{{0, -1, 0}, PictureEdge::top};
  const Wish front_down{{0, -1, 0}, PictureEdge::bottom};
  // From behind the head: flip about the vertical axis.
  CHECK(turn_for(arch_in_mirror(true, true), front_up) == Turn::flip_sideways);
  // From the front the same flip and half a turn, which together are one flip upside down.
  CHECK(turn_for(arch_in_mirror(true, false), front_up) == Turn::flip_upside_down);
  const Axes two_steps =
      turned(turned(arch_in_mirror(true, false), Turn::flip_sideways), Turn::half_turn);
  const Axes one_step = turned(arch_in_mirror(true, false), Turn::flip_upside_down);
  CHECK(two_steps.right == one_step.right);
  CHECK(two_steps.up == one_step.up);
  CHECK(turn_for(arch_in_mirror(false, false), front_down) == Turn::flip_upside_down);
}

TEST_CASE("a right profile is A\\F (the example of DICOM PS3.3 C.7.6.1.1.1)") {
  CHECK(to_text(orientation(camera_axes(90.0 * degree, Angle{}, Angle{}))) == "A\\F");
}

TEST_CASE("below 45 degrees a side view's row points more left than forward, and still fits A\\F") {
  const Axes axes = camera_axes(40.0 * degree, Angle{}, Angle{});
  CHECK(to_text(orientation(axes)) == "L\\F");
  CHECK(agrees(axes, {'A', 'F'}));
  CHECK_FALSE(agrees(axes, {'P', 'F'}));
  CHECK_FALSE(axes.mirrored());
}

} // namespace norma::physics
