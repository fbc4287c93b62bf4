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
    const Work broken(
        one(std::string(word.name) + (word.key.empty() ? "" : " right") + " as they see fit\n"));
    CHECK(broken.view("v").facts.find(fact::held_things)->state == plan::State::broken);
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

TEST_CASE("minutes in the mouth that are just the limit are within it") {
  const auto told = [](const char* minutes) {
    return tells(Work(five(), chair(3) + "\nlimits:\n  minutes in the mouth: " + minutes + "\n"),
                 "long_in_the_mouth");
  };
  CHECK(told("7") == 0); // five views and four insertions: tests/unit/handling.cpp
  CHECK(told("6.9") == 1);
}

TEST_CASE("air on the teeth keeps no mirror clear") {
  const auto told = [](const std::string& says) {
    return tells(Work(one(over_arch + says)), "mirror_may_fog");
  };
  CHECK(told("air on the mirror, held by assistant\n") == 0);
  CHECK(told("air on the teeth, held by assistant\n") == 1);
  CHECK(told("") == 1);
}

TEST_CASE("of several guides and reasons the first one is pointed at") {
  const std::string kit =
      kit_with("guides:\n  - name: a\n    keeps: 200 mm\n  - name: b\n    keeps: "
               "255 mm\n");
  const Work w(one("guide resting on the chin\ntake again if \"a\"\ntake again if \"b\"\n"), kit);
  const auto& report = w.session->report();
  const auto line_of = [&](text::Span span) {
    return report.sources[span.file].line_at(span.begin);
  };
  REQUIRE(tells(w, "guide_keeps_other_distance") == 1);
  REQUIRE(tells(w, "retakes_without_limit") == 1);
  for (const auto& d : report.findings.all()) {
    if (d.definition->name == "guide_keeps_other_distance")
      CHECK(line_of(d.labels.front().span) == "    keeps: 200 mm");
    if (d.definition->name == "retakes_without_limit")
      CHECK(line_of(d.span) == "take again if \"a\"");
  }
}

TEST_CASE("the camera is held the other way where that is a tenth better") {
  // Two incisors, one above the other, are limited by the height of a level picture: held upright
  // it is as much higher as the sensor is wider than high.
  const auto told = [](const std::string& sensor) {
    const std::string text =
        one("teeth together\ncamera straight ahead\ncamera held level\nmust show facial 11, 41\n");
    return tells(
        Work(changed(text, "36 x 24 mm", sensor), changed(kit_with(""), "36 x 24 mm", sensor)),
        "held_the_other_way");
  };
  CHECK(told("24 x 23 mm") == 0);
  CHECK(told("24 x 20 mm") == 1);
}

TEST_CASE("a title that names both sides names the right one, too") {
  const auto told = [](const std::string& title) {
    return tells(Work(changed(one("must show facial 13 to 16\n"), "\"v\"", "\"" + title + "\"")),
                 "title_names_other_side");
  };
  CHECK(told("Left teeth") == 1);
  CHECK(told("Right teeth, seen from the left") == 0);
  CHECK(told("Leftover") == 0);
}

TEST_CASE("front teeth of the other side are seen from this one, premolars are not") {
  const auto told = [](const std::string& teeth) {
    return tells(Work(one(from_right + "must show facial " + teeth + "\n")), "wrong_side");
  };
  CHECK(told("21 to 23") == 0);
  CHECK(told("21 to 24") == 1);
}

TEST_CASE("a missing tooth is told where it is either of two that are aimed at") {
  for (const char* tooth : {"11", "21", "12"}) {
    const std::string text =
        changed(one("focus on between 11 and 21\ncentre on between 11 and 21\n"), "  sensor",
                fmt::format("  missing {}\n  sensor", tooth));
    CHECK(tells(Work(text), "missing_tooth_shown") == (std::string_view(tooth) == "12" ? 0 : 2));
  }
}

TEST_CASE("what a change of the other side's view says is told there") {
  text::MemoryFiles files;
  files.put("base.norma",
            protocol_of(view_of("r", "camera straight ahead\nmust show facial 12 to 16\n") +
                        "  view l \"l\", same as r, for the other side { }\n"));
  files.put("own.norma",
            "norma 1\nprotocol own \"Own\" {\n  builds on p from \"base.norma\"\n  change "
            "view l because \"ours\" {\n    camera from right, 60 deg from midline\n  }\n}\n");
  session::Session session;
  session.run(files, {{"own.norma"}, {}, {2026, 11, 25}});
  const auto& all = session.report().findings.all();
  CHECK(std::count_if(all.begin(), all.end(), [](const auto& d) {
          return d.definition == &diag::catalogue::wrong_side;
        }) == 1);
}

TEST_CASE("what is wrong in a view is not told again of the one for the other side") {
  const std::string text =
      protocol_of(view_of("right", from_right + "head turned right\nmust show facial 13 to 16\n") +
                  "  view left \"Left\", same as right, for the other side { }\n");
  CHECK(tells(Work(text), "head_turned_along") == 1);
}

TEST_CASE("a ratio lies between the two marks of the lens next to it") {
  const auto mark = [](const std::string& ratio, const std::string& marks) {
    return said(Work(changed(one(""), "1:2", ratio), kit_with("", "  marks: [" + marks + "]\n"))
                    .view("v")
                    .facts,
                fact::lens_mark);
  };
  const std::string near = mark("1:2.5", "\"1:3\", \"1:2\"");
  for (const char* order :
       {"\"1:10\", \"1:3\", \"1:2\", \"1:1\"", "\"1:1\", \"1:2\", \"1:3\", \"1:10\""})
    CHECK(mark("1:2.5", order) == near);
  CHECK(mark("1:3", "\"1:3\", \"1:2\"") != near);
}

TEST_CASE("a ratio beyond the lens is set to the end that is next to it") {
  const auto set = [](const std::string& ratio) {
    return *Work(changed(one(""), "1:2", ratio), kit_with(""))
                .view("v")
                .facts.find(fact::ratio)
                ->number();
  };
  CHECK(set("1:20") == Approx(0.1));
  CHECK(set("2:1") == Approx(1));
}

TEST_CASE("a second choice that is turned away is not seen, nor one whose mirror has no room") {
  const Work turned(
      one("teeth together\ncamera straight ahead\nteeth turned away at most 40 deg\nmust "
          "show facial 14 to 24\nor else show facial 13 to 23\n" +
          even),
      kit_with(""));
  CHECK(said(turned.view("v").facts, fact::fallback_not_seen).find("13") != std::string::npos);
  CHECK_FALSE(turned.view("v").facts.has(fact::fallback_seen));
  const auto arch = [](int width) {
    return Work(
        one(changed(over_arch, "16 to 26", "17 to 27") + "or else show occlusal 14 to 24\n"),
        kit_with(fmt::format("mirrors:\n  - name: m\n    kind: occlusal\n    outline: "
                             "rectangle\n    width: {} mm\n    length: 60 mm\nmouths:\n  "
                             "opened wide: 70 mm\n",
                             width)));
  };
  const Work narrow = arch(62);
  const Work wide = arch(90);
  // Corners of an even pull are 2 x 34 mm apart.
  REQUIRE(wide.view("v").facts.has(fact::opening_for_mirror));
  CHECK(*wide.view("v").facts.get(fact::opening_for_mirror) <= 70.0 * mm);
  CHECK(wide.view("v").facts.has(fact::fallback_without_room));
  CHECK_FALSE(narrow.view("v").facts.has(fact::fallback_without_room));
}

TEST_CASE("own sizes are named to the patients that have them") {
  const auto patient = [](const std::string& anatomy) {
    return said(Work(one("camera straight ahead\nmust show facial 11\n"), kit_with(anatomy))
                    .view("v")
                    .facts,
                fact::patient);
  };
  CHECK(patient("anatomy:\n  milk upper spaces: 3 mm\n") == patient(""));
  CHECK(patient("anatomy:\n  overjet: 3 mm\n") != patient(""));
}

TEST_CASE("a code of one side does not fit a view from straight ahead") {
  for (const auto& [code, why] : {std::pair{"IV01", &plan::phrase::code_from_right_view_ahead},
                                  {"IV18", &plan::phrase::code_from_left_view_ahead}}) {
    const Work w(one(fmt::format("code {}\ncamera straight ahead\n", code)));
    CHECK(w.view("v").facts.find(fact::code_fits)->why.row == why);
  }
}

TEST_CASE("the shape of a picture: two whole numbers up to nine") {
  const auto shape = [](const std::string& sensor) {
    return said(Work(one(""), changed(kit_with(""), "36 x 24 mm", sensor)).view("v").facts,
                fact::shape_here);
  };
  CHECK(shape("32 x 18 mm") == "16:9");
  CHECK(shape("36 x 24 mm") == "3:2");
  CHECK(shape("24 x 24 mm") == "1:1");
}

TEST_CASE("views of the face and of the mouth have their ratios apart") {
  const Work w(protocol_of(view_of("v", "") + view_of("x", "") +
                           "  face view f \"F\" {\n    ratio 1:2\n  }\n"));
  CHECK(w.view("v").company.get(fact::views_with_ratio) == 2);
  CHECK(w.view("f").company.get(fact::views_with_ratio) == 1);
}

TEST_CASE("the ISO that does: a mark stands for up to two per cent more") {
  const std::string kit = kit_with(lamp_with("    moves: by hand\n" + shot) + "iso: 100 to 1600\n");
  const auto iso = [&](const std::string& stops) {
    const Work w(changed(one("camera straight ahead\nexposure " + stops + " stops more\n"),
                         "iso 200", "iso 100"),
                 changed(changed(kit, "power: 1/4", "power: 1/1"), "iso: 200", "iso: 100"));
    return w.view("v").facts.get(fact::iso_that_does)->value();
  };
  CHECK(iso("1.02") == Approx(200)); // 202.8
  CHECK(iso("1.04") == Approx(250)); // 205.6
}

TEST_CASE("an offset that is said may be off by a third and by the spread of the mirror's loss") {
  const auto tolerance = [](const std::string& loss) {
    const Work w(one(over_arch + "exposure 0.5 stop more\n"),
                 kit_with("mirrors:\n  - name: m\n    kind: occlusal\n    outline: rectangle\n    "
                          "width: 62 mm\n    length: 130 mm\n    loss: " +
                          loss + "\n"));
    return w.view("v").facts.get(fact::offset_tolerance)->in(stop);
  };
  CHECK(tolerance("0.5 stop") == Approx(1.0 / 3));
  CHECK(tolerance("0.5 +- 0.2 stop") == Approx(1.0 / 3 + 0.2));
}

TEST_CASE("of mirrors whose width nobody knows the first is taken") {
  const std::string mirrors =
      "mirrors:\n  - name: a\n    kind: buccal\n  - name: b\n    kind: buccal\n";
  const Work w(one("mirror buccal right, held by assistant\nphotographed in a mirror\n"),
               kit_with(mirrors));
  CHECK(said(w.view("v").facts, fact::mirror) == "a");
}

TEST_CASE("both ends of a range of apertures count for both sides") {
  const auto told = [](const std::string& left) {
    const std::string right = from_right + "must show facial 13 to 16\n";
    const std::string other = "camera from left, 60 deg from midline\nmust show facial 23 to 26\n";
    return tells(Work(protocol_of(changed(view_of("a", right), "f/22", "f/22 to f/32") +
                                  changed(view_of("b", other), "f/22", left))),
                 "sides_differ");
  };
  CHECK(told("f/22 to f/32") == 0);
  CHECK(told("f/22 to f/27") == 1);
  CHECK(told("f/25 to f/32") == 1);
}

TEST_CASE("what comes out for the dentures goes in anew, not again") {
  const auto again = [](const std::string& last) {
    const std::string r = "retractor right tension even, held by patient\n";
    const Work w(protocol_of(
        view_of("a", "dentures in\n" + r) + view_of("b", "dentures in\nretractor right none\n") +
        view_of("c", "dentures " + last + "\n" + r) + "  series s = a, b, c\n"));
    return w.session->report().held.front().plan.series.front().facts.has(fact::goes_in_again);
  };
  CHECK(again("in"));
  CHECK_FALSE(again("out"));
}

TEST_CASE(
    "a flash that can be turned down no further stops the lens down, however little is sharp") {
  // Right at f/22 by a quarter of its power, its least: at f/16 it is a stop too much.
  const std::string kit = kit_with(lamp_with("    moves: by hand\n    least power: 1/4\n" + shot));
  const auto aperture = [&](const std::string& sharp) {
    const Work w(changed(one("camera straight ahead\nmust show facial 11\n" + sharp), "f/22",
                         "f/16 to f/32"),
                 kit);
    return w.view("v").facts.get(fact::aperture)->value();
  };
  CHECK(aperture("must be sharp facial 11\n") == Approx(22.63).epsilon(0.01));
}

} // namespace norma::test
