#include "diag/json.hpp"

#include <nlohmann/json.hpp>

namespace norma::diag {
namespace {

using Json = nlohmann::ordered_json;

Json place(const text::Sources& sources, text::Span span) {
  const text::Source& source = sources[span.file];
  const text::Place begin = source.place(span.begin);
  const text::Place end = source.place(span.end);
  return {{"file", source.name()},          {"line", begin.line},       {"column", begin.column},
          {"end_line", end.line},           {"end_column", end.column}, {"offset", span.begin},
          {"length", span.end - span.begin}};
}

/// A number as data: rounded to what the kind's printed form shows would lose; kept to 6 decimals
/// so that the digits do not depend on the machine.
double steady(double value) { return std::stod(fmt::format("{:.6f}", value)); }

Json evidence(const Evidence& e) {
  return {{"quantity", e.quantity},
          {"actual", steady(e.actual)},
          {"relation", to_text(e.relation)},
          {"limit", steady(e.limit)},
          {"unit", physics::unit_of(e.kind)}};
}

Json finding(const Diagnostic& d, const text::Sources& sources) {
  Json j = {{"code", d.definition->code},
            {"name", d.definition->name},
            {"severity", to_text(d.severity)},
            {"message", d.message}};
  if (!d.views.empty()) j["views"] = d.views;
  if (!d.kit.empty()) j["kit"] = d.kit;
  if (!d.accepted.empty()) j["accepted_because"] = d.accepted;
  if (d.span.known()) j["place"] = place(sources, d.span);
  Json labels = Json::array();
  for (const Label& label : d.labels) {
    if (label.span.known()) {
      labels.push_back({{"text", label.text}, {"place", place(sources, label.span)}});
    }
  }
  if (!labels.empty()) j["see"] = std::move(labels);
  if (!d.evidence.empty()) {
    j["evidence"] = Json::array();
    for (const Evidence& e : d.evidence)
      j["evidence"].push_back(evidence(e));
  }
  if (!d.notes.empty()) j["notes"] = d.notes;
  if (!d.help.empty()) j["help"] = d.help;
  if (!d.fixes.empty()) {
    j["fixes"] = Json::array();
    for (const Fix& fix : d.fixes) {
      j["fixes"].push_back({{"replacement", fix.replacement},
                            {"safe", fix.safe},
                            {"place", place(sources, fix.span)}});
    }
  }
  return j;
}

} // namespace

std::string render_json(const Findings& findings, const std::vector<NotChecked>& not_checked,
                        const text::Sources& sources) {
  Json list = Json::array();
  for (const Diagnostic& d : findings.all())
    list.push_back(finding(d, sources));
  Json unchecked = Json::array();
  for (const NotChecked& n : not_checked) {
    Json j = {{"what", n.what}, {"missing", n.missing}};
    if (!n.view.empty()) j["view"] = n.view;
    if (!n.kit.empty()) j["kit"] = n.kit;
    unchecked.push_back(std::move(j));
  }
  const Json out = {{"findings", std::move(list)},
                    {"not_checked", std::move(unchecked)},
                    {"counts",
                     {{"error", findings.count(Severity::error)},
                      {"warning", findings.count(Severity::warning)},
                      {"advice", findings.count(Severity::advice)},
                      {"accepted", findings.accepted()},
                      {"not_shown", findings.dropped()}}}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace norma::diag
