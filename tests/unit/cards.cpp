// Cards at the chair: what they say, what they draw, and how they lie on paper.
#include "emit/card.hpp"
#include "emit/view_drawings.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "drawn.hpp"
#include "emit/checklist.hpp"
#include "emit/csv.hpp"
#include "emit/document_pages.hpp"
#include "emit/laid_out.hpp"
#include "emit/marks.hpp"
#include "facts/facts.hpp"
#include "support/shipped.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using drawing::Item;
using drawing::Role;
using drawing::Spot;
using emit::Card;
using emit::Cards;

using wording::english;

Cards cards_of(const Work& work, std::string_view series = "") {
  return emit::cards_of(work.session->report(), work.session->report().held.front(), series,
                        english());
}
const Card& card(const Cards& cards, std::string_view name) {
  const auto found = std::find_if(cards.cards.begin(), cards.cards.end(),
                                  [&](const Card& c) { return c.name == name; });
  REQUIRE(found != cards.cards.end());
  return *found;
}

struct Bounds {
  double left, top, right, bottom;
};
Bounds bounds(const std::vector<Spot>& spots) {
  Bounds out{1e9, 1e9, -1e9, -1e9};
  for (const Spot& s : spots) {
    out.left = std::min(out.left, s.x);
    out.right = std::max(out.right, s.x);
    out.top = std::min(out.top, s.y);
    out.bottom = std::max(out.bottom, s.y);
  }
  return out;
}
std::vector<Bounds> teeth_in(const drawing::Drawing& d, bool mirrored) {
  std::vector<Bounds> out;
  for (const Item* item : flat(d)) {
    if (item->role != Role::tooth) continue;
    Bounds b = bounds(item->line.through);
    if (mirrored) std::tie(b.left, b.right) = std::pair(d.width - b.right, d.width - b.left);
    out.push_back(b);
  }
  std::sort(out.begin(), out.end(),
            [](const Bounds& a, const Bounds& b) { return a.left < b.left; });
  return out;
}

/// Boxes and figures lie on the page, and none over another.
void lies_right(const drawing::PaperPage& page) {
  CAPTURE(page.name);
  std::vector<Bounds> boxes;
  for (const drawing::TextBox& b : page.boxes)
    boxes.push_back({b.at.x, b.at.y, b.at.x + b.width, b.at.y + b.height});
  for (const drawing::Figure& f : page.figures)
    boxes.push_back({f.at.x, f.at.y, f.at.x + f.width(), f.at.y + f.height()});
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Bounds& a = boxes[i];
    CHECK(a.left >= 7.9);
    CHECK(a.top >= 7.9);
    CHECK(a.right <= page.width - 7.9);
    CHECK(a.bottom <= page.height - 7.9);
    CHECK(a.right > a.left);
    CHECK(a.bottom > a.top);
    for (std::size_t k = 0; k < i; ++k) {
      const Bounds& b = boxes[k];
      const bool apart = a.left >= b.right - 1e-6 || b.left >= a.right - 1e-6 ||
                         a.top >= b.bottom - 1e-6 || b.top >= a.bottom - 1e-6;
      CHECK(apart);
    }
  }
}

} // namespace

TEST_CASE("a card says what is set, who holds what, and what changes") {
  const Work work(five(), chair(3));
  const Cards cards = cards_of(work);
  REQUIRE(cards.cards.size() == 5);
  const Card& front = card(cards, "front");
  CHECK(front.place == "1 of 5");
  CHECK(front.code == "IV07");
  REQUIRE(front.settings.size() == 3);
  CHECK(front.settings[0].value == "1:2");
  CHECK(front.settings[1].value == "f/22");
  CHECK(front.settings[2].value == "1/4");
  CHECK(!front.settings[1].stays);
  CHECK(front.say ==
        std::vector<std::string>{"Teeth together, please, and breathe through the nose."});
  const Card& lower = card(cards, "lower");
  for (const emit::CardSetting& s : lower.settings)
    CHECK(s.stays); // the same as for the upper arch
  const Card& right = card(cards, "right");
  CHECK(right.settings[1].value == "f/32");
  CHECK(!right.settings[1].stays);
  REQUIRE(!right.steps.empty());
  CHECK(right.steps.front().who == "Assistant");
  CHECK(right.steps.front().what == "take out occlusal mirror, narrow");
  CHECK(std::any_of(right.hands.begin(), right.hands.end(),
                    [](const emit::CardHands& h) { return h.who == "Assistant"; }));
}

TEST_CASE("a view that cannot be had has a card without settings") {
  const Work work(five(), chair(7));
  const Cards cards = cards_of(work);
  const Card& right = card(cards, "right");
  CHECK(!right.had);
  CHECK(right.not_had == "NOT AT THIS CHAIR");
  CHECK(right.settings.empty());
  CHECK(right.steps.empty());
  CHECK(!right.finder);
  CHECK(!right.against.empty());
  CHECK(!right.would_do.empty());
  // As for paper and screen.
  const std::string html = emit::cards_html({cards}, english());
  const std::size_t at = html.find("NOT AT THIS CHAIR");
  REQUIRE(at != std::string::npos);
}

TEST_CASE("of a protocol that could not be read whole there is no card") {
  const Work work(changed(five(), "  must show  ", "  must shwo  "), chair(3));
  const Cards cards = cards_of(work);
  CHECK(cards.cards.empty());
  REQUIRE(cards.unread.size() > 1);
  CHECK(cards.unread.front().find("DO NOT USE") == 0);
  const drawing::Paper paper = emit::cards_on_paper({cards}, emit::a4, english());
  CHECK(paper.pages.size() == 1);
}

TEST_CASE("the page of cards asks for nothing, and runs nothing of a protocol's") {
  const std::string hostile = "</h2><script>alert(1)</script>&'";
  const Work work(changed(five(), "Upper arch", hostile), chair(3));
  const std::string html = emit::cards_html({cards_of(work)}, english());
  CHECK(html.find("alert(1)</script>") == std::string::npos);
  CHECK(html.find("&lt;script&gt;alert(1)&lt;/script&gt;&amp;&#39;") != std::string::npos);
  const auto count = [&](std::string_view what) {
    std::size_t n = 0;
    for (std::size_t at = html.find(what); at != std::string::npos; at = html.find(what, at + 1))
      ++n;
    return n;
  };
  CHECK(count("<script>") == 1);
  CHECK(count("</script>") == 1);
  CHECK(count(" src=") == 0);
  CHECK(count("url(") == count("url(#"));
  CHECK(count("://") == count("http://www.w3.org/2000/svg"));
  CHECK(html.find("default-src 'none'") != std::string::npos);
}

TEST_CASE("left and right are drawn as mirror images") {
  const Work work(five(), chair(3));
  const Cards cards = cards_of(work);
  const auto right = teeth_in(*card(cards, "right").finder, false);
  const auto left = teeth_in(*card(cards, "left").finder, true);
  REQUIRE(right.size() == 12);
  REQUIRE(left.size() == right.size());
  constexpr double apart = 0.3; // mm, of 120
  for (std::size_t i = 0; i < right.size(); ++i) {
    CHECK(std::abs(right[i].left - left[i].left) < apart);
    CHECK(std::abs(right[i].right - left[i].right) < apart);
    CHECK(std::abs(right[i].top - left[i].top) < apart);
    CHECK(std::abs(right[i].bottom - left[i].bottom) < apart);
  }
}

TEST_CASE("what stands elsewhere is drawn elsewhere") {
  const auto teeth_from = [](std::string_view azimuth) {
    const Work work(changed(five(), "60 deg from midline", azimuth), chair(3));
    const Cards cards = cards_of(work);
    REQUIRE(card(cards, "right").finder);
    return teeth_in(*card(cards, "right").finder, false);
  };
  const auto at_60 = teeth_from("60 deg from midline");
  const auto at_68 = teeth_from("68 deg from midline");
  REQUIRE(at_60.size() == at_68.size());
  // From farther round, the row of teeth from 17 to 12 is seen longer.
  CHECK(at_68.back().right - at_68.front().left > at_60.back().right - at_60.front().left + 1);
  // The mirror's outline follows its angle.
  const auto mirror = [](std::string_view to) {
    const Work work(changed(five(), "occlusal, held", to), chair(3));
    const Cards cards = cards_of(work);
    REQUIRE(card(cards, "upper").above);
    for (const Item* item : flat(*card(cards, "upper").above)) {
      if (item->role == Role::mirror) return bounds(item->line.through);
    }
    return Bounds{0, 0, 0, 0};
  };
  const Bounds at_45 = mirror("occlusal, opened 45 deg, held");
  const Bounds at_40 = mirror("occlusal, opened 40 deg, held");
  REQUIRE(at_45.right > at_45.left);
  CHECK(std::abs((at_45.bottom - at_45.top) - (at_40.bottom - at_40.top)) > 0.2);
}

TEST_CASE("every tooth that the scene calls seen shows in the drawing") {
  std::size_t all = 0;
  std::size_t shown = 0;
  each_shipped([&](const report::Report& report, const report::Held& held) {
    for (const Card& c : emit::cards_of(report, held, "", english()).cards) {
      if (!c.finder) continue;
      const plan::ViewPlan& view = *held.plan.view(c.name);
      const physics::Mouth mouth = physics::make_mouth(view.scene->mouth);
      const physics::Eye& eye = view.scene->eye;
      const double scale = std::max(c.finder->width, c.finder->height) /
                           std::max(eye.sensor.width, eye.sensor.height).in(mm);
      for (const physics::Shown& s : view.shown) {
        if (s.seen < 0.95 * s.facing || s.facing < 0.5 || s.framed < 1) continue;
        const physics::Crown* crown = physics::find_crown(mouth.crowns, s.tooth);
        REQUIRE(crown != nullptr);
        const auto at =
            physics::project(physics::surface_grid(*crown, s.surface, 3)[4].at, eye.lens);
        REQUIRE(at);
        const Spot spot{0.5 * c.finder->width + at->right.in(mm)*scale,
                        0.5 * c.finder->height - at->up.in(mm)*scale};
        const Role top = top_at(c.finder->items, spot);
        ++all;
        shown += top == Role::tooth || top == Role::table ? 1 : 0;
      }
    }
  });
  MESSAGE(shown, " of ", all, " teeth show");
  CHECK(all > 500);
  CHECK(shown * 100 >= all * 98);
}

TEST_CASE(
    "a tooth that the cheek hides lies under it in the drawing, however far round one looks") {
  std::size_t hidden = 0;
  for (const char* azimuth : {"30 deg", "40 deg", "50 deg", "60 deg"}) {
    const std::string far =
        changed(five(), "60 deg from midline", std::string(azimuth) + " from midline");
    const Work work(changed(far, "tension firm, outwards and back", "tension light, outwards"),
                    chair(3));
    const plan::ViewPlan& view = work.view("right");
    const auto drawings = emit::view_drawings(view, emit::Numbers::none, english());
    REQUIRE(drawings);
    const drawing::Drawing& finder = drawings->finder;
    const physics::Mouth mouth = physics::make_mouth(view.scene->mouth);
    const physics::Eye& eye = view.scene->eye;
    const double scale = std::max(finder.width, finder.height) /
                         std::max(eye.sensor.width, eye.sensor.height).in(mm);
    for (const physics::Shown& s : view.shown) {
      if (s.seen > 0.02 || s.facing < 0.5 || s.framed < 1) continue;
      const physics::Crown* crown = physics::find_crown(mouth.crowns, s.tooth);
      const auto at = physics::project(physics::surface_grid(*crown, s.surface, 3)[4].at, eye.lens);
      REQUIRE(at);
      CAPTURE(azimuth);
      CAPTURE(s.tooth.iso());
      CHECK(top_at(finder.items, {0.5 * finder.width + at->right.in(mm)*scale,
                                  0.5 * finder.height - at->up.in(mm)*scale}) == Role::skin);
      ++hidden;
    }
  }
  CHECK(hidden >= 6);
}

TEST_CASE("cards of all shipped protocols fit their paper, in each language") {
  std::size_t pages = 0;
  const auto check = [&](const Cards& cards, const wording::Language& in) {
    CAPTURE(in.tag());
    for (const Card& c : cards.cards) {
      CAPTURE(c.name);
      CHECK(c.steps.size() <= 6);
      if (c.had) {
        CHECK(c.settings.size() == 3);
        for (const emit::CardSetting& s : c.settings)
          CHECK(!s.value.empty());
        CHECK(!c.look.empty());
        CHECK((c.finder || !c.no_drawing.empty()));
      } else {
        CHECK(c.settings.empty());
        CHECK(!c.against.empty());
      }
    }
    for (const emit::PaperSize& size : {emit::a4, emit::us_letter}) {
      drawing::Paper paper = emit::cards_on_paper({cards}, size, in);
      CHECK(paper.language == in.tag());
      CHECK(paper.pages.size() == std::max<std::size_t>(cards.cards.size(), 1));
      const drawing::Paper rows = emit::cards_in_rows({cards}, size, in);
      CHECK(rows.pages.size() == std::max<std::size_t>((cards.cards.size() + 9) / 10, 1));
      paper.pages.insert(paper.pages.end(), rows.pages.begin(), rows.pages.end());
      pages += paper.pages.size();
      for (const drawing::PaperPage& page : paper.pages)
        lies_right(page);
    }
  };
  each_shipped([&](const report::Report& report, const report::Held& held) {
    for (const wording::Language* in : wording::languages())
      check(emit::cards_of(report, held, "", *in), *in);
  });
  CHECK(pages > 300 * wording::languages().size());
}

TEST_CASE("a checklist on a screen has a box and a line for each of its own") {
  const Work work(changed(five(), "Upper arch", "<b>\\\"Upper\\\"</b>"), chair(3));
  const emit::Document list =
      emit::checklist(work.session->report(), work.session->report().held.front(), "", english());
  const std::string html = emit::as_html({list}, english());
  std::size_t boxes = 0;
  std::size_t lines = 0;
  for (const emit::Block& block : list) {
    boxes += block.kind == emit::BlockKind::tick ? 1 : 0;
    lines += block.kind == emit::BlockKind::blank ? 1 : 0;
    for (const emit::Field& f : block.fields) {
      boxes += f.box ? 1 : 0;
      lines += f.line ? 1 : 0;
    }
  }
  const auto count = [&](std::string_view what) {
    std::size_t n = 0;
    for (std::size_t at = html.find(what); at != std::string::npos; at = html.find(what, at + 1))
      ++n;
    return n;
  };
  CHECK(boxes > 20);
  CHECK(count("<input type=\"checkbox\"") == boxes);
  CHECK(count("<input type=\"text\"") == lines);
  CHECK(count("<b>") == 0);
  CHECK(count("</script>") == 1);
  CHECK(count("<h1>") == 2); // the checklist, and the lead's sheet
}

TEST_CASE("a marking sheet asks for what the view asks for") {
  const Work work(five());
  const auto& report = work.session->report();
  const std::string csv = emit::marks_csv(report, report.held.front(), "", english());
  CHECK(
      csv.find("harbour_five,right,Right side,\"shown whole: facial 12 to 17, 42 to 47\",,\r\n") !=
      std::string::npos);
  CHECK(csv.find("harbour_five,right,Right side,\"sharp: facial 13 to 16, 43 to 46\",,\r\n") !=
        std::string::npos);
  CHECK(csv.find("harbour_five,upper,Upper arch,\"for the record: flip sideways") !=
        std::string::npos);
  const emit::Document sheet = emit::marks(report, report.held.front(), "", english());
  const auto views = std::count_if(sheet.begin(), sheet.end(), [](const emit::Block& b) {
    return b.kind == emit::BlockKind::subheading;
  });
  CHECK(views == 5);
}

TEST_CASE("what is laid out for several patients") {
  const Work work(five(), chair(3));
  const auto& report = work.session->report();
  const report::Held& held = report.held.front();
  // Two retractors and a mirror for each of six; the air syringe serves all.
  const std::string csv = emit::laid_out_csv(report, held, "", 6, english());
  CHECK(csv.find("frosted metal retractor,2,12,yes,in a bag for each patient,no\r\n") !=
        std::string::npos);
  CHECK(csv.find("\"occlusal mirror, narrow\",1,6,yes,each in a bag of its own,no\r\n") !=
        std::string::npos);
  CHECK(csv.find("air syringe,1,1,no,,no\r\n") != std::string::npos);
  // The kit has two retractors: enough for one patient.
  const auto text = [&](int patients) {
    return emit::as_text(emit::laid_out(report, held, "", patients, english()));
  };
  CHECK(text(6).find("2 at this chair, enough for 1 between two cycles") != std::string::npos);
  CHECK(text(1).find("Too few") == std::string::npos);
  CHECK(text(1).find("Not checked") != std::string::npos); // of mirrors
}

TEST_CASE("a cell is a cell, and no formula") {
  CHECK(emit::csv_row({"a", "b,c", "say \"ah\"", ""}) == "a,\"b,c\",\"say \"\"ah\"\"\",\r\n");
  CHECK(emit::csv_row({"=1+1", "-2", "@x", "+3", "1=1"}) == "'=1+1,'-2,'@x,'+3,1=1\r\n");
  const std::string row = emit::csv_row({"two\nlines"});
  CHECK(row.find('\n') == row.size() - 1); // a row is a line
}

TEST_CASE("a picture is turned for the record as the turn says") {
  using physics::Turn;
  // Where the upper left corner of a picture 30 wide and 20 high comes to lie, by hand.
  const std::pair<Turn, Spot> corners[] = {
      {Turn::none, {0, 0}},
      {Turn::flip_sideways, {30, 0}},
      {Turn::flip_upside_down, {0, 20}},
      {Turn::half_turn, {30, 20}},
      {Turn::quarter_left, {0, 30}},
      {Turn::quarter_right, {20, 0}},
      {Turn::flip_and_quarter_left, {0, 0}},
      {Turn::flip_and_quarter_right, {20, 30}},
  };
  for (const auto& one : corners) {
    const Spot at = drawing::turned({0, 0}, 30, 20, one.first);
    CAPTURE(static_cast<int>(one.first));
    CHECK(at.x == doctest::Approx(one.second.x));
    CHECK(at.y == doctest::Approx(one.second.y));
  }
}

} // namespace norma::test
