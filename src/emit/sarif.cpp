#include "emit/sarif.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "emit/hosts.hpp"
#include "emit/json.hpp"
#include "emit/subject_words.hpp"
#include "emit/told.hpp"
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

/// Relative to the repository where it lies in one: hosts know files by that.
Json artifact(const report::Report& report, text::FileId file) {
  return {{"uri", uri(path_in_repository(report, file))}};
}

Json physical(const report::Report& report, text::Span span) {
  return {{"artifactLocation", artifact(report, span.file)},
          {"region", region(report.sources, span)}};
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

diag::Severity severity_of(std::string_view word) {
  for (const diag::Severity s : {diag::Severity::error, diag::Severity::warning})
    if (diag::to_text(s) == word) return s;
  return diag::Severity::advice;
}

std::string whole_message(const Told& told, const report::Report& report) {
  const diag::Diagnostic& d = *told.finding;
  std::string out = told_text(report, told) + ".";
  for (const diag::Said& note : d.notes)
    out += " Note: " + wording::english().text(note) + ".";
  for (const diag::Said& help : d.help)
    out += " Help: " + wording::english().text(help) + ".";
  return out;
}

/// If any result says whether it is suppressed, all do (section 3.27.23).
Json suppressions_of(const diag::Diagnostic& d) {
  Json out = Json::array();
  if (!d.accepted.empty())
    out.push_back({{"kind", "inSource"}, {"status", "accepted"}, {"justification", d.accepted}});
  return out;
}

Json result(const Told& told, std::size_t rule, const report::Report& report) {
  const diag::Diagnostic& d = *told.finding;
  const text::Sources& sources = report.sources;
  Json j = {{"ruleId", d.definition->code},
            {"ruleIndex", rule},
            {"level", level(d.severity)},
            {"message", {{"text", whole_message(told, report)}}},
            {"partialFingerprints",
             {{"normaFinding/v2", told.id}, {"primaryLocationLineHash", told.id + ":1"}}}};
  // Hosts show nothing without a place: what points to no line stands in the first one.
  if (const text::FileId file = file_of(report, told); file != text::FileId::none) {
    const text::Span span = d.span.known() ? d.span : text::Span{file, 0, 0};
    j["locations"] = Json::array({{{"physicalLocation", physical(report, span)}}});
  }
  Json related = Json::array();
  for (const diag::Label& label : d.labels) {
    if (!label.span.known()) continue;
    related.push_back(
        {{"physicalLocation", physical(report, label.span)},
         {"message",
          {{"text", label.text.empty() ? "see here" : wording::english().text(label.text)}}}});
  }
  if (!related.empty()) j["relatedLocations"] = std::move(related);
  Json fixes = Json::array();
  for (const diag::Fix& fix : d.fixes) {
    Json replacement = {{"deletedRegion", region(sources, fix.span)},
                        {"insertedContent", {{"text", fix.replacement}}}};
    Json change = {{"artifactLocation", artifact(report, fix.span.file)},
                   {"replacements", Json::array({std::move(replacement)})}};
    fixes.push_back({{"artifactChanges", Json::array({std::move(change)})}});
  }
  if (!fixes.empty()) j["fixes"] = std::move(fixes);
  Json properties = json_of(told.names);
  if (!properties.empty()) j["properties"] = std::move(properties);
  return j;
}

/// What was found before, and is no longer.
Json absent_result(const project::Known& gone, const project::HeldAgainst& baseline) {
  Json j = {{"ruleId", gone.code},
            {"level", level(severity_of(gone.severity))},
            {"message", {{"text", gone.what + "."}}},
            {"partialFingerprints",
             {{"normaFinding/v2", gone.id}, {"primaryLocationLineHash", gone.id + ":1"}}}};
  j["locations"] =
      Json::array({{{"physicalLocation",
                     {{"artifactLocation", {{"uri", uri(baseline.folder + gone.file)}}},
                      {"region", {{"startLine", 1}}}}}}});
  j["baselineState"] = "absent";
  return j;
}

/// Up to where a sentence ends, `most` bytes at most: hosts take 1024 characters.
std::string shortened(std::string_view plain) {
  constexpr std::size_t most = 1000;
  if (plain.size() <= most) return std::string(plain);
  const std::size_t end = plain.substr(0, most).rfind(". ");
  return std::string(plain.substr(0, end == std::string_view::npos ? 0 : end + 1));
}

/// What a page of docs/diagnostics says before its example, without its heading: a paragraph each.
std::vector<std::string> paragraphs(std::string_view page) {
  std::vector<std::string> out;
  bool open = false;
  while (!page.empty()) {
    const std::size_t end = std::min(page.find('\n'), page.size());
    const std::string_view line = page.substr(0, end);
    page.remove_prefix(std::min(end + 1, page.size()));
    if (line.starts_with("## ") || line.starts_with("```")) break;
    const bool text = !line.empty() && !line.starts_with("# ");
    if (text && open) {
      out.back() += ' ';
      out.back() += line;
    } else if (text) {
      out.emplace_back(line);
    }
    open = text;
  }
  return out;
}

/// What a finding is of, by the letter of its code.
std::string_view family_of(const diag::Definition& d) {
  switch (d.code.front()) {
  case 'S': return "text";
  case 'R': return "structure";
  case 'M': return "meaning";
  case 'K': return "kit";
  case 'P': return "pictures";
  default: return "record";
  }
}

Json rule(const diag::Definition& d, std::string_view page) {
  std::vector<std::string> said = paragraphs(page);
  if (said.empty()) {
    said.emplace_back(d.name);
    std::replace(said.back().begin(), said.back().end(), '_', ' ');
    said.back() += ".";
  }
  std::string whole;
  for (const std::string& one : said)
    whole += (whole.empty() ? "" : "\n\n") + one;
  return {
      {"id", d.code},
      {"name", d.name},
      {"shortDescription", {{"text", shortened(said.front())}}},
      {"fullDescription", {{"text", shortened(whole)}}},
      {"help", {{"text", fmt::format("{}\n\n`norma explain {}` has an example.", whole, d.code)}}},
      {"defaultConfiguration", {{"level", level(d.severity)}}},
      {"properties", {{"tags", Json::array({family_of(d)})}}}};
}

constexpr std::string_view open_notification = "N001";
/// More of them are counted.
constexpr std::size_t most_notifications = 1000;

Json notification(std::string text) {
  return {{"descriptor", {{"id", open_notification}, {"index", 0}}},
          {"level", "note"},
          {"message", {{"text", std::move(text)}}}};
}

/// What was not checked is no result: it says of the run that it is not the whole of it (SARIF
/// 2.1.0, sections 3.20.21 and 3.58).
Json notification(const report::NotChecked& n, const report::Report& report) {
  const std::string about = about_text(report, {n.about}, wording::english());
  Json j = notification(
      fmt::format("{}{}not checked: {}.", about, about.empty() ? "" : ": ", open_text(n)));
  if (n.about.file != diag::Subject::none) {
    const text::FileId file = report.files[static_cast<std::size_t>(n.about.file)].read.front();
    j["locations"] =
        Json::array({{{"physicalLocation", {{"artifactLocation", artifact(report, file)}}}}});
  }
  Json properties = json_of(report.names(n.about));
  if (!properties.empty()) j["properties"] = std::move(properties);
  return j;
}

Json notifications_of(const report::Report& report) {
  Json out = Json::array();
  for (const report::NotChecked& n : report.not_checked) {
    if (out.size() == most_notifications) {
      out.push_back(notification(fmt::format("not checked: {} more questions.",
                                             report.not_checked.size() - most_notifications)));
      break;
    }
    out.push_back(notification(n, report));
  }
  return out;
}

} // namespace

std::string findings_sarif(const report::Report& report, const PageOf& page_of,
                           const project::HeldAgainst* baseline) {
  const diag::Findings& findings = report.findings;
  std::vector<const diag::Definition*> used;
  for (const diag::Diagnostic& d : findings.all())
    used.push_back(d.definition);
  std::sort(used.begin(), used.end(),
            [](const diag::Definition* a, const diag::Definition* b) { return a->code < b->code; });
  used.erase(std::unique(used.begin(), used.end()), used.end());
  Json rules = Json::array();
  for (const diag::Definition* d : used)
    rules.push_back(rule(*d, page_of(d->code)));
  const Json open = {
      {"id", open_notification},
      {"name", "not_checked"},
      {"shortDescription", {{"text", "norma could not check this: a datum is missing."}}},
      {"fullDescription",
       {{"text", "norma could not check this: a datum is missing. Whether it holds is open; give "
                 "the datum in the protocol or in the kit."}}},
      {"help", {{"text", "Each message names the datum that is missing."}}},
      {"defaultConfiguration", {{"level", "note"}}}};
  Json results = Json::array();
  const AllTold told = told_apart(report, KnownOnes::listed);
  for (const Told& one : told.list) {
    const auto rule = std::find(used.begin(), used.end(), one.finding->definition) - used.begin();
    Json& j = results.emplace_back(result(one, static_cast<std::size_t>(rule), report));
    if (told.accepted > 0) j["suppressions"] = suppressions_of(*one.finding);
    if (baseline != nullptr) j["baselineState"] = one.finding->known ? "unchanged" : "new";
  }
  for (const project::Known& gone :
       baseline == nullptr ? std::vector<project::Known>() : baseline->gone) {
    Json& j = results.emplace_back(absent_result(gone, *baseline));
    if (told.accepted > 0) j["suppressions"] = Json::array();
  }
  Json run = {
      {"tool",
       {{"driver",
         {{"name", "norma"},
          {"version", text::version()},
          {"rules", std::move(rules)},
          {"notifications", Json::array({open})}}}}},
      {"invocations", Json::array({{{"executionSuccessful", true},
                                    {"toolExecutionNotifications", notifications_of(report)}}})},
      {"columnKind", "unicodeCodePoints"},
      {"results", std::move(results)}};
  if (told.not_shown() > 0) run["properties"] = {{"findingsNotShown", told.not_shown()}};
  const Json out = {{"$schema",
                     "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/"
                     "sarif-schema-2.1.0.json"},
                    {"version", "2.1.0"},
                    {"runs", Json::array({std::move(run)})}};
  return dumped(out);
}

} // namespace norma::emit
