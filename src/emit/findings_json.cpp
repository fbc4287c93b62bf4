#include "emit/findings_json.hpp"

#include <fmt/core.h>

#include <map>

#include "emit/json.hpp"
#include "emit/subject_words.hpp"

#include "text/digest.hpp"
#include "text/utf8.hpp"
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

/// A number as data: rounded to what the kind's printed form shows would lose; kept to 6 decimals
/// so that the digits do not depend on the machine.
double steady(double value) { return std::stod(fmt::format("{:.6f}", value)); }

Json evidence(const diag::Evidence& e) {
  return {{"quantity", wording::english().text(e.quantity)},
          {"actual", steady(physics::in_its_unit(e.kind, e.actual))},
          {"relation", to_text(e.relation)},
          {"limit", steady(physics::in_its_unit(e.kind, e.limit))},
          {"unit", physics::unit_of(e.kind)}};
}

Json texts(const std::vector<diag::Said>& said) {
  Json out = Json::array();
  for (const diag::Said& one : said)
    out.push_back(wording::english().text(one));
  return out;
}

Json finding(const diag::Diagnostic& d, const std::string& id, const report::Report& report) {
  const text::Sources& sources = report.sources;
  Json j = {{"id", id},
            {"code", d.definition->code},
            {"name", d.definition->name},
            {"severity", to_text(d.severity)},
            {"message", wording::english().text(d.message)}};
  const std::vector<std::string> views = view_labels(report, d.about, wording::english());
  if (!views.empty()) j["views"] = views;
  if (!d.about.empty()) {
    const diag::SubjectNames names = report.names(d.about.front());
    if (!names.series.empty()) j["series"] = names.series;
    if (!names.kit.empty()) j["kit"] = names.kit;
  }
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

namespace {

/// A text without its layout: one blank where there are several, or a new line.
std::string words_of(std::string_view written) {
  std::string out;
  bool gap = false;
  for (const char c : written) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
      gap = !out.empty();
      continue;
    }
    if (gap) out += ' ';
    gap = false;
    out += c;
  }
  return out;
}

} // namespace

std::vector<std::string> stable_ids(const report::Report& report) {
  std::vector<std::string> out;
  std::map<std::string, int> seen; // the same words in one file twice: they are counted
  for (const diag::Diagnostic& d : report.findings.all()) {
    std::string key(d.definition->code);
    const auto add = [&](std::string_view part) {
      key += '\n';
      key += part;
    };
    add(d.about.empty() ? std::string_view() : report.names(d.about.front()).kit);
    for (const std::string& view : view_labels(report, d.about, wording::english()))
      add(view);
    if (d.span.known()) {
      add(report.sources[d.span.file].name());
      add(words_of(report.sources.text(d.span)));
    }
    const int before = seen[key]++;
    add(std::to_string(before));
    constexpr std::size_t digits = 16;
    out.push_back(text::sha256(key).substr(0, digits));
  }
  return out;
}

std::string findings_json(const report::Report& report) {
  const diag::Findings& findings = report.findings;
  Json list = Json::array();
  const std::vector<std::string> ids = stable_ids(report);
  for (std::size_t i = 0; i < ids.size(); ++i)
    list.push_back(finding(findings.all()[i], ids[i], report));
  Json unchecked = Json::array();
  for (const report::NotChecked& n : report.not_checked) {
    const diag::SubjectNames names = report.names(n.about);
    Json j = {{"what", wording::english().text(n.what)},
              {"missing", wording::english().text(n.missing)}};
    if (!names.file.empty()) j["file"] = names.file;
    if (!names.view.empty()) j["view"] = view_label(report, n.about, wording::english());
    if (!names.kit.empty()) j["kit"] = names.kit;
    unchecked.push_back(std::move(j));
  }
  const Json out = {{"norma", 1},
                    {"findings", std::move(list)},
                    {"not_checked", std::move(unchecked)},
                    {"counts",
                     {{"error", findings.count(diag::Severity::error)},
                      {"warning", findings.count(diag::Severity::warning)},
                      {"advice", findings.count(diag::Severity::advice)},
                      {"accepted", findings.accepted()},
                      {"not_shown", findings.dropped()}}}};
  return dumped(out);
}

} // namespace norma::emit
