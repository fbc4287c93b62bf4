#include "emit/compared_said.hpp"

#include <algorithm>
#include <cmath>

#include "emit/compared_words.hpp"
#include "facts/facts.hpp"

namespace norma::emit {
namespace {

/// `camera from right, 60 deg from midline`: words of the language, as they stand in a protocol.
std::string statement_text(const review::Asked& asked, const std::string& said) {
  std::string out(asked.word->name);
  if (!asked.key.empty()) out += " " + std::string(asked.key);
  if (!said.empty()) out += " " + said;
  return "`" + out + "`";
}

std::optional<double> number_of(const diag::Value& value) {
  const auto* m = std::get_if<diag::Measure>(&value.is);
  return m == nullptr ? std::nullopt : std::optional(m->number);
}

} // namespace

diag::Said called(review::Kind kind) { return {review::row_of(kind), {}}; }

std::string_view protocol_name(const review::ProtocolChange& p) {
  if (const model::Protocol* now = p.new_protocol()) return now->name;
  const model::Protocol* before = p.old_protocol();
  return before != nullptr ? std::string_view(before->name) : std::string_view();
}

namespace {

diag::Said change_said(const review::Asked& asked) {
  const std::string before = statement_text(asked, asked.before);
  const std::string after = statement_text(asked, asked.after);
  if (asked.before == asked.after && !asked.before.empty()) return compared::another_order(after);
  if (asked.before == asked.after) return compared::becomes(before, after);
  if (asked.before.empty()) return compared::is_new(after);
  if (asked.after.empty()) return compared::is_gone(before);
  return compared::becomes(before, after);
}

} // namespace

diag::Said asked_said(review::Kind kind, const std::vector<review::Asked>& all) {
  diag::List changes;
  changes.semicolons = true;
  for (const review::Asked& asked : all)
    changes.items.emplace_back(change_said(asked));
  return compared::of_kind(called(kind), changes);
}

diag::List asked_list(const std::vector<review::Asked>& all) {
  diag::List out;
  out.semicolons = true;
  constexpr std::size_t most = 4;
  for (std::size_t i = 0; i < std::min(all.size(), most); ++i)
    out.items.emplace_back(
        statement_text(all[i], all[i].after.empty() ? all[i].before : all[i].after));
  if (all.size() > most)
    out.items.emplace_back(compared::more(static_cast<int>(all.size() - most)));
  return out;
}

diag::List names_list(const std::vector<diag::Said>& all) {
  diag::List out;
  for (std::size_t i = 0; i < std::min(all.size(), most_told); ++i)
    out.items.emplace_back(all[i]);
  if (all.size() > most_told)
    out.items.emplace_back(compared::more(static_cast<int>(all.size() - most_told)));
  return out;
}

diag::Said fact_said(const review::Differs& d) {
  const diag::Said name{*d.row, {}};
  if (!d.lost.empty() && d.gained.empty()) return compared::teeth_lost(name, d.lost);
  if (!d.gained.empty() && d.lost.empty()) return compared::teeth_gained(name, d.gained);
  if (d.before.empty()) return compared::fact_new(name, d.after);
  if (d.after.empty()) return compared::fact_gone(name, d.before);
  return compared::fact(name, d.before, d.after);
}

std::vector<diag::Said> bridge(const review::Entry& entry, const review::Entry::AtKit& kit) {
  const review::Effects& effects = kit.effects;
  const std::vector<review::Same>& same = kit.same;
  std::vector<diag::Said> out;
  for (const review::Differs& d : effects.facts) {
    const auto before = number_of(d.before);
    const auto after = number_of(d.after);
    if (d.row != &facts::fact::field_width || !before || !after || *after <= 0) continue;
    // A camera that is turned changes width and height over, and the scale stays.
    const auto turned = std::any_of(effects.facts.begin(), effects.facts.end(), [](const auto& o) {
      return o.row == &facts::fact::camera_held;
    });
    if (turned) continue;
    const double times = *before / *after;
    const auto percent = static_cast<int>(std::lround(100 * times));
    out.push_back(times > 1 ? compared::larger(percent) : compared::smaller(percent));
  }
  for (const review::Differs& d : effects.facts) {
    if (d.kind != review::Kind::direction && d.kind != review::Kind::hold) continue;
    out.push_back(d.kind == review::Kind::hold ? compared::turned() : compared::not_together());
    break;
  }
  if (out.empty() && effects.facts.empty() && same.empty() && entry.kind == review::Kind::direction)
    out.push_back(compared::not_together());
  return out;
}

diag::Said class_said(review::Class c) {
  switch (c) {
  case review::Class::comparability: return compared::class_comparability();
  case review::Class::quality: return compared::class_quality();
  case review::Class::work: return compared::class_work();
  case review::Class::record: return compared::class_record();
  case review::Class::wording: return compared::class_wording();
  case review::Class::none: break;
  }
  return compared::class_none();
}

diag::Said meaning_said(review::Class c) {
  switch (c) {
  case review::Class::comparability: return compared::means_comparability();
  case review::Class::quality: return compared::means_quality();
  case review::Class::work: return compared::means_work();
  case review::Class::record: return compared::means_record();
  case review::Class::wording: return compared::means_wording();
  case review::Class::none: break;
  }
  return compared::means_none();
}

diag::Said view_said(const review::ProtocolChange& protocol, const review::ViewChange& view) {
  const auto name = [](const model::Protocol& p, int place) {
    return p.views[static_cast<std::size_t>(place)].name;
  };
  if (view.after < 0) return compared::taken_no_longer(name(*protocol.old_protocol(), view.before));
  const std::string now = name(*protocol.new_protocol(), view.after);
  if (!view.renamed) return {now};
  return compared::was_called(now, name(*protocol.old_protocol(), view.before));
}

diag::Said protocol_label(const review::ProtocolChange& p) {
  const std::string name(protocol_name(p));
  return p.group.empty() ? diag::Said(name) : compared::of_group(name, p.group);
}

diag::Said in_protocol(const review::Comparison& all, const review::ProtocolChange& p,
                       const diag::Said& what) {
  return all.protocols.size() < 2 ? what : compared::in_protocol(what, protocol_label(p));
}

diag::Said verdict_said(const review::Comparison& all) {
  const review::Class worst = all.gravest();
  std::vector<diag::Said> views;
  for (const review::ProtocolChange& p : all.protocols) {
    if (p.not_read) continue;
    for (const review::ViewChange& v : p.views) {
      if (v.told_here() && v.gravest() == worst)
        views.push_back(in_protocol(all, p, view_said(p, v)));
    }
    for (const review::SeriesChange& s : p.series) {
      if (s.gravest() != worst || p.new_protocol() == nullptr || p.old_protocol() == nullptr)
        continue;
      views.push_back(in_protocol(
          all, p,
          compared::series(
              s.after >= 0 ? p.new_protocol()->series[static_cast<std::size_t>(s.after)].name
                           : p.old_protocol()->series[static_cast<std::size_t>(s.before)].name)));
    }
    const auto heading = std::any_of(p.heading.begin(), p.heading.end(),
                                     [&](const review::Entry& e) { return e.gravest() == worst; });
    if (heading || p.old_protocol() == nullptr || p.new_protocol() == nullptr)
      views.push_back(protocol_label(p));
  }
  const diag::List list = names_list(views);
  switch (worst) {
  case review::Class::comparability: return compared::verdict_comparability(list);
  case review::Class::quality: return compared::verdict_quality(list);
  case review::Class::work: return compared::verdict_work(list);
  case review::Class::record: return compared::verdict_record();
  case review::Class::wording: return compared::verdict_wording();
  case review::Class::none: break;
  }
  return compared::verdict_none();
}

} // namespace norma::emit
