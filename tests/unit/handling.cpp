// Facts about handling: what wears off, what a series asks of the patient, both sides alike,
// frames, limits that a kit sets, what a view hangs on. Numbers worked out by hand.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "facts/facts.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

namespace fact = plan::fact;
using doctest::Approx;

const plan::SeriesPlan& series(const Work& w, std::string_view name) {
  const auto& all = w.session->report().held.front().plan.series;
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& s) { return s.series->name == name; });
  REQUIRE(found != all.end());
  return *found;
}

/// chair 3 with its frosting of that day.
std::string frosted_on(const std::string& day) {
  return changed(chair(3), "frosted on: 2026-07-06", "frosted on: " + day);
}

} // namespace

TEST_CASE("frosting is due on the day its months are over, not the day before") {
  // The check is on 2026-11-25; six months.
  CHECK(Work(five(), frosted_on("2026-05-26")).count("P031") == 0);
  const Work due(five(), frosted_on("2026-05-25"));
  CHECK(due.count("P031") >= 1);
  CHECK(*due.view("front").facts.get(fact::frosting_age) == 6);
  // Cycles that are counted decide alone, old as the frosting may be.
  const auto cycles = [&](int n) {
    return changed(frosted_on("2020-01-01"), "frosted on: 2020-01-01",
                   fmt::format("frosted on: 2020-01-01\n    cycles since frosted: {}\n    frosting "
                               "lasts: 150",
                               n));
  };
  CHECK(Work(five(), cycles(149)).count("P031") == 0);
  CHECK(Work(five(), cycles(150)).count("P031") >= 1);
}

TEST_CASE("a kit's own limits take the place of norma's") {
  const std::string strict = chair(3) + "\nlimits:\n  frosting good for: 4\n  loss good for: 2\n";
  const Work w(five(), strict);
  CHECK(w.count("P031") >= 1); // frosted in July
  CHECK(w.count("P008") >= 1); // measured in September
  const plan::Fact* limit = w.view("front").facts.find(fact::frosting_age_limit);
  REQUIRE(limit != nullptr);
  CHECK(limit->number() == 4);
  CHECK(limit->status == plan::Status::measured);
  CHECK(Work(five(), chair(3)).view("front").facts.find(fact::frosting_age_limit)->status ==
        plan::Status::assumed);
  // The share that must be seen: with 5 % of each surface asked for, nothing is hidden.
  CHECK(Work(five(), chair(3)).in_mean("P019") == 2);
  CHECK(Work(five(), chair(3) + "\nlimits:\n  share seen: 0.05\n").in_mean("P019") == 0);
  // The limit on the turn: in a front view 14 to 16 stand at 73 to 79 degrees.
  CHECK(Work(five(), chair(3) + "\nlimits:\n  turned straight ahead: 70 deg\n").count("P020") == 1);
}

TEST_CASE("what goes into the mouth, counted from view to view") {
  const Work w(five(), chair(3));
  // Two retractors, the mirror for the upper jaw, turned over for the lower one; the side views
  // pull the same retractors differently.
  CHECK(*series(w, "full").facts.get(fact::insertions) == 4);
  CHECK(*series(w, "record").facts.get(fact::insertions) == 4);
  // Five views at a minute, four insertions at half a minute.
  CHECK(series(w, "full").facts.get(fact::minutes_in_mouth)->value() == Approx(7.0));
  CHECK(series(w, "record").facts.get(fact::minutes_in_mouth)->value() == Approx(5.0));
  CHECK_FALSE(series(w, "full").facts.get(fact::goes_in_again));
  CHECK(w.count("Q009") == 0);
  // In another order the mirror for the upper jaw goes in twice.
  const Work again(changed(five(), "series full = front, upper, lower, right, left",
                           "series full = upper, front, lower, right, left"),
                   chair(3));
  CHECK(again.count("Q009") == 0); // once each: another jaw, another insertion
  const Work twice(changed(five(), "  series record", R"(  view upper_too "Again", same as upper {
    must show        occlusal 15 to 25
    must be sharp    occlusal 15 to 25
  }

  series odd = upper, front, upper_too
  series record)"),
                   chair(3));
  CHECK(said(series(twice, "odd").facts, fact::goes_in_again) ==
        "occlusal mirror, narrow for the upper jaw");
  CHECK(twice.count("Q009") == 1);
  // Waits count unless the patient rests.
  const Work waits(changed(five(), "    iso              200\n",
                           "    iso              200\n    after picture    wait 2 min\n"),
                   chair(3));
  CHECK(series(waits, "record").facts.get(fact::minutes_in_mouth)->value() == Approx(11.0));
  const Work rests(
      changed(five(), "    iso              200\n",
              "    iso              200\n    after picture    wait 2 min, patient rests\n"),
      chair(3));
  CHECK(series(rests, "record").facts.get(fact::minutes_in_mouth)->value() == Approx(5.0));
}

TEST_CASE("both sides alike: what differs is named, and derived views never differ") {
  CHECK(Work(five(), chair(3)).count("P027") == 0);
  const std::string base = five();
  const std::string left = R"(  view left "Left side" {
    teeth            together, usual bite
    camera           from left, 60 deg from midline
    centre on        24
    focus on         35
    retractor left   tension firm, outwards and back, held by assistant
    retractor right  tension light, held by patient
    lamp             towards the front teeth
    must show        facial 22 to 27, 32 to 37
    must be sharp    facial 23 to 26, 33 to 36
  }
)";
  const std::size_t from = base.find("  view left");
  const std::size_t to = base.find("  series record");
  const auto with = [&](const std::string& view) {
    return base.substr(0, from) + view + "\n" + base.substr(to);
  };
  CHECK(Work(with(left), chair(3)).count("P027") == 0);
  const auto differs = [&](std::string_view a, std::string_view b) {
    const Work w(with(changed(left, a, b)), chair(3));
    CHECK(w.count("P027") == 1);
    return said(w.view("left").company, fact::other_side_differs);
  };
  CHECK(differs("60 deg", "61 deg") == "angle of the camera");
  CHECK(differs("60 deg from midline", "60 deg from midline, 5 deg from above") ==
        "height of the camera");
  CHECK(differs("    focus on", "    ratio 1:1\n    focus on") == "ratio");
  CHECK(differs("    focus on", "    iso 400\n    focus on") == "ISO");
  CHECK(differs("    focus on", "    aperture f/32\n    focus on") == "aperture");
  CHECK(differs("22 to 27", "22 to 26") == "teeth that must show");
  CHECK(differs("23 to 26", "24 to 26") == "teeth that must be sharp");
}

TEST_CASE("the share of the frame and the room in it, by hand") {
  const Work w(five(), chair(3));
  const plan::Facts& upper = w.view("upper").facts;
  const double width = upper.get(fact::needed_width)->in(mm);
  const double height = upper.get(fact::needed_height)->in(mm);
  CHECK(upper.get(fact::field_use)->value() == Approx(std::max(width / 72.0, height / 48.0)));
  CHECK(upper.get(fact::least_spare)->in(mm) ==
        Approx(0.5 * std::min(72.0 - width, 48.0 - height)));
  CHECK(*w.view("upper").company.get(fact::views_with_ratio) == 5);
  // Shapes: 3:2 against 4:3 is an eighth apart.
  const Work phone(five(), changed(chair(3), "sensor: 36 x 24 mm", "sensor: 17.2 x 12.9 mm"));
  CHECK(said(phone.view("front").facts, fact::shape_here) == "4:3");
  const Work odd(five(), changed(chair(3), "sensor: 36 x 24 mm", "sensor: 29.4 x 20 mm"));
  CHECK(said(odd.view("front").facts, fact::shape_here) == "1.47:1");
  CHECK(phone.view("front").facts.get(fact::shape_apart)->value() == Approx(0.125));
}

TEST_CASE("upright is upright, once") {
  const Work w(changed(five(), "    camera           straight ahead\n",
                       "    camera           straight ahead\n    camera held      upright\n"),
               chair(3));
  CHECK(w.view("front").facts.get(fact::field_width)->in(mm) == Approx(48.0));
  CHECK(w.view("front").facts.get(fact::field_height)->in(mm) == Approx(72.0));
  CHECK(w.count("P001") == 1); // 49.1 mm of teeth
}

TEST_CASE("light by hand: spreads, the ISO that does, the room") {
  const Work w(five(), chair(3));
  // The mirror's 0.1 stop alone: the front view has none.
  CHECK(w.view("upper").facts.get(fact::offset_spread)->in(stop) == Approx(0.1));
  CHECK(w.view("upper").facts.get(fact::power_spread)->in(stop) == Approx(0.1));
  CHECK_FALSE(w.view("front").facts.get(fact::power_spread));
  // Both in a mirror: root of the sum of the squares.
  const Work both(changed(five(), "    camera           straight ahead\n",
                          "    camera           straight ahead\n    exposure         as view "
                          "lower\n"),
                  chair(3));
  CHECK(both.view("upper").facts.get(fact::offset_spread)->in(stop) == Approx(0.1));
  const Work lower(changed(five(), "    exposure         as view front",
                           "    exposure         as "
                           "view lower"),
                   chair(3));
  CHECK(lower.view("upper").facts.get(fact::offset_spread)->in(stop) == Approx(std::sqrt(0.02)));
  // At f/22 chair 7 is 1.29 stops short at ISO 200. The protocol's f/22 is f/18 on its sensor, 2/3
  // of a stop more light: 200 x 2^0.62 = 308, so ISO 320.
  const Work seven(five(), chair(7));
  CHECK(seven.view("front").facts.get(fact::iso_that_does)->value() == Approx(320));
  // 500 lx under f/22 (22.63 x 1.5), ISO 200, 1/125 s: log2(250 x 33.94^2 x 125 / (200 x 500)).
  CHECK(w.view("front").facts.get(fact::room_light_under)->in(stop) ==
        Approx(std::log2(250.0 * 33.941 * 33.941 * 125.0 / 100000.0)).epsilon(0.001));
  // Five millimetres in a second for a thousandth, at half life size.
  CHECK(w.view("front").facts.get(fact::movement_blur)->in(mm) == Approx(0.0025));
}

namespace {

/// One front view; `more` stands in it first.
std::string one_front(const std::string& more) {
  std::string retractors = "    retractor both   tension even, held by patient\n";
  if (more.find("retractor") != std::string::npos) retractors.clear();
  return "norma 1\n\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n\n  view front "
         "\"Front\" {\n" +
         more + retractors +
         "    aperture         f/32\n    iso              200\n    shutter          1/125 s\n"
         "    teeth            together\n    camera           straight ahead\n"
         "    centre on        between 11 and 21\n    must show        facial 13 to 23\n  }\n}\n";
}

} // namespace

TEST_CASE("white balance by hand: what the camera has, and the lamp's colour") {
  const auto front = [](const std::string& balance, const std::string& kit) {
    return Work(
        changed(five(), "    camera           straight ahead\n",
                "    camera           straight ahead\n    white balance    " + balance + "\n"),
        kit);
  };
  // 1e6/5500 - 1e6/5600 is 3.247 mired: near enough.
  const Work near = front("5500 K", chair(3));
  CHECK(near.view("front").facts.get(fact::white_balance_off)->in(mired) ==
        Approx(3.247).epsilon(1e-3));
  CHECK(near.count("P077") + near.count("P078") + near.count("P079") == 0);
  CHECK(said(near.view("front").facts, fact::white_balance) == "5500 K");
  // Daylight counts as 5500 K.
  const Work day = front("daylight", chair(3));
  CHECK(day.view("front").facts.get(fact::white_balance_off)->in(mired) ==
        Approx(3.247).epsilon(1e-3));
  // 1e6/4200 - 1e6/5600 is 59.5 mired.
  CHECK(front("4200 K", chair(3)).count("P078") == 1);
  CHECK(front("4200 K", changed(chair(3), "name: chair_3",
                                "name: chair_3\nlimits:\n  white balance off: 60 mired"))
            .count("P078") == 0);
  // A number that the camera does not reach, and ways that it has not.
  CHECK(front("2000 K", chair(3)).count("P077") == 1);
  const std::string few = changed(chair(3),
                                  "[automatic, daylight, flash, grey card, kelvin]\n"
                                  "colour temperature: 2500 K to 10000 K",
                                  "flash");
  CHECK(front("5500 K", few).count("P077") == 1);
  CHECK(front("from a grey card", few).count("P077") == 1);
  CHECK(front("from a grey card", few).count("P079") == 1);
  CHECK(front("flash", few).count("P077") == 0);
}

TEST_CASE("a field in millimetres is the ratio of whichever sensor the kit has") {
  const auto front = [](const std::string& field, const std::string& kit,
                        const std::string& more = "") {
    return Work(one_front("    ratio            for a field " + field + "\n" + more), kit);
  };
  const Work wide = front("60 mm wide", chair(3));
  CHECK(wide.view("front").facts.get(fact::ratio)->value() == Approx(36.0 / 60.0));
  CHECK(wide.view("front").facts.get(fact::field_width)->in(mm) == Approx(60.0));
  CHECK(wide.view("front").facts.get(fact::field_height)->in(mm) == Approx(40.0));
  CHECK(front("60 mm high", chair(3)).view("front").facts.get(fact::ratio)->value() ==
        Approx(24.0 / 60.0));
  const Work upright = front("60 mm wide", chair(3), "    camera held      upright\n");
  CHECK(upright.view("front").facts.get(fact::ratio)->value() == Approx(24.0 / 60.0));
  CHECK(upright.view("front").facts.get(fact::field_width)->in(mm) == Approx(60.0));
  const std::string small = changed(chair(3), "sensor: 36 x 24 mm", "sensor: 23.5 x 15.7 mm");
  CHECK(front("60 mm wide", small).view("front").facts.get(fact::ratio)->value() ==
        Approx(23.5 / 60.0));
  // 1:1 is the largest image of this lens: 36 mm.
  CHECK(front("30 mm wide", chair(3)).count("P002") == 1);
  CHECK(front("40 mm wide", chair(3)).count("P002") == 0);
  // What fits is told of the field as that of a ratio.
  CHECK(front("38 mm wide", chair(3)).count("P001") == 1);
}

TEST_CASE("a distance is held against where the lens stands at its ratio") {
  const auto front = [](const std::string& distance) {
    return Work(one_front("    ratio            1:2\n    distance         " + distance + "\n"),
                chair(3));
  };
  const Work far = front("45 cm");
  CHECK(far.count("P083") == 1);
  CHECK(far.view("front").facts.get(fact::distance_off)->in(mm) == Approx(195.0));
  // 355 mm at 1:3 and 555 mm at 1:5: 450 mm at 1:3.95.
  CHECK(1.0 / far.view("front").facts.get(fact::ratio_at_distance)->value() == Approx(3.95));
  CHECK(front("255 mm").count("P083") == 0);
  CHECK(front("265 mm").count("P083") == 0); // 4 % off
  CHECK(front("270 mm").count("P083") == 1); // 5.6 %
  CHECK(front("270 mm\n    tolerance        20 mm of distance").count("P083") == 0);
  CHECK(front("265 mm\n    tolerance        5 mm of distance").count("P083") == 1);
}

TEST_CASE("fingers hold a cheek: a hand, and no instrument") {
  const std::string none = "norma kit: 1\nname: k\nsensor: 36 x 24 mm\nretractors: []\n";
  const Work w(one_front("    ratio            1:2\n    retractor right  by fingers, tension "
                         "light, held by operator\n    retractor left   by fingers, held by "
                         "assistant\n"),
               none);
  CHECK(w.count("P015") == 0);
  CHECK(*w.view("front").facts.get(fact::assistant_hands_needed) == 1);
  CHECK(w.count("P051") == 1); // the operator's hands are on the camera
  std::string acts;
  for (const plan::Act& act : w.view("front").acts)
    acts += said(act) + "\n";
  CHECK(acts.find("Assistant: left side: no retractor, fingers hold the cheek") !=
        std::string::npos);
  // They are somebody's.
  const Work nobodys(one_front("    ratio            1:2\n    retractor both   by fingers, needs "
                               "no hand\n"),
                     none);
  const auto& open = nobodys.view("front").open;
  CHECK(std::any_of(open.begin(), open.end(), [](const plan::OpenQuestion& q) {
    return q.what.row == &diag::question::hands_enough;
  }));
}

TEST_CASE("what must not show is looked for in the scene where that has it") {
  const auto front = [](const std::string& unwanted, const std::string& shown) {
    return Work(
        changed(one_front("    ratio            1:2\n    must not show    " + unwanted + "\n"),
                "facial 13 to 23", shown),
        chair(3));
  };
  const auto open = [](const Work& w) {
    const auto& all = w.view("front").open;
    return std::any_of(all.begin(), all.end(), [](const plan::OpenQuestion& q) {
      return q.what.row == &diag::question::picture_free;
    });
  };
  const Work beside = front("neighbouring teeth", "facial 11");
  CHECK(beside.count("P082") == 1);
  CHECK(said(beside.view("front").facts, fact::unwanted_shown) == "neighbouring teeth (12, 21)");
  CHECK_FALSE(open(beside));
  CHECK(said(front("opposing teeth", "facial 11").view("front").facts, fact::unwanted_shown)
            .starts_with("opposing teeth ("));
  CHECK(front("neighbouring teeth", "facial 18 to 28, 48 to 38").count("P082") == 0);
  CHECK(open(front("bubbles", "facial 11")));
  CHECK_FALSE(open(front("fingers", "facial 11")));
}

TEST_CASE("a loss from grey cards is their mean, its spread their standard error") {
  const Work w(five(), changed(changed(chair(3),
                                       "width: 58 mm\n    narrow end: 46 mm\n    length: "
                                       "130 mm\n    surface: front\n    loss: 0.5 +- 0.1 "
                                       "stop\n    loss found by: grey card\n",
                                       "width: 58 mm\n    narrow end: 46 mm\n    length: 130 mm\n "
                                       "   surface: front\n    grey card: [[118, 90], [118, 90], "
                                       "[118, 90], [118, 90]]\n"),
                               "Chair 3", "Chair 3"));
  // IEC 61966-2-1: 118/255 is 0.181164 and 90/255 is 0.102242 in linear light.
  CHECK(w.view("upper").facts.get(fact::mirror_loss)->in(stop) == Approx(0.8253).epsilon(0.0002));
  CHECK(w.view("upper").facts.get(fact::mirror_loss_spread)->in(stop) == Approx(0.0));
  CHECK(*w.view("upper").facts.get(fact::grey_cards_used) == 4);
}

TEST_CASE("the tightest check, and where its uncertainty comes in") {
  const Work w(five(), chair(3));
  const plan::Facts& upper = w.view("upper").facts;
  // The height of 48 mm has the least to spare.
  CHECK(upper.get(fact::tightest_reserve)->value() ==
        Approx(1.0 - upper.get(fact::needed_height)->in(mm) / 48.0));
  CHECK(said(upper, fact::hangs_on).find("assumed") != std::string::npos);
  // A view that fails is the tightest below zero.
  const Work fails(changed(five(), "must show        facial 15 to 25, 45 to 35",
                           "must show        facial 17 to 27"),
                   chair(3));
  const Work small(changed(five(), "ratio            1:2", "ratio            1:1"), chair(3));
  CHECK(small.view("upper").facts.get(fact::tightest_reserve)->value() < 0);
}

TEST_CASE("missing teeth: their crowns are gone, and nobody asks for them where all present do") {
  const std::string some = changed(five(), "  for              adults\n",
                                   "  for              adults\n  missing          14, 24\n");
  const Work w(some, chair(3));
  CHECK(w.count("P059") >= 1);
  std::string present = some;
  for (const char* line : {"facial 15 to 25, 45 to 35", "occlusal 17 to 27\n    must be sharp",
                           "facial 12 to 17, 42 to 47"}) {
    const std::string text(line);
    const std::size_t end = text.find('\n');
    const std::string first = text.substr(0, end);
    present = changed(present, first, first + ", whichever teeth are there");
  }
  present = changed(present, "must be sharp    occlusal 17 to 27",
                    "must be sharp    occlusal 17, 16, 26, 27");
  present = changed(present, "must be sharp    facial 13 to 16, 43 to 46",
                    "must be sharp    facial 13, 15, 16, 43 to 46");
  // The upper view is focused on 14, the right one centred on it, and the left one on 24.
  CHECK(Work(present, chair(3)).count("P059") == 3);
  present = changed(present, "focus on         14", "focus on         15");
  present = changed(present, "centre on        between 14 and 44", "centre on        15");
  const Work fine(present, chair(3));
  CHECK(fine.count("P059") == 0);
  const auto& shown = fine.view("upper").shown;
  CHECK(shown.size() == 12);
  CHECK(std::none_of(shown.begin(), shown.end(),
                     [](const physics::Shown& s) { return s.tooth.iso() == 14; }));
}

TEST_CASE("a review is overdue from the day after") {
  const auto by = [](const char* day) {
    return Work(
        changed(five(), "review by        2027-09-01", std::string("review by        ") + day));
  };
  CHECK(by("2026-11-25").count("Q002") == 0);
  CHECK(by("2026-11-24").count("Q002") == 1);
}

TEST_CASE("borders: what just does, does") {
  const auto front = [](const std::string& line) {
    return changed(five(), "    camera           straight ahead\n",
                   "    camera           straight ahead\n" + line);
  };
  // The camera of chair 3 stands 255 mm away at 1:2.
  CHECK(Work(front("    distance         at least 255 mm\n"), chair(3)).count("P017") == 0);
  CHECK(Work(front("    distance         at least 256 mm\n"), chair(3)).count("P017") == 1);
  // The front view's teeth need 48.1 x 32.0 mm (centred between 11 and 21, which is in the upper
  // jaw): at 1:1.36 the field is 49.0 x 32.6 mm, which just does; at 1:1.3 46.8 x 31.2 mm.
  const auto at_ratio = [&](const char* ratio) {
    return Work(front(std::string("    ratio            ") + ratio + "\n"), chair(3));
  };
  CHECK(at_ratio("1:1.36").count("P001") == 0);
  CHECK(at_ratio("1:1.36").view("front").facts.get(fact::least_spare)->in(mm) ==
        Approx(0.3).epsilon(0.3));
  CHECK(at_ratio("1:1.3").count("P001") == 2);
  // A ring as large as its distance is not too close.
  CHECK(Work(five(), changed(chair(3), "radius: 35 mm", "radius: 255 mm")).count("P049") == 0);
  CHECK(Work(five(), changed(chair(3), "radius: 35 mm", "radius: 256 mm")).count("P049") >= 1);
}

TEST_CASE("views of which nothing stands there are not checked, and say so") {
  const auto view = [](const char* words) {
    return Work(std::string("norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
                            "  missing 21\n  view a \"A\" {\n    ratio 1:2\n    aperture f/22\n") +
                    words + "\n  }\n}\n",
                chair(3));
  };
  const auto asks = [](const Work& w, std::string_view what) {
    const auto& open = w.view("a").open;
    return std::any_of(open.begin(), open.end(), [&](const plan::OpenQuestion& q) {
      return wording::english().text(q.what).find(what) != std::string::npos &&
             wording::english().text(q.missing).find("stands there") != std::string::npos;
    });
  };
  CHECK(
      asks(view("    must show facial 11, whichever teeth are there\n    must be sharp facial 21"),
           "sharp"));
  const Work none = view("    must show facial 21, whichever teeth are there");
  CHECK(asks(none, "fits"));
  CHECK(none.count("P023") == 0); // it would fit up to "infinite:1"
}

TEST_CASE("a camera from one side needs its angle, and an angle its side") {
  const auto told = [](const char* camera) {
    return Work(std::string("norma 1\nprotocol p \"P\" {\n  for adults\n  view a \"A\" {\n"
                            "    camera ") +
                camera + "\n  }\n}\n")
        .count("M004");
  };
  CHECK(told("60 deg from midline") == 1);
  CHECK(told("from left") == 1);
  CHECK(told("straight ahead, 60 deg from midline") == 1);
  CHECK(told("from left, 60 deg from midline") == 0);
  CHECK(told("straight ahead, 20 deg from above") == 0);
}

TEST_CASE(
    "the aperture: never one that nobody asked for, and stopped down where the flash cannot") {
  const auto view = [](const std::string& words) {
    return Work("norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
                "  view a \"A\" {\n    camera straight ahead\n    must show facial 13 to 23\n"
                "    centre on between 11 and 21\n" +
                    words + "  }\n}\n",
                chair(3));
  };
  // The lens opens to f/2.8: that is no choice of the protocol's.
  const Work unsaid = view("    ratio 1:2\n    iso 200\n");
  CHECK_FALSE(unsaid.view("a").facts.get(fact::aperture));
  CHECK(unsaid.count("P010") == 0);
  // 1/4 of the power at f/22, ISO 200 and 1:2 by the kit's reference shot; the least is 1/64. At
  // ISO 1600 and f/8 it takes three stops and three stops less, 1/256: two stops down, f/16.
  const std::string range = "    ratio 1:2\n    iso 1600\n    aperture f/8 to f/32\n";
  const Work stopped = view(range);
  CHECK(stopped.count("P010") == 0);
  CHECK(stopped.view("a").facts.get(fact::aperture)->value() == doctest::Approx(16));
  const Work fixed = view("    ratio 1:2\n    iso 1600\n    aperture f/8\n");
  CHECK(fixed.count("P010") == 1); // there is nothing to stop down to
}

TEST_CASE("two lamps that burn together: light adds up, one fills the shadow of the other") {
  const std::string view =
      "norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
      "  view a \"A\" {\n    ratio 1:2\n    aperture f/16\n    iso 200\n"
      "    teeth together\n    camera from right, 60 deg from midline\n"
      "    centre on 14\n    retractor right tension firm\n    must show facial 13 to 16\n  }\n}\n";
  const auto with = [&](const std::string& lamps) {
    return Work(view, "norma kit: 1\nname: k\nsensor: 36 x 24 mm\nlens:\n"
                      "  focal length: 100 mm\n  aperture: f/2.8 to f/32\n"
                      "  ratio: 1:10 to 1:1\n  working distance:\n    1:2: 205 mm\n"
                      "retractors:\n  - name: r\nlamps:\n" +
                          lamps);
  };
  const auto lamp = [](const std::string& name, const std::string& side, int guide_number,
                       const std::string& more = "") {
    return "  - name: " + name + "\n    kind: point\n    offset: 80 mm\n    side: " + side +
           "\n    moves: fixed\n" +
           (guide_number > 0 ? fmt::format("    guide number: {} m\n", guide_number) : "") + more;
  };
  const std::string joined = "    burns with: two\n";
  const auto needed = [](const Work& w) {
    return w.view("a").facts.get(fact::power_needed)->value();
  };
  const Work alone = with(lamp("one", "left", 12));
  const Work alike = with(lamp("one", "left", 12, joined) + lamp("two", "right", 12));
  // Alike: a stop. Half the guide number, a quarter of the light: 1/(1 + 1/4).
  CHECK(needed(alike) == Approx(0.5 * needed(alone)));
  CHECK(needed(with(lamp("one", "left", 12, joined) + lamp("two", "right", 6))) ==
        Approx(0.8 * needed(alone)));
  CHECK(alone.count("P005") == 1);
  CHECK(alike.count("P005") == 0);
  CHECK_FALSE(alike.view("a").facts.has(fact::lamp_side));
  REQUIRE(alike.view("a").scene);
  CHECK(alike.view("a").scene->lamp.size() == 2);
  // A third of the guide number is a ninth of the light: too little to fill the other's shadow.
  CHECK(with(lamp("one", "left", 12, joined) + lamp("two", "right", 4)).count("P005") == 1);
  CHECK(with(lamp("one", "right", 12, joined) + lamp("two", "left", 4)).count("P005") == 0);
  // Without a shot or a number nobody knows how bright the second is.
  const Work unknown = with(lamp("one", "left", 12, joined) + lamp("two", "right", 0));
  CHECK_FALSE(unknown.view("a").facts.get(fact::power_needed));
  CHECK_FALSE(unknown.view("a").facts.has(fact::light_evenness));
  // No other lamp of that name.
  CHECK(with(lamp("one", "left", 12, joined)).count("K009") == 1);
  CHECK(with(lamp("two", "left", 12, joined)).count("K009") == 1);
}

TEST_CASE("a retractor that holds itself asks for no hand, in one piece goes in once") {
  const auto with = [](const std::string& asked, const std::string& pieces) {
    return Work("norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
                "  view a \"A\" {\n    ratio 1:2\n    retractor both " +
                    asked + "\n    must show facial 13 to 23\n  }\n  series s = a\n}\n",
                "norma kit: 1\nname: k\nsensor: 36 x 24 mm\nretractors:\n" + pieces);
  };
  const std::string hand = "  - name: hooks\n    held: by hand\n    pieces: 2\n";
  const std::string itself = "  - name: springy\n    sides: both\n    held: by itself\n";
  const auto hands = [](const Work& w) {
    return *w.view("a").facts.get(fact::patient_hands_needed);
  };
  const auto insertions = [](const Work& w) { return *series(w, "s").facts.get(fact::insertions); };
  CHECK(hands(with("held by patient", hand)) == 2);
  CHECK(insertions(with("held by patient", hand)) == 2);
  // One piece, held at one place.
  CHECK(hands(with("held by patient", itself)) == 1);
  CHECK(insertions(with("held by patient", itself)) == 1);
  CHECK(hands(with("tension even", itself)) == 0);
  // Nobody is said to hold it: a question where a hand is needed, none where it holds itself.
  const auto asked = [](const Work& w, const diag::Term& question) {
    const auto& open = w.view("a").open;
    return std::count_if(open.begin(), open.end(),
                         [&](const auto& q) { return q.what.row == question().row; });
  };
  CHECK(asked(with("tension even", hand), diag::question::hands_enough) == 1);
  CHECK(asked(with("tension even", itself), diag::question::hands_enough) == 0);
  // Of both, the one that holds itself is taken where no hand is to hold it.
  const Work both = with("needs no hand", hand + itself);
  CHECK(both.count("P081") == 0);
  CHECK(both.view("a").chosen.one_piece() != nullptr);
  CHECK(with("needs no hand", hand).count("P081") == 1);
  const Work unsaid = with("needs no hand", "  - name: hooks\n    pieces: 2\n");
  CHECK(unsaid.count("P081") == 0);
  CHECK(asked(unsaid, diag::question::retractor_holds_itself) >= 1);
}

TEST_CASE("a camera that sets its exposure by itself: brightness is not checked, the rest is") {
  const auto with = [](const std::string& exposure) {
    return Work(five(), changed(chair(3), "iso: 100 to 1600", "iso: 100 to 1600\n" + exposure));
  };
  const Work by_hand = with("exposure: manual");
  const Work automatic = with("exposure: automatic");
  CHECK(by_hand.view("front").facts.get(fact::power));
  const auto& facts = automatic.view("front").facts;
  for (const plan::FactRow* row : std::initializer_list<const plan::FactRow*>{
           &fact::iso, &fact::shutter, &fact::power_needed}) {
    CAPTURE(row->name);
    REQUIRE(facts.find(*row) != nullptr);
    CHECK(facts.find(*row)->state == plan::State::unknown);
    CHECK(facts.find(*row)->why.row == diag::missing::camera_exposes().row);
  }
  CHECK(facts.get(fact::aperture) == by_hand.view("front").facts.get(fact::aperture));
  CHECK(facts.get(fact::needed_width) == by_hand.view("front").facts.get(fact::needed_width));
  CHECK_FALSE(automatic.view("upper").facts.get(fact::offset));
  for (const char* code : {"P008", "P010", "P041", "P042", "P045", "P047", "P069"}) {
    CAPTURE(code);
    CHECK(automatic.count(code) == 0);
  }
  // One ISO is no choice.
  const Work one =
      Work(five(), changed(chair(3), "iso: 100 to 1600", "iso: 400 to 400\nexposure: automatic"));
  CHECK(one.view("front").facts.get(fact::iso)->value() == Approx(400));
}

TEST_CASE("what is put on the lens: ratio, distance, f-number and light follow") {
  const auto view = [](const std::string& ratio) {
    return "norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
           "  view a \"A\" {\n    ratio " +
           ratio +
           "\n    aperture f/16\n    iso 200\n    shutter 1/125 s\n    must show facial 11\n"
           "  }\n}\n";
  };
  const auto kit = [](const std::string& on, const std::string& more = "") {
    return "norma kit: 1\nname: k\nsensor: 36 x 24 mm\nroom light: 500 lx\n" + more +
           "lens:\n  focal length: 100 mm\n  pupil ratio: 1\n  aperture: f/2.8 to f/32\n"
           "  ratio: 1:10 to 1:1\n  working distance:\n    1:10: 1055 mm\n    1:2: 255 mm\n"
           "    1:1: 155 mm\n" +
           on + "lamps:\n  - name: lamp\n    kind: built in\n    guide number: 12 m\n";
  };
  const auto get = [](const Work& w, const auto& def) { return *w.view("a").facts.get(def); };
  const Work bare(view("1:1"), kit(""));
  CHECK(get(bare, fact::working_distance).in(mm) == Approx(155));
  CHECK(get(bare, fact::effective_f_number).value() ==
        Approx(get(bare, fact::aperture).value() * 2));

  SUBCASE("a tube of half the focal length: 1:2 becomes 1:1, at the distance of 1:1") {
    const Work tube(view("1:1"), kit("  extension tube: 50 mm\n"));
    CHECK(get(tube, fact::lens_set_to).value() == Approx(0.5));
    CHECK(get(tube, fact::lens_greatest).value() == Approx(1.5));
    CHECK(get(tube, fact::lens_least).value() == Approx(0.6));
    CHECK(get(tube, fact::working_distance).in(mm) == Approx(155));
    CHECK(get(tube, fact::effective_f_number) == get(bare, fact::effective_f_number));
    CHECK(Work(view("1:2"), kit("  extension tube: 50 mm\n")).count("P002") == 1);
    CHECK(Work(view("1.4:1"), kit("")).count("P002") == 1);
    CHECK(Work(view("1.4:1"), kit("  extension tube: 50 mm\n")).count("P002") == 0);
  }
  SUBCASE("a converter of two: the lens at 1:2, its f-numbers doubled") {
    const Work converter(view("1:1"), kit("  teleconverter: 2\n"));
    CHECK(get(converter, fact::lens_set_to).value() == Approx(0.5));
    CHECK(get(converter, fact::focal_length).in(mm) == Approx(200));
    CHECK(get(converter, fact::working_distance).in(mm) == Approx(255));
    CHECK(get(converter, fact::lens_narrowest).value() ==
          Approx(2 * get(bare, fact::lens_narrowest).value()));
    CHECK(get(converter, fact::pupil_distance).in(mm) == Approx(300));
  }
  SUBCASE("a close-up lens: 1/w' = 1/w + D") {
    const Work close_up(view("1:1"), kit("  close-up lens: 2 dpt\n"));
    const double own = get(close_up, fact::lens_set_to).value();
    // The measured rows are 55 + 100/m: m' = m (1 + 0.002 (55 + 100/m)).
    CHECK(own == Approx((1 - 0.2) / 1.11));
    CHECK(get(close_up, fact::working_distance).in(mm) ==
          Approx(1 / (1 / (55 + 100 / own) + 0.002)));
    CHECK(get(close_up, fact::effective_f_number).value() ==
          Approx(get(close_up, fact::aperture).value() * (1 + own)));
    CHECK(Work(view("1:1"), kit("  close-up lens: 2\n")).view("a").facts.get(fact::lens_set_to));
  }
  SUBCASE("a filter takes light from flash and room alike") {
    const Work filter(view("1:1"), kit("  filter: 1 stop\n"));
    CHECK(get(filter, fact::power_needed).value() ==
          Approx(2 * get(bare, fact::power_needed).value()));
    CHECK(get(filter, fact::room_light_under).in(stop) ==
          Approx(get(bare, fact::room_light_under).in(stop) + 1));
  }
  SUBCASE("a digital zoom of two: half of the field, the same blur allowed") {
    const Work zoom(view("1:1"), kit("", "digital zoom: 2\n"));
    CHECK(get(zoom, fact::sensor).width.in(mm) == Approx(18));
    // The same field as asked for: half of the ratio.
    CHECK(get(zoom, fact::ratio).value() == Approx(0.5));
    CHECK(get(zoom, fact::field_width).in(mm) == Approx(36));
    CHECK(get(zoom, fact::allowed_blur) == get(bare, fact::allowed_blur));
    const auto& open = zoom.view("a").open;
    CHECK(std::any_of(open.begin(), open.end(), [](const auto& q) {
      return q.what.row == diag::question::enough_pixels().row;
    }));
  }
}

TEST_CASE("a twin lamp: two heads need half of the power, and throw no shadow of one side") {
  const auto with = [](const std::string& lamp) {
    return Work("norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n"
                "  view a \"A\" {\n    ratio 1:2\n    aperture f/16\n    iso 200\n"
                "    teeth together\n    camera from right, 60 deg from midline\n"
                "    retractor right tension firm\n    must show facial 13 to 16\n  }\n}\n",
                "norma kit: 1\nname: k\nsensor: 36 x 24 mm\nlens:\n  focal length: 100 mm\n"
                "  aperture: f/2.8 to f/32\n  ratio: 1:10 to 1:1\n  working distance:\n"
                "    1:2: 255 mm\nretractors:\n  - name: r\nlamps:\n  - name: lamp\n"
                "    guide number: 12 m\n    " +
                    lamp);
  };
  const Work one = with("kind: point\n    side: left\n    moves: fixed\n    offset: 80 mm\n");
  const Work close = with("kind: twin\n    heads apart: 2 mm\n");
  const Work apart = with("kind: twin\n    heads apart: 510 mm\n");
  const auto needed = [](const Work& w) {
    return w.view("a").facts.get(fact::power_needed)->value();
  };
  CHECK(needed(close) == doctest::Approx(0.5 * needed(one)).epsilon(1e-3));
  // Each 45 degrees off the axis: 2^-0.5 of the light of one on it.
  CHECK(needed(apart) == doctest::Approx(std::sqrt(2.0) * needed(one)));
  CHECK(one.count("P005") == 1);
  const Work twin = with("kind: twin\n    heads apart: 160 mm\n");
  CHECK(twin.count("P005") == 0);
  CHECK_FALSE(twin.view("a").facts.has(fact::lamp_side));
  CHECK(twin.view("a").facts.get(fact::light_evenness));
  const Work unsaid = with("kind: twin\n");
  CHECK_FALSE(unsaid.view("a").facts.get(fact::power_needed));
  CHECK_FALSE(unsaid.view("a").facts.get(fact::light_evenness));
}

TEST_CASE(
    "an ISO that the camera does not have, a lamp that stands out, more light by the protocol") {
  const auto with = [](const std::string& iso) {
    return Work(five(), changed(chair(3), "iso: 100 to 1600", "iso: " + iso));
  };
  CHECK(with("100 to 1600").count("P069") == 0);
  CHECK(with("400 to 1600").count("P069") > 0); // five asks for ISO 200
  CHECK(with("50 to 100").count("P069") > 0);
  // The lamp 50 mm nearer to the teeth, and 50 mm nearer to the card: the same power.
  const auto power = [](const Work& w) { return w.view("front").facts.get(fact::power)->value(); };
  const Work level(five(), chair(3));
  const Work out(five(), changed(changed(chair(3), "    radius: 35 mm ",
                                         "    stands out: 50 mm\n"
                                         "    radius: 35 mm "),
                                 "distance: 255 mm", "distance: 205 mm"));
  CHECK(out.view("front").facts.get(fact::lamp_distance)->in(mm) == doctest::Approx(205));
  CHECK(power(out) == doctest::Approx(power(level)));
  // One stop more is twice the power.
  const Work more(changed(five(), "  view front \"Front, teeth together\" {",
                          "  view front \"Front, teeth together\" {\n    exposure 1 stop more"),
                  chair(3));
  CHECK(power(more) == doctest::Approx(2 * power(level)));
}

TEST_CASE("with no assistant nobody is asked to assist; teeth meet when all is in; focus is told") {
  const auto acts = [](const Work& w, const char* view) {
    std::string out;
    for (const plan::Act& act : w.view(view).acts)
      out += said(act) + "\n";
    return out;
  };
  const Work alone(read_file(root() / "protocols/two_hands.norma"), chair(3));
  for (const plan::ViewPlan& v : alone.session->report().held.front().plan.views)
    for (const plan::Act& act : v.acts)
      CHECK(act.who != plan::Who::assistant);
  const Work sides(read_file(root() / "protocols/sides.norma"), chair(3));
  const std::string right = acts(sides, "right_mirror");
  const std::size_t apart = right.find("while things go in");
  const std::size_t together = right.find("teeth together");
  REQUIRE(apart != std::string::npos);
  REQUIRE(together != std::string::npos);
  CHECK(apart < together);
  CHECK(right.find("put in buccal mirror") < together);
  const Work restoration(read_file(root() / "protocols/restoration.norma"), chair(3));
  bool told = false;
  for (const plan::ViewPlan& v : restoration.session->report().held.front().plan.views)
    told = told ||
           acts(restoration, v.view->name.c_str()).find("focus on that tooth") != std::string::npos;
  CHECK(told);
}

TEST_CASE("an exception is no leftover where its check was not made") {
  const std::string text = changed(five(), "protocol harbour_five \"Five-view record\" {",
                                   "protocol harbour_five \"Five-view record\" {\n"
                                   "  accept tooth_hidden in right because \"x\"\n"
                                   "  accept room_light_shows in front because \"y\"\n");
  const auto run = [&](const std::string& kit, bool scene) {
    text::MemoryFiles files;
    files.put("p.norma", text);
    files.put("k.yaml", kit);
    session::Request request{{"p.norma"}, {"k.yaml"}, {2026, 11, 25}};
    request.scene = scene;
    session::Session session;
    session.run(files, request);
    std::string out;
    for (const auto& d : session.report().findings.all()) {
      if (d.definition->code == "R020") out += wording::english().text(d.message) + "\n";
    }
    return out;
  };
  CHECK(run(chair(3), true).find("room_light_shows") != std::string::npos); // it is idle
  CHECK(run(chair(3), true).find("tooth_hidden") == std::string::npos);     // it is met
  CHECK(run(chair(3), false).find("tooth_hidden") == std::string::npos);    // it was not looked at
  CHECK(run(chair(7), true).find("room_light_shows") == std::string::npos); // nobody measured it
}

TEST_CASE("guides and frames: a twentieth of the distance, either way up") {
  const std::string text = changed(five(), "    camera           straight ahead\n",
                                   "    camera           straight ahead\n"
                                   "    guide            resting on the chin\n"
                                   "    frame            44 x 66 mm\n");
  const auto with = [&](const char* keeps, const char* frame) {
    return Work(text, chair(3) + "\nguides:\n  - name: g\n    keeps: " + keeps +
                          "\nframes:\n  - name: f\n    size: " + frame + "\n");
  };
  // 5 % of 255 mm are 12.75 mm.
  CHECK(with("267.5 mm", "66 x 44 mm").count("P065") == 0);
  CHECK(with("268 mm", "66 x 44 mm").count("P065") == 1);
  CHECK(with("242 mm", "66 x 44 mm").count("P065") == 1);
  CHECK(with("255 mm", "66 x 44 mm").count("P015") == 0); // held the other way
  CHECK(with("255 mm", "66 x 40 mm").count("P015") == 1);
  CHECK(with("255 mm", "60 x 44 mm").count("P015") == 1);
  CHECK(with("255 mm", "66 x 44 mm").count("P064") == 0); // 72 x 48 mm hold it
}

TEST_CASE("hands count as the tightest only where there are too few") {
  const Work few(changed(five(), "retractor both   tension even, held by patient",
                         "retractor both   tension even, held by assistant"),
                 chair(3));
  // Two retractors, mirror and air: four for two hands.
  CHECK(few.view("upper").facts.get(fact::tightest_reserve)->value() == Approx(-1.0));
  CHECK(said(few.view("front").facts, fact::tightest).find("hands") == std::string::npos);
}

TEST_CASE("the ISO that does may lie beyond a thousand, but not beyond the camera's") {
  const auto guide = [](const char* number) {
    return Work(five(),
                changed(chair(7), "guide number: 3 m", std::string("guide number: ") + number));
  };
  // A third of the guide number: 3.17 stops more, 200 x 2^3.79 = 2,770.
  CHECK(guide("1 m").view("front").facts.get(fact::iso_that_does)->value() == Approx(3200));
  // A fifth: 200 x 2^5.27 = 7,700; the camera ends at 3,200.
  CHECK_FALSE(guide("0.6 m").view("front").facts.get(fact::iso_that_does));
}

TEST_CASE("mouths of the kit reach the model") {
  const Work w(five(), chair(3) + "\nmouths:\n  lips clear: 9 mm\n");
  CHECK(w.view("front").scene->mouth.lips_clear->in(mm) == Approx(9.0));
}

TEST_CASE("a mirror that is pointed in front loses what its rays would cross there") {
  const std::string pointed_mirror = changed(chair(3), "narrow end: 46 mm\n    length: 130 mm",
                                             "narrow end: 4 mm\n    length: 64 mm");
  const Work pointed(five(), pointed_mirror);
  const std::string beside = said(pointed.view("upper").facts, fact::teeth_beside_mirror);
  CHECK_FALSE(beside.empty());
  CHECK(said(Work(five(), chair(3)).view("upper").facts, fact::teeth_beside_mirror).empty());
  // And no angle helps: the search ends all the same.
  const Work steep(changed(five(), "mirror           occlusal, held by assistant",
                           "mirror           occlusal, opened 30 deg, held by assistant"),
                   pointed_mirror);
  CHECK_FALSE(steep.view("upper").facts.get(fact::mirror_angle_that_shows));
}

TEST_CASE("an outlier among the grey cards is left out and told") {
  const Work w(five(),
               changed(chair(3),
                       "surface: front\n    loss: 0.5 +- 0.1 stop\n    loss found by: grey "
                       "card\n    measured: 2026-09-14\n    packed: alone\n  - name: buccal",
                       "surface: front\n    grey card: [[118, 90], [118, 90], [118, 91], "
                       "[118, 90], [118, 60]]\n    measured: 2026-09-14\n    packed: "
                       "alone\n  - name: buccal"));
  CHECK(*w.view("upper").facts.get(fact::grey_cards_outliers) == 1);
  CHECK(said(w.view("upper").facts, fact::grey_cards_left_out) == "5");
  CHECK(w.count("P062") >= 1);
}

} // namespace norma::test
