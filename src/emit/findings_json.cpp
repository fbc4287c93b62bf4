#include "emit/findings_json.hpp"

#include <fmt/core.h>

#include "emit/json.hpp"
#include "emit/told.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

Json place(const text::Sources& sources, text::Span span) {
  const text::Source& source = sources[span.file];
  const text::Place begin = source.place(span.begin);
  const text::Place end = source.place(span.end);
  return {{"file", source.name()},          {"line", begin.line},       {"column", begin.column},
          {"end_line", end.line},           {"end_column", end.column}, {"offset", span.begin},
          {"length", span.end - span.begin}};
}

Json evidence(const diag::Evidence& e) {
  constexpr int decimals = 6; // more than the printed form of any kind shows
  return {{"quantity", wording::english().text(e.quantity)},
          {"actual", steady(physics::in_its_unit(e.kind, e.actual), decimals)},
          {"relation", to_text(e.relation)},
          {"limit", steady(physics::in_its_unit(e.kind, e.limit), decimals)},
          {"unit", physics::unit_of(e.kind)}};
}

Json texts(const std::vector<diag::Said>& said) {
  Json out = Json::array();
  for (const diag::Said& one : said)
    out.push_back(wording::english().text(one));
  return out;
}

Json finding(const Told& told, const text::Sources& sources) {
  const diag::Diagnostic& d = *told.finding;
  Json j = {{"id", told.id},
            {"code", d.definition->code},
            {"name", d.definition->name},
            {"severity", to_text(d.severity)},
            {"message", wording::english().text(d.message)},
            {"about", json_of(told.names)}};
  if (!d.accepted.empty()) j["accepted_because"] = d.accepted;
  if (d.span.known()) j["place"] = place(sources, d.span);
  Json labels = Json::array();
  for (const diag::Label& label : d.labels) {
    if (label.span.known()) {
      labels.push_back(
          {{"text", wording::english().text(label.text)}, {"place", place(sources, label.span)}});
    }
  }
  if (!labels.empty()) j["see"] = std::move(labels);
  if (!d.evidence.empty()) {
    j["evidence"] = Json::array();
    for (const diag::Evidence& e : d.evidence)
      j["evidence"].push_back(evidence(e));
  }
  if (d.in_mouths)
    j["in_mouths"] = {{"of", 100}, {"hold", d.in_mouths->hold}, {"mean_holds", d.in_mouths->mean}};
  if (!d.notes.empty()) j["notes"] = texts(d.notes);
  if (!d.help.empty()) j["help"] = texts(d.help);
  if (!d.fixes.empty()) {
    j["fixes"] = Json::array();
    for (const diag::Fix& fix : d.fixes) {
      j["fixes"].push_back({{"replacement", fix.replacement},
                            {"safe", fix.safe},
                            {"place", place(sources, fix.span)}});
    }
  }
  return j;
}

} // namespace

std::string findings_json(const report::Report& report) {
  const AllTold told = told_apart(report);
  Json list = Json::array();
  for (const Told& one : told.list)
    list.push_back(finding(one, report.sources));
  Json unchecked = Json::array();
  for (const report::NotChecked& n : report.not_checked) {
    unchecked.push_back({{"what", wording::english().text(n.what)},
                         {"missing", wording::english().text(n.missing)},
                         {"about", json_of(report.names(n.about))}});
  }
  const Json out = {{"norma", 2},
                    {"findings", std::move(list)},
                    {"not_checked", std::move(unchecked)},
                    {"counts",
                     {{"error", told.count(diag::Severity::error)},
                      {"warning", told.count(diag::Severity::warning)},
                      {"advice", told.count(diag::Severity::advice)},
                      {"accepted", told.accepted},
                      {"not_shown", told.not_shown()}}}};
  return dumped(out);
}

} // namespace norma::emit
