#include <algorithm>
#include <map>
#include <set>

#include "model/content.hpp"
#include "report/unread.hpp"
#include "review/parts.hpp"

namespace norma::review {
namespace {

std::set<model::Purpose> purposes(const model::Protocol& protocol) {
  std::set<model::Purpose> out;
  const auto take = [&](const text::Sourced<std::vector<model::Purpose>>& consent) {
    if (consent.known()) out.insert(consent->begin(), consent->end());
  };
  take(protocol.consent);
  for (const model::View& view : protocol.views)
    take(view.consent);
  return out;
}

/// Is the same accepted, by what views and series are called after?
bool same_exception(const model::Exception& before, const model::Exception& after,
                    const model::NameForm& view, const model::NameForm& series) {
  return before.finding == after.finding && view(before.view) == after.view &&
         series(before.series) == after.series && before.kits == after.kits &&
         before.until == after.until;
}

int revision_of(const model::Protocol& protocol) { return protocol.revision.value_or(0); }

} // namespace

void compare_protocol(ProtocolChange& p, const FilePair& file, const std::vector<KitPair>& kits) {
  const model::Protocol* before = p.old_protocol();
  const model::Protocol* after = p.new_protocol();
  const auto whole = [](const report::Report& report,
                        const std::vector<const report::Held*>& held) {
    return held.empty() || report::unread_of(report, *held.front()).whole();
  };
  p.unread = (file.before && !whole(*file.before, p.before)) ||
             (file.after && !whole(*file.after, p.after));
  if (before == nullptr || after == nullptr) return;
  p.renamed = before->name != after->name;
  p.revision_before = revision_of(*before);
  p.revision_after = revision_of(*after);

  std::vector<Feature> old_views;
  std::vector<Feature> new_views;
  for (const model::View& v : before->views)
    old_views.push_back(feature_of(*before, v));
  for (const model::View& v : after->views)
    new_views.push_back(feature_of(*after, v));
  const Matching views = match(old_views, new_views);
  std::map<std::string, std::string, std::less<>> names; // of before: what they are called after
  for (const auto& [b, a] : views) {
    if (b >= 0 && a >= 0)
      names[before->views[static_cast<std::size_t>(b)].name] =
          after->views[static_cast<std::size_t>(a)].name;
  }
  const auto name = [&names](std::string_view old) {
    const auto found = names.find(old);
    return found == names.end() ? std::string(old) : found->second;
  };
  const std::vector<Asked> heading = asked_otherwise(
      model::read_content(before->header), model::read_content(after->header), name, false);
  const bool heading_changed = std::any_of(heading.begin(), heading.end(), [](const Asked& a) {
    return class_of(a.kind) >= Class::work;
  });
  AtKits none; // what follows from the heading shows in the views
  p.heading = entries_of(heading, std::move(none), Cause::heading);
  for (Entry& e : p.heading) {
    e.cause = Cause::heading;
    e.kits.resize(kits.size());
    for (Entry::AtKit& k : e.kits)
      k.effect = e.without_kit;
  }
  if (p.renamed || before->title != after->title) {
    p.heading.push_back(
        plain_entry(Cause::name, p.renamed ? Kind::renamed : Kind::wording, kits.size()));
  }
  const Around around{p, kits, file.before.get(), file.after.get(), name, heading_changed};
  for (const auto& pair : views) {
    ViewChange change = compare_view(around, pair);
    if (!change.entries.empty()) p.views.push_back(std::move(change));
  }
  std::stable_sort(p.views.begin(), p.views.end(), [](const ViewChange& a, const ViewChange& b) {
    return a.gravest() > b.gravest();
  });
  // What shows in facts is as grave as what the views show of it.
  for (Entry& e : p.heading) {
    if (e.asked.empty() || e.together || !shows_in_facts(e.asked.front())) continue;
    for (std::size_t k = 0; k < kits.size(); ++k) {
      e.kits[k].effect = Class::none;
      for (const ViewChange& v : p.views) {
        for (const Entry& of_view : v.entries) {
          if (of_view.cause == Cause::heading)
            e.kits[k].effect = std::max(e.kits[k].effect, of_view.kits[k].effect);
        }
      }
    }
  }
  p.series = compare_series(around);
  const auto series_name = [&](std::string_view old) {
    for (const SeriesChange& s : p.series) {
      if (s.renamed && before->series[static_cast<std::size_t>(s.before)].name == old)
        return after->series[static_cast<std::size_t>(s.after)].name;
    }
    return std::string(old);
  };
  const auto missing_in = [&](const auto& all, const auto& is_same) {
    return std::none_of(all.begin(), all.end(), is_same);
  };
  for (const model::Exception& e : after->exceptions) {
    if (missing_in(before->exceptions, [&](const model::Exception& o) {
          return same_exception(o, e, name, series_name);
        }))
      p.accepted.push_back({&e, true});
  }
  for (const model::Exception& e : before->exceptions) {
    if (missing_in(after->exceptions, [&](const model::Exception& o) {
          return same_exception(e, o, name, series_name);
        }))
      p.accepted.push_back({&e, false});
  }
  const auto old_purposes = purposes(*before);
  const auto new_purposes = purposes(*after);
  for (const model::Purpose purpose : new_purposes) {
    if (old_purposes.count(purpose) == 0) p.consent_added.push_back(purpose);
  }
  for (const model::Purpose purpose : old_purposes) {
    if (new_purposes.count(purpose) == 0) p.consent_gone.push_back(purpose);
  }
}

bool ProtocolChange::revision_forgotten() const {
  if (old_protocol() == nullptr || new_protocol() == nullptr) return false;
  if (revision_after > revision_before) return false;
  const auto of_pictures = [](const std::vector<Entry>& all) {
    return std::any_of(all.begin(), all.end(), [](const Entry& e) {
      return e.cause != Cause::kit && e.gravest() >= Class::quality;
    });
  };
  return of_pictures(heading) || std::any_of(views.begin(), views.end(), [&](const ViewChange& v) {
           return of_pictures(v.entries);
         });
}

namespace {

Class of_kit(const Entry& e, std::size_t kit) {
  return kit < e.kits.size() ? e.kits[kit].effect : Class::none;
}

/// The gravest of all entries of a protocol, each seen by `of`.
template <class Of> Class gravest_of_all(const ProtocolChange& p, Of of) {
  if (p.not_read) return Class::none; // nobody knows
  if (p.old_protocol() == nullptr) return class_of(Kind::protocol_added);
  if (p.new_protocol() == nullptr) return class_of(Kind::protocol_lost);
  Class out = p.accepted.empty() ? Class::none : class_of(Kind::accepted);
  if (!p.consent_added.empty()) out = std::max(out, class_of(Kind::consent_widened));
  if (p.revision_before != p.revision_after) out = std::max(out, class_of(Kind::record));
  const auto take = [&](const std::vector<Entry>& entries) {
    for (const Entry& e : entries)
      out = std::max(out, of(e));
  };
  take(p.heading);
  for (const ViewChange& v : p.views)
    take(v.entries);
  for (const SeriesChange& s : p.series)
    take(s.entries);
  return out;
}

template <class Of> Class gravest_of_protocols(const Comparison& all, Of of) {
  Class out = Class::none;
  for (const ProtocolChange& p : all.protocols)
    out = std::max(out, of(p));
  return out;
}

} // namespace

Class ProtocolChange::gravest() const {
  return gravest_of_all(*this, [](const Entry& e) { return e.gravest(); });
}
Class ProtocolChange::without_kit() const {
  return gravest_of_all(*this, [](const Entry& e) { return e.without_kit; });
}
Class ProtocolChange::at_kit(std::size_t kit) const {
  return gravest_of_all(*this, [&](const Entry& e) { return of_kit(e, kit); });
}
Class Comparison::gravest() const {
  return gravest_of_protocols(*this, [](const ProtocolChange& p) { return p.gravest(); });
}
Class Comparison::without_kit() const {
  return gravest_of_protocols(*this, [](const ProtocolChange& p) { return p.without_kit(); });
}
Class Comparison::at_kit(std::size_t kit) const {
  return gravest_of_protocols(*this, [&](const ProtocolChange& p) { return p.at_kit(kit); });
}

} // namespace norma::review
