#include "plan/walk/walk.hpp"

#include <algorithm>
#include <optional>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

using diag::Value;

constexpr auto parts = static_cast<std::size_t>(Part::count);
constexpr Part retractor_parts[] = {Part::both_retractors, Part::right_retractor,
                                    Part::left_retractor};
constexpr Part mouth_parts[] = {Part::both_retractors, Part::right_retractor, Part::left_retractor,
                                Part::mirror,          Part::contrast_paddle, Part::shade_tab,
                                Part::ruler,           Part::suction};
bool is_set(Part part) { return part >= Part::ratio; }

/// The row of what an act is done to; null where it has none.
const diag::Row* row_in(const Value& value) {
  const auto* said = std::get_if<Said>(&value.is);
  return said == nullptr ? nullptr : said->row;
}

Said side_of(Part part) {
  return part == Part::both_retractors   ? object::both()
         : part == Part::right_retractor ? object::right()
                                         : object::left();
}

/// The part that an act brings about; nothing for what is done in each view anew.
std::optional<Part> part_of(const Act& act) {
  const auto by_object =
      [&](std::initializer_list<std::pair<const diag::Row*, Part>> rows) -> std::optional<Part> {
    for (const auto& [row, part] : rows) {
      if (row == row_in(act.objects.front())) return part;
    }
    return std::nullopt;
  };
  switch (act.verb) {
  case Verb::pose:
    return by_object({{&object::head, Part::head},
                      {&object::mouth, Part::jaw},
                      {&object::teeth, Part::jaw},
                      {&object::dentures, Part::dentures},
                      {&object::lips, Part::lips},
                      {&object::tongue, Part::tongue}});
  case Verb::open_at_least: return Part::jaw;
  case Verb::put_in_retractor:
  case Verb::leave_out_retractor:
  case Verb::hold_with_fingers:
  case Verb::leave_place_to_mirror:
    return by_object({{&object::both, Part::both_retractors},
                      {&object::right, Part::right_retractor},
                      {&object::left, Part::left_retractor}});
  case Verb::put_in_mirror:
  case Verb::turn_over_mirror: return Part::mirror;
  case Verb::place:
    return by_object({{&object::contrast_paddle, Part::contrast_paddle},
                      {&object::shade_tab, Part::shade_tab},
                      {&object::ruler, Part::ruler},
                      {&object::suction, Part::suction}});
  case Verb::stand_in_front:
  case Verb::stand_behind_head:
  case Verb::stand_at_side: return Part::operator_place;
  case Verb::set_guide: return Part::guide;
  case Verb::set_frame: return Part::frame;
  case Verb::set_background:
  case Verb::keep_background_behind: return Part::background;
  case Verb::hold_camera: return Part::camera;
  case Verb::centre:
  case Verb::focus: return Part::aim;
  case Verb::move_lamp:
  case Verb::know_lamp_side:
  case Verb::know_lamp_lies_wrong: return Part::lamp_side;
  default: return std::nullopt;
  }
}

/// What is said of how a piece goes in counts for its going in alone.
std::vector<Said> as_it_sits(const Act& act) {
  std::vector<Said> out;
  for (const Said& detail : act.how) {
    if (detail.row != &how::wetted && detail.row != &how::turned_in_dry &&
        detail.row != &how::with_end)
      out.push_back(detail);
  }
  return out;
}

Value with_end(Value name, const std::optional<model::End>& end) {
  return end ? Value(phrase::piece_with_end(std::move(name), model::term_of(*end))) : name;
}

/// A retractor of the kit by its name; without one, by all that is asked of it.
Value retractor_of(const Act& act, const model::Retractor& asked, const kit::Retractor* chosen) {
  Value name = with_end(act.objects.back(), asked.end);
  if (chosen != nullptr || (!asked.material && !asked.finish)) return name;
  List out{{std::move(name)}};
  if (asked.material) out.items.emplace_back(model::term_of(*asked.material));
  if (asked.finish) out.items.emplace_back(model::term_of(*asked.finish));
  return out;
}

/// A mirror of the kit by its name; without one, by its use.
Value mirror_of(const Act& act, const model::Mirror& asked, const kit::Mirror* chosen) {
  Value name = with_end(act.objects.front(), asked.end);
  if (chosen != nullptr) return name;
  List out{{std::move(name), term_of(asked.use)}};
  if (asked.disc) out.items.emplace_back(*asked.disc);
  return out;
}

Thing thing_of(const ViewPlan& v, Part part, const Act& act) {
  Thing out{Said(plan::row_of(act.verb), act.objects), act.how};
  switch (act.verb) {
  case Verb::put_in_retractor: {
    const bool left = part == Part::left_retractor;
    out.what = retractor_of(act, (left ? v.view->left_retractor : v.view->right_retractor).get(),
                            left ? v.chosen.left_retractor : v.chosen.right_retractor);
    out.how = as_it_sits(act);
    out.there = true;
    return out;
  }
  case Verb::put_in_mirror:
  case Verb::turn_over_mirror: {
    const model::Mirror& m = v.view->mirror.get();
    out.what = mirror_of(act, m, v.chosen.mirror);
    out.side = m.side;
    if (!m.side) out.jaw = shown_jaw(*v.view);
    out.how = as_it_sits(act);
    out.there = true;
    return out;
  }
  case Verb::hold_with_fingers:
  case Verb::place:
  case Verb::set_frame: out.there = true; return out;
  case Verb::set_guide: out.there = v.view->guide.get() != model::Guide::off; return out;
  default: return out;
  }
}

/// A pose that nobody has to give up: an upright head, lips and tongue at rest.
bool at_rest(const Thing& thing) {
  const auto* pose = std::get_if<Said>(&thing.what.is);
  if (pose == nullptr || pose->row != &plan::row_of(Verb::pose)) return false;
  const Value& how = pose->arguments.back();
  const auto* several = std::get_if<List>(&how.is);
  const diag::Row* row =
      row_in(several != nullptr && several->items.size() == 1 ? several->items.front() : how);
  return row == &model::row_of(model::HeadPose::upright).term ||
         row == &model::row_of(model::Lips::relaxed).term ||
         row == &model::row_of(model::Tongue::relaxed).term;
}

std::vector<Act> acts_to_clear(Part part, const Thing& thing, Who helper) {
  const auto away = [&](const diag::Term& what) {
    return std::vector<Act>{{helper, Verb::take_away, {what()}, {}}};
  };
  switch (part) {
  case Part::both_retractors:
  case Part::right_retractor:
  case Part::left_retractor:
    if (by_fingers(thing)) return {{helper, Verb::let_go, {side_of(part)}, {}}};
    return {{helper, Verb::take_out_retractor, {side_of(part), thing.what}, {}}};
  case Part::mirror: return {{helper, Verb::take_out_mirror, {thing.what}, {}}};
  case Part::contrast_paddle: return away(object::contrast_paddle);
  case Part::shade_tab: return away(object::shade_tab);
  case Part::ruler: return away(object::ruler);
  case Part::suction: return away(object::suction);
  case Part::guide: return away(object::guide);
  case Part::frame: return away(object::frame);
  default: return {};
  }
}

/// Two acts that are alike on the right and on the left are one.
void each_side(std::vector<Act>& acts) {
  for (std::size_t i = 0; i + 1 < acts.size(); ++i) {
    Act& a = acts[i];
    const Act& b = acts[i + 1];
    if (a.objects.empty() || b.objects.empty() || row_in(a.objects.front()) != &object::right ||
        row_in(b.objects.front()) != &object::left)
      continue;
    Act both = a;
    both.objects.front() = object::left();
    if (both.who != b.who || both.verb != b.verb || both.when != b.when ||
        !(both.objects == b.objects) || !(both.how == b.how))
      continue;
    a.objects.front() = object::each();
    acts.erase(acts.begin() + static_cast<std::ptrdiff_t>(i) + 1);
  }
}

/// Works out one view from how things stand before it.
class Taking {
 public:
  Taking(const Plan& plan, const Moment& before, const ViewPlan& view)
      : view_(view), helper_(helper_of(*plan.protocol, plan.kit)), said_(said_of(view)),
        before_(before), was_(before) {
    step_.view = &view;
  }

  Step run() {
    come_out();
    rest();
    for (const Act& act : view_.acts)
      one(act);
    each_side(step_.acts);
    each_side(step_.stays);
    step_.taken = was_;
    for (std::size_t i = 0; i < parts; ++i) {
      const auto part = static_cast<Part>(i);
      const Thing& wanted = said_[part];
      if (wanted.unsaid()) continue;
      if (is_set(part) && !(was_[part] == wanted)) step_.set.push_back(part);
      step_.taken[part] = wanted;
    }
    step_.after = step_.taken;
    taken_out_first();
    return std::move(step_);
  }

 private:
  void add(Act act) { step_.acts.push_back(std::move(act)); }

  /// The same piece, as far as anybody knows.
  [[nodiscard]] bool keeps(Part part) const {
    return was_[part].there && said_[part].there && was_[part].what == said_[part].what;
  }
  [[nodiscard]] bool mirror_elsewhere() const {
    const Thing& was = was_[Part::mirror];
    const Thing& wanted = said_[Part::mirror];
    return was.jaw != wanted.jaw || was.side != wanted.side || says_turned_over();
  }
  [[nodiscard]] bool says_turned_over() const {
    return view_.view->mirror.known() && view_.view->mirror->turned_over;
  }
  /// Does a piece go into the mouth, or into another place in it?
  [[nodiscard]] bool goes_in(Part part) const {
    if (!said_[part].there) return false;
    if (part == Part::mirror) return !keeps(part) || mirror_elsewhere();
    return !by_fingers(said_[part]) && !keeps(part);
  }
  [[nodiscard]] bool anything_goes_in() const {
    return goes_in(Part::mirror) ||
           std::any_of(std::begin(retractor_parts), std::end(retractor_parts),
                       [&](Part part) { return goes_in(part); });
  }

  /// What is there and is not wanted as it is comes out before anything goes in. Where dentures
  /// come out, or go in, all of it does.
  void come_out() {
    const bool all = !was_[Part::dentures].unsaid() && !said_[Part::dentures].unsaid() &&
                     !(was_[Part::dentures] == said_[Part::dentures]);
    for (const Part part : mouth_parts) {
      if (was_[part].there && (all || !keeps(part))) take_out(part);
    }
    if (was_[Part::guide].there && said_[Part::guide].unsaid()) take_out(Part::guide);
    if (was_[Part::frame].there && !keeps(Part::frame)) take_out(Part::frame);
  }
  void take_out(Part part) {
    for (Act& act : acts_to_clear(part, was_[part], helper_))
      add(std::move(act));
    was_[part] = {};
    out_[static_cast<std::size_t>(part)] = true;
  }

  /// What the view before asked of the patient and the operator, and this one does not.
  void rest() {
    const auto no_longer = [&](Who who, std::initializer_list<Part> several) {
      List all;
      for (const Part part : several) {
        if (was_[part].unsaid() || !said_[part].unsaid() || at_rest(was_[part])) continue;
        if (const auto* acts = std::get_if<List>(&was_[part].what.is)) {
          all.items.insert(all.items.end(), acts->items.begin(), acts->items.end());
        } else {
          all.items.push_back(was_[part].what);
        }
        was_[part] = {};
      }
      if (!all.items.empty()) add({who, Verb::no_longer, {std::move(all)}, {}});
    };
    no_longer(Who::patient, {Part::head, Part::jaw, Part::lips, Part::tongue});
    // In front is where an operator stands of whom nothing is said.
    if (row_in(was_[Part::operator_place].what) != &plan::row_of(Verb::stand_in_front))
      no_longer(Who::operator_, {Part::operator_place});
  }

  /// Camera and aim are taken anew where operator or mirror have moved.
  [[nodiscard]] bool taken_anew(Part part) const {
    if (part == Part::jaw) return apart_;
    if (part != Part::camera && part != Part::aim) return false;
    return !(before_[Part::operator_place] == said_[Part::operator_place]) ||
           !(before_[Part::mirror] == said_[Part::mirror]);
  }

  void one(const Act& act) {
    const std::optional<Part> part = part_of(act);
    if (!part) {
      event(act);
    } else if (act.verb == Verb::put_in_retractor) {
      retractor(*part, act);
    } else if (*part == Part::mirror) {
      mirror(act);
    } else if (act.verb == Verb::leave_out_retractor && out_[static_cast<std::size_t>(*part)]) {
      return; // it was told that it comes out
    } else if (was_[*part] == said_[*part] && !taken_anew(*part)) {
      step_.stays.push_back(act);
    } else {
      add(act);
    }
  }

  void event(const Act& act) {
    if (act.verb == Verb::while_things_go_in) {
      apart_ = anything_goes_in(); // and so the teeth come together anew
      if (!apart_) return;
    }
    if (act.verb == Verb::warm_mirror && !goes_in(Part::mirror)) return;
    add(act);
  }

  void retractor(Part part, const Act& act) {
    if (!keeps(part)) {
      ++step_.insertions;
      add(act);
      return;
    }
    const Thing& wanted = said_[part];
    Act stays{act.who, Verb::keep_retractor, {act.objects.front(), wanted.what}, wanted.how};
    (was_[part] == wanted ? step_.stays : step_.acts).push_back(std::move(stays));
  }

  void mirror(const Act& act) {
    const Thing& wanted = said_[Part::mirror];
    Act out = act;
    if (!keeps(Part::mirror)) {
      out.verb = Verb::put_in_mirror; // nothing is there to turn over
      ++step_.insertions;
      add(std::move(out));
      return;
    }
    if (mirror_elsewhere()) {
      ++step_.insertions;
      // Common practice, no source: the same mirror turned over serves the other arch.
      const bool other_arch = view_.view->mirror->use == model::MirrorUse::occlusal &&
                              was_[Part::mirror].jaw && wanted.jaw &&
                              view_.chosen.mirror != nullptr;
      out.verb =
          says_turned_over() || other_arch ? Verb::turn_over_mirror : Verb::put_mirror_in_again;
      add(std::move(out));
      return;
    }
    const bool same = was_[Part::mirror] == wanted;
    out.verb = same ? Verb::keep_mirror : Verb::move_mirror;
    (same ? step_.stays : step_.acts).push_back(std::move(out));
  }

  void taken_out_first() {
    if (!view_.view->take_out_first.known()) return;
    Moment& after = step_.after;
    switch (view_.view->take_out_first.get()) {
    case model::TakenOut::mirror: after[Part::mirror] = {}; break;
    case model::TakenOut::retractors:
      for (const Part part : retractor_parts)
        after[part] = {};
      break;
    case model::TakenOut::frame: after[Part::frame] = {}; break;
    case model::TakenOut::guide: after[Part::guide] = {}; break;
    }
  }

  const ViewPlan& view_;
  Who helper_;
  Moment said_; // by the view
  const Moment& before_;
  Moment was_; // once what is not wanted is out
  Step step_;
  std::array<bool, parts> out_{}; // what was told to come out
  bool apart_ = false;
};

} // namespace

bool by_fingers(const Thing& thing) {
  return row_in(thing.what) == &plan::row_of(Verb::hold_with_fingers);
}

bool changes(const Act& act) {
  switch (act.verb) {
  case Verb::no_longer:
  case Verb::keep_retractor:
  case Verb::take_out_retractor:
  case Verb::let_go:
  case Verb::keep_mirror:
  case Verb::move_mirror:
  case Verb::put_mirror_in_again:
  case Verb::take_out_mirror:
  case Verb::take_away: return true;
  default: return part_of(act).has_value();
  }
}

Moment said_of(const ViewPlan& v) {
  Moment out;
  for (const Act& act : v.acts) {
    const std::optional<Part> part = part_of(act);
    if (!part) continue;
    Thing thing = thing_of(v, *part, act);
    Thing& there = out[*part];
    if (*part != Part::jaw) {
      there = std::move(thing);
      continue;
    }
    List all = there.unsaid() ? List() : std::get<List>(there.what.is);
    all.items.push_back(std::move(thing.what));
    there.what = std::move(all);
  }
  const auto set = [&](Part part, std::initializer_list<const FactRow*> rows) {
    List all;
    for (const FactRow* row : rows) {
      if (v.facts.has(*row)) all.items.push_back(v.facts.value(*row));
    }
    if (!all.items.empty()) out[part].what = std::move(all);
  };
  set(Part::ratio, {&fact::ratio, &fact::lens_mark});
  set(Part::aperture, {&fact::aperture});
  set(Part::iso, {&fact::iso});
  set(Part::shutter, {&fact::shutter});
  set(Part::white_balance, {&fact::white_balance});
  set(Part::file_format, {&fact::file_format});
  set(Part::flash, {&fact::power});
  set(Part::lamp, {&fact::lamp});
  set(Part::offset, {&fact::offset, &fact::exposure_reference});
  return out;
}

Step take(const Plan& plan, const Moment& before, const ViewPlan& view) {
  return Taking(plan, before, view).run();
}

std::vector<Step> walk(const Plan& plan, const std::vector<const ViewPlan*>& views) {
  std::vector<Step> out;
  out.reserve(views.size());
  for (const ViewPlan* v : views)
    out.push_back(take(plan, out.empty() ? Moment() : out.back().after, *v));
  return out;
}

std::vector<Act> clear(const Plan& plan, const Moment& last) {
  std::vector<Act> out;
  const Who helper = helper_of(*plan.protocol, plan.kit);
  for (std::size_t i = 0; i < parts; ++i) {
    const auto part = static_cast<Part>(i);
    if (!last[part].there) continue;
    for (Act& act : acts_to_clear(part, last[part], helper))
      out.push_back(std::move(act));
  }
  each_side(out);
  for (Act& act : out)
    act.when = When::after;
  return out;
}

} // namespace norma::plan
