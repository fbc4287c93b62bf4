// Rules and plans, a clause at a time: protocols and kits of a few lines, in which one thing alone
// decides. Numbers are worked out by hand.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "diag/catalogue.hpp"
#include "diag/questions.hpp"
#include "facts/facts.hpp"
#include "kit/sections.hpp"
#include "physics/anatomy/anatomy.hpp"
#include "physics/anatomy/crown.hpp"
#include "physics/anatomy/dentition.hpp"
#include "physics/exposure.hpp"
#include "physics/optics.hpp"
#include "rules/unsettled.hpp"
#include "wording/wording.hpp"
#include "words/vocabulary.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

namespace fact = plan::fact;
using doctest::Approx;

/// A view `name` of the mouth at 1:2, f/22, ISO 200, with what else it says.
std::string view_of(const std::string& name, const std::string& says) {
  return fmt::format("  view {0} \"{0}\" {{\n    ratio 1:2\n    aperture f/22\n    iso 200\n{1}\n  "
                     "}}\n",
                     name, says);
}
std::string protocol_of(const std::string& body, const std::string& patients = "adults") {
  return fmt::format("norma 1\n\nprotocol p \"P\" {{\n  for {}\n  sensor 36 x 24 mm\n{}}}\n",
                     patients, body);
}
/// A protocol of one view `v`.
std::string one(const std::string& says, const std::string& patients = "adults") {
  return protocol_of(view_of("v", says), patients);
}
const std::string even = "retractor both tension even, held by patient\n";
const std::string from_right = "camera from right, 60 deg from midline\n";
const std::string over_arch =
    "mouth open wide\nmirror occlusal, held by assistant\nphotographed in "
    "a mirror\npicture as seen directly\nmust show occlusal 16 to 26\n" +
    even;

std::size_t tells(const Work& w, std::string_view name) {
  const auto& all = w.session->report().findings.all();
  REQUIRE(diag::catalogue::find(name) != nullptr);
  return static_cast<std::size_t>(std::count_if(
      all.begin(), all.end(), [&](const auto& d) { return d.definition->name == name; }));
}

/// A kit of chair 3's camera and of these pieces.
std::string kit_with(const std::string& pieces, const std::string& lens = "") {
  return "norma kit: 1\nname: k\nsensor: 36 x 24 mm\nlens:\n  name: l\n  focal length: 100 mm\n  "
         "pupil ratio: 1\n  aperture: f/2.8 to f/32\n  ratio: 1:10 to 1:1\n  working distance:\n   "
         " "
         "1:10: 1055 mm\n    1:2: 255 mm\n    1:1: 155 mm\n" +
         lens + pieces;
}
std::string lamp_with(const std::string& keys) {
  return "lamps:\n  - name: lamp\n    kind: point\n    offset: 60 mm\n" + keys;
}
const std::string shot = "    reference shot:\n      aperture: f/22\n      iso: 200\n      ratio: "
                         "1:2\n      power: 1/4\n      distance: 255 mm\n";

} // namespace

TEST_CASE("a mouth that is open by a length is open, too") {
  CHECK(tells(Work(one("teeth together\nmouth open at least 20 mm\n")), "mouth_both_ways") == 1);
  CHECK(tells(Work(one("teeth apart\nmouth open at least 20 mm\n")), "mouth_both_ways") == 0);
}

TEST_CASE("a rule about retractors looks at each side") {
  const std::string light = " tension light, held by patient\n";
  for (const auto& [side, other] : {std::pair{"right", "left"}, {"left", "right"}}) {
    CAPTURE(side);
    const auto with = [&](const std::string& says) {
      return fmt::format("retractor {}{}retractor {}{}", side, says, other, light);
    };
    const std::string large = with(" large end, tension light, held by patient\n");
    CHECK(tells(Work(one(large, "children, mixed teeth")), "retractor_end_unsuited") == 1);
    CHECK(tells(Work(one(large)), "retractor_end_unsuited") == 0);
    const std::string firm = with(" tension firm, held by patient\n");
    CHECK(tells(Work(one(firm)), "care_unsaid") == 1);
    CHECK(tells(Work(one(firm + "stop if \"it hurts\"\n")), "care_unsaid") == 0);
  }
  // Both pulled alike let the head turn, but for a firm pull, which keeps it.
  const auto both = [](const std::string& how) {
    return one(from_right + "retractor both tension " + how + ", held by patient\n");
  };
  CHECK(tells(Work(both("light")), "pull_alike_in_side_view") == 1);
  CHECK(tells(Work(both("firm")), "pull_alike_in_side_view") == 0);
  // Two that are missing for reasons of their own are two findings.
  const std::string kit = kit_with("retractors:\n  - name: r\n    material: metal\n    finish: "
                                   "frosted\n    ends: [large]\n    pieces: 2\n");
  const auto missing = [&](const std::string& right, const std::string& left) {
    return tells(Work(one("retractor right " + right + "retractor left " + left), kit),
                 "instrument_missing");
  };
  CHECK(missing("plastic\n", "plastic\n") == 1);
  CHECK(missing("plastic\n", "small end\n") == 2);
}

TEST_CASE("a view that takes its exposure of itself is used by none") {
  const auto with = [](const std::string& as) {
    return protocol_of(view_of("a", "exposure as view " + as + "\n") + view_of("b", "") +
                       "  series s = a\n");
  };
  CHECK(tells(Work(with("b")), "view_never_used") == 0);
  const std::string own =
      protocol_of(view_of("a", "") + view_of("b", "exposure as view b\n") + "  series s = a\n");
  CHECK(tells(Work(own), "view_never_used") == 1);
}

TEST_CASE("consent is said by the protocol or by every view") {
  const auto with = [](const std::string& a, const std::string& b) {
    return tells(Work(protocol_of("  adopted 2026-09-01\n" + view_of("a", a) + view_of("b", b))),
                 "consent_missing");
  };
  const std::string says = "consent for record\n";
  CHECK(with(says, says) == 0);
  CHECK(with(says, "") == 1);
  CHECK(with("", says) == 1);
}

TEST_CASE("a lamp lies wrong both ways: at the front teeth, and at the cheek") {
  const auto told = [&](const std::string& side, const std::string& wanted) {
    return tells(Work(one(from_right + even + "lamp point, towards the " + wanted + "\n"),
                      kit_with(lamp_with("    moves: fixed\n    side: " + side + "\n"))),
                 "lamp_on_wrong_side");
  };
  // From the right the front teeth lie at the right of the picture.
  CHECK(told("right", "front teeth") == 0);
  CHECK(told("right", "cheek") == 1);
  CHECK(told("left", "front teeth") == 1);
  CHECK(told("left", "cheek") == 0);
}

TEST_CASE("a lamp that is fixed to the camera is turned over with it") {
  for (const auto& [side, over] : {std::pair{kit::LampSide::right, kit::LampSide::left},
                                   {kit::LampSide::left, kit::LampSide::right},
                                   {kit::LampSide::top, kit::LampSide::bottom},
                                   {kit::LampSide::bottom, kit::LampSide::top}}) {
    const char* const names[] = {"left", "right", "top", "bottom"};
    const auto kit = [&](const char* moves) {
      return kit_with(lamp_with(fmt::format("    moves: {}\n    side: {}\n", moves,
                                            names[static_cast<std::size_t>(side)])));
    };
    const std::string text = one("camera straight ahead, upside down\n" + even);
    CHECK(Work(text, kit("fixed")).view("v").facts.get(fact::lamp_turned) == over);
    CHECK_FALSE(Work(text, kit("by hand")).view("v").facts.get(fact::lamp_turned));
  }
}

TEST_CASE("what is turned over was in the mouth before: the same mirror") {
  const auto with = [&](const std::string& before) {
    return tells(
        Work(protocol_of(
            view_of("a", "mirror " + before + ", held by assistant\nphotographed in a mirror\n") +
            view_of("b", "mirror occlusal, same one turned over, held by assistant\nphotographed "
                         "in a mirror\n") +
            "  series s = a, b\n")),
        "nothing_to_turn_over");
  };
  CHECK(with("occlusal") == 0);
  CHECK(with("buccal right") == 1);
}

TEST_CASE("the lower jaw is shown where no upper tooth is, milk teeth with the others") {
  const auto told = [](const std::string& teeth) {
    return tells(Work(one("mirror occlusal, held by assistant\nphotographed in a mirror\nmust show "
                          "occlusal " +
                              teeth + "\n",
                          "children, mixed teeth")),
                 "tongue_unsaid");
  };
  CHECK(told("36, 73") == 1);
  CHECK(told("36, 53") == 0);
  CHECK(told("16, 73") == 0);
}

TEST_CASE("both sides differ where the one camera looks down and the other up") {
  const auto told = [](const std::string& left) {
    return tells(
        Work(protocol_of(
            view_of("a", "camera from right, 60 deg from midline, 10 deg from above\nmust show "
                         "facial 13 to 16\n") +
            view_of("b", "camera from left, 60 deg from midline" + left +
                             "\nmust show facial 23 to 26\n"))),
        "sides_differ");
  };
  CHECK(told(", 10 deg from above") == 0);
  CHECK(told(", 10 deg from below") == 1);
  CHECK(told("") == 1);
}

TEST_CASE("below lowers what above raises, less takes what more gives") {
  const auto elevation = [](const std::string& height) {
    return Work(one("camera straight ahead" + height + "\n"))
        .view("v")
        .facts.get(fact::elevation)
        ->in(degree);
  };
  CHECK(elevation(", 15 deg from above") == Approx(15));
  CHECK(elevation(", 15 deg from below") == Approx(-15));
  const std::string kit = kit_with(lamp_with("    moves: by hand\n" + shot) + "iso: 100 to 1600\n");
  const auto power = [&](const std::string& exposure) {
    const Work w(protocol_of(view_of("a", "camera straight ahead\n") +
                             view_of("v", "camera straight ahead\n" + exposure)),
                 kit);
    return std::log2(w.view("v").facts.get(fact::power_needed)->value());
  };
  // A quarter of full power is right at this ratio: -2 stops.
  CHECK(power("") == Approx(-2));
  CHECK(power("exposure 1 stop more\n") == Approx(-1));
  CHECK(power("exposure 1 stop less\n") == Approx(-3));
  // Against another view the offset is held against what comes out, and moves no lamp.
  CHECK(power("exposure as view a, 1 stop more\n") == Approx(-2));
}

TEST_CASE("each thing that is held takes a hand of who holds it, and none where it needs none") {
  int things = 0;
  for (const words::Word& word : words::vocabulary()) {
    const bool held = std::any_of(word.clauses.begin(), word.clauses.end(), [](const auto& c) {
      return c.slot == "held" && c.pattern.starts_with("held by");
    });
    // A grey card is held in a picture of its own, between the views.
    if (!held || word.name == "grey card") continue;
    ++things;
    CAPTURE(std::string(word.name));
    std::string says(word.example);
    says = says.substr(0, says.find(", held"));
    const auto hands = [&](const std::string& who) {
      const std::string line = says + ", " + who + "\n";
      const Work w(one("tooth named at the chair\nsite named at the chair\n" + line));
      const plan::Facts& facts = w.view("v").facts;
      return std::array{*facts.get(fact::patient_hands_needed),
                        *facts.get(fact::assistant_hands_needed),
                        *facts.get(fact::operator_hands_needed)};
    };
    CHECK(hands("held by patient") == std::array{1, 0, 0});
    CHECK(hands("held by assistant") == std::array{0, 1, 0});
    CHECK(hands("held by operator") == std::array{0, 0, 1});
    CHECK(hands("needs no hand") == std::array{0, 0, 0});
  }
  CHECK(things == 7);
}

TEST_CASE("without an assistant a kit's assistant has no hands either") {
  const std::string kit = kit_with("people:\n  assistant hands: 2\n  patient hands: 2\n");
  const std::string text = one("mirror occlusal, held by patient\n");
  CHECK(Work(text, kit).view("v").facts.get(fact::assistant_hands) == 2);
  CHECK(Work(changed(text, "  sensor", "  assistant none\n  sensor"), kit)
            .view("v")
            .facts.get(fact::assistant_hands) == 0);
}

TEST_CASE("a camera turned over behind the head stands upright again") {
  const auto roll = [](const std::string& says) {
    return Work(one(says)).view("v").facts.get(fact::roll)->in(degree);
  };
  const std::string ahead = "camera straight ahead";
  CHECK(roll(ahead + "\n") == Approx(0));
  CHECK(roll(ahead + ", upside down\n") == Approx(180));
  CHECK(roll(ahead + "\noperator behind the head\n") == Approx(180));
  CHECK(roll(ahead + ", upside down\noperator behind the head\n") == Approx(0));
}

TEST_CASE("a camera before a mirror stands square to the arch unless its height is said") {
  const auto height = [](const std::string& camera) {
    return Work(one(over_arch + camera)).view("v").facts.get(fact::elevation)->in(degree);
  };
  const double square = height("");
  CHECK(height("camera straight ahead\n") == Approx(square));
  CHECK(height("camera straight ahead, 30 deg from above\n") != Approx(square));
}

TEST_CASE("a sensor is as wide as it is long, whichever side is said first") {
  const std::string text = one("camera straight ahead\n");
  const auto width = [](const std::string& protocol) {
    return Work(protocol).view("v").facts.get(fact::field_width)->in(mm);
  };
  CHECK(width(text) == Approx(72));
  CHECK(width(changed(text, "36 x 24 mm", "24 x 36 mm")) == Approx(72));
}

TEST_CASE(
    "of mirrors that are all too narrow the widest is taken, of those that do the narrowest") {
  const auto mirror = [](const std::string& name, int width) {
    return fmt::format("  - name: {}\n    kind: occlusal\n    outline: rectangle\n    width: {} "
                       "mm\n    length: 130 mm\n",
                       name, width);
  };
  const auto chosen = [&](const std::string& first, const std::string& second) {
    return said(Work(one(over_arch), kit_with("mirrors:\n" + first + second)).view("v").facts,
                fact::mirror);
  };
  // The straight rays of 16 to 26 ask for more than 40 mm and less than 80.
  CHECK(chosen(mirror("n", 30), mirror("w", 40)) == "w");
  CHECK(chosen(mirror("w", 40), mirror("n", 30)) == "w");
  CHECK(chosen(mirror("n", 80), mirror("w", 90)) == "n");
  CHECK(chosen(mirror("w", 90), mirror("n", 80)) == "n");
  CHECK(chosen(mirror("w", 40), mirror("n", 80)) == "n");
}

TEST_CASE("a disc is the one asked for where it is a step of two millimetres off, no more") {
  const std::string kit = kit_with("mirrors:\n  - name: disc\n    kind: disc\n    outline: disc\n  "
                                   "  width: 24 mm\n");
  const auto has = [&](int width) {
    const Work w(
        one(fmt::format("mirror disc {} mm, held by operator\nphotographed in a mirror\n", width)),
        kit);
    return tells(w, "instrument_missing") == 0;
  };
  for (const int width : {22, 24, 26})
    CHECK(has(width));
  for (const int width : {21, 27})
    CHECK_FALSE(has(width));
}

TEST_CASE("light that is lost to a mirror by its maker's sheet is lost on both ways") {
  const Work w(one(over_arch), kit_with("mirrors:\n  - name: m\n    kind: occlusal\n    outline: "
                                        "rectangle\n    width: 60 mm\n    length: 130 mm\n    "
                                        "reflectance: 50 %\n"));
  CHECK(w.view("v").facts.get(fact::mirror_loss)->in(stop) == Approx(2));
}

TEST_CASE("a reference shot by mirror has paid for its mirror") {
  const auto power = [&](const std::string& more) {
    const Work w(one("camera straight ahead\n"),
                 kit_with(lamp_with("    moves: by hand\n" + shot + more)));
    return std::log2(w.view("v").facts.get(fact::power_needed)->value());
  };
  CHECK(power("") == Approx(-2));
  CHECK(power("      mirror loss: 1 stop\n") == Approx(-3));
}

TEST_CASE("a steady light falls as long as the shutter is open, whatever else the kit says") {
  const Work w(one("camera straight ahead\nshutter 1/125 s\n"),
               kit_with(lamp_with("    light: steady\n    flash duration: 1/1000 s\n")));
  CHECK(w.view("v").facts.get(fact::light_time)->in(second) == Approx(1.0 / 125));
}

TEST_CASE("a focus beyond all that must be sharp is told, before it and behind it") {
  const auto off = [](const std::string& focus) {
    return Work(one(from_right + even + "focus on " + focus +
                    "\nmust show facial 13 to 16\nmust be sharp facial 14 to 15\n"),
                kit_with(""))
        .view("v")
        .facts.get(fact::focus_off);
  };
  CHECK_FALSE(off("14"));
  REQUIRE(off("17"));
  REQUIRE(off("11"));
  CHECK(*off("17") > 2.0 * mm);
  CHECK(*off("11") > 2.0 * mm);
}

TEST_CASE("a range that begins wider than the lens begins with the lens") {
  const Work w(changed(one("camera straight ahead\n"), "f/22", "f/2 to f/45"), kit_with(""));
  CHECK(w.view("v").facts.get(fact::widest_allowed)->value() == Approx(2.8).epsilon(0.02));
  CHECK(w.view("v").facts.get(fact::narrowest_allowed)->value() == Approx(32));
}

TEST_CASE("a kit's corner by mirror counts where both of its numbers are there") {
  const std::string text = one("mouth open wide\nmirror buccal right, held by assistant\n"
                               "photographed in a mirror\nretractor left tension even, held by "
                               "patient\nretractor right mirror takes its place\nmust show facial "
                               "14 to 16\npicture as seen directly\n");
  const std::string mirrors = "mirrors:\n  - name: m\n    kind: buccal\n    outline: rounded\n    "
                              "width: 40 mm\n    length: 140 mm\nmouths:\n";
  const auto known = [&](const std::string& corner) {
    return Work(text, kit_with(mirrors + corner)).view("v").facts.has(fact::corner_by_mirror);
  };
  CHECK(known("  by mirror aside: 41 mm\n  by mirror back: 28 mm\n"));
  CHECK_FALSE(known("  by mirror aside: 41 mm\n"));
  CHECK_FALSE(known("  by mirror back: 28 mm\n"));
}

TEST_CASE("a picture that is too low cuts teeth as one that is too narrow does") {
  const auto framed = [](const std::string& ratio) {
    return said(Work(changed(one("teeth together\ncamera straight ahead\ncamera held level\n" +
                                 even + "must show facial 11, 41\n"),
                             "1:2", ratio),
                     changed(kit_with(""), "1:10 to 1:1", "1:10 to 2:1"))
                    .view("v")
                    .facts,
                fact::teeth_cut);
  };
  // Crowns of 10.5 and 9 mm that overlap by 2.5 are 17 mm high: at 1:1 the picture has 24, at 2:1
  // 12. In width it has 18 mm for 8.5.
  CHECK(framed("1:1").empty());
  CHECK(framed("2:1") == "11, 41");
}

TEST_CASE("a finding that cannot be told while a question is open says what is missing") {
  for (const rules::Unsettled& row : rules::unsettled_table()) {
    const model::View said;
    CHECK(rules::missing_for(*row.finding, {said, std::make_shared<plan::Work>()}).empty());
    diag::Said question;
    question.row = row.question;
    plan::Work open;
    open.open.push_back({question, diag::Said("a datum")});
    const plan::ViewPlan view(said, std::make_shared<plan::Work>(open));
    CHECK(rules::missing_for(*row.finding, view) == diag::Said("a datum"));
  }
}

TEST_CASE("the gravest finding is one that is not lived with") {
  diag::Findings f;
  const auto at = [](std::uint32_t i) {
    return text::Span{static_cast<text::FileId>(0), i, i + 1};
  };
  f.add(diag::make(diag::catalogue::picture_turn_missing, at(0)));
  f.add(diag::make(diag::catalogue::mirror_may_fog, at(1)));
  f.are_about_file(0);
  CHECK(f.worst() == diag::Severity::error);
  bool met = false;
  f.accept("picture_turn_missing", diag::Subject{0}, "known", met);
  CHECK(met);
  CHECK(f.worst() == diag::Severity::advice);
}

TEST_CASE("past a thousand the graver ones are left, in whatever order they come") {
  for (const std::uint32_t step : {1u, 7u, 11u, 101u}) {
    diag::Findings f;
    for (std::uint32_t i = 0; i < 1500; ++i) {
      const std::uint32_t place = i * step % 1500;
      const text::Span at{static_cast<text::FileId>(0), place, place + 1};
      f.add(diag::make(
          i < 300 ? diag::catalogue::picture_turn_missing : diag::catalogue::mirror_may_fog, at));
    }
    f.settle();
    const auto left = [&](diag::Severity s) {
      return std::count_if(f.all().begin(), f.all().end(),
                           [&](const auto& d) { return d.severity == s; });
    };
    CHECK(left(diag::Severity::error) == 300);
    CHECK(left(diag::Severity::advice) == 700);
  }
}

TEST_CASE("what an exception waits for does not hang on the order of the kits") {
  // The one kit has no lens, the other no sensor's ratio to hold it against.
  const std::string text = changed(one(from_right + even + "must show facial 13 to 16\n"), "  view",
                                   "  accept tooth_hidden in v because \"known\"\n  view");
  const auto waits = [&](const std::vector<std::string>& kits) {
    text::MemoryFiles files;
    files.put("p.norma", text);
    files.put("a.yaml", "norma kit: 1\nname: a\nsensor: 36 x 24 mm\n");
    files.put("b.yaml", "norma kit: 1\nname: b\nlens:\n  name: l\n  focal length: 100 mm\n");
    session::Session session;
    session.run(files, {{"p.norma"}, kits, {2026, 11, 25}});
    std::string out;
    for (const auto& n : session.report().not_checked) {
      if (n.what.row == &diag::question::accepted_comes_up)
        out += wording::english().text(n.missing) + "\n";
    }
    return out;
  };
  CHECK_FALSE(waits({"a.yaml", "b.yaml"}).empty());
  CHECK(waits({"a.yaml", "b.yaml"}) == waits({"b.yaml", "a.yaml"}));
}

TEST_CASE("steps of a flash end with its least power, rounded to a third") {
  using physics::power_setting;
  // 1/100 of full power lies 19.93 thirds below it: 20.
  const physics::PowerSetting least = power_setting(Power{1.0 / 128}, Power{1.0 / 100});
  CHECK(-3.0 * std::log2(least.set.value()) == Approx(20));
}

TEST_CASE("a ratio four per cent off no round one stays as it is") {
  const Size full{36.0 * mm, 24.0 * mm};
  // 1:2 becomes 1:3.13, which is 4 % from 1:3 and 10 % from 1:3.5.
  const auto carried = [&](double n) {
    return physics::carried_ratio(Magnification{0.5}, full, {72.0 / n * mm, 48.0 / n * mm}).nominal;
  };
  CHECK(1.0 / carried(3.13).value() == Approx(3.13));
  CHECK(1.0 / carried(3.08).value() == Approx(3));
}

TEST_CASE("sizes of a group of patients count for that group alone") {
  using physics::Dentition;
  for (const kit::OwnValueKey& key : kit::anatomy_section().keys) {
    CAPTURE(std::string(key.name));
    const bool milk = key.name.starts_with("milk");
    const bool mixed = key.name.starts_with("mixed");
    if (!milk && !mixed) continue;
    CHECK(physics::counts_for(*key.which, Dentition::mixed) == mixed);
    CHECK(physics::counts_for(*key.which, Dentition::primary) == milk);
    CHECK_FALSE(physics::counts_for(*key.which, Dentition::adult));
  }
}

TEST_CASE("a crown's own depth narrows its neck as much") {
  physics::AnatomyValues values;
  values.set({*physics::Tooth::from_iso(12), std::nullopt, std::nullopt, 4.8 * mm});
  // Handbook, upper lateral: 6 deep, 5 at the neck.
  const physics::CrownSize size = crown_size(*physics::Tooth::from_iso(12), values);
  CHECK(size.depth.in(mm) == Approx(4.8));
  CHECK(size.depth_at_neck.in(mm) == Approx(4.0));
}

TEST_CASE("the tip of a canine stands out from the arch as far as it is set to") {
  for (const double tip : {0.7, 1.3}) {
    physics::AnatomyValues values;
    values.set(physics::defaults::canine_tip, tip);
    const auto anatomy = physics::make_anatomy(physics::Dentition::adult, values);
    const auto curve =
        physics::solve_arch(physics::tooth_row(physics::Dentition::adult, true, values), tip * mm);
    REQUIRE(anatomy);
    REQUIRE(curve);
    const physics::Crown& c = *physics::find_crown(anatomy->upper, *physics::Tooth::from_iso(13));
    const physics::Point on_arch = c.edge - c.facial * (tip * mm);
    CHECK(on_arch.y.in(mm) == Approx(curve->back_at(on_arch.x).in(mm)));
  }
}

} // namespace norma::test
