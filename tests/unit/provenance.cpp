// What a fact rests on is recorded as it is read: the recorder by itself, and the proof over
// shipped protocols and kits that what a fact hangs on is among its inputs.
#include <doctest/doctest.h>

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "facts/facts.hpp"
#include "facts/recorder.hpp"
#include "kit/sections.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using namespace facts;

std::vector<std::string> inputs_of(const Facts& facts, const FactRow& row) {
  std::vector<std::string> out;
  for (const FactRow* input : facts.inputs(*facts.find(row)))
    out.emplace_back(input->name);
  return out;
}
using Names = std::vector<std::string>;

template <class F>
concept Written = requires(F& f) {
  f.put(fact::ratio, Magnification{0.5});
};
static_assert(Written<Recorder>);
static_assert(!Written<Facts>, "facts are written by a recorder alone");

// One view's facts -------------------------------------------------------------------------------

struct Ledger {
  Facts facts;
  Recorder recorder{facts};
};

} // namespace

TEST_CASE("a fact has as inputs what was read, once each and in order, and their weakest status") {
  Ledger l;
  l.recorder.give_asked(fact::ratio, Magnification{0.5});
  l.recorder.give(fact::pupil_ratio, physics::defaults::pupil);
  const Recording one(l.recorder);
  l.recorder.get(fact::ratio);
  l.recorder.put(fact::ratio_exact, Magnification{0.5});
  l.recorder.get(fact::pupil_ratio);
  l.recorder.get(fact::ratio);
  l.recorder.put(fact::effective_f_number, FNumber{33});
  CHECK(inputs_of(l.facts, fact::ratio_exact) == Names{"ratio"});
  CHECK(l.facts.find(fact::ratio_exact)->status == Status::asked);
  CHECK(inputs_of(l.facts, fact::effective_f_number) == Names{"ratio", "pupil_ratio"});
  CHECK(l.facts.find(fact::effective_f_number)->status == Status::assumed);
}

TEST_CASE(
    "what is read in a Recording counts no longer when it has ended, what is around it does") {
  Ledger l;
  l.recorder.give_asked(fact::ratio, Magnification{0.5});
  l.recorder.give_asked(fact::sensor, Size{36.0 * mm, 24.0 * mm});
  l.recorder.give(fact::pupil_ratio, physics::defaults::pupil);
  Record record;
  {
    const Recording outer(l.recorder);
    l.recorder.get(fact::ratio);
    {
      const Recording inner(l.recorder);
      l.recorder.get(fact::pupil_ratio);
      l.recorder.put(fact::lens_greatest, Magnification{1});
      record = l.recorder.kept();
    }
    l.recorder.get(fact::sensor);
    l.recorder.put(fact::field_width, 72.0 * mm);
  }
  CHECK(inputs_of(l.facts, fact::lens_greatest) == Names{"ratio", "pupil_ratio"});
  CHECK(inputs_of(l.facts, fact::field_width) == Names{"ratio", "sensor"});
  CHECK(l.facts.find(fact::field_width)->status == Status::asked);
  // A value that leaves takes its record along.
  const Recording later(l.recorder);
  l.recorder.use(record);
  l.recorder.put(fact::field_height, 48.0 * mm);
  CHECK(inputs_of(l.facts, fact::field_height) == Names{"ratio", "pupil_ratio"});
  CHECK(l.facts.find(fact::field_height)->status == Status::assumed);
}

TEST_CASE("whether a fact is there is an input whose status does not count") {
  Ledger l;
  l.recorder.give(fact::pupil_ratio, physics::defaults::pupil);
  const Recording one(l.recorder);
  CHECK(l.recorder.has(fact::pupil_ratio));
  CHECK_FALSE(l.recorder.has(fact::ratio));
  l.recorder.put(fact::power_spread, 0.1 * stop);
  CHECK(inputs_of(l.facts, fact::power_spread) == Names{"pupil_ratio"});
  CHECK(l.facts.find(fact::power_spread)->status == Status::asked);
  CHECK(l.facts.worked_out_from(*l.facts.find(fact::power_spread)).empty());
  // Read by value, too, it is one input, and that counts.
  l.recorder.get(fact::pupil_ratio);
  l.recorder.put(fact::offset_spread, 0.1 * stop);
  CHECK(inputs_of(l.facts, fact::offset_spread) == Names{"pupil_ratio"});
  CHECK_FALSE(l.facts.worked_out_from(*l.facts.find(fact::offset_spread)).empty());
  CHECK(l.facts.find(fact::offset_spread)->status == Status::assumed);
}

TEST_CASE("a piece of the kit is as certain as the kit, however it was chosen") {
  Ledger l;
  l.recorder.give(fact::pupil_ratio, physics::defaults::pupil);
  const Recording one(l.recorder);
  l.recorder.get(fact::pupil_ratio);
  l.recorder.put_of_kit(fact::mirror, diag::Said("wide"));
  CHECK(inputs_of(l.facts, fact::mirror) == Names{"pupil_ratio"});
  CHECK(l.facts.find(fact::mirror)->status == Status::measured);
  // Its value is not worked out from that.
  CHECK(l.facts.worked_out_from(*l.facts.find(fact::mirror)).empty());
  l.recorder.put_asked(fact::focus, diag::Said("on that tooth"));
  CHECK(inputs_of(l.facts, fact::focus) == Names{"pupil_ratio"});
  CHECK(l.facts.find(fact::focus)->status == Status::asked);
}

TEST_CASE("a fact whose input is missing, broken or impossible is so for that reason") {
  const auto field = [](Ledger& l) {
    return l.recorder.work_out(
        fact::field_width, [](Size s, Magnification m) { return s.width / m.value(); },
        fact::sensor, fact::ratio);
  };
  Ledger l;
  l.recorder.give_asked(fact::sensor, Size{36.0 * mm, 24.0 * mm});
  CHECK_FALSE(field(l));
  CHECK(l.facts.find(fact::field_width)->why.row == &fact::ratio);
  l.recorder.put_unknown(fact::ratio, diag::missing::ratio());
  CHECK_FALSE(field(l));
  CHECK(l.facts.find(fact::field_width)->state == State::unknown);
  CHECK(l.facts.find(fact::field_width)->why == diag::missing::ratio());
  l.recorder.put_impossible(fact::ratio, phrase::lens_cannot_be_set(), Magnification{1});
  CHECK_FALSE(field(l));
  CHECK(l.facts.find(fact::field_width)->state == State::unknown);
  CHECK(l.facts.find(fact::field_width)->why.row == &fact::ratio);
  l.recorder.put_broken(fact::ratio);
  CHECK_FALSE(field(l));
  CHECK(l.facts.find(fact::field_width)->state == State::broken);
  l.recorder.give_asked(fact::ratio, Magnification{0.5});
  CHECK(field(l));
  CHECK(*l.facts.get(fact::field_width) == 72.0 * mm);
  CHECK(inputs_of(l.facts, fact::field_width) == Names{"sensor", "ratio"});
  // Worked out anew from what it was: it is not its own input.
  const Recording again(l.recorder);
  const Length width = *l.recorder.get(fact::field_width);
  l.recorder.put(fact::field_width, 0.5 * width);
  CHECK(inputs_of(l.facts, fact::field_width) == Names{"sensor", "ratio"});
}

TEST_CASE("facts kept elsewhere are followed back to those that are here") {
  Ledger there;
  there.recorder.give(fact::pupil_ratio, physics::defaults::pupil);
  there.recorder.work_out(
      fact::ratio, [](PupilRatio p) { return Magnification{p.value()}; }, fact::pupil_ratio);
  Ledger l;
  l.recorder.give(fact::pupil_ratio, physics::defaults::pupil);
  const Recording one(l.recorder);
  CHECK(l.recorder.get_in(there.facts, fact::ratio) == Magnification{1});
  l.recorder.put(fact::lens_least, Magnification{1});
  CHECK(inputs_of(l.facts, fact::lens_least) == Names{"pupil_ratio"});
  CHECK(l.facts.find(fact::lens_least)->status == Status::assumed);
}

// The proof --------------------------------------------------------------------------------------

namespace {

/// A change of a kit, and the facts it may change of itself.
struct Change {
  std::string what;
  std::string kit;
  std::set<std::string_view> roots;
};

std::string with_section(const std::string& kit, std::string_view section, std::string_view line) {
  return fmt::format("{}\n{}:\n  {}\n", kit, section, line);
}

/// Away from norma's own by a share, within what a kit may say.
std::string moved(const kit::OwnValueKey& key, double share) {
  const double own = key.which->value;
  const double up = own == 0 ? 1 : own * (1 + share);
  const double value = up <= key.most ? up : own * (1 - share);
  return fmt::format("{}: {:.3g} {}", key.name, value,
                     key.which->unit == "mm" || key.which->unit == "deg" ? key.which->unit : "");
}

const std::set<std::string_view> corners{"corner_side",       "corner_back",
                                         "other_corner_side", "other_corner_back",
                                         "firm_corner_side",  "firm_corner_back"};

std::vector<Change> changes_of(const std::string& kit) {
  const std::vector<std::pair<const physics::Default*, std::string_view>> facts_of{
      {&physics::defaults::loss_good_for, "mirror_loss_age_limit"},
      {&physics::defaults::frosting_good_for, "frosting_age_limit"},
      {&physics::defaults::shot_good_for, "reference_age_limit"},
      {&physics::defaults::ambient_margin, "room_light_limit"},
      {&physics::defaults::white_balance_off, "white_balance_off_limit"},
      {&physics::defaults::patient_moves, "movement"},
      {&physics::defaults::field_used, "field_use_least"},
      {&physics::defaults::room_to_spare, "least_spare_wanted"},
      {&physics::defaults::shown_share, "least_seen"},
      {&physics::defaults::mirror_share, "least_in_mirror"},
      {&physics::defaults::lit_share, "least_lit"},
      {&physics::defaults::turned_straight, "turned_limit"},
      {&physics::defaults::turned_elsewhere, "turned_limit"},
      {&physics::defaults::squarely, "squarely_limit"},
      {&physics::defaults::mirror_gap, "mirror_gap"},
      {&physics::defaults::insertions_most, "insertions_limit"},
      {&physics::defaults::minutes_most, "minutes_limit"},
      {&physics::defaults::minutes_for_view, "minutes_for_view"},
      {&physics::defaults::minutes_for_insertion, "minutes_for_insertion"}};
  std::vector<Change> out;
  for (const kit::OwnValueKey& key : kit::limit_section().keys) {
    const auto row = std::find_if(facts_of.begin(), facts_of.end(),
                                  [&](const auto& r) { return r.first == key.which; });
    REQUIRE_MESSAGE(row != facts_of.end(), "no fact for the limit ", std::string(key.name));
    out.push_back({moved(key, 0.3), with_section(kit, "limits", moved(key, 0.3)), {row->second}});
  }
  // Of the sizes of a mouth a few of each kind; all of them are one fact.
  const auto& sizes = kit::anatomy_section().keys;
  for (std::size_t i = 0; i < sizes.size(); i += 4) {
    // So little that there is still an arch that meets them.
    const std::string size = moved(sizes[i], 0.05);
    out.push_back({size, with_section(kit, "anatomy", size), {"patient"}});
  }
  for (const char* line : {"light aside: 26 mm", "even aside: 29 mm", "even back: 15 mm",
                           "firm aside: 33 mm", "firm back: 22 mm"})
    out.push_back({line, with_section(kit, "mouths", line), corners});
  out.push_back({"lips", with_section(kit, "mouths", "lips clear: 2 mm"), {"lips_clear"}});
  out.push_back({"open", with_section(kit, "mouths", "opened wide: 38 mm"), {"mouth_opening"}});
  const auto edit = [&](std::string_view from, std::string_view to,
                        std::set<std::string_view> roots) {
    if (kit.find(from) != std::string::npos)
      out.push_back({std::string(to), changed(kit, from, to), std::move(roots)});
  };
  edit("pupil ratio: 1\n", "pupil ratio: 1.2\n", {"pupil_ratio"});
  edit("focal length: 100 mm", "focal length: 90 mm", {"focal_length"});
  edit("sensor: 36 x 24 mm", "sensor: 23.6 x 15.7 mm", {"sensor"});
  edit("room light: 500 lx", "room light: 5000 lx", {"room_light"});
  edit("loss: 0.5 +- 0.1 stop", "loss: 0.9 +- 0.2 stop", {"mirror_loss", "mirror_loss_spread"});
  edit("patient hands: 2", "patient hands: 0", {"patient_hands"});
  edit("colour temperature: 5600 K", "colour temperature: 5000 K", {"lamp_temperature"});
  return out;
}

/// Does the fact say something else there, or is there none?
bool differs(const FactRow& row, const Facts& a, const Facts& b) {
  const Fact* x = a.find(row);
  const Fact* y = b.find(row);
  if (x == nullptr || y == nullptr) {
    // What rests on nothing is put where it is read: that is said by who reads it.
    const auto alone = [](const Facts& facts, const Fact* f) {
      return f != nullptr && facts.inputs(*f).empty() && f->state == State::value;
    };
    return x != y && !alone(a, x) && !alone(b, y);
  }
  return x->state != y->state || !(x->value == y->value) || !(x->why == y->why);
}

/// A fact that says something else has an input that does, or one that was changed, or it is one of
/// those that were changed: so, fact by fact, what changes reaches back to it.
void check_reached(const Facts& before, const Facts& after, const Change& change,
                   const std::string& where) {
  for (const FactRow* row : fact::all()) {
    if (!differs(*row, before, after) || change.roots.count(row->name) > 0) continue;
    // Which check is the tightest is told of all of them, and rests on the one that is told.
    if (row == &fact::tightest || row == &fact::tightest_reserve || row == &fact::hangs_on)
      continue;
    bool reached = false;
    for (const Facts* facts : {&before, &after}) {
      const Fact* f = facts->find(*row);
      if (f == nullptr) continue;
      for (const FactRow* input : facts->inputs(*f))
        reached = reached || change.roots.count(input->name) > 0 || differs(*input, before, after);
    }
    CHECK_MESSAGE(reached, where, ": ", std::string(row->name), " changes by `", change.what,
                  "`, and none of its inputs does");
  }
}

/// No fact rests on itself.
void check_order(const Facts& facts) {
  std::set<const FactRow*> done;
  std::set<const FactRow*> open;
  const auto visit = [&](const auto& self, const FactRow& row) -> bool {
    const Fact* f = facts.find(row);
    if (f == nullptr || done.count(&row) > 0) return true;
    if (!open.insert(&row).second) return false;
    for (const FactRow* input : facts.inputs(*f)) {
      if (!self(self, *input)) return false;
    }
    open.erase(&row);
    done.insert(&row);
    return true;
  };
  for (const Fact& f : facts.all())
    CHECK_MESSAGE(visit(visit, *f.row), std::string(f.row->name), " rests on itself");
}

} // namespace

TEST_CASE("what changes a fact is among what it rests on") {
  for (const char* protocol : {"five", "sides", "tongue_side"}) {
    const std::string text = read_file(root() / fmt::format("protocols/{}.norma", protocol));
    for (const int number : {3, 7}) {
      const Work before(text, chair(number));
      for (const auto& view : before.session->report().held.front().plan.views)
        check_order(view.facts);
      for (const Change& change : changes_of(chair(number))) {
        const Work after(text, change.kit);
        REQUIRE_FALSE(after.session->report().held.empty());
        const auto& there = after.session->report().held.front().plan;
        const auto& here = before.session->report().held.front().plan;
        for (std::size_t i = 0; i < here.views.size(); ++i)
          check_reached(
              here.views[i].facts, there.views[i].facts, change,
              fmt::format("{} chair {} view {}", protocol, number, here.views[i].view->name));
        for (std::size_t i = 0; i < here.series.size(); ++i)
          check_reached(here.series[i].facts, there.series[i].facts, change, protocol);
      }
    }
  }
}

} // namespace norma::test
