// The scene as the plan sets it up: what it advises does help, and what it cannot place it says.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "facts/facts.hpp"
#include "physics/scene/look.hpp"
#include "wording/wording.hpp"
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
    return wording::english().text(q.what).find(what) != std::string::npos;
  });
}

/// Chair 3, both of its mirrors for the arch of one size.
std::string with_arch_mirrors(double width, double narrow_end) {
  const std::string size = fmt::format("width: {} mm\n    narrow end: {} mm", width, narrow_end);
  return changed(changed(chair(3), "width: 75 mm\n    narrow end: 60 mm", size),
                 "width: 58 mm\n    narrow end: 46 mm", size);
}
/// The five views, other teeth of the upper arch to show.
std::string five_showing(const std::string& teeth) {
  return changed(five(), "occlusal 17 to 27\n    must be", "occlusal " + teeth + "\n    must be");
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
  CHECK(std::any_of(mirror.acts.begin(), mirror.acts.end(), [](const plan::Act& act) {
    return std::any_of(act.how.begin(), act.how.end(), [](const diag::Said& detail) {
      return detail.row == &plan::how::beside_cheek;
    });
  }));
}

TEST_CASE("a width that is offered for a mirror beside the tongue passes, on either side") {
  const std::string text = read_file(root() / "protocols/tongue_side.norma");
  const std::string small_end = ", small end, held by assistant";
  const std::string plain = changed(text, small_end, ", held by assistant");
  const auto with = [&](const std::string& outline, Length width) {
    const std::string kit = changed(chair(3), "outline: two ends", "outline: " + outline);
    return Work(plain, changed(changed(kit, "    narrow end: 26 mm\n", ""), "width: 38 mm",
                               fmt::format("width: {} mm", width.in(mm))));
  };
  int offered = 0;
  for (const char* outline : {"rectangle", "rounded"}) {
    for (const double width : {10.0, 16.0, 30.0, 44.0, 60.0}) {
      CAPTURE(outline);
      CAPTURE(width);
      const Work w = with(outline, width * mm);
      const auto right = w.view("molars_right").facts.get(fact::mirror_width_that_fits);
      const auto left = w.view("molars_left").facts.get(fact::mirror_width_that_fits);
      REQUIRE(right.has_value() == left.has_value());
      if (!right) continue;
      CHECK(right->in(mm) == left->in(mm));
      const Work mended = with(outline, *right);
      ++offered;
      for (const char* code : {"P019", "P021", "P022"})
        CHECK(mended.in_mean(code) == 0);
    }
  }
  CHECK(offered >= 4);
}

TEST_CASE("a mirror in the cheek is opened no farther than the corner of the mouth lets it") {
  const std::string text = read_file(root() / "protocols/sides.norma");
  const auto side = [&](const std::string& mouths) { return Work(text, chair(3) + mouths); };
  const auto held = [](const std::string& aside) {
    return "\nmouths:\n  by mirror aside: " + aside + "\n  by mirror back: 28 mm\n";
  };
  const Work open = side("");
  const Work less = side(held("40 mm"));
  const Work little = side(held("38 mm"));
  const plan::Facts& free = open.view("right_mirror").facts;
  const plan::Facts& room = less.view("right_mirror").facts;
  // By hand: from 17's face and the gap, 20 mm ahead of the mirror's end, at the angle that is
  // told.
  const double slope = std::tan(free.get(fact::mirror_from_midline)->in(degree)*3.14159265 / 180);
  const physics::PlaneMirror& m = *open.view("right_mirror").scene->eye.mirror;
  const Length end = abs(m.middle.x - 0.5 * m.length * m.along.x);
  const Length end_back = m.middle.y - 0.5 * m.length * m.along.y;
  CHECK(free.get(fact::mirror_at_corner)->in(mm) ==
        doctest::Approx((end + (end_back - 28.0 * mm) * slope).in(mm)));
  CHECK(*free.get(fact::mirror_at_corner) > 40.0 * mm);
  CHECK(*room.get(fact::mirror_at_corner) <= 40.0 * mm);
  CHECK(*room.get(fact::mirror_from_midline) < *free.get(fact::mirror_from_midline));
  CHECK(said(less.view("right_mirror").facts, fact::teeth_hidden).empty());
  CHECK(less.count("P022") == 0);
  CHECK(little.count("P022") == 2); // both sides
}

TEST_CASE("over the teeth of one side an arch mirror is moved there, and may be narrower") {
  const auto upper = [](const std::string& teeth) {
    return Work(five_showing(teeth), with_arch_mirrors(40, 30));
  };
  const Work whole = upper("17 to 27");
  const Work right = upper("17 to 11");
  const Work left = upper("21 to 27");
  CHECK_FALSE(whole.view("upper").facts.get(fact::mirror_moved));
  CHECK_FALSE(said(whole.view("upper").facts, fact::teeth_beside_mirror).empty());
  for (const Work* half : {&right, &left})
    CHECK(said(half->view("upper").facts, fact::teeth_beside_mirror).empty());
  REQUIRE(right.view("upper").facts.get(fact::mirror_moved));
  CHECK(right.view("upper").facts.get(fact::mirror_moved)->in(mm) ==
        doctest::Approx(left.view("upper").facts.get(fact::mirror_moved)->in(mm)));
  CHECK(right.view("upper").facts.get(fact::mirror_moved_to) == model::Side::right);
  CHECK(left.view("upper").facts.get(fact::mirror_moved_to) == model::Side::left);
  // As little as lays it over the outermost face: by hand, from 17's to half of 40 mm less the gap.
  const physics::Mouth mouth = physics::make_mouth(right.view("upper").scene->mouth);
  Length outermost;
  for (const physics::SurfacePoint& p :
       physics::surface_grid(*physics::find_crown(mouth.crowns, *physics::Tooth::from_iso(17)),
                             physics::Surface::biting, 5))
    outermost = std::max(outermost, -p.at.x);
  CHECK(right.view("upper").facts.get(fact::mirror_moved)->in(mm) ==
        doctest::Approx((outermost - 18.0 * mm).in(mm)));
}

TEST_CASE("a width that is offered for an arch mirror passes, over both sides and over one") {
  const auto upper = [](const std::string& teeth, Length width) {
    return Work(five_showing(teeth), with_arch_mirrors(width.in(mm), width.in(mm)));
  };
  for (const char* teeth : {"17 to 27", "17 to 11", "17 to 21", "21 to 27"}) {
    CAPTURE(teeth);
    const Work narrow = upper(teeth, 20.0 * mm);
    const auto width = narrow.view("upper").facts.get(fact::mirror_width_that_shows);
    REQUIRE(width);
    CHECK(*width > 20.0 * mm);
    CHECK_FALSE(narrow.view("upper").facts.get(fact::wider_mirror_without_room));
    const Work mended = upper(teeth, *width);
    CHECK(said(mended.view("upper").facts, fact::teeth_beside_mirror).empty());
    CHECK(said(mended.view("upper").facts, fact::teeth_hidden).empty());
    // And no narrower one does.
    CHECK(upper(teeth, *width - 2.0 * mm).view("upper").facts.has(fact::teeth_beside_mirror));
  }
}

TEST_CASE("a second choice is looked at as if it came first: centred, the mirror in its place") {
  const std::string shows = "must show        lingual 45 to 47\n";
  const std::string text = read_file(root() / "protocols/tongue_side.norma");
  const Work tongue(changed(text, shows,
                            "must show        lingual 44 to 47\n"
                            "    or else show     lingual 46 to 47\n"),
                    chair(3));
  CHECK(said(tongue.view("molars_right").facts, fact::fallback_seen) == "lingual 46, 47");
  CHECK(tongue.count("P071") == 0);
  // At 1:1 the picture holds half of the front teeth, whichever half is in its middle.
  const std::string half = "norma 1\n\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
                           "  view v \"V\" {\n    ratio 1:1\n    aperture f/22\n"
                           "    retractor both tension even\n    camera straight ahead\n"
                           "    must show facial 11 to 23\n    or else show facial 21 to 23\n"
                           "  }\n}\n";
  const Work direct(half, chair(3));
  CHECK(said(direct.view("v").facts, fact::fallback_seen) == "facial 21 to 23");
  CHECK(direct.count("P071") == 0);
  // A part of what comes first is no other kind of view.
  const std::string first = "must show        occlusal 17 to 27\n";
  const Work part(changed(five(), first, "must show        occlusal 17 to 27, facial 11 to 21\n"),
                  chair(3));
  CHECK_FALSE(part.view("upper").facts.get(fact::fallback_of_other_face));
  // Nor is a tooth that is not there passed over in silence.
  const Work gone(changed(changed(five(), "or else show     occlusal 16 to 26",
                                  "or else show     occlusal 16 to 26, 28"),
                          "  for              adults", "  for              adults\n  missing 28"),
                  chair(3));
  CHECK(gone.count("P059") >= 1);
}

TEST_CASE("the scene asks for as wide a mirror over the arch as straight rays do") {
  // Two ways to one number: surfaces and outline in space, widths of the arch in the plane.
  for (const char* teeth : {"17 to 27", "16 to 26", "15 to 25", "14 to 24"}) {
    const Work w(five_showing(teeth), with_arch_mirrors(36, 36));
    const plan::Facts& facts = w.view("upper").facts;
    REQUIRE(facts.get(fact::mirror_width_that_shows));
    REQUIRE(facts.get(fact::mirror_width_needed));
    CAPTURE(teeth);
    CAPTURE(facts.get(fact::mirror_width_that_shows)->in(mm));
    CAPTURE(facts.get(fact::mirror_width_needed)->in(mm));
    CHECK(abs(*facts.get(fact::mirror_width_that_shows) - *facts.get(fact::mirror_width_needed)) <=
          2.0 * mm);
  }
}

TEST_CASE("a tooth that the mirror's edge cuts by more than a tenth is told") {
  const auto narrow = [](const std::string& limits) {
    return Work(five(), with_arch_mirrors(52, 52) + limits);
  };
  const Work w = narrow("");
  const plan::ViewPlan& view = w.view("upper");
  // Most of both is seen.
  for (const int molar : {17, 27}) {
    CHECK(shown(view, molar).seen > 0.5 * shown(view, molar).facing);
    CHECK(shown(view, molar).beside > 0.1 * shown(view, molar).facing);
  }
  CHECK(said(view.facts, fact::teeth_beside_mirror) == "17, 27");
  CHECK(w.count("P021") >= 1);
  // Which share is enough can be set.
  const Work half = narrow("\nlimits:\n  share in the mirror: 0.5\n");
  CHECK_FALSE(half.view("upper").facts.has(fact::teeth_beside_mirror));
}

TEST_CASE("a small round mirror shows the tongue side of four incisors, not of six front teeth") {
  // Common practice, no source.
  const std::string text =
      changed(read_file(root() / "protocols/tongue_side.norma"), "disc 34 mm", "disc 24 mm");
  const Work four(text, chair(3));
  CHECK(said(four.view("incisors_behind").facts, fact::teeth_beside_mirror).empty());
  for (const int incisor : {12, 11, 21, 22})
    CHECK(shown(four.view("incisors_behind"), incisor).seen > 0.9);
  CHECK(four.view("incisors_behind").facts.get(fact::mirror_behind_teeth));
  const Work six(changed(text, "palatal 12 to 22", "palatal 13 to 23"), chair(3));
  CHECK(said(six.view("incisors_behind").facts, fact::teeth_beside_mirror) == "13, 23");
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
    CHECK(w.in_mean("P019") == 2);
    const Work mended(changed(five(), "60 deg from midline", said), chair(3));
    CHECK(mended.in_mean("P019") == 0);
    CHECK(mended.in_mean("P020") == 0);
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
    CHECK(Work(five(), wide).in_mean("P021") == 0);
  }
  SUBCASE("another angle of the mirror") {
    const std::string flat = changed(five(), "occlusal, held", "occlusal, opened 30 deg, held");
    const Work w(flat, chair(3));
    const auto angle = w.view("upper").facts.get(fact::mirror_angle_that_shows);
    REQUIRE(angle);
    CHECK_FALSE(said(w.view("upper").facts, fact::teeth_hidden).empty());
    const Work mended(
        changed(flat, "opened 30 deg", fmt::format("opened {:.0f} deg", angle->in(degree))),
        chair(3));
    CHECK(said(mended.view("upper").facts, fact::teeth_hidden).empty());
  }
  SUBCASE("another angle, so that the mirror does not show the lamp") {
    const std::string text =
        read_file(root() / "tests/golden/rules/lamp_in_mirror/fail_example/record.norma");
    const std::string kit =
        read_file(root() / "tests/golden/rules/lamp_in_mirror/fail_example/kit.yaml");
    const Work w(text, kit);
    CHECK(w.count("P066") == 1);
    const auto angle = w.view("upper").facts.get(fact::mirror_angle_without_lamp);
    REQUIRE(angle);
    const Work mended(
        changed(text, "opened 65 deg", fmt::format("opened {:.0f} deg", angle->in(degree))), kit);
    for (const char* code : {"P066", "P019", "P020", "P022"})
      CHECK(mended.in_mean(code) == 0);
  }
  SUBCASE("no angle is named at which teeth are turned away, or for which the mouth is too small") {
    const std::string text =
        read_file(root() / "tests/golden/rules/lamp_in_mirror/fail_example/record.norma");
    const std::string kit =
        read_file(root() / "tests/golden/rules/lamp_in_mirror/fail_example/kit.yaml");
    int tried = 0;
    for (const auto& [above, opened] : {std::pair{40, 45}, {30, 60}, {40, 50}, {50, 40}}) {
      const std::string turned =
          changed(changed(text, "20 deg from above", fmt::format("{} deg from above", above)),
                  "opened 65 deg", fmt::format("opened {} deg", opened));
      const Work w(turned, kit);
      const auto angle = w.view("upper").facts.get(fact::mirror_angle_without_lamp);
      if (!angle) continue;
      ++tried;
      const Work mended(changed(turned, fmt::format("opened {} deg", opened),
                                fmt::format("opened {:.0f} deg", angle->in(degree))),
                        kit);
      for (const char* code : {"P066", "P019", "P020", "P022"})
        CHECK(mended.in_mean(code) == 0);
    }
    CHECK(tried > 0);
  }
  SUBCASE("the lamp on the other side") {
    // Farther beside the lens than chair 7 has it, so that more than a strip lies in the shadow.
    const std::string kit = changed(chair(7), "offset: 60 mm", "offset: 120 mm");
    const Work w(five(), kit);
    CHECK(said(w.view("right").facts, fact::in_shadow_other_side) == "none");
    const Work mended(five(), changed(kit, "side: left", "side: right"));
    CHECK(said(mended.view("right").facts, fact::teeth_in_shadow).empty());
  }
}

TEST_CASE("what is not placed is not checked, and said") {
  const std::string_view hides = "hide what must show";
  CHECK(open_about(Work(five()).view("right"), hides)); // no kit, no focal length
  const std::string tongue_side = read_file(root() / "protocols/tongue_side.norma");
  const std::string no_width = changed(chair(3), "    narrow end: 26 mm\n", "");
  CHECK(open_about(Work(tongue_side, no_width).view("molars_right"), hides));
  CHECK(open_about(
      Work(changed(tongue_side, "lingual 45 to 47", "lingual 45 to 47, 35 to 37"), chair(3))
          .view("molars_right"),
      hides));
  const std::string open = changed(five(), "open wide", "open");
  CHECK(open_about(Work(open, chair(3)).view("upper"), hides));
  CHECK_FALSE(open_about(
      Work(changed(five(), "open wide", "open at least 42 mm"), chair(3)).view("upper"), hides));
  const std::string none = changed(chair(3), "length: 130 mm", "");
  CHECK(open_about(Work(five(), none).view("upper"), hides));
}

TEST_CASE("a mirror beside the tongue asks for both cheeks: the camera looks in from the front") {
  const std::string text = read_file(root() / "protocols/tongue_side.norma");
  const Work w(text, chair(3));
  // Firm on the side of the teeth.
  const auto corner = w.view("molars_right").facts.get(fact::corner_side);
  REQUIRE(corner);
  CHECK(corner->in(mm) == doctest::Approx(38));
  for (const auto& [said, side] :
       {std::pair{"    retractor right  tension firm, outwards, held by patient\n", "right"},
        {"    retractor left   tension light, held by patient\n", "left"}}) {
    const Work less(changed(text, said, fmt::format("    no retractor {}\n", side)), chair(3));
    const auto& open = less.view("molars_right").open;
    CHECK(std::any_of(open.begin(), open.end(), [](const plan::OpenQuestion& q) {
      return wording::english().text(q.missing).find("retractors of both sides") !=
             std::string::npos;
    }));
  }
}

TEST_CASE("a mirror beside the tongue that goes in and shows all does so when it is narrower") {
  const std::string text = changed(read_file(root() / "protocols/tongue_side.norma"),
                                   "lingual right, small end", "lingual right");
  for (const int width : {18, 20, 22, 24, 25, 26, 27, 28}) {
    CAPTURE(width);
    const Work w(text, changed(chair(3),
                               "outline: two ends\n    width: 38 mm\n    narrow end: 26 mm\n"
                               "    length: 160 mm",
                               fmt::format("outline: rounded\n    width: {} mm\n"
                                           "    length: 90 mm",
                                           width)));
    CHECK(w.count("P022") == 0);
    CHECK(w.count("P019") == 0);
  }
}

TEST_CASE("rounded corners count in a mirror over the arch, too") {
  const auto all = [](const std::string& from, const std::string& to) {
    return changed(changed(chair(3), from, to), from, to); // two mirrors for the arch
  };
  const Work plain(five(), all("outline: trapezoid", "outline: rectangle"));
  const Work round(five(), all("outline: trapezoid", "outline: rounded\n    corner radius: 20 mm"));
  REQUIRE(plain.view("upper").scene);
  REQUIRE(round.view("upper").scene);
  CHECK(plain.view("upper").scene->eye.mirror->corner.in(mm) == 0);
  CHECK(round.view("upper").scene->eye.mirror->corner.in(mm) == doctest::Approx(20));
}

TEST_CASE("a mirror beside the tongue: narrow ones go in and show the molars, wide ones do not") {
  // Common practice, no source: such mirrors are narrower than those for the arch.
  const std::string text = read_file(root() / "protocols/tongue_side.norma");
  const Work w(text, chair(3));
  CHECK(w.count("P022") == 0);
  for (const char* name : {"molars_right", "molars_left"}) {
    const plan::ViewPlan& view = w.view(name);
    double seen = 0;
    for (const int place : {5, 6, 7}) {
      const physics::Shown& s = shown(view, (view.view->name == "molars_right" ? 40 : 30) + place);
      CHECK(s.enough_seen);
      seen += s.seen / s.facing;
    }
    CHECK(seen > 0.95 * 3); // from there on, no other place is looked for
    // It is clear of teeth, gum, palate and floor, and lies where the camera looks.
    REQUIRE(view.scene);
    REQUIRE(view.scene->eye.mirror);
    const physics::Mouth mouth = physics::make_mouth(view.scene->mouth);
    std::vector<physics::Box> hard;
    for (const physics::Box& b : mouth.boxes) {
      if (b.body == physics::Body::crown || b.body == physics::Body::gum) hard.push_back(b);
    }
    for (const physics::Box& b : physics::palate_and_floor(view.scene->mouth))
      hard.push_back(b);
    CHECK_FALSE(physics::runs_into(*view.scene->eye.mirror, hard));
  }
  // The camera, turned as the list says, sees in the mirror the picture that lies level.
  for (const char* name : {"molars_right", "molars_left"}) {
    const plan::ViewPlan& view = w.view(name);
    const physics::Axes held = physics::camera_axes(
        *view.facts.get(fact::camera_azimuth), *view.facts.get(fact::camera_below), // lower: above
        *view.facts.get(fact::camera_turn));
    const physics::Axes seen = physics::in_mirror(held, view.scene->eye.mirror->normal);
    const physics::Axes& drawn = view.scene->eye.lens.axes;
    for (const auto& [a, b] :
         {std::pair{seen.forward, drawn.forward}, {seen.right, drawn.right}, {seen.up, drawn.up}})
      CHECK(physics::dot(a, b) == doctest::Approx(1.0).epsilon(1e-9));
  }
  CHECK(w.view("molars_right").facts.get(fact::camera_turn)->in(degree) ==
        doctest::Approx(-w.view("molars_left").facts.get(fact::camera_turn)->in(degree)));
  // Both sides of the mouth come out alike.
  const plan::Facts& right = w.view("molars_right").facts;
  const plan::Facts& left = w.view("molars_left").facts;
  CHECK(right.get(fact::camera_azimuth)->in(degree) ==
        doctest::Approx(-left.get(fact::camera_azimuth)->in(degree)));
  CHECK(right.get(fact::mirror_rise)->in(degree) ==
        doctest::Approx(left.get(fact::mirror_rise)->in(degree)));
  CHECK(right.get(fact::mirror_off_teeth)->in(mm) ==
        doctest::Approx(left.get(fact::mirror_off_teeth)->in(mm)));

  const std::string small = "width: 38 mm\n    narrow end: 26 mm";
  const std::string wide = changed(chair(3), small, "width: 46 mm\n    narrow end: 46 mm");
  const Work too_wide(text, wide);
  CHECK(too_wide.count("P022") == 1); // of both views
  const auto fits = too_wide.view("molars_right").facts.get(fact::mirror_width_that_fits);
  REQUIRE(fits);
  const Work mended(
      text,
      changed(chair(3), small, fmt::format("width: 46 mm\n    narrow end: {} mm", fits->in(mm))));
  CHECK(mended.count("P022") == 0);
}

TEST_CASE("milk teeth are looked at where the protocol says how far the mouth is open") {
  const std::string text =
      "norma 1\nprotocol milk \"M\" {\n  for children, milk teeth\n  sensor 36 x 24 mm\n"
      "  view upper \"U\" {\n    ratio 1:2\n    aperture f/22\n    mouth open at least 34 mm\n"
      "    mirror occlusal, held by assistant\n    photographed in a mirror\n"
      "    retractor both small end, tension light\n    must show occlusal 55 to 65\n  }\n}\n";
  const Work w(text, chair(3));
  CHECK(w.view("upper").shown.size() == 10);
  for (const physics::Shown& s : w.view("upper").shown)
    CHECK(s.enough_seen);
  CHECK(said(w.view("upper").facts, fact::patient) == "mean child with milk teeth");
  const Work wide(changed(text, "open at least 34 mm", "open wide"), chair(3));
  CHECK(open_about(wide.view("upper"), "hide what must show"));
}

TEST_CASE("a clinic's own sizes count, are named, and must have an arch") {
  const std::string own = chair(3) + "\nanatomy:\n  overjet: 9 mm\n  palate height: 20 mm\n";
  const Work mean(five(), chair(3));
  const Work w(five(), own);
  CHECK(said(w.view("front").facts, fact::patient) ==
        "mean adult; by the kit: lower incisors behind the upper ones 9 mm, height of the palate "
        "over the biting edges, at the first molars 20 mm");
  // What the kit does not say is still norma's: the canine tips, how the jaw opens.
  CHECK(w.view("front").facts.find(fact::patient)->status == plan::Status::assumed);
  // The lower arch's mirror is opened away from jaws that meet 6.5 mm farther back.
  CHECK(*w.view("lower").facts.get(fact::opening_for_mirror) !=
        *mean.view("lower").facts.get(fact::opening_for_mirror));
  const Work small(five(), chair(3) + "\nteeth:\n  - tooth: 12\n    width: 5.5 mm\n"
                                      "    height: 7.5 mm\n  - tooth: 31\n");
  CHECK(said(small.view("front").facts, fact::patient) ==
        "mean adult; by the kit: 12 and 22 5.5 mm wide, 12 and 22 7.5 mm high");
  CHECK(small.view("front").facts.find(fact::patient)->status == plan::Status::assumed);
  CHECK(*small.view("front").facts.get(fact::needed_width) !=
        *mean.view("front").facts.get(fact::needed_width));
  const Work none(five(), chair(3) + "\nanatomy:\n  upper canines apart: 50 mm\n");
  CHECK(none.view("front").shown.empty());
  CHECK(std::any_of(none.view("front").open.begin(), none.view("front").open.end(),
                    [](const plan::OpenQuestion& q) {
                      return wording::english().text(q.missing).find("section `anatomy`") !=
                             std::string::npos;
                    }));
}

TEST_CASE("a corner of the mouth that the kit has measured counts, and is no longer assumed") {
  const std::string measured =
      chair(3) +
      "\nmouths:\n  firm pull aside: 40 mm\n  firm pull back: 40 mm\n  opened wide: 40 mm\n";
  const Work w(five(), measured);
  CHECK(w.in_mean("P019") == 0); // pulled back by 40 mm the cheek hides nothing
  CHECK(w.view("right").facts.find(fact::corner_back)->status == plan::Status::measured);
  CHECK(*w.view("right").facts.get(fact::corner_back) == 40.0 * mm);
  CHECK(*w.view("upper").facts.get(fact::mouth_opening) == 40.0 * mm);
  CHECK(w.count("P022") == 1); // the lower arch's mirror needs 43 mm
  const Work assumed(five(), chair(3));
  CHECK(assumed.view("right").facts.find(fact::corner_back)->status == plan::Status::assumed);
  CHECK(assumed.in_mean("P019") == 2);
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

TEST_CASE("plans of the same protocol and kit share what was worked out, and no more than that") {
  const Work w(five(), chair(3));
  const auto& held = w.session->report().held.front();
  plan::WorkCache cache;
  const auto planned = [&](bool scene) {
    return plan::make_plan(*held.protocol, held.kit, {held.plan.on, scene, &cache, nullptr});
  };
  const plan::Plan first = planned(true);
  const plan::Plan again = planned(true);
  const plan::Plan flat = planned(false);
  REQUIRE(first.views.size() == 5);
  for (std::size_t i = 0; i < first.views.size(); ++i) {
    CHECK(first.views[i].work == again.views[i].work);
    CHECK(first.views[i].work != flat.views[i].work);
    CHECK(flat.views[i].shown.empty());
  }
}

} // namespace norma::test
