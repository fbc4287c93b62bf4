// What is done at the chair: typed, and how it is put into words.
#include <doctest/doctest.h>

#include <algorithm>

#include "emit/act_words.hpp"
#include "facts/facts.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using plan::Act;
using plan::Verb;
using plan::When;
using plan::Who;
namespace how = plan::how;
namespace object = plan::object;

const Act& act_of(const plan::ViewPlan& view, Verb verb) {
  const auto found = std::find_if(view.acts.begin(), view.acts.end(),
                                  [&](const Act& act) { return act.verb == verb; });
  REQUIRE(found != view.acts.end());
  return *found;
}

} // namespace

TEST_CASE("a retractor that the protocol wants dry is not told to be wetted") {
  const Work w(
      changed(five(), "retractor both   tension even", "retractor both   tension even, dry"),
      chair(3));
  const Act& retractor = act_of(w.view("front"), Verb::put_in_retractor);
  REQUIRE(!retractor.how.empty());
  CHECK(retractor.how.front() == how::turned_in_dry());
}

TEST_CASE("an act holds values, not their words") {
  const Work w(five(), chair(3));
  const plan::ViewPlan& front = w.view("front");
  const Act& retractor = act_of(front, Verb::put_in_retractor);
  CHECK(retractor.who == Who::assistant);
  CHECK(retractor.when == When::before);
  REQUIRE(retractor.objects.size() == 2);
  CHECK(retractor.objects[0] == diag::Value(object::right()));
  CHECK(retractor.objects[1] == front.facts.value(plan::fact::right_retractor));
  REQUIRE(retractor.how.size() == 3);
  CHECK(retractor.how[0] == how::wetted());
  CHECK(retractor.how[1] == how::tension(model::term_of(model::Tension::even)));
  CHECK(retractor.how[2] == how::patient_holds());
  const Act& camera = act_of(front, Verb::hold_camera);
  REQUIRE(camera.how.size() == 2);
  CHECK(camera.how[1] ==
        how::lens_from(front.facts.get(plan::fact::working_distance).value(), object::the_teeth()));
  const Act& look = act_of(front, Verb::look_for);
  const auto& shown = std::get<diag::List>(look.objects.front().is).items;
  REQUIRE(shown.size() == 1);
  const auto& facial = std::get<diag::Said>(shown.front().is);
  CHECK(facial.row == &object::facial);
  CHECK(std::get<diag::Teeth>(facial.arguments.front().is).size() == 20); // 15 to 25, 45 to 35
}

TEST_CASE("each verb has its number of objects, in every view that is shipped") {
  for (const char* name : {"five", "sides", "two_hands", "tongue_side", "restoration"}) {
    const Work w(read_file(root() / "protocols" / (std::string(name) + ".norma")), chair(3));
    for (const plan::ViewPlan& v : w.session->report().held.front().plan.views) {
      for (const Act& act : v.acts) {
        CAPTURE(said(act));
        CHECK(static_cast<int>(act.objects.size()) == plan::row_of(act.verb).arguments);
        for (const diag::Said& detail : act.how) {
          REQUIRE(detail.row != nullptr);
          CHECK(static_cast<int>(detail.arguments.size()) == detail.row->arguments);
        }
      }
    }
  }
}

TEST_CASE("when: before the picture, at it, after it") {
  const Work w(changed(five(), "  view front \"Front, teeth together\" {",
                       "  view front \"Front, teeth together\" {\n"
                       "    air on the teeth\n"
                       "    after picture wait 2 s, patient rests"),
               chair(3));
  const plan::ViewPlan& front = w.view("front");
  CHECK(act_of(front, Verb::put_in_retractor).when == When::before);
  CHECK(act_of(front, Verb::blow_air).when == When::at);
  CHECK(act_of(front, Verb::wait).when == When::after);
  CHECK(said(act_of(front, Verb::wait)) ==
        "Operator: after the picture wait 2 s; the patient rests");
  CHECK(std::is_sorted(front.acts.begin(), front.acts.end(),
                       [](const Act& a, const Act& b) { return a.when < b.when; }));
}

TEST_CASE("details stand behind commas, or behind the sign their text starts with") {
  Act act{Who::assistant,
          Verb::place,
          {object::ruler(), "below the lip"},
          {how::assistant_holds(), how::with_end("; in words")},
          When::before};
  // The sign is the row's: what is put into it brings none.
  CHECK(emit::act_text(act, wording::english()) ==
        "ruler below the lip; assistant holds it, ; in words");
  act.how = {how::marked("mirrored"), how::at_most(2)};
  CHECK(emit::act_text(act, wording::english()) ==
        "ruler below the lip: mark it \"mirrored\", at most 2 times");
  act.how.clear();
  CHECK(said(act) == "Assistant: ruler below the lip");
}

} // namespace norma::test
