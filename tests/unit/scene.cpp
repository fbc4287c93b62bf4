// The scene as the plan sets it up: what it advises does help, and what it cannot place it says.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "plan/facts.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

namespace fact = plan::fact;

const physics::Shown& shown(const plan::ViewPlan& view, int iso) {
  return *std::find_if(view.shown.begin(), view.shown.end(), [&](const physics::Shown& s) {
    return s.tooth == *physics::Tooth::from_iso(iso);
  });
}

bool open_about(const plan::ViewPlan& view, std::string_view what) {
  return std::any_of(view.open.begin(), view.open.end(), [&](const plan::OpenQuestion& q) {
    return q.what.find(what) != std::string::npos;
  });
}

std::string sides() { return read_file(root() / "protocols/sides.norma"); }

} // namespace

TEST_CASE("a side view by mirror shows the last molars squarer than a direct one can") {
  // Common practice, no source.
  const Work w(sides(), chair(3));
  const plan::ViewPlan& mirror = w.view("right_mirror");
  const plan::ViewPlan& direct = w.view("right_direct");
  for (const int molar : {17, 47}) {
    CHECK(shown(mirror, molar).obliquity < shown(direct, molar).obliquity);
    CHECK(shown(mirror, molar).seen > 0.9);
    CHECK(shown(direct, molar).seen < 0.5);
  }
  // Where it stands was searched, and is said.
  CHECK(mirror.facts.get(fact::mirror_from_midline));
  CHECK(mirror.facts.get(fact::camera_azimuth));
  CHECK(std::any_of(mirror.steps.begin(), mirror.steps.end(), [](const plan::Step& s) {
    return s.what.find("between cheek and teeth, opened about") != std::string::npos;
  }));
}

TEST_CASE("a small round mirror shows the tongue side of four incisors, not of six front teeth") {
  // Common practice, no source.
  const std::string text =
      changed(read_file(root() / "protocols/tongue_side.norma"), "disc 34 mm", "disc 24 mm");
  const Work four(text, chair(3));
  CHECK(four.view("incisors_behind").facts.text(fact::teeth_beside_mirror).empty());
  for (const int incisor : {12, 11, 21, 22})
    CHECK(shown(four.view("incisors_behind"), incisor).seen > 0.9);
  CHECK(four.view("incisors_behind").facts.get(fact::mirror_behind_teeth));
  const Work six(changed(text, "palatal 12 to 22", "palatal 13 to 23"), chair(3));
  CHECK(six.view("incisors_behind").facts.text(fact::teeth_beside_mirror) == "13, 23");
  CHECK(six.count("P021") == 1);
  // A large one shows more of the canines.
  const Work large(
      changed(changed(text, "disc 24 mm", "disc 34 mm"), "palatal 12 to 22", "palatal 13 to 23"),
      chair(3));
  CHECK(shown(large.view("incisors_behind"), 13).seen >
        shown(six.view("incisors_behind"), 13).seen + 0.2);
}

TEST_CASE("both sides of a protocol come out alike") {
  const Work w(sides(), chair(3));
  for (const auto& [right, left] :
       {std::pair{"right_mirror", "left_mirror"}, std::pair{"right_direct", "left_direct"}}) {
    const plan::ViewPlan& a = w.view(right);
    const plan::ViewPlan& b = w.view(left);
    REQUIRE(a.shown.size() == b.shown.size());
    REQUIRE_FALSE(a.shown.empty());
    for (const physics::Shown& s : a.shown) {
      const physics::Shown& o = shown(b, s.tooth.other_side().iso());
      CHECK(s.seen == o.seen);
      CHECK(s.framed == o.framed);
      CHECK(s.lit == o.lit);
      CHECK(s.obliquity.in(degree) == doctest::Approx(o.obliquity.in(degree)));
      CHECK(s.light == doctest::Approx(o.light));
    }
  }
}

TEST_CASE("what a finding advises does mend it") {
  SUBCASE("another angle of the camera") {
    const Work w(five(), chair(3));
    const auto angle = w.view("right").facts.get(fact::azimuth_that_shows);
    REQUIRE(angle);
    const std::string said = fmt::format("{:.0f} deg from midline", angle->in(degree));
    CHECK(w.count("P019") == 2);
    const Work mended(changed(five(), "60 deg from midline", said), chair(3));
    CHECK(mended.count("P019") == 0);
    CHECK(mended.count("P020") == 0);
  }
  SUBCASE("a wider mirror") {
    const std::string narrow =
        changed(changed(chair(3), "width: 58 mm", "width: 44 mm"), "width: 75 mm", "width: 44 mm");
    const std::string ends = changed(changed(narrow, "narrow end: 60 mm", "narrow end: 40 mm"),
                                     "narrow end: 46 mm", "narrow end: 40 mm");
    const Work w(five(), ends);
    CHECK(w.count("P021") == 2);
    const auto upper = w.view("upper").facts.get(fact::mirror_width_that_shows);
    const auto lower = w.view("lower").facts.get(fact::mirror_width_that_shows);
    REQUIRE(upper);
    REQUIRE(lower);
    const double width = std::max(*upper, *lower).in(mm);
    // The same taper, from 44 to 40 mm.
    const std::string wide =
        changed(changed(ends, "width: 44 mm", fmt::format("width: {:.0f} mm", width)),
                "narrow end: 40 mm", fmt::format("narrow end: {:.0f} mm", width - 4));
    CHECK(Work(five(), wide).count("P021") == 0);
  }
  SUBCASE("another angle of the mirror") {
    const std::string flat = changed(five(), "occlusal, held", "occlusal, opened 30 deg, held");
    const Work w(flat, chair(3));
    const auto angle = w.view("upper").facts.get(fact::mirror_angle_that_shows);
    REQUIRE(angle);
    CHECK_FALSE(w.view("upper").facts.text(fact::teeth_hidden).empty());
    const Work mended(
        changed(flat, "opened 30 deg", fmt::format("opened {:.0f} deg", angle->in(degree))),
        chair(3));
    CHECK(mended.view("upper").facts.text(fact::teeth_hidden).empty());
  }
  SUBCASE("the lamp on the other side") {
    const Work w(five(), chair(7));
    CHECK(w.view("right").facts.text(fact::in_shadow_other_side) == "none");
    const Work mended(five(), changed(chair(7), "side: left", "side: right"));
    CHECK(mended.view("right").facts.text(fact::teeth_in_shadow).empty());
  }
}

TEST_CASE("what is not placed is not checked, and said") {
  const std::string_view hides = "hide what must show";
  CHECK(open_about(Work(five()).view("right"), hides)); // no kit, no focal length
  const std::string tongue_side = read_file(root() / "protocols/tongue_side.norma");
  CHECK(open_about(Work(tongue_side, chair(3)).view("molars_right"), hides));
  const std::string open = changed(five(), "open wide", "open");
  CHECK(open_about(Work(open, chair(3)).view("upper"), hides));
  CHECK_FALSE(open_about(
      Work(changed(five(), "open wide", "open at least 42 mm"), chair(3)).view("upper"), hides));
  const std::string none = changed(chair(3), "length: 130 mm", "");
  CHECK(open_about(Work(five(), none).view("upper"), hides));
}

TEST_CASE("a corner of the mouth that the kit has measured counts, and is no longer assumed") {
  const std::string measured =
      chair(3) +
      "\nmouths:\n  firm pull aside: 40 mm\n  firm pull back: 40 mm\n  opened wide: 40 mm\n";
  const Work w(five(), measured);
  CHECK(w.count("P019") == 0); // pulled back by 40 mm the cheek hides nothing
  CHECK(w.view("right").facts.find(fact::corner_back)->status == plan::Status::measured);
  CHECK(*w.view("right").facts.get(fact::corner_back) == 40.0 * mm);
  CHECK(*w.view("upper").facts.get(fact::mouth_opening) == 40.0 * mm);
  CHECK(w.count("P022") == 1); // the lower arch's mirror needs 43 mm
  const Work assumed(five(), chair(3));
  CHECK(assumed.view("right").facts.find(fact::corner_back)->status == plan::Status::assumed);
  CHECK(assumed.count("P019") == 2);
}

TEST_CASE("how the picture lies: margins, cant, asymmetry, bow") {
  const Work level(five(), chair(3));
  const plan::Facts& front = level.view("front").facts;
  // Aimed at the midline, from ahead, held level: the mean mouth is symmetrical.
  CHECK(front.get(fact::cant)->in(degree) == doctest::Approx(0.0));
  CHECK(front.get(fact::asymmetry)->value() == doctest::Approx(0.0));
  CHECK(front.get(fact::margin_left)->in(mm) ==
        doctest::Approx(front.get(fact::margin_right)->in(mm)));
  CHECK(*front.get(fact::margin_left) > Length{});
  // From 10 degrees aside one side comes nearer: larger, and the other farther round.
  const Work aside(changed(five(), "straight ahead", "from right, 10 deg from midline"), chair(3));
  CHECK(std::abs(aside.view("front").facts.get(fact::asymmetry)->value()) > 0.02);
  // From above the front teeth's edges sink under the line through the back teeth.
  const Work above(changed(five(), "straight ahead", "straight ahead, 15 deg from above"),
                   chair(3));
  CHECK(*above.view("front").facts.get(fact::bow) < *front.get(fact::bow) - 2.0 * mm);
}

TEST_CASE("very many views: the first thousand are looked at, the rest is said") {
  std::string text = "norma 1\nprotocol big \"B\" {\n  for adults\n  sensor 36 x 24 mm\n";
  for (int i = 0; i < plan::most_scenes + 2; ++i) {
    text +=
        fmt::format("  view v{} \"V\" {{\n    ratio 1:2\n    aperture f/22\n    camera from right, "
                    "0.00{:04} deg from midline\n    retractor both tension light\n    must show "
                    "facial 11\n  }}\n",
                    i, i);
  }
  // Once more what the first view says: it has been looked at.
  text += "  view again \"V\", same as v0\n";
  const Work w(text + "}\n", chair(3));
  CHECK_FALSE(open_about(w.view("again"), "hide what must show"));
  CHECK_FALSE(open_about(w.view(fmt::format("v{}", plan::most_scenes - 1)), "hide what must show"));
  CHECK(open_about(w.view(fmt::format("v{}", plan::most_scenes + 1)), "hide what must show"));
}

} // namespace norma::test
