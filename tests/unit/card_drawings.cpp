// The drawings of a card: what changes in the protocol changes in them; what lies at the frame's
// edges is marked.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "drawn.hpp"
#include "emit/card.hpp"
#include "emit/view_drawings.hpp"
#include "facts/facts.hpp"
#include "support/shipped.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using drawing::Drawing;
using drawing::Item;
using drawing::Role;
using drawing::Spot;
namespace fact = plan::fact;

emit::ViewDrawings drawn(const Work& work, std::string_view view) {
  auto out = emit::view_drawings(work.view(view), emit::Numbers::none, wording::english());
  REQUIRE(out);
  return std::move(*out);
}
/// The middle of all shapes of a role.
Spot middle_of(const Drawing& d, Role role) {
  Spot sum;
  double n = 0;
  for (const Item* item : flat(d)) {
    if (item->role != role || item->label) continue;
    for (const Spot& s : item->line.through) {
      sum = sum + s;
      n += 1;
    }
  }
  return n > 0 ? sum * (1 / n) : Spot{-1, -1};
}
std::size_t count(const Drawing& d, Role role) {
  std::size_t n = 0;
  for (const Item* item : flat(d))
    n += item->role == role && !item->label ? 1 : 0;
  return n;
}
std::vector<std::string> words_in(const Drawing& d) {
  std::vector<std::string> out;
  for (const Item* item : flat(d)) {
    if (item->label) out.push_back(item->label->text);
  }
  return out;
}
bool says(const Drawing& d, std::string_view word) {
  const auto all = words_in(d);
  return std::find(all.begin(), all.end(), word) != all.end();
}
double apart(Spot a, Spot b) { return std::hypot(a.x - b.x, a.y - b.y); }

} // namespace

TEST_CASE("what must show and lies at the frame's edges is told and marked") {
  const Work work(five(), chair(3));
  const plan::ViewPlan& upper = work.view("upper");
  // `norma margins`: 2.6 mm up cut off 11 and 21 first, 2.6 mm down 17 and 27; a tenth of the frame
  // is 4.8 mm high at 1:2. 7.5 mm aside cut off 17 or 27: more than a tenth of the width, 7.2 mm.
  CHECK(said(upper.facts, fact::at_top_edge) == "11, 21");
  CHECK(said(upper.facts, fact::at_bottom_edge) == "17, 27");
  CHECK(!upper.facts.has(fact::at_left_edge));
  CHECK(!upper.facts.has(fact::at_right_edge));
  const Drawing finder = drawn(work, "upper").finder;
  std::size_t at_top = 0;
  std::size_t at_bottom = 0;
  for (const Item* item : flat(finder)) {
    if (item->role != Role::edge_mark) continue;
    const Spot tip = item->line.through.front();
    at_top += tip.y == 0 ? 1 : 0;
    at_bottom += tip.y == finder.height ? 1 : 0;
  }
  CHECK(at_top == 2);
  CHECK(at_bottom == 2);
  // The other side's view has the other side's teeth at the other edges.
  const plan::Facts& right = work.view("right").facts;
  const plan::Facts& left = work.view("left").facts;
  const auto other = [](std::optional<diag::Teeth> teeth) {
    diag::Teeth out;
    if (!teeth) return out;
    for (const physics::Tooth t : *teeth)
      out.push_back(t.other_side());
    std::sort(out.begin(), out.end());
    return out;
  };
  const auto sorted = [](std::optional<diag::Teeth> teeth) {
    diag::Teeth out = teeth.value_or(diag::Teeth());
    std::sort(out.begin(), out.end());
    return out;
  };
  CHECK(sorted(right.get(fact::at_left_edge)) == other(left.get(fact::at_right_edge)));
  CHECK(sorted(right.get(fact::at_right_edge)) == other(left.get(fact::at_left_edge)));
  CHECK(sorted(right.get(fact::at_top_edge)) == other(left.get(fact::at_top_edge)));
}

TEST_CASE(
    "edges of all shipped views: a mark for each tooth, its tip on the edge, said on the card") {
  std::size_t marks = 0;
  each_shipped([&](const report::Report& report, const report::Held& held) {
    for (const emit::Card& c : emit::cards_of(report, held, "", wording::english()).cards) {
      if (!c.finder) continue;
      const plan::ViewPlan& view = *held.plan.view(c.name);
      std::size_t teeth = 0;
      for (const emit::EdgeRow& row : emit::edge_rows())
        teeth += view.facts.get(row.teeth).value_or(diag::Teeth()).size();
      CHECK(count(*c.finder, Role::edge_mark) >= teeth);
      const bool told = std::any_of(c.look.begin(), c.look.end(), [](const std::string& s) {
        return s.starts_with("at the frame's edges: ");
      });
      CHECK(told == (teeth > 0));
      CHECK((c.finder_words.find("Wedges") != std::string::npos) == (teeth > 0));
      for (const Item* item : flat(*c.finder)) {
        if (item->role != Role::edge_mark) continue;
        ++marks;
        const Spot tip = item->line.through.front();
        CHECK((tip.x == 0 || tip.y == 0 || tip.x == c.finder->width || tip.y == c.finder->height));
      }
    }
  });
  CHECK(marks > 50);
  // In grey, too: the mark is dark, its line light.
  const drawing::Look& look = drawing::look_of(Role::edge_mark);
  CHECK(*look.fill < 0x404040);
  CHECK(*look.line > 0xd0d0d0);
}

TEST_CASE("from above: what the protocol says otherwise stands elsewhere") {
  const auto above = [](std::string_view from, std::string_view to) {
    return drawn(Work(changed(five(), from, to), chair(3)), "right").above;
  };
  const Drawing as_it_is = drawn(Work(five(), chair(3)), "right").above;
  // The camera, by its angle.
  const Drawing nearer = above("60 deg from midline", "40 deg from midline");
  CHECK(apart(middle_of(as_it_is, Role::camera), middle_of(nearer, Role::camera)) > 4);
  // The head turns on its shoulders; the camera keeps its place to the head.
  const Drawing straight = above("head             turned left", "head             upright");
  const Drawing turned_right =
      above("head             turned left", "head             turned right");
  const auto nose_turn = [](const Drawing& d) {
    const Spot head = middle_of(d, Role::head);
    const Spot body = middle_of(d, Role::body);
    return head.x - body.x;
  };
  CHECK(nose_turn(as_it_is) > 1); // towards the patient's left: to the right of who stands in front
  CHECK(nose_turn(turned_right) < -1);
  CHECK(std::abs(nose_turn(straight)) < 0.5);
  const auto camera_to_teeth = [](const Drawing& d) {
    return apart(middle_of(d, Role::camera), middle_of(d, Role::other_tooth));
  };
  CHECK(camera_to_teeth(straight) == doctest::Approx(camera_to_teeth(as_it_is)).epsilon(0.01));
  CHECK(apart(middle_of(straight, Role::camera), middle_of(as_it_is, Role::camera)) > 4);
  // The hours, where the place is told by them: beside the tongue, too.
  CHECK(says(as_it_is, "9"));
  CHECK(!says(drawn(Work(five(), chair(3)), "upper").above, "9"));
  const Work tongue(read_file(root() / "protocols/tongue_side.norma"), chair(3));
  CHECK(says(drawn(tongue, "molars_right").above, "9"));
  // Pull: how firmly, and which way.
  const Drawing light =
      above("tension firm, outwards and back, held", "tension light, outwards, held");
  CHECK(apart(middle_of(as_it_is, Role::pull), middle_of(light, Role::pull)) > 0.5);
  // Whoever holds it.
  CHECK(says(as_it_is, "A"));
  const Drawing by_patient =
      above("outwards and back, held by assistant", "outwards and back, held by patient");
  CHECK(!says(by_patient, "A"));
}

TEST_CASE("from above: where the operator stands, and how the head is tipped") {
  const Work work(five(), chair(3));
  const Drawing upper = drawn(work, "upper").above; // from behind, tipped back
  const Drawing lower = drawn(work, "lower").above; // from in front, tipped down
  CHECK(count(upper, Role::head_moves) == 1);
  CHECK(count(lower, Role::head_moves) == 1);
  CHECK(count(drawn(work, "front").above, Role::head_moves) == 0);
  // The tip of the arrow is its fourth spot; from behind, back is down.
  const auto way = [](const Drawing& d) {
    for (const Item* item : flat(d)) {
      if (item->role == Role::head_moves) return item->line.through[3].y - item->line.through[0].y;
    }
    return 0.0;
  };
  CHECK(way(upper) > 5); // back, towards the operator behind
  CHECK(way(lower) > 5); // down, towards the operator in front
  const auto right_of_patient = [](const Drawing& d) {
    for (const Item* item : flat(d)) {
      if (item->label && item->label->text == "RIGHT") return item->label->at;
    }
    return Spot{};
  };
  CHECK(right_of_patient(upper).x == doctest::Approx(70)); // who stands behind has it at the right
  CHECK(right_of_patient(lower).x == doctest::Approx(0));
  CHECK(says(upper, "A")); // the mirror
  CHECK(says(upper, "P")); // the retractors
  CHECK(says(upper, "O")); // the camera
  const std::string beside =
      changed(five(), "operator         in front", "operator         at the right");
  const Drawing from_right = drawn(Work(beside, chair(3)), "lower").above;
  // From there the patient's right is at the lower edge.
  CHECK(right_of_patient(from_right).y > 60);
}

TEST_CASE("from above: the lamp by its o'clock, on the side that the protocol wants") {
  // Chair 7's lamp beside the lens, made one that is moved by hand.
  const std::string by_hand = changed(chair(7), "moves: fixed", "moves: by hand");
  const auto lamp = [&](std::string_view to) {
    std::string text = changed(five(), "lamp             towards the front teeth",
                               fmt::format("lamp             {}", to));
    return drawn(Work(changed(std::move(text), "iso              200", "iso 500"), by_hand),
                 "right")
        .above;
  };
  const Drawing front_teeth = lamp("towards the front teeth");
  const Drawing cheek = lamp("towards the cheek");
  CHECK(says(front_teeth, "Lamp at"));
  // From the patient's right the front teeth lie at the right of the picture.
  CHECK(says(front_teeth, "3 o'clock"));
  CHECK(says(cheek, "9 o'clock"));
  CHECK(apart(middle_of(front_teeth, Role::lamp), middle_of(cheek, Role::lamp)) > 3);
}

TEST_CASE("from above: left and right are mirror images") {
  const Work work(five(), chair(3));
  const Drawing right = drawn(work, "right").above;
  const Drawing left = drawn(work, "left").above;
  for (const Role role : {Role::head, Role::body, Role::camera, Role::other_tooth, Role::pull,
                          Role::tip, Role::badge, Role::sight}) {
    CAPTURE(drawing::look_of(role).name);
    const Spot a = middle_of(right, role);
    const Spot b = middle_of(left, role);
    CHECK(count(right, role) == count(left, role));
    CHECK(a.x == doctest::Approx(70 - b.x).epsilon(0.01));
    CHECK(a.y == doctest::Approx(b.y).epsilon(0.01));
  }
}

TEST_CASE("from above: words lie within the drawing, and none over another, in each language") {
  each_shipped([&](const report::Report& report, const report::Held& held) {
    for (const wording::Language* in : wording::languages()) {
      for (const emit::Card& c : emit::cards_of(report, held, "", *in).cards) {
        if (!c.above) continue;
        CAPTURE(c.name);
        struct Box {
          double left, right, top, bottom;
        };
        std::vector<Box> boxes;
        for (const Item* item : flat(*c.above)) {
          if (!item->label) continue;
          const drawing::Label& l = *item->label;
          // Letters of the font that is used are 0.6 of their size wide, and bold ones 0.66, or
          // less.
          const double width = (l.bold ? 0.66 : 0.6) * l.size * static_cast<double>(l.text.size());
          const double left = l.anchor == drawing::Anchor::start    ? l.at.x
                              : l.anchor == drawing::Anchor::middle ? l.at.x - 0.5 * width
                                                                    : l.at.x - width;
          boxes.push_back({left, left + width, l.at.y - 0.75 * l.size, l.at.y});
        }
        for (std::size_t i = 0; i < boxes.size(); ++i) {
          const Box& a = boxes[i];
          CHECK(a.left >= -1);
          CHECK(a.right <= c.above->width + 1);
          CHECK(a.top >= -1);
          CHECK(a.bottom <= c.above->height + 1);
          for (std::size_t k = 0; k < i; ++k) {
            const Box& b = boxes[k];
            CHECK(
                (a.left >= b.right || b.left >= a.right || a.top >= b.bottom || b.top >= a.bottom));
          }
        }
      }
    }
  });
}

TEST_CASE("a view of the face is a head from the view's direction, in its frame") {
  const Work work(read_file(root() / "protocols/orthodontic.norma"), chair(3));
  const auto face = [&](std::string_view view) {
    auto out = emit::card_drawings(work.view(view), wording::english());
    REQUIRE(out);
    return std::move(*out);
  };
  const Drawing front = face("face").finder;
  const Drawing right = face("profile_right").finder;
  // 1:10 on 24 x 36 mm, upright.
  CHECK(front.width / front.height == doctest::Approx(24.0 / 36.0));
  // A head is 226 mm high here, of 360 mm: it lies whole within the frame, and not small.
  const auto bounds = [](const Drawing& d, Role role) {
    Spot low{1e9, 1e9};
    Spot high{-1e9, -1e9};
    for (const Item* item : flat(d)) {
      if (item->role != role) continue;
      for (const Spot& s : item->line.through) {
        low = {std::min(low.x, s.x), std::min(low.y, s.y)};
        high = {std::max(high.x, s.x), std::max(high.y, s.y)};
      }
    }
    return std::pair{low, high};
  };
  const auto [low, high] = bounds(front, Role::skin);
  CHECK(low.y > 5);
  CHECK(low.x > 5);
  CHECK(high.x < front.width - 5);
  CHECK(0.5 * (low.x + high.x) == doctest::Approx(0.5 * front.width).epsilon(0.01));
  // From the patient's right the nose is at the right of the picture, both eyes are one, and the
  // ear is seen; from the front there are two eyes.
  CHECK(count(front, Role::camera) == 2);
  CHECK(count(right, Role::camera) == 1);
  CHECK(middle_of(right, Role::camera).x > 0.6 * right.width);
  // The nearer eye is focused on there.
  const auto rings = [](const Drawing& d) {
    std::size_t n = 0;
    for (const Item* item : flat(d))
      n += item->role == Role::mark && item->line.closed ? 1 : 0;
    return n;
  };
  CHECK(rings(right) == 1);
  CHECK(rings(front) == 0);
  // The other side's is its mirror image.
  const Work sides(changed(read_file(root() / "protocols/orthodontic.norma"),
                           "  face view face \"Full face",
                           "  face view profile_left \"L\", same as profile_right, for the other "
                           "side {\n    code EV06\n  }\n\n  face view face \"Full face"),
                   chair(3));
  const auto left = emit::card_drawings(sides.view("profile_left"), wording::english());
  REQUIRE(left);
  for (const Role role : {Role::skin, Role::camera, Role::body, Role::skin_edge}) {
    const Spot a = middle_of(right, role);
    const Spot b = middle_of(left->finder, role);
    CHECK(a.x == doctest::Approx(right.width - b.x).epsilon(0.01));
    CHECK(a.y == doctest::Approx(b.y).epsilon(0.01));
  }
  // Teeth show in a smile; else they are the whites of the eyes alone.
  CHECK(count(face("smile").finder, Role::tooth) == count(front, Role::tooth) + 1);
  // From above: the camera at the patient's right, no teeth.
  const Drawing above = face("profile_right").above;
  CHECK(count(above, Role::other_tooth) == 0);
  CHECK(middle_of(above, Role::camera).x < 20);
}

TEST_CASE("the whole series as one table for the screen: a row for each view, and nothing runs") {
  const std::string hostile = "</th><script>alert(1)</script>&'";
  for (const int kit : {3, 7}) {
    const Work work(changed(five(), "Upper arch", hostile), chair(kit));
    const emit::Cards cards = emit::cards_of(
        work.session->report(), work.session->report().held.front(), "", wording::english());
    const std::string html = emit::cards_in_rows_html({cards}, wording::english());
    const auto times = [&](std::string_view what) {
      std::size_t n = 0;
      for (std::size_t at = html.find(what); at != std::string::npos; at = html.find(what, at + 1))
        ++n;
      return n;
    };
    CHECK(times("scope=\"row\"") == cards.cards.size());
    CHECK(times("<tr>") == cards.cards.size() + 1);
    CHECK(times("</tr>") == times("<tr>"));
    CHECK(times("<td") == times("</td>"));
    CHECK(times("alert(1)</script>") == 0);
    CHECK(times("<script>") == 1); // which is empty
    CHECK(times(" src=") == 0);
    CHECK(times("://") == times("http://www.w3.org/2000/svg"));
    for (const emit::Card& c : cards.cards) {
      if (!c.had) continue;
      for (const emit::CardSetting& s : c.settings)
        CHECK(times(s.value) > 0);
    }
    CHECK((times("NOT AT THIS CHAIR") > 0) == (kit == 7));
  }
}

} // namespace norma::test
