#include "emit/sarif.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "emit/findings_json.hpp"
#include "emit/json.hpp"
#include "emit/subject_words.hpp"
#include "text/utf8.hpp"
#include "text/version.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

/// A path as a URI reference (RFC 3986): what is not unreserved is written as its bytes.
std::string uri(std::string_view path) {
  constexpr std::string_view plain = "-._~/";
  std::string out = path.starts_with("/") ? "file://" : "";
  for (const char c : path) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (letter || plain.find(c) != std::string_view::npos) {
      out += c;
    } else {
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
  }
  return out;
}

Json region(const text::Sources& sources, text::Span span) {
  const text::Source& source = sources[span.file];
  const text::Place begin = source.place(span.begin);
  const text::Place end = source.place(span.end);
  return {{"startLine", begin.line},
          {"startColumn", begin.column},
          {"endLine", end.line},
          {"endColumn", end.column}};
}

Json physical(const text::Sources& sources, text::Span span) {
  return {{"artifactLocation", {{"uri", uri(sources[span.file].name())}}},
          {"region", region(sources, span)}};
}

std::string_view level(diag::Severity s) {
  using diag::Severity;
  switch (s) {
  case Severity::error: return "error";
  case Severity::warning: return "warning";
  case Severity::advice: break;
  }
  return "note";
}

std::string whole_message(const diag::Diagnostic& d, const report::Report& report) {
  std::string out = about_text(report, d.about, wording::english());
  out += (out.empty() ? "" : ": ") + wording::english().text(d.message) + ".";
  for (const diag::Said& note : d.notes)
    out += " Note: " + wording::english().text(note) + ".";
  for (const diag::Said& help : d.help)
    out += " Help: " + wording::english().text(help) + ".";
  return out;
}

Json result(const diag::Diagnostic& d, const std::string& id, std::size_t rule,
            const report::Report& report) {
  const text::Sources& sources = report.sources;
  Json j = {{"ruleId", d.definition->code},
            {"ruleIndex", rule},
            {"level", level(d.severity)},
            {"message", {{"text", whole_message(d, report)}}},
            {"partialFingerprints", {{"normaFinding/v1", id}}}};
  if (d.span.known())
    j["locations"] = Json::array({{{"physicalLocation", physical(sources, d.span)}}});
  Json related = Json::array();
  for (const diag::Label& label : d.labels) {
    if (!label.span.known()) continue;
    related.push_back(
        {{"physicalLocation", physical(sources, label.span)},
         {"message",
          {{"text", label.text.empty() ? "see here" : wording::english().text(label.text)}}}});
  }
  if (!related.empty()) j["relatedLocations"] = std::move(related);
  Json fixes = Json::array();
  for (const diag::Fix& fix : d.fixes) {
    Json replacement = {{"deletedRegion", region(sources, fix.span)},
                        {"insertedContent", {{"text", fix.replacement}}}};
    Json change = {{"artifactLocation", {{"uri", uri(sources[fix.span.file].name())}}},
                   {"replacements", Json::array({std::move(replacement)})}};
    fixes.push_back({{"artifactChanges", Json::array({std::move(change)})}});
  }
  if (!fixes.empty()) j["fixes"] = std::move(fixes);
  if (!d.accepted.empty()) {
    j["suppressions"] = Json::array(
        {{{"kind", "inSource"}, {"status", "accepted"}, {"justification", d.accepted}}});
  }
  Json properties = Json::object();
  const std::vector<std::string> views = view_labels(report, d.about, wording::english());
  if (!views.empty()) properties["views"] = views;
  if (!d.about.empty()) {
    const diag::SubjectNames names = report.names(d.about.front());
    if (!names.series.empty()) properties["series"] = names.series;
    if (!names.kit.empty()) properties["kit"] = names.kit;
  }
  if (!properties.empty()) j["properties"] = std::move(properties);
  return j;
}

constexpr std::string_view open_rule = "N001";

Json open_result(const report::NotChecked& n, std::size_t rule, const report::Report& report) {
  const diag::SubjectNames names = report.names(n.about);
  std::string text = about_text(report, {n.about}, wording::english());
  if (!names.file.empty()) text += fmt::format("{}in {}", text.empty() ? "" : " ", names.file);
  text += fmt::format("{}not checked: {} (missing: {}).", text.empty() ? "" : ": ",
                      wording::english().text(n.what), wording::english().text(n.missing));
  Json j = {{"ruleId", open_rule},
            {"ruleIndex", rule},
            {"kind", "open"},
            {"level", "none"},
            {"message", {{"text", std::move(text)}}}};
  // No place: a question is not about a line of the file.
  if (!names.file.empty()) j["properties"] = {{"file", names.file}};
  return j;
}

} // namespace

std::string findings_sarif(const report::Report& report) {
  const diag::Findings& findings = report.findings;
  std::vector<const diag::Definition*> used;
  for (const diag::Diagnostic& d : findings.all())
    used.push_back(d.definition);
  std::sort(used.begin(), used.end(),
            [](const diag::Definition* a, const diag::Definition* b) { return a->code < b->code; });
  used.erase(std::unique(used.begin(), used.end()), used.end());
  Json rules = Json::array();
  for (const diag::Definition* d : used) {
    std::string name(d->name);
    std::replace(name.begin(), name.end(), '_', ' ');
    rules.push_back({{"id", d->code},
                     {"name", d->name},
                     {"shortDescription", {{"text", name + "."}}},
                     {"help", {{"text", fmt::format("`norma explain {}` tells more.", d->code)}}},
                     {"defaultConfiguration", {{"level", level(d->severity)}}}});
  }
  rules.push_back(
      {{"id", open_rule},
       {"name", "not_checked"},
       {"shortDescription", {{"text", "norma could not check this: a datum is missing."}}},
       {"help", {{"text", "Give the datum in the protocol or in the kit."}}}});
  Json results = Json::array();
  const std::vector<std::string> ids = stable_ids(report);
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const diag::Diagnostic& d = findings.all()[i];
    const auto rule = std::find(used.begin(), used.end(), d.definition) - used.begin();
    results.push_back(result(d, ids[i], static_cast<std::size_t>(rule), report));
  }
  for (const report::NotChecked& n : report.not_checked)
    results.push_back(open_result(n, used.size(), report));
  Json run = {{"tool",
               {{"driver",
                 {{"name", "norma"}, {"version", text::version()}, {"rules", std::move(rules)}}}}},
              {"columnKind", "unicodeCodePoints"},
              {"results", std::move(results)}};
  if (findings.dropped() > 0) run["properties"] = {{"findingsNotShown", findings.dropped()}};
  const Json out = {{"$schema",
                     "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/"
                     "sarif-schema-2.1.0.json"},
                    {"version", "2.1.0"},
                    {"runs", Json::array({std::move(run)})}};
  return dumped(out);
}

} // namespace norma::emit
