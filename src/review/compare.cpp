#include "review/compare.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "review/parts.hpp"

namespace norma::review {
namespace {

struct KindRow {
  std::string_view name;
  diag::Row said;
  Class effect;
};
constexpr std::array kinds{
#define NORMA_KIND(name, class) KindRow{#name, {"change." #name, 0}, Class::class},
#include "review/kinds.def"
};
const KindRow& row(Kind kind) { return kinds[static_cast<std::size_t>(kind)]; }

/// The protocols of a pair of files: one for each group of patients.
std::vector<ProtocolChange> groups_of(const FilePair& file, std::size_t place, std::size_t kits) {
  const auto by_group = [&](const report::Report* report) {
    std::map<std::string, std::vector<const report::Held*>> out;
    if (report == nullptr) return out;
    for (const report::Held& held : report->held) {
      const auto& group = held.protocol->group;
      out[group.known() ? model::to_text(group.get()) : std::string()].push_back(&held);
    }
    return out;
  };
  auto before = by_group(file.before.get());
  auto after = by_group(file.after.get());
  // Where it speaks of one group on both sides, it is the same one, for others.
  if (before.size() == 1 && after.size() == 1 && before.begin()->first != after.begin()->first) {
    auto only = before.extract(before.begin());
    only.key() = after.begin()->first;
    before.insert(std::move(only));
  }
  std::map<std::string, ProtocolChange> out;
  for (auto& [group, held] : before)
    out[group].before = std::move(held);
  for (auto& [group, held] : after)
    out[group].after = std::move(held);
  std::vector<ProtocolChange> list;
  // A file that is there and holds no protocol that can be read.
  const auto not_read = [](const report::Report* report) {
    return report != nullptr && report->held.empty() &&
           report->findings.worst() == diag::Severity::error;
  };
  const bool none_before = not_read(file.before.get());
  const bool none_after = not_read(file.after.get());
  if (none_before || none_after) {
    ProtocolChange change;
    change.file = place;
    change.not_read = true;
    for (auto& [group, one] : out) {
      if (!one.before.empty()) change.before = one.before;
      if (!one.after.empty()) change.after = one.after;
    }
    list.push_back(std::move(change));
    return list;
  }
  for (auto& [group, change] : out) {
    change.file = place;
    const auto labelled = [](const std::vector<const report::Held*>& held) {
      return !held.empty() && !held.front()->protocol->group_label.empty();
    };
    if (labelled(change.before) || labelled(change.after)) change.group = group;
    change.before.resize(change.before.empty() ? 0 : kits);
    change.after.resize(change.after.empty() ? 0 : kits);
    list.push_back(std::move(change));
  }
  return list;
}

/// The same change with the same outcome: numbers may differ, teeth may not.
bool same_entry(const Entry& a, const Entry& b) {
  const auto same_teeth = [](const Effects& x, const Effects& y) {
    const auto of_teeth = [](const Effects& e) {
      std::vector<Differs> out;
      std::copy_if(e.facts.begin(), e.facts.end(), std::back_inserter(out),
                   [](const Differs& d) { return !d.lost.empty() || !d.gained.empty(); });
      return out;
    };
    return of_teeth(x) == of_teeth(y);
  };
  const auto same_kit = [&](const Entry::AtKit& x, const Entry::AtKit& y) {
    return x.effect == y.effect && same_teeth(x.effects, y.effects) &&
           x.effects.had_before == y.effects.had_before &&
           x.effects.had_after == y.effects.had_after &&
           x.effects.found_new.size() == y.effects.found_new.size() &&
           x.effects.found_gone.size() == y.effects.found_gone.size();
  };
  return a.kind == b.kind && a.together == b.together && a.asked == b.asked &&
         std::equal(a.kits.begin(), a.kits.end(), b.kits.begin(), b.kits.end(), same_kit);
}

std::string_view name_of(const ProtocolChange& p, const ViewChange& v) {
  if (v.after >= 0) return p.new_protocol()->views[static_cast<std::size_t>(v.after)].name;
  return p.old_protocol()->views[static_cast<std::size_t>(v.before)].name;
}

bool both_there(const ProtocolChange& p) {
  return p.old_protocol() != nullptr && p.new_protocol() != nullptr;
}

/// What a protocol takes over from one that it builds on is told there.
void tell_at_bases(Comparison& all) {
  for (ProtocolChange& p : all.protocols) {
    for (const int base : p.builds_on) {
      const ProtocolChange& b = all.protocols[static_cast<std::size_t>(base)];
      if (!both_there(p) || !both_there(b)) continue;
      std::multimap<std::string_view, const ViewChange*>
          by_name; // one that went may leave its name
      for (const ViewChange& v : b.views)
        by_name.emplace(name_of(b, v), &v);
      for (ViewChange& v : p.views) {
        const auto [first, last] = by_name.equal_range(name_of(p, v));
        for (Entry& e : v.entries) {
          const bool there = std::any_of(first, last, [&](const auto& named) {
            const auto& told = named.second->entries;
            return std::any_of(told.begin(), told.end(),
                               [&](const Entry& o) { return o.as_in < 0 && same_entry(e, o); });
          });
          if (e.as_in < 0 && there) e.as_in = base;
        }
      }
    }
  }
}

} // namespace

std::string_view to_text(Class c) {
  switch (c) {
  case Class::comparability: return "comparability";
  case Class::quality: return "quality";
  case Class::work: return "work";
  case Class::record: return "record";
  case Class::wording: return "wording";
  case Class::none: break;
  }
  return "none";
}

Class class_of(Kind kind) { return row(kind).effect; }
std::string_view to_text(Kind kind) { return row(kind).name; }
const diag::Row& row_of(Kind kind) { return row(kind).said; }

Kind kind_of(words::Effect effect) {
  switch (effect) {
  case words::Effect::patients: return Kind::patients;
  case words::Effect::scale: return Kind::scale;
  case words::Effect::direction: return Kind::direction;
  case words::Effect::perspective: return Kind::perspective;
  case words::Effect::framing: return Kind::framing;
  case words::Effect::hold: return Kind::hold;
  case words::Effect::orientation: return Kind::wanted_picture;
  case words::Effect::promise: return Kind::asked_otherwise;
  case words::Effect::room: return Kind::coverage;
  case words::Effect::sharpness: return Kind::depth;
  case words::Effect::light: return Kind::brightness;
  case words::Effect::handling: return Kind::steps;
  case words::Effect::record: return Kind::record;
  case words::Effect::text: break;
  }
  return Kind::wording;
}

void compare(Comparison& all) {
  // Those that others build on come first.
  std::vector<std::size_t> order(all.files.size());
  std::vector<std::size_t> depth(all.files.size(), 0);
  for (std::size_t i = 0; i < order.size(); ++i) {
    order[i] = i;
    depth[i] = all.files[i].builds_on.size();
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return depth[a] < depth[b]; });
  for (const std::size_t place : order) {
    const FilePair& file = all.files[place];
    for (ProtocolChange& p : groups_of(file, place, all.kits.size())) {
      for (std::size_t other = 0; other < all.protocols.size(); ++other) {
        const ProtocolChange& o = all.protocols[other];
        const bool base = std::find(file.builds_on.begin(), file.builds_on.end(),
                                    static_cast<int>(o.file)) != file.builds_on.end();
        if (base && (o.group == p.group || o.group.empty() || p.group.empty()))
          p.builds_on.push_back(static_cast<int>(other));
      }
      all.protocols.push_back(std::move(p));
      if (!all.protocols.back().not_read) compare_protocol(all.protocols.back(), file, all.kits);
    }
  }
  tell_at_bases(all);
}

} // namespace norma::review
