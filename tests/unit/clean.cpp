// Clean means clean: what norma cannot judge never makes what it can judge disappear.
#include <doctest/doctest.h>

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>
#include <set>

#include "emit/findings_text.hpp"
#include "facts/facts.hpp"
#include "facts/phrases.hpp"
#include "mouths/shares.hpp"
#include "plan/many_mouths.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using namespace facts;

std::string printed(const Work& work) {
  return emit::findings_text(work.session->report(), wording::english());
}

/// The text with `added` behind each line of `word`, before its comment.
std::string with_added(const std::string& text, std::string_view word, std::string_view added) {
  std::string out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string line = text.substr(at, end - at);
    const std::size_t first = line.find_first_not_of(' ');
    if (first != std::string::npos && line.compare(first, word.size(), word) == 0) {
      const std::size_t comment = std::min(line.find('#'), line.size());
      const std::size_t last = line.find_last_not_of(' ', comment - 1) + 1;
      line.insert(last, added);
    }
    out += line + "\n";
    at = end + 1;
  }
  return out;
}

/// Errors, each with the views it is about.
std::set<std::string> errors_of(const Work& work) {
  std::set<std::string> out;
  for (const diag::Diagnostic& d : work.session->report().findings.all()) {
    if (d.severity != diag::Severity::error) continue;
    for (const diag::Subject& about : d.about)
      out.insert(fmt::format("{} in view {}", d.definition->code, about.view));
  }
  return out;
}

void check_nothing_lost(const Work& before, const Work& after, const std::string& where) {
  const std::set<std::string> errors = errors_of(after);
  for (const std::string& error : errors_of(before))
    CHECK_MESSAGE(errors.count(error) == 1, where, " loses ", error);
  const auto& here = before.session->report().held.front().plan.views;
  const auto& there = after.session->report().held.front().plan.views;
  REQUIRE(here.size() == there.size());
  for (std::size_t i = 0; i < here.size(); ++i) {
    for (const Fact& f : here[i].facts.all()) {
      if (f.state != State::value && f.state != State::impossible) continue;
      const Fact* same = there[i].facts.find(*f.row);
      const bool kept = same != nullptr && same->state == f.state && same->value == f.value;
      CHECK_MESSAGE(kept, where, " view ", here[i].view->name, " loses or changes ",
                    std::string(f.row->name));
    }
  }
}

std::vector<std::string> shipped(const char* folder, const char* extension) {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::directory_iterator(root() / folder)) {
    if (entry.path().extension() == extension) out.push_back(read_file(entry.path()));
  }
  return out;
}

bool tells(const plan::ViewPlan& view, const diag::Row& question) {
  return std::any_of(view.open.begin(), view.open.end(),
                     [&](const plan::OpenQuestion& q) { return q.what.row == &question; });
}

} // namespace

TEST_CASE("asking for one thing more, whose size nobody knows, removes no error and no fact") {
  const std::vector<std::string> kits = shipped("protocols/kits", ".yaml");
  int compared = 0;
  for (const std::string& protocol : shipped("protocols", ".norma")) {
    const std::string name = protocol.substr(protocol.find("\nprotocol "), 40);
    for (const std::string& kit : kits) {
      const Work before(protocol, kit);
      if (before.session->report().held.empty()) continue;
      for (const char* added : {", gum of 13 to 23", ", ruler"}) {
        for (const char* word : {"must show ", "must be sharp "}) {
          const Work after(with_added(protocol, word, added), kit);
          check_nothing_lost(before, after, name + word + added);
          ++compared;
        }
      }
    }
  }
  CHECK(compared > 200);
}

TEST_CASE("gum beside teeth: the field is still too small, and the gum is told") {
  const auto of = [](std::string_view shown) {
    return Work(changed(changed(five(), "facial 15 to 25, 45 to 35", shown), "1:2", "1:1"),
                chair(3));
  };
  const Work teeth = of("facial 16 to 26");
  const Work gum = of("facial 16 to 26, gum of 13 to 23");
  CHECK(teeth.count("P001") > 0);
  CHECK(gum.count("P001") == teeth.count("P001"));
  CHECK(gum.view("front").scene.has_value());
  CHECK(tells(gum.view("front"), diag::question::item_shown));
  CHECK_FALSE(tells(gum.view("front"), diag::question::fits_picture));
  CHECK_FALSE(tells(gum.view("front"), diag::question::scene_hidden));
}

TEST_CASE("a tooth that has no place in the model leaves out itself alone") {
  // Adults have no milk tooth.
  const auto of = [](std::string_view sharp) {
    return Work(changed(changed(five(), "facial 15 to 25, 45 to 35", "facial 16 to 26, 55"),
                        "facial 12 to 22", sharp),
                chair(3));
  };
  const Work work = of("facial 13 to 23, 55");
  const plan::ViewPlan& front = work.view("front");
  CHECK(front.facts.has(fact::needed_width));
  CHECK(front.scene.has_value());
  CHECK(tells(front, diag::question::item_shown));
  CHECK(tells(front, diag::question::item_sharp));
  CHECK(front.facts.has(fact::not_held));
  // What must be sharp and is no tooth is told, too.
  const Work thing(changed(five(), "must be sharp    facial 12 to 22", "must be sharp    ruler"),
                   chair(3));
  CHECK(tells(thing.view("front"), diag::question::item_sharp));
}

TEST_CASE("centred on one tooth, the middle of its crown lies in the middle of the picture") {
  const auto of = [](std::string_view centre, std::string_view shown) {
    return Work(changed(changed(changed(five(), "centre on        between 11 and 21", centre),
                                "facial 15 to 25, 45 to 35", shown),
                        "1:2", "1:1"),
                chair(3));
  };
  const Work one = of("centre on 11", "facial 11");
  // By hand: the crown of 11 is 10.5 mm high (Wheeler), its face lies 0.75 mm before its axis at
  // the edge and 3 mm at the neck, and the pupil of 100 mm at 1:1 stands 100 (1 + 1) = 200 mm off.
  // The neck lies 5.25 mm above the middle and appears 5.25 200 / (200 - 3) = 5.33 mm above it, the
  // edge 5.25 200 / 199.25 = 5.27 mm below: twice the farther is 10.66 mm. From the edge it was
  // 2 10.5 200 / 197 = 21.3 mm.
  CHECK(one.view("front").facts.get(fact::needed_height)->in(mm) ==
        doctest::Approx(10.66).epsilon(0.002));
  // A run: the middle of what it shows, as where nothing is said of the centre.
  const Work run = of("centre on between 13 and 23", "facial 13 to 23");
  const Work shown = of("", "facial 13 to 23");
  for (const auto* needed : {&fact::needed_width, &fact::needed_height})
    CHECK(*run.view("front").facts.get(*needed) == *shown.view("front").facts.get(*needed));
}

namespace {

/// The shipped protocol of a tooth that is named at the chair, at a ratio and an aperture.
Work restoration(std::string_view teeth, std::string_view ratio, std::string_view aperture) {
  const std::string text = read_file(root() / "protocols/restoration.norma");
  return Work(changed(changed(changed(text, ", 13 to 23\n", fmt::format("{}\n", teeth)),
                              "ratio            1:2", fmt::format("ratio {}", ratio)),
                      "f/22 to f/32", aperture),
              chair(3));
}

} // namespace

TEST_CASE("that tooth is each tooth that it may be") {
  // With one tooth it is as if that were written in its place.
  const Work one = restoration(", 11", "1:1", "f/22");
  const Work named(changed(changed(changed(changed(five(), "1:2", "1:1"), "f/22 to f/32", "f/22"),
                                   "focus on         12", "focus on         11"),
                           "facial 12 to 22", "facial 11"),
                   chair(3));
  REQUIRE(one.count("P003") == 1);
  CHECK(said(one.view("at_start").facts, fact::near_needed) ==
        said(named.view("front").facts, fact::near_needed));
  CHECK(said(one.view("at_start").facts, fact::far_needed) ==
        said(named.view("front").facts, fact::far_needed));
  // By hand, for a long lens: N = T m^2 / (c (1 + m)) of the depth T behind the focus, 3.5 mm:
  // 3.5 / (0.030 2) = 58; at 100 mm a little less behind than in front: N c / (m f) = 0.017.
  const auto needed = one.view("at_start").facts.get(fact::aperture_needed);
  REQUIRE(needed.has_value());
  CHECK(needed->value() == doctest::Approx(58 / 1.017).epsilon(0.02));

  // The canines' faces are the deepest: for the incisors f/22 does at 1:2.
  const Work some = restoration(", 13 to 23", "1:2", "f/22");
  CHECK(some.count("P003") == 1);
  CHECK(said(some.view("at_start").facts, fact::sharp_for) == "12 to 22");
  CHECK(said(some.view("at_start").facts, fact::not_sharp_for) == "13, 23");
  CHECK(said(some.view("at_start").facts, fact::deepest_of) == "13, 23");
  CHECK_FALSE(
      restoration(", 12 to 22", "1:2", "f/22").view("at_start").facts.has(fact::not_held));
  // Nothing said: all that the patient has, the molars seen from the front with them.
  const Work all = restoration("", "1:2", "f/22");
  CHECK(all.count("P003") == 1);
  CHECK(all.view("at_start").facts.get(fact::sharp_for)->size() +
            all.view("at_start").facts.get(fact::not_sharp_for)->size() ==
        32);
  // What is not looked at is told, and the field is: at 5:1 it has 7.2 x 4.8 mm.
  CHECK(tells(one.view("at_start"), diag::question::scene_hidden));
  const Work large(changed(changed(read_file(root() / "protocols/restoration.norma"),
                                   "ratio            1:2", "ratio 5:1"),
                           "f/22 to f/32", "f/22"));
  CHECK(large.count("P001") >= 1);
  CHECK(large.view("at_start").facts.get(fact::does_not_fit_for)->size() == 6);
}

TEST_CASE("a third of a tooth's height is sharp with less depth than all of it") {
  const auto far = [](std::string_view third) {
    const Work work(changed(five(), "facial 12 to 22", fmt::format("facial 11{}", third)),
                    chair(3));
    const Facts& facts = work.view("front").facts;
    return facts.get(fact::near_needed)->in(mm) + facts.get(fact::far_needed)->in(mm);
  };
  const double whole = far("");
  for (const char* third : {", incisal third", ", middle third", ", cervical third"})
    CHECK(far(third) < whole);
}

TEST_CASE("aperture and blur are carried to the kit's sensor, a camera's one aperture is judged") {
  const std::string phone = read_file(root() / "protocols/kits/phone.yaml");
  const Work work(five(), phone);
  const Facts& facts = work.view("front").facts;
  // By hand: 9.6 x 7.2 mm is 12 mm across, 36 x 24 mm 43.27 mm. The blur is 0.030 12 / 43.27 =
  // 0.00832 mm; f/1.8 is 2^(5/6) = 1.782; at 1:7.5 and P = 1 the depth is
  // N c (1 + m) / m^2 = 1.782 0.00832 1.1333 / 0.017778 = 0.945 mm, in front of the focus
  // 0.945 / (1 + N c / (m f)) = 0.945 / 1.0159 = 0.930 mm.
  CHECK(facts.get(fact::near_depth)->in(mm) == doctest::Approx(0.930).epsilon(0.005));
  CHECK(work.count("P003") >= 1);
  CHECK(work.count("P018") >= 1);
  // A blur that the protocol names is one on its own sensor.
  const Work blur(changed(five(), "    focus on         12\n",
                          "    focus on         12\n    allowed blur 0.060 mm on the sensor\n"),
                  phone);
  CHECK(blur.view("front").facts.get(fact::allowed_blur)->in(mm) ==
        doctest::Approx(0.060 * 12 / 43.267).epsilon(0.001));
  // As deep in the same field: N c (1 + m) / m^2 alike. From 1:2 to 1:3, 43.27 to 28.26 mm across,
  // that is (2/3)^2 / 0.653 1.5 / 1.333 = 0.766: f/22, 22.63, is 17.3 here, the nearest third of a
  // stop 2^(25/6), f/18; f/32 is 24.5, and the lens ends at f/22.
  const Work seven(five(), chair(7));
  CHECK(said(seven.view("front").facts, fact::widest_allowed) == "f/18");
  CHECK(said(seven.view("front").facts, fact::narrowest_allowed) == "f/22");
}

TEST_CASE("what other mouths turn is a warning that says in how many, what none turns an error") {
  const auto severity = [](const Work& work, std::string_view code) {
    std::optional<diag::Severity> out;
    for (const diag::Diagnostic& d : work.session->report().findings.all()) {
      if (d.definition->code == code) out = d.severity;
    }
    return out;
  };
  // By the mouths of `norma mouths`, which knows nothing of plans.
  const auto held = [](const Work& work, std::string_view view, mouths::Promise promise) {
    const auto drawn =
        mouths::draw(plan::group_of_patients(work.session->report().held.front().kit.get(),
                                             physics::Dentition::adult),
                     plan::mouths_asked, plan::mouths_seed);
    const auto shares = mouths::shares_of(*work.view(view).work->setting, drawn, false);
    const std::size_t broken = shares.broken[static_cast<std::size_t>(promise)];
    return static_cast<int>(std::lround(
        100.0 * static_cast<double>(shares.mouths - broken) / static_cast<double>(shares.mouths)));
  };
  const auto with_blur = [](std::string_view blur, const std::string& sizes = "") {
    return Work(changed(five(), "facial 13 to 16, 43 to 46",
                        fmt::format("facial 43 to 46\n    allowed blur {} mm on the sensor", blur)),
                chair(3) + sizes);
  };
  // At 0.030 mm they take f/31.89, so at 0.029 mm f/32.99; the lens ends at f/32.
  const Work near_by = with_blur("0.029");
  CHECK(near_by.view("right").facts.has(fact::not_held));
  CHECK(severity(near_by, "P003") == diag::Severity::warning);
  const auto& facts = near_by.view("right").facts;
  CHECK(*facts.get(fact::sharp_in_mouths) == held(near_by, "right", mouths::Promise::sharp));
  CHECK(facts.get(fact::sharp_hangs_on) == phrase::varies_lower_canines());
  // The narrowest there is is set, and light is worked out with it.
  CHECK(said(facts, fact::aperture) == "f/32");
  // At 0.030 mm the mean is held, and a wider arch is not.
  const Work just = with_blur("0.030");
  CHECK_FALSE(just.view("right").facts.has(fact::not_held));
  CHECK(*just.view("right").facts.get(fact::sharp_in_mouths) ==
        held(just, "right", mouths::Promise::sharp));
  CHECK(severity(just, "P003") == diag::Severity::warning);
  // Far from it nothing is asked.
  CHECK_FALSE(with_blur("0.090").view("right").facts.has(fact::sharp_in_mouths));
  const Work far_off = with_blur("0.010");
  CHECK(severity(far_off, "P003") == diag::Severity::error);
  CHECK(far_off.view("right").facts.get(fact::sharp_in_mouths) == 0);
  // What the clinic has measured itself has no spread: all mouths are the mean one.
  const std::string all =
      "\nanatomy:\n  upper canines apart: 35.2 mm\n  lower canines apart: 26.9 mm\n"
      "  upper first molars apart: 57.92 mm\n  lower first molars apart: 54.19 mm\n"
      "  overjet: 2.5 mm\n  overbite: 2.5 mm\n  palate height: 15.61 mm\n"
      "teeth:\n  - tooth: 18\n    width: 8.5 mm\n";
  CHECK(with_blur("0.029", all).view("right").facts.get(fact::sharp_in_mouths) == 0);
  // The field: a little too narrow for the mean lower arch, but not for a narrower one.
  const auto at = [](double n, const std::string& sizes = "") {
    return Work(changed(changed(changed(five(), "between 11 and 21", "between 41 and 31"),
                                "facial 15 to 25, 45 to 35", "facial 47 to 37"),
                        "    camera           straight ahead\n",
                        fmt::format("    camera straight ahead\n    ratio 1:{:.2f}\n", n)),
                chair(3) + sizes);
  };
  const double needs = at(2.0).view("front").facts.get(fact::needed_width)->in(mm);
  const Work narrow = at((needs - 2.0) / 36.0);
  CHECK(severity(narrow, "P001") == diag::Severity::warning);
  CHECK(*narrow.view("front").facts.get(fact::fits_in_mouths) ==
        held(narrow, "front", mouths::Promise::framed));
  const Work wide = at((needs + 2.0) / 36.0);
  CHECK(severity(wide, "P001") == std::nullopt);
  CHECK(severity(wide, "P024") == diag::Severity::warning);
  CHECK(*wide.view("front").facts.get(fact::fits_in_mouths) ==
        held(wide, "front", mouths::Promise::framed));
  CHECK(severity(at((needs - 2.0) / 36.0, all), "P001") == diag::Severity::error);
}

TEST_CASE(
    "no aperture holds only where none does with any focus, and remedies search them together") {
  // Without a focus of its own, the view is focused where the least does. The blur is chosen so
  // that f/32 holds there, but not in the arithmetic middle of the depth.
  const auto with_blur = [](double blur) {
    return Work(
        changed(changed(five(), "    focus on         12\n", ""), "facial 12 to 22",
                fmt::format("facial 14 to 24\n    allowed blur {:.6f} mm on the sensor", blur)),
        chair(3));
  };
  const Work at_first = with_blur(0.030);
  const Facts& facts = at_first.view("front").facts;
  const double near = facts.get(fact::near_needed)->in(mm);
  const double deep = near + facts.get(fact::far_needed)->in(mm);
  // f = 100 mm, P = 1, 1:2: the pupil is 300 mm before the focus; blur = m f d / (N (300 - d)).
  const auto blur_at = [](double d) { return 0.5 * 100 * d / (32 * (300 - d)); };
  const double best = blur_at(near);
  const double middle = blur_at(deep / 2);
  CHECK(near < deep / 2);
  CHECK(middle > best * 1.01);
  const auto held_with = [&](double blur) {
    return !with_blur(blur).view("front").facts.has(fact::not_held);
  };
  CHECK(held_with(best + 0.1 * (middle - best)));
  CHECK(held_with(middle - 0.1 * (middle - best)));
  CHECK_FALSE(held_with(best - 0.1 * (middle - best)));
  // A focus that is named and gives depth away: each other tooth is tried by itself.
  const auto focused = [](int tooth, std::string_view apertures) {
    return Work(
        changed(changed(changed(five(), "focus on         45", fmt::format("focus on {}", tooth)),
                        "facial 13 to 16, 43 to 46",
                        "facial 44 to 47\n    allowed blur 0.060 mm on the sensor"),
                "aperture         f/22 to f/32", apertures),
        chair(3));
  };
  int best_tooth = 0;
  double least = 1e9;
  for (const int tooth : {44, 45, 46, 47}) {
    const auto needed =
        focused(tooth, "aperture f/22 to f/32").view("right").facts.get(fact::aperture_needed);
    if (!needed || needed->value() >= least) continue;
    least = needed->value();
    best_tooth = tooth;
  }
  REQUIRE(best_tooth != 0);
  // The range ends between what the best and what the named one take.
  CHECK(least < 17.9);
  const Work other = focused(44, "aperture f/2.8 to f/18");
  REQUIRE(other.count("P003") >= 1);
  const Facts& right = other.view("right").facts;
  CHECK(said(right, fact::better_focus) == fmt::format("on {}", best_tooth));
  CHECK(right.get(fact::aperture_at_better_focus)->value() == doctest::Approx(least));
  CHECK(printed(other).find(
            "view right with chair_3: focused on 44, no aperture of the range holds") !=
        std::string::npos);
  CHECK(printed(other).find(fmt::format("help: focus on {} instead", best_tooth)) !=
        std::string::npos);
  // The range ends before any: both together.
  CHECK(least > 14.3);
  const Work both = focused(44, "aperture f/2.8 to f/14");
  CHECK(printed(both).find("view right with chair_3: no aperture of the range holds") !=
        std::string::npos);
  CHECK(printed(both).find(fmt::format("help: focused on {}, an aperture of", best_tooth)) !=
        std::string::npos);
}

TEST_CASE("a run of milk teeth in a mixed dentition has the permanent incisors that stand there") {
  const auto front = [](std::string_view teeth) {
    return Work(
        changed(changed(changed(five(), "for              adults", "for children, mixed teeth"),
                        "facial 15 to 25, 45 to 35",
                        fmt::format("facial {}, whichever teeth are there", teeth)),
                "facial 12 to 22", fmt::format("facial {}, whichever teeth are there", teeth)),
        chair(3));
  };
  // By hand: at nine years 55 54 53 12 11 21 22 63 64 65 stand there.
  const Work by_hand = front("55, 54, 53, 12, 11, 21, 22, 63, 64, 65");
  for (const char* run : {"55 to 65", "15 to 25", "55 to 65, 12 to 22"}) {
    CAPTURE(run);
    const Work work = front(run);
    for (const FactRow* row : std::initializer_list<const FactRow*>{
             &fact::needed_width, &fact::needed_height, &fact::near_needed, &fact::far_needed})
      CHECK(work.view("front").facts.find(*row)->number() ==
            by_hand.view("front").facts.find(*row)->number());
    CHECK(work.view("front").shown.size() == 10);
    CHECK(work.count("P029") == by_hand.count("P029")); // the focus on 12 is not beside them
  }
}

TEST_CASE("a blur that is said on the protocol's sensor is the usual one that goes unsaid") {
  const std::string phone = read_file(root() / "protocols/kits/phone.yaml");
  for (const std::string& kit : {chair(3), chair(7), phone}) {
    const Work unsaid(five(), kit);
    const Work said_so(
        changed(five(), "    focus on         12\n",
                "    focus on         12\n    allowed blur 0.030 mm on the sensor\n"),
        kit);
    CHECK(unsaid.codes() == said_so.codes());
    for (const FactRow* row : std::initializer_list<const FactRow*>{
             &fact::allowed_blur, &fact::aperture, &fact::near_depth, &fact::far_depth}) {
      const auto number = [&](const Work& w) {
        const Fact* f = w.view("front").facts.find(*row);
        return f == nullptr ? -1.0 : f->number().value_or(-1.0);
      };
      CHECK(number(unsaid) == doctest::Approx(number(said_so)).epsilon(1e-4));
    }
  }
}

TEST_CASE("a pupil ratio has its decimals") {
  const Work w(five(), changed(chair(3), "pupil ratio: 1\n", "pupil ratio: 0.9\n"));
  CHECK(said(w.view("front").facts, fact::pupil_ratio) == "0.90");
}

TEST_CASE("a field that falls short by norma's own rounding of the ratio is no error") {
  const auto at = [](double n, double width) {
    return Work(changed(five(), "    camera           straight ahead\n",
                        fmt::format("    camera straight ahead\n    ratio 1:{:.2f}\n", n)),
                changed(chair(3), "sensor: 36 x 24 mm",
                        fmt::format("sensor: {:.2f} x {:.2f} mm", width, width / 1.5)));
  };
  const auto needed_by = [](const Work& w) {
    return w.view("front").facts.get(fact::needed_width)->in(mm);
  };
  // By hand: on 36 mm the ratio 1:n has a field that is a little too wide, by half a hundredth; on
  // a sensor so wide that 1:n becomes 1:(1.02 k) it is set to 1:k, whose field is too narrow. What
  // is needed hangs a little on the distance, and so on the ratio.
  const double about = needed_by(at(2, 24));
  const double k = std::round(about / 24);
  const double needed = needed_by(at(1.02 * k * 24 / 36, 24));
  const double n = std::ceil(100.5 * needed / 36) / 100;
  const double sensor = 36 * n / (1.02 * k);
  const Work w = at(n, sensor);
  const Facts& facts = w.view("front").facts;
  CHECK(facts.get(fact::ratio)->value() == doctest::Approx(1 / k));
  CHECK(facts.get(fact::field_width)->in(mm) < needed_by(w));
  std::optional<diag::Severity> severity;
  for (const diag::Diagnostic& d : w.session->report().findings.all()) {
    if (d.definition->code == "P001" && d.about.front().view == 0) severity = d.severity;
  }
  CHECK(severity == diag::Severity::advice);
  REQUIRE(facts.has(fact::fits_unrounded));
  CHECK(facts.get(fact::fits_unrounded)->value() == doctest::Approx(1 / (1.02 * k)).epsilon(0.001));
}

TEST_CASE("a camera behind the head is upside down only where the protocol says so") {
  const auto upside_down = [](const std::string& protocol) {
    const Work w(protocol, chair(3));
    for (const plan::Act& act : w.view("upper").acts) {
      if (said(act).find("hold the camera") != std::string::npos)
        return said(act).find("upside down") != std::string::npos;
    }
    return false;
  };
  CHECK_FALSE(upside_down(five())); // the operator stands behind the head
  CHECK(upside_down(changed(five(), "    operator         behind the head\n",
                            "    operator         behind the head\n"
                            "    camera straight ahead, upside down\n")));
  CHECK_FALSE(upside_down(
      changed(five(), "    operator         behind the head\n", "    operator in front\n")));
}

TEST_CASE("the second image of a mirror in the cheek: the angle at which the camera meets it") {
  const std::string kit = changed(chair(3), "    length: 140 mm\n    surface: front\n",
                                  "    length: 140 mm\n    surface: rear\n    glass: 3 mm\n");
  const std::string sides = read_file(root() / "protocols/sides.norma");
  for (const char* opened : {"", ", opened 15 deg", ", opened 25 deg"}) {
    CAPTURE(opened);
    const Work w(changed(sides, "buccal right", fmt::format("buccal right{}", opened)), kit);
    const Facts& facts = w.view("right_mirror").facts;
    const auto image = facts.get(fact::azimuth);
    const auto camera = facts.get(fact::camera_azimuth);
    REQUIRE(image.has_value());
    REQUIRE(camera.has_value());
    // Both level: the axis and its image meet the mirror's normal alike, so that twice the angle
    // and the turn between them make half a circle. Plane-parallel plate, n 1.52, by hand.
    constexpr double degrees = 57.29577951308232;
    const double angle = (90.0 - 0.5 * std::abs((*image - *camera).in(degree))) / degrees;
    CHECK(facts.get(fact::mirror_incidence)->in(degree) == doctest::Approx(angle * degrees));
    CHECK(facts.get(fact::ghost)->in(mm) ==
          doctest::Approx(3.0 * std::sin(2 * angle) /
                          std::sqrt(1.52 * 1.52 - std::sin(angle) * std::sin(angle))));
    if (*opened != '\0')
      CHECK(
          facts.get(fact::mirror_from_midline)->in(degree) ==
          doctest::Approx(std::string_view(opened).find("15") != std::string_view::npos ? 15 : 25));
    for (const plan::Act& act : w.view("right_mirror").acts)
      CHECK(said(act).find("biting plane") == std::string::npos);
  }
}

TEST_CASE("words that norma cannot hold against anything are told as not checked") {
  const Work third(
      changed(five(), "facial 15 to 25, 45 to 35", "facial 15 to 25, 45 to 35, middle third"),
      chair(3));
  CHECK(tells(third.view("front"), diag::question::third_seen));
  CHECK_FALSE(tells(Work(five(), chair(3)).view("front"), diag::question::third_seen));
}

} // namespace norma::test
