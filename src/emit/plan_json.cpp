#include "emit/plan_json.hpp"

#include <fmt/core.h>

#include "emit/act_json.hpp"
#include "emit/json.hpp"
#include "facts/facts.hpp"
#include "text/utf8.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

std::string_view to_text(plan::State s) {
  switch (s) {
  case plan::State::value: return "value";
  case plan::State::impossible: return "impossible";
  case plan::State::unknown: return "unknown";
  case plan::State::broken: return "broken";
  }
  return "";
}

/// Degrees, not radians; steady digits on every machine.
double number_of(const plan::FactRow& row, double number) {
  if (row.kind == physics::Kind::angle) number = Angle::from_base(number).in(degree);
  return std::stod(fmt::format("{:.6f}", number));
}

Json fact_json(const plan::Facts& facts, const plan::Fact& f) {
  Json j = {{"id", f.row->name},
            {"label", wording::text(diag::Said(*f.row, {}))},
            {"state", to_text(f.state)}};
  if (f.value) {
    if (const auto number = f.number()) {
      j[f.state == plan::State::value ? "number" : "nearest"] = number_of(*f.row, *number);
      if (!physics::unit_of(f.row->kind).empty()) j["unit"] = physics::unit_of(f.row->kind);
    }
    j["text"] = wording::text(*f.value);
  }
  if (f.state == plan::State::impossible) j["why"] = wording::text(f.why);
  if (f.state == plan::State::unknown) j["missing"] = wording::text(f.why);
  if (f.state == plan::State::value)
    j["status"] = wording::text(diag::Said(facts::row_of(f.status), {}));
  if (!f.row->formula.empty()) j["formula"] = f.row->formula;
  if (!f.row->source.empty()) j["source"] = f.row->source;
  if (const auto inputs = facts.inputs(f); !inputs.empty()) {
    j["inputs"] = Json::array();
    for (const plan::FactRow* input : inputs)
      j["inputs"].push_back(input->name);
  }
  return j;
}

Json facts_json(const plan::Facts& facts) {
  Json out = Json::array();
  for (const plan::Fact& f : facts.all())
    out.push_back(fact_json(facts, f));
  return out;
}

Json open_questions(const std::vector<plan::OpenQuestion>& questions) {
  Json out = Json::array();
  for (const plan::OpenQuestion& q : questions)
    out.push_back({{"what", wording::text(q.what)}, {"missing", wording::text(q.missing)}});
  return out;
}

/// What is seen of each surface that must show: shares of its points.
Json teeth_json(const plan::ViewPlan& v) {
  Json out = Json::array();
  for (const physics::Shown& s : v.shown) {
    out.push_back({{"tooth", s.tooth.iso()},
                   {"surface", physics::to_text(s.surface)},
                   {"framed", std::stod(fmt::format("{:.3f}", s.framed))},
                   {"seen", std::stod(fmt::format("{:.3f}", s.seen))},
                   {"turned_degrees", std::stod(fmt::format("{:.1f}", s.obliquity.in(degree)))}});
  }
  return out;
}

Json view_object(const plan::ViewPlan& v) {
  Json j = {{"name", v.view->name}, {"title", v.view->title}};
  if (v.view->code.known()) {
    j["code"] = v.view->code.get()->code;
    j["term"] = v.view->code.get()->term;
  }
  j["facts"] = facts_json(v.facts);
  for (const plan::Fact& f : v.company.all())
    j["facts"].push_back(fact_json(v.company, f));
  if (!v.shown.empty()) j["teeth"] = teeth_json(v);
  j["not_checked"] = open_questions(v.open);
  j["acts"] = Json::array();
  for (const plan::Act& act : v.acts)
    j["acts"].push_back(act_json(act));
  return j;
}

Json plan_object(const plan::Plan& p) {
  Json j = {{"protocol", p.protocol->name}, {"title", p.protocol->title}};
  if (p.protocol->revision.known()) j["revision"] = p.protocol->revision.get();
  if (p.protocol->group.known()) j["for"] = model::to_text(p.protocol->group.get());
  if (!p.protocol->fingerprint_everything.empty()) {
    j["fingerprint"] = {{"pictures", p.protocol->fingerprint_pictures},
                        {"everything", p.protocol->fingerprint_everything}};
  }
  j["kit"] = p.kit == nullptr ? Json() : Json(p.kit->name.value_or(""));
  j["on"] = words::to_text(p.on);
  if (!p.facts.all().empty()) j["facts"] = facts_json(p.facts);
  j["series"] = Json::array();
  for (const plan::SeriesPlan& s : p.series) {
    Json views = Json::array();
    for (const model::SeriesEntry& e : s.series->entries) {
      views.push_back({{"view", e.view}, {"optional", e.optional}});
    }
    j["series"].push_back(
        {{"name", s.series->name}, {"views", std::move(views)}, {"facts", facts_json(s.facts)}});
  }
  j["views"] = Json::array();
  for (const plan::ViewPlan& v : p.views)
    j["views"].push_back(view_object(v));
  j["not_checked"] = open_questions(plan::never_checked());
  return j;
}

} // namespace

std::string plan_json(const std::vector<const plan::Plan*>& plans) {
  Json list = Json::array();
  for (const plan::Plan* p : plans)
    list.push_back(plan_object(*p));
  return dumped({{"norma", 1}, {"plans", std::move(list)}});
}

std::string view_json(const plan::ViewPlan& view) { return dumped(view_object(view)); }

} // namespace norma::emit
