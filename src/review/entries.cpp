#include <algorithm>
#include <iterator>

#include "review/parts.hpp"

namespace norma::review {

bool shows_in_facts(const Asked& asked) {
  switch (asked.effect) {
  case words::Effect::scale:
  case words::Effect::direction:
  case words::Effect::perspective:
  case words::Effect::hold:
  case words::Effect::orientation:
  case words::Effect::room:
  case words::Effect::sharpness:
  case words::Effect::light: return true;
  default: return false;
  }
}

namespace {

/// Does it make other pictures, or other work?
bool has_effect(const Asked& asked) { return class_of(asked.kind) >= Class::work; }

/// What of `all` answers this effect.
std::vector<Differs> answers(const std::vector<Differs>& all, words::Effect effect) {
  std::vector<Differs> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out),
               [&](const Differs& d) { return d.answers == effect; });
  return out;
}

/// The entry of what is asked otherwise to one effect; takes what answers it out of the effects.
Entry entry_of(const std::vector<Asked>& asked, AtKits& at, bool alone) {
  const Asked& first = asked.front();
  Entry out;
  out.asked = asked;
  out.kind = first.kind;
  out.without_kit = class_of(first.kind);
  for (std::size_t k = 0; k < at.effects.size(); ++k) {
    Effects& all = at.effects[k];
    Entry::AtKit here;
    if (alone && has_effect(first)) {
      here.effects = std::move(all);
      all = {};
      all.had_before = here.effects.had_before;
      all.had_after = here.effects.had_after;
    } else {
      here.effects.facts = answers(all.facts, first.effect);
      all.facts.erase(std::remove_if(all.facts.begin(), all.facts.end(),
                                     [&](const Differs& d) { return d.answers == first.effect; }),
                      all.facts.end());
    }
    here.effect = here.effects.gravest();
    bool settled = false; // by facts that answer it, other ones or the same
    if (shows_in_facts(first)) {
      const bool told = !answers(here.effects.facts, first.effect).empty();
      if (!told && !at.kitless[k]) here.same = same_facts(at.before[k], at.after[k], first.effect);
      settled = told || !here.same.empty();
    }
    if (!settled) here.effect = std::max(here.effect, class_of(first.kind));
    here.no_effect = alone && here.effects.empty() && !here.same.empty();
    out.kits.push_back(std::move(here));
  }
  return out;
}

/// What shows in the same facts stands together; all else alone.
std::vector<std::vector<Asked>> by_effect(const std::vector<Asked>& asked) {
  std::vector<std::vector<Asked>> out;
  for (const Asked& one : asked) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const std::vector<Asked>& group) {
      return shows_in_facts(one) && group.front().effect == one.effect;
    });
    if (same != out.end()) {
      same->push_back(one);
    } else {
      out.push_back({one});
    }
  }
  return out;
}

/// Is the plan the same to the last fact, with each kit?
bool same_plan(const AtKits& at) {
  return !at.effects.empty() &&
         std::none_of(at.kitless.begin(), at.kitless.end(), [](bool b) { return b; }) &&
         std::all_of(at.effects.begin(), at.effects.end(),
                     [](const Effects& e) { return e.plan_same; });
}

/// Was it not said, or is it said no longer, and would it show in the plan?
bool may_hold_anyhow(const Asked& asked) {
  return (asked.before.empty() || asked.after.empty()) &&
         (shows_in_facts(asked) || asked.effect == words::Effect::handling);
}

bool anything(const AtKits& at) {
  return std::any_of(at.effects.begin(), at.effects.end(),
                     [](const Effects& e) { return !e.empty(); });
}

Kind gravest_kind(const AtKits& at) {
  Kind out = Kind::steps;
  Class worst = Class::none;
  const auto take = [&](Kind kind) {
    if (class_of(kind) <= worst) return;
    worst = class_of(kind);
    out = kind;
  };
  for (const Effects& e : at.effects) {
    if (e.had_no_longer()) take(Kind::no_longer_had);
    if (e.had_again()) take(Kind::had_again);
    for (const Differs& d : e.facts)
      take(d.kind);
    if (!e.found_new.empty() || !e.found_otherwise.empty()) take(Kind::found);
    if (!e.found_gone.empty()) take(Kind::found_no_longer);
    if (!e.open_new.empty()) take(Kind::not_checked);
    if (!e.open_gone.empty()) take(Kind::checked_again);
    if (!e.acts_new.empty() || !e.acts_gone.empty()) take(Kind::steps);
  }
  return out;
}

} // namespace

std::vector<Entry> entries_of(std::vector<Asked> asked, AtKits at, Cause other) {
  std::vector<Entry> out;
  const auto groups = by_effect(asked);
  const auto causes = std::count_if(groups.begin(), groups.end(),
                                    [](const auto& group) { return has_effect(group.front()); });
  const bool same = same_plan(at);
  for (const std::vector<Asked>& group : groups) {
    out.push_back(entry_of(group, at, causes == 1));
    if (!same || !std::all_of(group.begin(), group.end(), may_hold_anyhow)) continue;
    out.back().holds_anyhow = true;
    out.back().without_kit = Class::none;
    for (Entry::AtKit& k : out.back().kits)
      k.effect = Class::none;
  }
  if (anything(at)) {
    Entry rest;
    if (causes > 1) {
      rest.together = true;
      std::copy_if(asked.begin(), asked.end(), std::back_inserter(rest.asked), has_effect);
    } else {
      rest.cause = other;
    }
    rest.kind = gravest_kind(at);
    for (Effects& e : at.effects) {
      Entry::AtKit here;
      here.effect = e.gravest();
      here.effects = std::move(e);
      rest.kits.push_back(std::move(here));
    }
    out.push_back(std::move(rest));
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Entry& a, const Entry& b) { return a.gravest() > b.gravest(); });
  return out;
}

Entry plain_entry(Cause cause, Kind kind, std::size_t kits) {
  Entry out;
  out.cause = cause;
  out.kind = kind;
  out.without_kit = class_of(kind);
  out.kits.resize(kits);
  for (Entry::AtKit& k : out.kits)
    k.effect = out.without_kit;
  return out;
}

Class gravest_of(const std::vector<Entry>& entries) {
  Class out = Class::none;
  for (const Entry& e : entries)
    out = std::max(out, e.gravest());
  return out;
}

Cause other_cause(const Around& around) {
  const bool other_kit =
      std::any_of(around.kits.begin(), around.kits.end(), [](const KitPair& k) { return !k.same; });
  if (other_kit) return Cause::kit;
  return around.heading_changed ? Cause::heading : Cause::others;
}

Class Entry::gravest() const {
  Class out = Class::none;
  for (const AtKit& k : kits)
    out = std::max(out, k.effect);
  return out;
}

} // namespace norma::review
