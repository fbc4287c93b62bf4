#include <algorithm>
#include <cmath>

#include "facts/facts.hpp"
#include "physics/optics.hpp"
#include "review/parts.hpp"

namespace norma::review {
namespace {

struct Row {
  const facts::FactRow* fact;
  Kind kind;
  words::Effect answers;
};
const std::vector<Row>& rows() {
  static const std::vector<Row> all{
#define NORMA_EFFECT(name, kind, answers) {&facts::fact::name, Kind::kind, words::Effect::answers},
#include "review/effects.def"
  };
  return all;
}

/// The value of the first that has one; empty where none has.
diag::Value value_of(const Planned& planned, const facts::FactRow& row) {
  for (const facts::Facts* facts : planned.facts) {
    const facts::Fact* found = facts->find(row);
    if (found != nullptr && found->state == facts::State::value) return *found->value;
  }
  return {};
}

/// Less than is printed of a number is no difference, nor is what norma takes for the same scale.
bool print_alike(const diag::Value& a, const diag::Value& b, Kind kind) {
  const auto* x = std::get_if<diag::Measure>(&a.is);
  const auto* y = std::get_if<diag::Measure>(&b.is);
  if (x == nullptr || y == nullptr || x->kind != y->kind) return a == b;
  if (kind == Kind::scale && y->number > 0 &&
      std::abs(x->number / y->number - 1) <= physics::ratio_tolerance)
    return true;
  return physics::written(x->kind, x->number, true).number ==
         physics::written(y->kind, y->number, true).number;
}

/// What is no change of the pictures: how they are shot, where a wanted picture is made of them;
/// what is seen, where one side was not looked at (that is told as not checked).
bool no_matter(const Row& row, const Planned& before, const Planned& after) {
  namespace fact = facts::fact;
  const auto both = [&](const facts::FactRow& of) {
    return !value_of(before, of).empty() && !value_of(after, of).empty();
  };
  // From another direction it is another picture anyway.
  if (row.fact == &fact::orientation_shot)
    return both(fact::orientation_wanted) ||
           value_of(before, fact::roll) == value_of(after, fact::roll);
  if (row.fact == &fact::teeth_seen) return !both(fact::teeth_seen);
  return false;
}

/// Those of `all` that are like none of `others`.
template <class T, class Like>
std::vector<T> without(const std::vector<T>& all, const std::vector<T>& others, Like like) {
  std::vector<T> out;
  for (const T& one : all) {
    if (std::none_of(others.begin(), others.end(), [&](const T& o) { return like(one, o); }))
      out.push_back(one);
  }
  return out;
}
bool same_tooth(physics::Tooth a, physics::Tooth b) { return a == b; }

bool same_facts_all(const facts::Facts& a, const facts::Facts& b) {
  if (&a == &b) return true;
  if (a.all().size() != b.all().size()) return false;
  return std::all_of(a.all().begin(), a.all().end(), [&](const facts::Fact& f) {
    const facts::Fact* other = b.find(*f.row);
    return other != nullptr && other->state == f.state && other->value == f.value &&
           other->why == f.why;
  });
}

bool same_act(const plan::Act& a, const plan::Act& b) {
  return a.who == b.who && a.verb == b.verb && a.objects == b.objects && a.how == b.how;
}
/// What is said to the patient is wording; the others are told by what is asked for.
bool tells(const plan::Act& act) {
  switch (act.verb) {
  case plan::Verb::say:
  case plan::Verb::take_instead:
  case plan::Verb::look_for:
  case plan::Verb::keep_out:
  case plan::Verb::show_at_least:
  case plan::Verb::take_again_if:
  case plan::Verb::allow_angle:
  case plan::Verb::allow_distance:
  case plan::Verb::allow_angle_and_distance: return true;
  default: return false;
  }
}

std::vector<const plan::Act*> acts_alone(const Planned& of, const Planned& others) {
  std::vector<const plan::Act*> out;
  if (of.acts == nullptr || others.acts == nullptr) return out;
  std::vector<const plan::Act*> there;
  for (const plan::Act& act : *others.acts)
    there.push_back(&act);
  for (const plan::Act& act : *of.acts) {
    if (tells(act)) continue;
    const auto found = std::find_if(there.begin(), there.end(),
                                    [&](const plan::Act* o) { return same_act(act, *o); });
    if (found == there.end()) {
      out.push_back(&act);
    } else {
      there.erase(found);
    }
  }
  return out;
}

/// What stands against it: errors and warnings that nobody accepted.
std::vector<const diag::Diagnostic*> found_in(const Planned& planned) {
  std::vector<const diag::Diagnostic*> out;
  for (const diag::Diagnostic* d : planned.report->said_of(planned.about)) {
    if (d->severity != diag::Severity::advice && d->accepted.empty()) out.push_back(d);
  }
  return out;
}

bool same_finding(const diag::Diagnostic* a, const diag::Diagnostic* b) {
  return a->definition == b->definition;
}

/// The numbers and teeth that something is said with; names and texts are left out.
void numbers_in(const diag::Value& value, std::vector<diag::Value>& out) {
  if (const auto* said = std::get_if<diag::Said>(&value.is)) {
    for (const diag::Value& v : said->arguments)
      numbers_in(v, out);
  } else if (const auto* list = std::get_if<diag::List>(&value.is)) {
    for (const diag::Value& v : list->items)
      numbers_in(v, out);
  } else if (!std::holds_alternative<std::string>(value.is)) {
    out.push_back(value);
  }
}

/// The same finding on both sides, as another level or with other numbers.
std::vector<std::pair<const diag::Diagnostic*, const diag::Diagnostic*>>
found_otherwise(const std::vector<const diag::Diagnostic*>& before,
                const std::vector<const diag::Diagnostic*>& after) {
  std::vector<std::pair<const diag::Diagnostic*, const diag::Diagnostic*>> out;
  const auto alone = [](const std::vector<const diag::Diagnostic*>& all,
                        const diag::Diagnostic* d) {
    return std::count_if(all.begin(), all.end(), [&](const diag::Diagnostic* o) {
             return o->definition == d->definition;
           }) == 1;
  };
  for (const diag::Diagnostic* a : after) {
    const auto b = std::find_if(before.begin(), before.end(), [&](const diag::Diagnostic* o) {
      return o->definition == a->definition;
    });
    if (b == before.end() || !alone(before, a) || !alone(after, a)) continue;
    std::vector<diag::Value> x;
    std::vector<diag::Value> y;
    numbers_in((*b)->message, x);
    numbers_in(a->message, y);
    const bool alike =
        std::equal(x.begin(), x.end(), y.begin(), y.end(),
                   [](const auto& p, const auto& q) { return print_alike(p, q, Kind::found); });
    if ((*b)->severity != a->severity || !alike) out.emplace_back(*b, a);
  }
  return out;
}

bool any_error(const std::vector<const diag::Diagnostic*>& all) {
  return std::any_of(all.begin(), all.end(), [](const diag::Diagnostic* d) {
    return d->severity == diag::Severity::error;
  });
}

/// For want of which datum is no matter: nobody checks it on either side.
bool same_question(const report::NotChecked* a, const report::NotChecked* b) {
  return a->what == b->what;
}

} // namespace

bool Effects::empty() const {
  return facts.empty() && acts_gone.empty() && acts_new.empty() && found_gone.empty() &&
         found_new.empty() && found_otherwise.empty() && open_gone.empty() && open_new.empty();
}

Class Effects::gravest() const {
  Class out = Class::none;
  for (const Differs& d : facts)
    out = std::max(out, class_of(d.kind));
  if (!acts_gone.empty() || !acts_new.empty()) out = std::max(out, class_of(Kind::steps));
  if (!found_gone.empty() || !found_new.empty() || !found_otherwise.empty())
    out = std::max(out, class_of(Kind::found));
  if (!open_gone.empty() || !open_new.empty()) out = std::max(out, class_of(Kind::not_checked));
  return out;
}

Effects effects_of(const Planned& before, const Planned& after) {
  Effects out;
  for (const Row& row : rows()) {
    diag::Value a = value_of(before, *row.fact);
    diag::Value b = value_of(after, *row.fact);
    if (print_alike(a, b, row.kind) || no_matter(row, before, after)) continue;
    Differs d{row.fact, row.kind, row.answers, std::move(a), std::move(b), {}, {}};
    const auto* x = std::get_if<diag::Teeth>(&d.before.is);
    const auto* y = std::get_if<diag::Teeth>(&d.after.is);
    if (x != nullptr || y != nullptr) {
      static const diag::Teeth none;
      d.lost = without(x != nullptr ? *x : none, y != nullptr ? *y : none, same_tooth);
      d.gained = without(y != nullptr ? *y : none, x != nullptr ? *x : none, same_tooth);
      if (d.lost.empty() && d.gained.empty()) continue; // in another order
    }
    out.facts.push_back(std::move(d));
  }
  for (std::size_t i = 0; i < before.facts.size(); ++i)
    out.plan_same = out.plan_same && same_facts_all(*before.facts[i], *after.facts[i]);
  out.acts_gone = acts_alone(before, after);
  out.acts_new = acts_alone(after, before);
  const auto found_before = found_in(before);
  const auto found_after = found_in(after);
  out.had_before = !any_error(found_before);
  out.had_after = !any_error(found_after);
  out.found_gone = without(found_before, found_after, same_finding);
  out.found_new = without(found_after, found_before, same_finding);
  out.found_otherwise = found_otherwise(found_before, found_after);
  const auto open_before = before.report->not_checked_of(before.about);
  const auto open_after = after.report->not_checked_of(after.about);
  out.open_gone = without(open_before, open_after, same_question);
  out.open_new = without(open_after, open_before, same_question);
  out.plan_same = out.plan_same && out.empty();
  return out;
}

std::vector<Same> same_facts(const Planned& before, const Planned& after, words::Effect effect) {
  std::vector<Same> out;
  for (const Row& row : rows()) {
    if (row.answers != effect) continue;
    diag::Value a = value_of(before, *row.fact);
    const diag::Value b = value_of(after, *row.fact);
    if (!a.empty() && !b.empty() && print_alike(a, b, row.kind))
      out.push_back({row.fact, std::move(a)});
  }
  return out;
}

} // namespace norma::review
