// The session as a walk: states and what changes between them, worked out by hand; and what must
// hold in whatever order views are taken.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <random>

#include "emit/checklist.hpp"
#include "facts/facts.hpp"
#include "plan/walk/order.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using plan::Act;
using plan::Part;
using plan::Step;
using plan::Verb;
namespace how = plan::how;
namespace object = plan::object;

const plan::Plan& plan_of(const Work& w) { return w.session->report().held.front().plan; }

std::vector<Step> walked(const Work& w, const std::vector<std::string>& names) {
  std::vector<const plan::ViewPlan*> views;
  for (const std::string& name : names)
    views.push_back(&w.view(name));
  return plan::walk(plan_of(w), views);
}

std::vector<std::string> told(const std::vector<Act>& acts) {
  std::vector<std::string> out;
  for (const Act& act : acts)
    out.push_back(said(act));
  return out;
}
/// Those of the mouth, the patient and the operator's place: not aim, camera and what is said.
std::vector<std::string> handled(const std::vector<Act>& acts) {
  std::vector<Act> some;
  std::copy_if(acts.begin(), acts.end(), std::back_inserter(some), [](const Act& act) {
    switch (act.verb) {
    case Verb::hold_camera:
    case Verb::centre:
    case Verb::focus:
    case Verb::say:
    case Verb::look_for:
    case Verb::keep_out:
    case Verb::show_at_least:
    case Verb::take_again_if:
    case Verb::blow_air:
    case Verb::set_background: return false;
    default: return true;
    }
  });
  return told(some);
}

using Lines = std::vector<std::string>;

/// What is there, told by the acts alone, as somebody at the chair follows them.
struct Followed {
  std::map<std::string, std::string> there;

  static std::string text(const diag::Value& value) { return wording::english().text(value); }
  /// How it sits, whatever is done to get it there.
  static std::string sits(const Act& act) {
    std::string out;
    for (const diag::Said& detail : act.how) {
      if (detail.row != &how::wetted && detail.row != &how::turned_in_dry &&
          detail.row != &how::with_end)
        out += "; " + wording::english().text(detail);
    }
    return out;
  }
  void put(const std::string& side, const std::string& what) {
    if (side == "each") {
      put("right", what);
      put("left", what);
      return;
    }
    there[side] = what;
  }
  void take(const std::string& side) {
    if (side == "each") {
      take("right");
      take("left");
      return;
    }
    CHECK(there.erase(side) == 1); // nothing comes out that is not there
  }
  void follow(const std::vector<Act>& acts) {
    for (const Act& act : acts)
      follow(act);
  }
  void follow(const Act& act) {
    const std::string first = act.objects.empty() ? "" : text(act.objects.front());
    switch (act.verb) {
    case Verb::put_in_retractor:
      CHECK(there.count(first) == 0);
      put(first, sits(act));
      break;
    case Verb::keep_retractor:
      CHECK((first == "each" ? there.count("left") : there.count(first)) == 1);
      put(first, sits(act));
      break;
    case Verb::hold_with_fingers: put(first, "fingers" + sits(act)); break;
    case Verb::take_out_retractor:
    case Verb::let_go: take(first); break;
    case Verb::put_in_mirror:
      CHECK(there.count("mirror") == 0);
      there["mirror"] = first + sits(act);
      break;
    case Verb::turn_over_mirror:
    case Verb::put_mirror_in_again:
    case Verb::keep_mirror:
    case Verb::move_mirror:
      CHECK(there.count("mirror") == 1);
      there["mirror"] = first + sits(act);
      break;
    case Verb::take_out_mirror: take("mirror"); break;
    case Verb::place: there[first] = text(act.objects.back()) + sits(act); break;
    case Verb::take_away: take(first); break;
    case Verb::pose: there[first] = text(act.objects.back()); break;
    case Verb::open_at_least: there["opening"] = first; break;
    case Verb::stand_in_front:
    case Verb::stand_behind_head:
    case Verb::stand_at_side: there["operator"] = said(act); break;
    case Verb::take_out_first:
      if (first == "mirror") there.erase("mirror");
      if (first == "retractors") {
        there.erase("right");
        there.erase("left");
        there.erase("right and left");
      }
      break;
    default: break;
    }
  }
};

} // namespace

TEST_CASE("the five views of the shipped record, one after the other, by hand") {
  const Work w(five(), chair(3));
  const std::vector<Step> steps = walked(w, {"front", "upper", "lower", "right", "left"});
  REQUIRE(steps.size() == 5);
  CHECK(handled(steps[0].acts) ==
        Lines{"Patient: teeth together, usual bite",
              "Assistant: each side: frosted metal retractor, wetted and turned in, tension even; "
              "patient holds it"});
  CHECK(steps[0].stays.empty());
  CHECK(steps[0].insertions == 2);
  CHECK(handled(steps[1].acts) ==
        Lines{"Patient: head tipped back", "Patient: mouth open wide",
              "Assistant: put in occlusal mirror, narrow, opened 45 deg from the biting plane, "
              "behind the last tooth without touching it",
              "Operator: stand behind the patient's head"});
  CHECK(told(steps[1].stays) ==
        Lines{"Assistant: each side: frosted metal retractor stays, tension "
              "even; patient holds it"});
  CHECK(steps[1].insertions == 1);
  CHECK(handled(steps[2].acts) ==
        Lines{"Patient: head tipped down",
              "Assistant: turn over occlusal mirror, narrow, opened 45 deg from the biting plane, "
              "behind the last tooth without touching it",
              "Patient: tongue back, behind the mirror",
              "Operator: stand in front of the patient"});
  CHECK(told(steps[2].stays) ==
        Lines{"Patient: mouth open wide",
              "Assistant: each side: frosted metal retractor stays, tension "
              "even; patient holds it"});
  CHECK(steps[2].insertions == 1);
  CHECK(
      handled(steps[3].acts) ==
      Lines{
          "Assistant: take out occlusal mirror, narrow",
          "Patient: no longer: tongue back, behind the mirror", "Patient: head turned left",
          "Patient: teeth together, usual bite",
          "Assistant: right side: frosted metal retractor stays, tension firm, pulled outwards "
          "and back; assistant holds it",
          "Assistant: left side: frosted metal retractor stays, tension light; patient holds it"});
  CHECK(steps[3].insertions == 0);
  CHECK(
      handled(steps[4].acts) ==
      Lines{"Patient: head turned right",
            "Assistant: right side: frosted metal retractor stays, tension light; patient holds it",
            "Assistant: left side: frosted metal retractor stays, tension firm, pulled outwards "
            "and back; assistant holds it"});
  CHECK(told(plan::clear(plan_of(w), steps[4].after)) ==
        Lines{"Assistant: each side: take out frosted metal retractor"});
}

TEST_CASE("states, by hand") {
  const Work w(five(), chair(3));
  const std::vector<Step> steps = walked(w, {"front", "upper", "lower", "right"});
  const plan::Thing& right = steps[0].taken[Part::right_retractor];
  CHECK(right.what == w.view("front").facts.value(plan::fact::right_retractor));
  CHECK(right.there);
  CHECK(right.how ==
        std::vector{how::tension(model::term_of(model::Tension::even)), how::patient_holds()});
  CHECK(steps[0].taken[Part::left_retractor] == right);
  CHECK_FALSE(steps[0].taken[Part::mirror].there);
  CHECK(steps[1].taken[Part::right_retractor] == right);
  CHECK(steps[1].taken[Part::mirror].jaw == model::Jaw::upper);
  CHECK(steps[2].taken[Part::mirror].jaw == model::Jaw::lower);
  CHECK(steps[2].taken[Part::mirror].what == steps[1].taken[Part::mirror].what);
  CHECK(steps[3].taken[Part::mirror] == plan::Thing());
  CHECK(steps[3].taken[Part::right_retractor].how ==
        std::vector{how::tension(model::term_of(model::Tension::firm)),
                    how::pulled(model::term_of(model::Pull::outwards_and_back)),
                    how::assistant_holds()});
  CHECK(steps[3].taken[Part::head].what ==
        diag::Value(diag::Said(
            plan::row_of(Verb::pose),
            {object::head(), model::terms_of(std::vector{model::HeadPose::turned_left})})));
  // f/22, f/22, f/22, f/32; the mirror's half stop on the flash.
  CHECK(steps[1].set == std::vector{Part::flash, Part::offset});
  CHECK(steps[2].set.empty());
  CHECK(steps[3].set == std::vector{Part::aperture, Part::flash, Part::offset});
}

TEST_CASE("the orthodontic set: faces, arches, and heads that come back") {
  const Work w(read_file(root() / "protocols/orthodontic.norma"), chair(3));
  const std::vector<Step> steps =
      walked(w, {"profile_right", "face", "smile", "upper", "lower", "right", "front", "left"});
  CHECK(handled(steps[1].acts).empty());
  CHECK(handled(steps[2].acts) == Lines{"Patient: lips smiling"});
  CHECK(handled(steps[3].acts).front() == "Patient: no longer: lips smiling");
  // An upright head is not given up.
  CHECK(handled(walked(w, {"face", "front"})[1].acts).front().starts_with("Assistant: each side"));
  CHECK(steps[3].insertions == 3);
  CHECK(steps[4].insertions == 1);
  // Nothing is said of the head in the front view: it is no longer turned.
  CHECK(
      handled(steps[6].acts) ==
      Lines{"Patient: no longer: head turned left",
            "Assistant: each side: frosted metal retractor stays, tension even; patient holds it"});
  CHECK(told(steps[6].stays) == Lines{"Patient: teeth together, usual bite"});
}

TEST_CASE("what is told brings about what each view asks for, in whatever order") {
  std::mt19937 random(7);
  for (const char* name :
       {"five", "sides", "tongue_side", "restoration", "orthodontic", "soft_tissue", "no_teeth"}) {
    for (const std::string& kit : {chair(3), chair(7), std::string()}) {
      const Work w(read_file(root() / "protocols" / (std::string(name) + ".norma")), kit);
      const plan::Plan& p = plan_of(w);
      std::vector<const plan::ViewPlan*> views;
      for (const plan::ViewPlan& v : p.views)
        views.push_back(&v);
      REQUIRE_FALSE(views.empty());
      for (int round = 0; round < 40; ++round) {
        std::shuffle(views.begin(), views.end(), random);
        // Some are left out, as where the patient cannot.
        const std::vector<const plan::ViewPlan*> taken(
            views.begin(), views.begin() + 1 + static_cast<long>(random() % views.size()));
        Followed chair;
        for (const Step& step : plan::walk(p, taken)) {
          const model::View& v = *step.view->view;
          CAPTURE(v.name);
          std::vector<Act> now;
          std::vector<Act> after;
          for (const Act& act : step.acts)
            (act.when == plan::When::after ? after : now).push_back(act);
          // What rests goes first: nothing that was asked for before is left.
          for (const Act& act : now) {
            if (act.verb != Verb::no_longer) continue;
            for (const auto& one : std::get<diag::List>(act.objects.front().is).items) {
              const auto& pose = std::get<diag::Said>(one.is);
              if (pose.row == &plan::row_of(Verb::pose)) {
                chair.there.erase(Followed::text(pose.arguments.front()));
              } else if (pose.row == &plan::row_of(Verb::open_at_least)) {
                chair.there.erase("opening");
              } else {
                chair.there.erase("operator");
              }
            }
          }
          chair.follow(now);
          const auto holds = [&](const char* what) { return chair.there.count(what) == 1; };
          // What nobody has to give up is not told to end.
          const auto rests = [&](const char* what) {
            const auto pose = chair.there.find(what);
            return pose != chair.there.end() &&
                   (pose->second == "upright" || pose->second == "relaxed");
          };
          const auto piece = [](const text::Sourced<model::Retractor>& r) {
            return r.known() && !r->none && !r->mirror_takes_place;
          };
          const bool one = step.view->chosen.one_piece() != nullptr;
          CHECK(holds("right and left") == one);
          CHECK(holds("right") == (piece(v.right_retractor) && !one));
          CHECK(holds("left") == (piece(v.left_retractor) && !one));
          CHECK(holds("mirror") == v.mirror.known());
          CHECK(holds("contrast paddle") == v.paddle.known());
          CHECK(holds("suction") == v.suction.known());
          CHECK(holds("ruler") == v.ruler.known());
          CHECK(holds("shade tab") == v.shade_tab.known());
          CHECK((holds("head") && !rests("head")) == (v.head.known() && !rests("head")));
          CHECK((holds("tongue") && !rests("tongue")) == (v.tongue.known() && !rests("tongue")));
          CHECK((holds("lips") && !rests("lips")) == (v.lips.known() && !rests("lips")));
          // How each sits is what the view's own acts ask for.
          for (const Act& act : step.view->acts) {
            const std::string first =
                act.objects.empty() ? "" : Followed::text(act.objects.front());
            if (act.verb == Verb::put_in_retractor)
              CHECK(chair.there[first] == Followed::sits(act));
            if (act.verb == Verb::put_in_mirror || act.verb == Verb::turn_over_mirror)
              CHECK(chair.there["mirror"] == first + Followed::sits(act));
            if (act.verb == Verb::place)
              CHECK(chair.there[first] == Followed::text(act.objects.back()) + Followed::sits(act));
            if (act.verb == Verb::pose)
              CHECK(chair.there[first] == Followed::text(act.objects.back()));
          }
          chair.follow(after);
          if (step.view == taken.back()) chair.follow(plan::clear(p, step.after));
        }
        for (const char* gone : {"right and left", "right", "left", "mirror", "contrast paddle",
                                 "suction", "ruler", "shade tab", "frame"})
          CHECK(chair.there.count(gone) == 0);
      }
    }
  }
}

TEST_CASE("the same view again changes nothing, and what each view asks for is told or stays") {
  const Work w(five(), chair(3));
  for (const plan::ViewPlan& v : plan_of(w).views) {
    const std::vector<Step> twice = plan::walk(plan_of(w), {&v, &v});
    CHECK(handled(twice[1].acts).empty());
    CHECK(twice[1].insertions == 0);
    CHECK(twice[1].set.empty());
    CHECK(twice[0].taken == twice[1].taken);
  }
}

TEST_CASE("a mirror that is not there is not turned over") {
  const Work w(read_file(root() / "protocols/orthodontic.norma"), chair(3));
  const auto has = [](const Step& step, Verb verb) {
    return std::any_of(step.acts.begin(), step.acts.end(),
                       [&](const Act& act) { return act.verb == verb; });
  };
  // The upper arch cannot be had: `same one turned over` has nothing to turn over.
  const std::vector<Step> steps = walked(w, {"front", "lower"});
  CHECK(has(steps[1], Verb::put_in_mirror));
  CHECK_FALSE(has(steps[1], Verb::turn_over_mirror));
  // A mirror in the cheek goes out and into the other one.
  const Work sides(read_file(root() / "protocols/sides.norma"), chair(3));
  const std::vector<Step> both = walked(sides, {"right_mirror", "left_mirror"});
  CHECK_FALSE(both[0].after[Part::mirror].there); // taken out first
  CHECK(has(both[1], Verb::put_in_mirror));
  CHECK(has(both[1], Verb::take_out_retractor));
}

namespace {

std::vector<const plan::ViewPlan*> views_of(const Work& w, const std::vector<std::string>& names) {
  std::vector<const plan::ViewPlan*> out;
  for (const std::string& name : names)
    out.push_back(&w.view(name));
  return out;
}
std::pair<int, int> asks(const Work& w, const std::vector<const plan::ViewPlan*>& views) {
  const plan::Effort effort = plan::effort_of(plan_of(w), views);
  return {effort.insertions, effort.changes};
}
/// The least of all orders that `allowed` takes.
template <class Allowed>
std::pair<int, int> least(const Work& w, std::vector<const plan::ViewPlan*> views,
                          Allowed allowed) {
  std::sort(views.begin(), views.end());
  std::pair<int, int> out{1000, 1000};
  do {
    if (allowed(views)) out = std::min(out, asks(w, views));
  } while (std::next_permutation(views.begin(), views.end()));
  return out;
}

} // namespace

TEST_CASE("what a series asks, by hand") {
  const Work w(five(), chair(3));
  const auto views = views_of(w, {"front", "upper", "lower", "right", "left"});
  // Teeth, two retractors as one, six settings; head, mouth, mirror, place, flash and its offset;
  // head, mirror, tongue, place; mirror out, tongue, head, teeth, two retractors, aperture, flash,
  // offset; head, two retractors.
  CHECK(asks(w, views) == std::pair(4, 8 + 6 + 4 + 9 + 3));
  // Five views at a minute, four insertions at half of one.
  CHECK(plan::effort_of(plan_of(w), views).minutes.value() == doctest::Approx(7.0));
  // Nothing of the face goes into the mouth.
  const Work set(read_file(root() / "protocols/orthodontic.norma"), chair(3));
  const plan::Effort faces =
      plan::effort_of(plan_of(set), views_of(set, {"profile_right", "face", "smile"}));
  CHECK(faces.insertions == 0);
  CHECK(faces.minutes.value() == 0);
}

TEST_CASE("another order is the best that all orders have, and an ordinary one is left alone") {
  const Work w(five(), chair(3));
  const auto any = [](const auto&) { return true; };
  const auto full = views_of(w, {"front", "upper", "lower", "right", "left"});
  CHECK(least(w, full, any).first == 4);
  CHECK(plan::better_order(plan_of(w), full).empty());
  // The mirror comes out for the front view, and goes in again for the other arch.
  const auto apart = views_of(w, {"upper", "right", "lower", "left", "front"});
  const auto better = plan::better_order(plan_of(w), apart);
  REQUIRE(better.size() == 5);
  CHECK(asks(w, better) == least(w, apart, any));
  CHECK(asks(w, better) < asks(w, apart));
  // In the orthodontic set the mirror is turned over: the lower arch stays behind the upper one.
  const Work set(read_file(root() / "protocols/orthodontic.norma"), chair(3));
  const auto mouth = views_of(set, {"upper", "lower", "right", "front", "left"});
  const auto other = plan::better_order(plan_of(set), mouth);
  const auto behind = [&](const std::vector<const plan::ViewPlan*>& order) {
    const auto upper = std::find(order.begin(), order.end(), &set.view("upper"));
    return upper != order.end() && upper + 1 != order.end() && *(upper + 1) == &set.view("lower");
  };
  REQUIRE_FALSE(other.empty());
  CHECK(behind(other));
  CHECK(asks(set, other) == least(set, mouth, behind));
  // Faces come first where they do.
  const auto all =
      views_of(set, {"profile_right", "face", "smile", "upper", "lower", "right", "front", "left"});
  const auto sheet = plan::better_order(plan_of(set), all);
  REQUIRE(sheet.size() == 8);
  for (std::size_t i = 0; i < 3; ++i)
    CHECK(sheet[i]->view->kind == model::ViewKind::face);
}

TEST_CASE("what must keep its order does") {
  const std::string dried =
      changed(changed(five(), "  view upper \"Upper arch\" {",
                      "  view upper \"Upper arch\" {\n    taken            before drying"),
              "  view front \"Front, teeth together\" {",
              "  view front \"Front, teeth together\" {\n    taken            after drying");
  const Work w(dried, chair(3));
  const auto given = views_of(w, {"upper", "right", "lower", "left", "front"});
  const auto better = plan::better_order(plan_of(w), given);
  REQUIRE_FALSE(better.empty());
  const auto at = [&](const char* name) {
    return std::find(better.begin(), better.end(), &w.view(name)) - better.begin();
  };
  CHECK(at("upper") < at("front"));
  // A step of the protocol's own may need its place.
  const Work step(changed(five(), "  view right \"Right side\" {",
                          "  view right \"Right side\" {\n    step operator \"rinse\""),
                  chair(3));
  CHECK(plan::better_order(plan_of(step),
                           views_of(step, {"upper", "right", "lower", "left", "front"}))
            .empty());
}

TEST_CASE("five views on two pages, the first on the first of them") {
  const Work w(five(), chair(3));
  const auto& report = w.session->report();
  const std::string text =
      emit::as_text(emit::checklist(report, report.held.front(), "", wording::english()));
  const auto line_of = [&](std::string_view what) {
    const std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n');
  };
  CHECK(line_of("\n1. Front, teeth together") + 1 <= 35);
  CHECK(line_of("Signed: Operator") <= 2 * 60);
  CHECK(line_of("for the lead\n===") > line_of("Signed: Operator")); // a sheet of its own
}

TEST_CASE(
    "a second choice starts from its first choice, and a view that cannot be had is passed over") {
  const auto list = [](const Work& w) {
    const auto& report = w.session->report();
    return emit::as_text(emit::checklist(report, report.held.front(), "", wording::english()));
  };
  const std::string sides = list(Work(read_file(root() / "protocols/sides.norma"), chair(3)));
  const std::string second = sides.substr(sides.find("3. Right side, directly"));
  CHECK(second.find("  - Assistant: take out buccal mirror\n") < second.find("4. Left side"));
  CHECK(second.find("Once this is taken, number 2 goes so instead") < second.find("4. Left side"));
  // The upper arch cannot be had at 1:1: the lower one finds no mirror to turn over.
  const std::string text = changed(five(), "    mouth            open wide\n",
                                   "    mouth            open wide\n    ratio            1:1\n");
  const std::string upper = list(Work(changed(text, "    head             tipped down\n",
                                              "    head             tipped down\n"
                                              "    ratio            1:2\n"),
                                      chair(3)));
  REQUIRE(upper.find("2. Upper arch (IV25): CANNOT BE HAD") != std::string::npos);
  CHECK(upper.find("the view after it goes on from the one before it") != std::string::npos);
  CHECK(upper.find("turn over") == std::string::npos);
  CHECK(upper.find("put in occlusal mirror") > upper.find("3. Lower arch (IV27)\n"));
}

TEST_CASE("how pictures are laid out is not the order in which they are taken") {
  const Work w(changed(five(), "series full = front, upper, lower, right, left",
                       "series full = front, upper, lower, right, left,\n"
                       "    laid out upper, lower, next row right, front, left"),
               chair(3));
  CHECK(w.codes() == Work(five(), chair(3)).codes());
  const auto& series = plan_of(w).protocol->series.back();
  std::vector<std::string> order;
  for (const model::SeriesEntry& e : series.entries)
    order.push_back(e.view);
  CHECK(order == std::vector<std::string>{"front", "upper", "lower", "right", "left"});
  CHECK(series.rows ==
        std::vector<std::vector<std::string>>{{"upper", "lower"}, {"right", "front", "left"}});
  // A view that is not there is told, in a row as in the series.
  CHECK(Work(changed(five(), "right, left", "right, left, laid out nothing"), chair(3))
            .count("R005") == 1);
}

} // namespace norma::test
