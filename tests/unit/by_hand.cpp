// Positions as a person says them: which words, how round, and what of it holds.
#include "plan/by_hand/by_hand.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>

#include "emit/act_words.hpp"
#include "emit/card.hpp"
#include "emit/checklist.hpp"
#include "facts/facts.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using plan::ByHand;
using plan::Room;
using plan::Verb;

ByHand::Told told(const Work& work, std::string_view view, std::initializer_list<Verb> verbs) {
  const plan::ViewPlan& v = work.view(view);
  for (const plan::Act& act : v.acts) {
    if (std::find(verbs.begin(), verbs.end(), act.verb) != verbs.end()) return ByHand(v).told(act);
  }
  FAIL("no such act");
  return {};
}
ByHand::Told camera(const Work& work, std::string_view view) {
  return told(work, view, {Verb::hold_camera});
}
ByHand::Told mirror(const Work& work, std::string_view view) {
  return told(work, view, {Verb::put_in_mirror, Verb::turn_over_mirror});
}
std::string words(const ByHand::Told& one, const wording::Language& in = wording::english()) {
  return emit::act_text(one.act, in);
}
bool has(const std::string& text, std::string_view part) {
  CAPTURE(text);
  CAPTURE(part);
  return text.find(part) != std::string::npos;
}

/// The front view of three incisors, loosely framed: it bears a camera that stands otherwise.
std::string loose(std::string_view camera) {
  return fmt::format(R"(norma 1
protocol p "P" {{
  for      adults
  sensor   36 x 24 mm
  view v "V" {{
    ratio          1:4
    aperture       f/32
    iso            200
    shutter        1/125 s
    teeth          together
    retractor both tension firm, held by patient
    camera         {}
    focus on       11
    must show      facial 12 to 22
    must be sharp  facial 11
  }}
}})",
                     camera);
}

} // namespace

TEST_CASE("where the camera stands is told on a clock around the head") {
  // An hour is 30 degrees: 6 is straight ahead of the nose, 9 the patient's right, 3 the left.
  const Work five(test::five(), chair(3));
  CHECK(has(words(camera(five, "right")), "at 8 o'clock (nose 6, right ear 9)")); // 60 deg
  CHECK(has(words(camera(five, "left")), "at 4 o'clock (nose 6, left ear 3)"));
  CHECK(has(words(camera(five, "right"), wording::german()), "auf 8 Uhr (Nase 6, rechtes Ohr 9)"));
  const auto at = [](int degrees, std::string_view side) {
    const Work one(loose(fmt::format("from {}, {} deg from midline", side, degrees)), chair(3));
    return words(camera(one, "v"));
  };
  CHECK(has(at(15, "right"), "at half past 6"));
  CHECK(has(at(15, "left"), "at half past 5"));
  CHECK(has(at(12, "right"), "at half past 6")); // 3 deg off: the view bears it
  CHECK(has(at(12, "left"), "at half past 5"));
  CHECK_FALSE(has(at(12, "right"), "deg"));
  // 22 deg lies 7 from a half hour, and nothing is said more than 5 deg off: the quarter, 0.5 off.
  CHECK(has(at(22, "right"), "at quarter to 7"));
  CHECK(has(at(22, "left"), "at quarter past 5"));
}

TEST_CASE("a height is told in breadths of thumb and hand, at the distance of the lens") {
  const auto at = [](int degrees, std::string_view way) {
    const Work one(loose(fmt::format("straight ahead, {} deg from {}", degrees, way)), chair(3));
    return words(camera(one, "v"));
  };
  const Work ahead(loose("straight ahead"), chair(3));
  const double away = ahead.view("v").facts.get(plan::fact::working_distance)->in(mm);
  // Chair 3's lens at 1:4: its front stands 455 mm away; sin(10 deg) of it are 79 mm, a hand (80).
  CHECK(away == doctest::Approx(455).epsilon(0.001));
  CHECK(has(at(10, "above"), "front of the lens a hand's breadth above the level of the teeth"));
  CHECK(has(at(10, "below"), "front of the lens a hand's breadth below the level of the teeth"));
  // sin(5 deg) of it are 39.7 mm: a hand would be 5.1 deg too high.
  CHECK(has(at(5, "above"), "front of the lens 2 thumb's breadths above"));
}

TEST_CASE("what is said is as round as the view's margins allow, and tight where none holds") {
  // `norma margins` of the front view: 1.5 deg aside, then 12 or 22 is not sharp.
  const std::string strict = changed(five(), "camera           straight ahead",
                                     "camera           from right, 4 deg from midline");
  const Work work(strict, chair(3));
  const ByHand::Told front = camera(work, "front");
  CHECK(front.room != Room::enough); // the nearest quarter hour lies 3.5 deg off
  CHECK((has(words(front), "match the drawing")));
  // The same where nothing has to be sharp.
  const Work bears(loose("from right, 4 deg from midline"), chair(3));
  CHECK(camera(bears, "v").room == Room::enough);
  CHECK_FALSE(has(words(camera(bears, "v")), "match the drawing"));
}

TEST_CASE("a mirror is opened by shares of the way, until it shows what the scene shows in it") {
  const Work work(five(), chair(3));
  const ByHand::Told upper = mirror(work, "upper");
  CHECK(upper.other);
  CHECK(upper.room == Room::enough); // 1.8 deg too much still holds
  CHECK(has(words(upper), "opened half way from lying on the teeth to upright")); // 45 deg
  CHECK(has(words(upper), "until it shows 17 to 27"));
  CHECK_FALSE(has(words(upper), "deg"));
  // Of the lower arch 0.5 deg too little is too much: a careful hand slips by 1.
  const ByHand::Told lower = mirror(work, "lower");
  CHECK(lower.room == Room::little);
  CHECK(has(words(lower), "; little room here, match the drawing"));
  CHECK(has(words(lower, wording::german()), "bis er 47 bis 37 zeigt"));
}

TEST_CASE("a mirror beside the tongue or behind the teeth needs no degrees") {
  const Work work(read_file(root() / "protocols/tongue_side.norma"), chair(3));
  for (const char* view : {"molars_right", "molars_left", "incisors_behind"}) {
    CAPTURE(view);
    CHECK_FALSE(has(words(mirror(work, view)), "deg"));
    CHECK(has(words(mirror(work, view)), "thumb's breadth"));
    CHECK(has(words(mirror(work, view)), "until it shows"));
    CHECK_FALSE(has(words(camera(work, view)), "deg"));
  }
  CHECK(has(words(camera(work, "molars_right")),
            "turn it a little clockwise until the teeth lie level"));
  CHECK(has(words(camera(work, "molars_left")), "turn it a little anticlockwise"));
}

TEST_CASE("no card and no list says degrees; the lead's sheet does") {
  for (const char* file : {"five", "sides", "tongue_side", "orthodontic", "no_teeth"}) {
    CAPTURE(std::string(file));
    const Work work(read_file(root() / "protocols" / (std::string(file) + ".norma")), chair(3));
    const report::Report& report = work.session->report();
    const report::Held& held = report.held.front();
    for (const emit::Card& c : emit::cards_of(report, held, "", wording::english()).cards) {
      CAPTURE(c.name);
      if (!c.had) continue; // findings have their numbers
      CHECK_FALSE(has(c.camera, " deg"));
      CHECK_FALSE(has(c.as_before, " deg"));
      for (const emit::CardStep& s : c.steps)
        CHECK_FALSE(has(s.what, " deg"));
    }
    bool lead = false;
    bool exact = false;
    for (const emit::Block& b : emit::checklist(report, held, "", wording::english())) {
      lead = lead || b.kind == emit::BlockKind::sheet;
      const bool of_view = b.text.find("hold the camera") != std::string::npos;
      if (!lead && of_view) CHECK_FALSE(has(b.text, " deg"));
      exact = exact || (lead && of_view && b.text.find(" mm") != std::string::npos);
    }
    CHECK(exact);
  }
}

} // namespace norma::test
