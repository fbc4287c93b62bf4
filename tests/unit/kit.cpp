// Kits: strict YAML, the language's own literals, values held against each other.
#include <doctest/doctest.h>

#include <string>

#include "facts/facts.hpp"
#include "kit/due.hpp"
#include "kit/read_kit.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

struct Read {
  text::Sources sources;
  diag::Findings findings;
  kit::Kit kit;
  explicit Read(std::string bytes) {
    kit = kit::read_kit(sources.add("k.yaml", std::move(bytes)), sources, findings);
  }
  [[nodiscard]] std::string told() const {
    std::string out;
    for (const auto& d : findings.all()) {
      out += std::string(d.definition->name) + " " +
             std::to_string(sources[d.span.file].place(d.span.begin).line) + "\n";
    }
    return out;
  }
};

} // namespace

TEST_CASE("the shipped kits are read whole and without a finding") {
  const Read three(chair(3));
  CHECK(three.told().empty());
  CHECK(three.kit.sensor.get().width.in(mm) == doctest::Approx(36));
  CHECK(three.kit.lens->working_distance.size() == 6);
  CHECK(three.kit.lens->working_distance.front().ratio.value() == doctest::Approx(0.1));
  CHECK(three.kit.lamps.size() == 2);
  CHECK(three.kit.lamps[0].kind.get() == kit::LampKind::ring);
  CHECK(three.kit.lamps[1].moves.get() == kit::LampMoves::by_hand);
  const Read seven(chair(7));
  CHECK(seven.told().empty());
  CHECK(seven.kit.mirrors.front().loss.absent());
}

TEST_CASE("a finding for each slip, at its line") {
  const std::string head = "norma kit: 1\nname: k\n";
  CHECK(Read(head + "sensor: 36 x 24 mm\n").told().empty());
  CHECK(Read(head + "sensr: 36 x 24 mm\n").told() == "unknown_key 3\n");
  CHECK(Read(head + "name: k\n").told() == "key_twice 3\n");
  CHECK(Read("name: k\n").told().starts_with("missing_key"));
  CHECK(Read(head + "people:\n  assistant hands: 02\n").told() == "leading_zero 4\n");
  CHECK(Read(head + "sensor: 36 x 24\n").told() == "wrong_key_value 3\n");
  CHECK(Read(head + "sensor: -36 x 24 mm\n").told() != "");
  CHECK(Read(head + "a: &x 1\nb: *x\n").told().starts_with("alias_in_yaml"));
  CHECK(Read(head + "---\nname: k\n").told().find("second_document") != std::string::npos);
}

TEST_CASE("pairs of a grey card that make the mirror brighten are refused") {
  const std::string head = "norma kit: 1\nname: k\nmirrors:\n  - name: m\n    kind: occlusal\n"
                           "    grey card: ";
  CHECK(Read(head + "[[150, 118], [149, 118], [150, 117], [151, 118]]\n").told().empty());
  CHECK(Read(head + "[[118, 150], [118, 149], [117, 150], [118, 151]]\n").told() ==
        "key_value_range 6\n");
  // As good as no loss: the pairs scatter about it.
  CHECK(Read(head + "[[118, 118], [118, 119], [119, 118], [118, 118]]\n").told().empty());
}

TEST_CASE("a limit has its unit or not, as the table prints it") {
  const std::string head = "norma kit: 1\nname: k\nlimits:\n  ";
  for (const char* good : {"minutes in the mouth: 12", "minutes in the mouth: 12 min"}) {
    const Read r(head + good + "\n");
    CHECK(r.told().empty());
    REQUIRE(r.kit.limits.size() == 1);
    CHECK(r.kit.limits.front().value.get() == doctest::Approx(12));
  }
  CHECK(Read(head + "minutes in the mouth: 12 s\n").told() == "wrong_key_value 4\n");
}

TEST_CASE("a firm pull holds the corner of the mouth no farther in than a light one") {
  const std::string head = "norma kit: 1\nname: k\nmouths:\n  firm pull aside: ";
  CHECK(Read(head + "20 mm\n  light pull aside: 36 mm\n").told() == "key_value_range 4\n");
  CHECK(Read(head + "40 mm\n  light pull aside: 36 mm\n").told().empty());
  for (const char* way : {"aside", "back"}) {
    for (const char* lighter : {"light", "even"}) {
      CAPTURE(way);
      CAPTURE(lighter);
      const auto told = [&](int firm) {
        return Read(fmt::format(
                        "norma kit: 1\nname: k\nmouths:\n  firm pull {0}: {1} mm\n  {2} pull "
                        "{0}: 30 mm\n",
                        way, firm, lighter))
            .told();
      };
      CHECK(told(29) == "key_value_range 4\n");
      CHECK(told(30).empty());
    }
  }
}

TEST_CASE("a focal length that puts the pupil in front of the lens is refused") {
  // f (1/m + P) at 1:2: 300 mm with 100 mm, 90 mm with 30 mm; the front is 255 mm away.
  const auto told = [](const char* focal) {
    return Read(changed(chair(3), "focal length: 100 mm", focal)).told();
  };
  CHECK(told("focal length: 100 mm").empty());
  CHECK(told("focal length: 30 mm").starts_with("key_value_range"));
  // A tenth is let pass: lenses that focus close by get shorter. 80 mm: 240 of 255; 70 mm: 210.
  CHECK(told("focal length: 80 mm").find("1:2") == std::string::npos);
  CHECK(told("focal length: 70 mm").starts_with("key_value_range"));
}

TEST_CASE("two ends are the same whichever is written first") {
  const auto least = [](const char* iso) {
    const Work w(five(), changed(chair(3), "iso: 100 to 1600", iso));
    return w.view("front").facts.get(plan::fact::least_iso)->value();
  };
  CHECK(least("iso: 100 to 1600") == 100);
  CHECK(least("iso: 1600 to 100") == 100);
}

TEST_CASE("pairs of a grey card may scatter about no loss at all") {
  const auto told = [](const char* pairs) {
    return Read(std::string("norma kit: 1\nname: k\nmirrors:\n  - name: m\n    kind: occlusal\n    "
                            "grey card: ") +
                pairs + "\n")
        .told();
  };
  CHECK(told("[[100, 103], [103, 100], [100, 101]]").empty());
  CHECK(told("[[100, 103], [100, 103], [100, 104]]").starts_with("key_value_range"));
}

TEST_CASE("a limit may be stricter than five stops") {
  CHECK(Read("norma kit: 1\nname: k\nlimits:\n  room light under flash: 6 stops\n").told().empty());
}

TEST_CASE("days that lie ahead settle nothing") {
  const Work w(five(), changed(changed(chair(3), "date: 2026-09-14", "date: 2030-01-01"),
                               "measured: 2026-09-14", "measured: 2030-01-01"));
  const auto& open = w.view("upper").open;
  CHECK(std::any_of(open.begin(), open.end(), [](const plan::OpenQuestion& q) {
    return q.missing == diag::missing::day_taken_ahead();
  }));
}

TEST_CASE("what was done on a day is due when so many whole months have passed") {
  using Since = kit::Age::Since;
  const words::Date on{2026, 11, 25};
  const text::Span here;
  const kit::Age age = kit::age_of({words::Date{2026, 5, 25}, here}, on);
  CHECK(age.since == Since::day);
  CHECK(age.months == 6);
  CHECK(age.due(6));
  CHECK_FALSE(age.due(7));
  CHECK_FALSE(kit::age_of({words::Date{2026, 5, 26}, here}, on).due(6));
  const kit::Age today = kit::age_of({on, here}, on);
  CHECK(today.since == Since::day);
  CHECK(today.months == 0);
  // What is not known is not due.
  CHECK(kit::age_of({words::Date{2026, 11, 26}, here}, on).since == Since::ahead);
  CHECK_FALSE(kit::age_of({words::Date{2030, 1, 1}, here}, on).due(1));
  CHECK(kit::age_of({}, on).since == Since::nobody_said);
  const auto broken = text::Sourced<words::Date>::broken(here);
  CHECK(kit::age_of(broken, on).since == Since::unreadable);
  CHECK_FALSE(kit::age_of(broken, on).due(1));
}

TEST_CASE("frosting is counted in cycles where they are counted, and only metal has it") {
  const words::Date on{2026, 11, 25};
  const auto frosting = [&](const std::string& rows) {
    const Read r("norma kit: 1\nname: k\nretractors:\n  - name: r\n" + rows);
    REQUIRE(r.told().empty());
    return kit::frosting_of(r.kit.retractors.front(), on);
  };
  const std::string metal = "    material: metal\n    finish: frosted\n";
  const std::string old = "    frosted on: 2025-01-01\n";
  REQUIRE(frosting(metal + old));
  CHECK_FALSE(frosting(metal + old)->cycles);
  CHECK(frosting(metal + old)->due(6));
  const std::string counted = old + "    frosting lasts: 50\n    cycles since frosted: ";
  CHECK_FALSE(frosting(metal + counted + "49\n")->due(6));
  CHECK(frosting(metal + counted + "50\n")->due(6));
  // One count alone counts nothing.
  CHECK_FALSE(frosting(metal + old + "    cycles since frosted: 1\n")->cycles);
  CHECK_FALSE(frosting("    material: plastic\n    finish: frosted\n" + old));
  CHECK_FALSE(frosting("    material: metal\n    finish: polished\n"));
}

TEST_CASE("a day without a loss is no measurement of a mirror") {
  const words::Date on{2026, 11, 25};
  const auto age = [&](const std::string& rows) {
    const Read r("norma kit: 1\nname: k\nmirrors:\n  - name: m\n    kind: disc\n"
                 "    measured: 2025-01-01\n" +
                 rows);
    REQUIRE(r.told().empty());
    return kit::loss_age_of(r.kit.mirrors.front(), on);
  };
  CHECK_FALSE(age(""));
  REQUIRE(age("    loss: 0.5 stop\n"));
  CHECK(age("    loss: 0.5 stop\n")->months == 22);
  CHECK(age("    reflectance: 77 %\n"));
  CHECK(age("    grey card: [[118, 90]]\n"));
}

TEST_CASE("what is no kit is not held against a protocol") {
  CHECK_FALSE(Read("norma kit: 1\n\tname: k\n").kit.readable);
  CHECK_FALSE(Read("norma kit: 2\nname: k\n").kit.readable);
  CHECK(Read("norma kit: 1\nname: k\n").kit.readable);
  const Work w(five(), "norma kit: 1\n\tname: k\n");
  CHECK(w.count("K001") == 1);
  CHECK(w.count("P015") == 0); // "the kit has no mirror" would be untrue
}

TEST_CASE("numbers that YAML alone would take are refused or read as the language reads them") {
  const std::string head = "norma kit: 1\nname: k\nlens:\n  focal length: ";
  for (const char* bad :
       {".nan mm", ".inf mm", "1e2 mm", "0x64 mm", "-100 mm", "1_00 mm", "0100 mm", "100", "yes"}) {
    CAPTURE(bad);
    CHECK(!Read(head + bad + "\n").told().empty());
  }
  const Read good(head + "10 cm\n");
  CHECK(good.told().empty());
  CHECK(good.kit.lens->focal_length.get().in(mm) == doctest::Approx(100));
}

TEST_CASE("a mirror's reflectance of one pass is twice a loss in stops") {
  // -log2(0.77^2) = 0.754 stop.
  const Read r(
      "norma kit: 1\nname: k\nmirrors:\n  - name: m\n    kind: occlusal\n    outline: rounded\n"
      "    width: 60 mm\n    length: 130 mm\n    surface: front\n    reflectance: 77 %\n");
  CHECK(r.told().empty());
  CHECK(r.kit.mirrors.front().reflectance.get().value() == doctest::Approx(0.77));
}

TEST_CASE("a kit of 1 MB or more, deep or long, is one finding and ends at once") {
  CHECK(Read("norma kit: 1\nname: k\nx: " + std::string(2 * 1024 * 1024, 'a') + "\n")
            .findings.all()
            .size() == 1);
  std::string deep = "a: ";
  for (int i = 0; i < 100000; ++i)
    deep += '[';
  CHECK(Read(deep).findings.all().size() == 1);
  std::string wide = "norma kit: 1\nname: k\n";
  for (int i = 0; i < 30000; ++i)
    wide += "k" + std::to_string(i) + ": 1\n";
  CHECK(Read(wide).findings.all().size() >= 1);
}

} // namespace norma::test
