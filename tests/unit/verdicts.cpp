// Verdicts of the scene as shares: held against every surface of every mouth, finely looked at.
#include <doctest/doctest.h>

#include "mouths/shares.hpp"
#include "placing/lamp.hpp"
#include "placing/layout.hpp"
#include "placing/mirror.hpp"
#include "placing/room.hpp"
#include "plan/many_mouths.hpp"
#include "work.hpp"

namespace {

using namespace norma;
using namespace norma::test;
namespace fact = facts::fact;

/// In so many of the mouths nothing is hidden, turned away, beside the mirror, in shadow, and the
/// mirror fits; every surface by 233 pieces.
struct Counted {
  int shown = 0, squarely = 0, in_mirror = 0, lit = 0, fits = 0, of = 0;
};
Counted counted(const plan::ViewPlan& view) {
  const placing::Setting& setting = *view.work->setting;
  const bool wide = setting.opening && !view.view->least_opening.known();
  Counted out;
  for (const mouths::Drawn& mouth : plan::usual_mouths(physics::Dentition::adult)->drawn) {
    ++out.of;
    const auto own = mouths::of_mouth(setting, mouth, wide);
    const auto pose = own ? placing::pose_of(*own) : std::nullopt;
    if (!pose) continue;
    const auto lamp = placing::may_shade(*own) ? placing::lamp_of(*own, *pose) : std::nullopt;
    const auto all = placing::look_at(*own, *pose, lamp ? &*lamp : nullptr, physics::fine_pieces);
    const auto none = [&](auto is) { return std::none_of(all.begin(), all.end(), is) ? 1 : 0; };
    out.shown += none(placing::stands_behind);
    out.squarely += none([&](const physics::Shown& s) { return s.obliquity > own->limits.turned; });
    out.in_mirror += none([](const physics::Shown& s) { return !s.in_mirror; });
    out.lit += none(placing::in_shadow);
    out.fits += placing::mirror_fits(*own, *pose) ? 1 : 0;
  }
  return out;
}

/// What is told, or that it was not worth telling.
void agrees(const plan::Facts& facts, const facts::FactDef<int>& told, int hold, int of) {
  CAPTURE(told.id);
  CAPTURE(hold);
  CAPTURE(of);
  const int counted =
      mouths::of_hundred(static_cast<std::size_t>(hold), static_cast<std::size_t>(of));
  if (const auto share = facts.get(told)) {
    CHECK(std::abs(*share - counted) <= 4);
    CHECK((*share == 0) == (hold == 0));
  } else {
    CHECK(counted >= plan::nearly_all - 4); // the first 24 held
  }
}

} // namespace

TEST_CASE("verdicts are those of all surfaces in all mouths, finely looked at") {
  int told = 0;
  for (const int chair_of : {3, 7}) {
    const Work w(five(), chair(chair_of));
    for (const std::string name : {"front", "upper", "lower", "right", "left"}) {
      CAPTURE(chair_of);
      CAPTURE(name);
      const plan::ViewPlan& view = w.view(name);
      REQUIRE(view.work->setting);
      const Counted all = counted(view);
      agrees(view.facts, fact::shown_in_mouths, all.shown, all.of);
      agrees(view.facts, fact::squarely_in_mouths, all.squarely, all.of);
      agrees(view.facts, fact::in_mirror_in_mouths, all.in_mirror, all.of);
      agrees(view.facts, fact::lit_in_mouths, all.lit, all.of);
      agrees(view.facts, fact::mirror_fits_in_mouths, all.fits, all.of);
      told += view.facts.has(fact::shown_in_mouths) ? 1 : 0;
    }
  }
  CHECK(told >= 4);
}

TEST_CASE("left and right agree in many mouths, and more pull shows in no fewer") {
  const Work w(five(), chair(3));
  CHECK(w.view("right").facts.get(fact::shown_in_mouths) ==
        w.view("left").facts.get(fact::shown_in_mouths));
  const std::string light =
      changed(five(), "tension firm, outwards and back", "tension light, outwards");
  const std::string even =
      changed(five(), "tension firm, outwards and back", "tension even, outwards");
  const auto shown = [](const std::string& text) {
    return Work(text, chair(3)).view("right").facts.get(fact::shown_in_mouths);
  };
  REQUIRE(shown(light));
  REQUIRE(shown(even));
  CHECK(*shown(light) <= *shown(even));
  CHECK(*shown(even) <= *shown(five()));
  CHECK(*shown(light) < *shown(five()));
}

TEST_CASE("an error only where nothing of a tooth is seen in any mouth") {
  const auto gravest = [](const std::string& text) {
    diag::Severity out = diag::Severity::advice;
    const Work w(text, chair(3));
    for (const auto& d : w.session->report().findings.all())
      if (d.definition->code == std::string_view("P019")) out = std::max(out, d.severity);
    return out;
  };
  CHECK(gravest(five()) == diag::Severity::warning);
  const std::string light =
      changed(five(), "tension firm, outwards and back", "tension light, outwards");
  CHECK(gravest(light) == diag::Severity::error);
  const Work w(light, chair(3));
  const auto never = w.view("right").facts.get(fact::never_seen);
  REQUIRE(never);
  // 17 lies behind the cheek wherever in the range the corner is held: counted here by itself.
  const placing::Setting& setting = *w.view("right").work->setting;
  for (const physics::Tooth tooth : *never) {
    double most = 0;
    for (const mouths::Drawn& mouth : plan::usual_mouths(physics::Dentition::adult)->drawn) {
      const auto own = mouths::of_mouth(setting, mouth, false);
      REQUIRE(own);
      for (const physics::Shown& s : placing::look_at(*own, *placing::pose_of(*own), nullptr, 233))
        if (s.tooth == tooth) most = std::max(most, s.seen);
    }
    CHECK(most < 0.1);
  }
}

TEST_CASE("a clinic that has measured how mouths are held has no range for it") {
  const std::string kit = chair(3) + "\nmouths:\n  firm pull aside: 40 mm\n  firm pull back: 30 mm\n";
  const Work w(five(), kit);
  const auto by = w.view("right").facts.find(fact::shown_hangs_on);
  if (by != nullptr) {
    const std::string said = norma::test::said(w.view("right").facts, fact::shown_hangs_on);
    CHECK(said.find("corner") == std::string::npos);
  }
}
