#include "emit/act_words.hpp"
#include "emit/compared_said.hpp"
#include "emit/comparison.hpp"
#include "emit/json.hpp"

namespace norma::emit {
namespace {

using review::Entry;
using review::ProtocolChange;

/// A number with its unit, or what is said; null where nobody knows.
Json compared_value(const diag::Value& value) {
  if (value.empty()) return {};
  if (const auto* m = std::get_if<diag::Measure>(&value.is)) {
    constexpr int decimals = 6; // more than the printed form of any kind shows
    return {{"number", steady(physics::in_its_unit(m->kind, m->number), decimals)},
            {"unit", physics::unit_of(m->kind)}};
  }
  if (const auto* number = std::get_if<int>(&value.is)) return {{"number", *number}, {"unit", ""}};
  return {{"text", wording::english().text(value)}};
}

Json teeth_list(const diag::Teeth& teeth) {
  Json out = Json::array();
  for (const physics::Tooth tooth : teeth)
    out.push_back(tooth.iso());
  return out;
}

std::string_view cause_name(review::Cause cause) {
  switch (cause) {
  case review::Cause::asked: return "asked";
  case review::Cause::heading: return "heading";
  case review::Cause::kit: return "kit";
  case review::Cause::others: return "other_views";
  case review::Cause::came: return "came";
  case review::Cause::went: return "went";
  case review::Cause::name: break;
  }
  return "name";
}

Json findings_list(const std::vector<const diag::Diagnostic*>& all) {
  Json out = Json::array();
  for (const diag::Diagnostic* d : all)
    out.push_back({{"code", d->definition->code},
                   {"name", d->definition->name},
                   {"severity", to_text(d->severity)},
                   {"message", wording::english().text(d->message)}});
  return out;
}

Json otherwise_list(const review::Effects& effects) {
  Json out = Json::array();
  for (const auto& [was, now] : effects.found_otherwise)
    out.push_back(
        {{"before", findings_list({was}).front()}, {"after", findings_list({now}).front()}});
  return out;
}

Json open_list(const std::vector<const report::NotChecked*>& all) {
  Json out = Json::array();
  for (const report::NotChecked* n : all)
    out.push_back({{"what", wording::english().text(n->what)},
                   {"missing", wording::english().text(n->missing)}});
  return out;
}

Json acts_list(const std::vector<const plan::Act*>& all) {
  Json out = Json::array();
  for (const plan::Act* act : all)
    out.push_back({{"who", who_text(act->who, wording::english())},
                   {"text", act_text(*act, wording::english())}});
  return out;
}

Json at_kit_json(const Entry::AtKit& kit) {
  Json facts = Json::array();
  for (const review::Differs& d : kit.effects.facts) {
    Json fact = {{"fact", d.row->name},
                 {"kind", to_text(d.kind)},
                 {"before", compared_value(d.before)},
                 {"after", compared_value(d.after)}};
    if (!d.lost.empty()) fact["teeth_lost"] = teeth_list(d.lost);
    if (!d.gained.empty()) fact["teeth_gained"] = teeth_list(d.gained);
    facts.push_back(std::move(fact));
  }
  Json same = Json::array();
  for (const review::Same& s : kit.same)
    same.push_back({{"fact", s.row->name}, {"value", compared_value(s.value)}});
  return {{"effect", to_text(kit.effect)},
          {"had_before", kit.effects.had_before},
          {"had_after", kit.effects.had_after},
          {"facts", std::move(facts)},
          {"same", std::move(same)},
          {"no_effect", kit.no_effect},
          {"findings_new", findings_list(kit.effects.found_new)},
          {"findings_gone", findings_list(kit.effects.found_gone)},
          {"findings_otherwise", otherwise_list(kit.effects)},
          {"not_checked_new", open_list(kit.effects.open_new)},
          {"not_checked_gone", open_list(kit.effects.open_gone)},
          {"acts_new", acts_list(kit.effects.acts_new)},
          {"acts_gone", acts_list(kit.effects.acts_gone)}};
}

Json entry_json(const Entry& e) {
  Json asked = Json::array();
  for (const review::Asked& a : e.asked)
    asked.push_back({{"word", a.word->name},
                     {"key", a.key},
                     {"kind", to_text(a.kind)},
                     {"before", a.before},
                     {"after", a.after}});
  Json kits = Json::array();
  for (const Entry::AtKit& kit : e.kits)
    kits.push_back(at_kit_json(kit));
  return {{"cause", cause_name(e.cause)},   {"kind", to_text(e.kind)},
          {"effect", to_text(e.gravest())}, {"without_kit", to_text(e.without_kit)},
          {"holds_anyhow", e.holds_anyhow}, {"together", e.together},
          {"asked", std::move(asked)},      {"kits", std::move(kits)}};
}

Json entries_json(const std::vector<Entry>& all) {
  Json out = Json::array();
  for (const Entry& e : all)
    out.push_back(entry_json(e));
  return out;
}

template <class List> Json name_json(const model::Protocol* protocol, List list, int place) {
  if (protocol == nullptr || place < 0) return {};
  return (protocol->*list)[static_cast<std::size_t>(place)].name;
}

Json protocol_json(const review::Comparison& all, const ProtocolChange& p) {
  const review::FilePair& file = all.files[p.file];
  const model::Protocol* before = p.old_protocol();
  const model::Protocol* after = p.new_protocol();
  const auto name = [](const model::Protocol* of) {
    return of == nullptr ? Json() : Json(of->name);
  };
  const auto names_of = [&](int place) {
    return std::string(protocol_name(all.protocols[static_cast<std::size_t>(place)]));
  };
  Json out = {{"name_before", name(before)},
              {"name_after", name(after)},
              {"file_before", file.before ? Json(file.path_before) : Json()},
              {"file_after", file.after ? Json(file.path_after) : Json()},
              {"group", p.group},
              {"revision_before", p.revision_before},
              {"revision_after", p.revision_after},
              {"revision_forgotten", p.revision_forgotten()},
              {"own_file_same", file.own_file_same},
              {"read_whole", !p.unread && !p.not_read},
              {"compared", !p.not_read},
              {"effect", to_text(p.gravest())}};
  out["builds_on"] = Json::array();
  for (const int base : p.builds_on)
    out["builds_on"].push_back(names_of(base));
  out["consent_added"] = Json::array();
  for (const model::Purpose purpose : p.consent_added)
    out["consent_added"].push_back(model::to_text(purpose));
  out["consent_gone"] = Json::array();
  for (const model::Purpose purpose : p.consent_gone)
    out["consent_gone"].push_back(model::to_text(purpose));
  out["heading"] = entries_json(p.heading);
  out["views"] = Json::array();
  for (const review::ViewChange& v : p.views) {
    Json view = {{"before", name_json(before, &model::Protocol::views, v.before)},
                 {"after", name_json(after, &model::Protocol::views, v.after)},
                 {"effect", to_text(v.gravest())}};
    view["entries"] = entries_json(v.entries);
    for (std::size_t i = 0; i < v.entries.size(); ++i) {
      const int as_in = v.entries[i].as_in;
      if (as_in >= 0) view["entries"][i]["as_in"] = names_of(as_in);
    }
    out["views"].push_back(std::move(view));
  }
  out["series"] = Json::array();
  for (const review::SeriesChange& s : p.series) {
    Json series = {{"before", name_json(before, &model::Protocol::series, s.before)},
                   {"after", name_json(after, &model::Protocol::series, s.after)},
                   {"effect", to_text(s.gravest())},
                   {"order_before", s.order_before},
                   {"order_after", s.order_after}};
    series["entries"] = entries_json(s.entries);
    out["series"].push_back(std::move(series));
  }
  out["accepted"] = Json::array();
  for (const review::Accepted& a : p.accepted)
    out["accepted"].push_back(
        {{"finding", a.exception->finding},
         {"view", a.exception->view},
         {"series", a.exception->series},
         {"kits", a.exception->kits},
         {"until", a.exception->until ? words::to_text(*a.exception->until) : ""},
         {"because", a.exception->because},
         {"now", a.now}});
  return out;
}

} // namespace

std::string comparison_json(const review::Comparison& all) {
  Json out = {{"norma", 1},
              {"effect", to_text(all.gravest())},
              {"verdict", wording::english().text(verdict_said(all))},
              {"without_kit", to_text(all.without_kit())}};
  out["kits"] = Json::array();
  for (std::size_t k = 0; k < all.kits.size(); ++k) {
    const review::KitPair& kit = all.kits[k];
    out["kits"].push_back(
        {{"name", kit.name}, {"same", kit.same}, {"effect", to_text(all.at_kit(k))}});
  }
  out["unchanged"] = all.unchanged;
  out["protocols"] = Json::array();
  for (const ProtocolChange& p : all.protocols)
    out["protocols"].push_back(protocol_json(all, p));
  return dumped(out);
}

} // namespace norma::emit
