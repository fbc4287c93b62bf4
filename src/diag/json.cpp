#include "diag/json.hpp"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "text/digest.hpp"
#include "text/utf8.hpp"
#include "text/version.hpp"

namespace norma::diag {
namespace {

using Json = nlohmann::ordered_json;

std::string dumped(const Json& j) {
  return text::printable_json(j.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

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

Json finding(const Diagnostic& d, const std::string& id, const text::Sources& sources) {
  Json j = {{"id", id},
            {"code", d.definition->code},
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

// SARIF -------------------------------------------------------------------------------------------

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

std::string_view level(Severity s) {
  switch (s) {
  case Severity::error: return "error";
  case Severity::warning: return "warning";
  case Severity::advice: break;
  }
  return "note";
}

std::string whole_message(const Diagnostic& d) {
  std::string out = views_text(d.views);
  if (!d.kit.empty()) out += fmt::format("{}with {}", out.empty() ? "" : " ", d.kit);
  out += (out.empty() ? "" : ": ") + d.message + ".";
  for (const std::string& note : d.notes)
    out += " Note: " + note + ".";
  for (const std::string& help : d.help)
    out += " Help: " + help + ".";
  return out;
}

Json sarif_result(const Diagnostic& d, const std::string& id, std::size_t rule,
                  const text::Sources& sources) {
  Json j = {{"ruleId", d.definition->code},
            {"ruleIndex", rule},
            {"level", level(d.severity)},
            {"message", {{"text", whole_message(d)}}},
            {"partialFingerprints", {{"normaFinding/v1", id}}}};
  if (d.span.known())
    j["locations"] = Json::array({{{"physicalLocation", physical(sources, d.span)}}});
  Json related = Json::array();
  for (const Label& label : d.labels) {
    if (!label.span.known()) continue;
    related.push_back({{"physicalLocation", physical(sources, label.span)},
                       {"message", {{"text", label.text.empty() ? "see here" : label.text}}}});
  }
  if (!related.empty()) j["relatedLocations"] = std::move(related);
  Json fixes = Json::array();
  for (const Fix& fix : d.fixes) {
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
  if (!d.views.empty()) properties["views"] = d.views;
  if (!d.kit.empty()) properties["kit"] = d.kit;
  if (!properties.empty()) j["properties"] = std::move(properties);
  return j;
}

constexpr std::string_view open_rule = "N001";

Json sarif_open(const NotChecked& n, std::size_t rule) {
  std::string text = n.view.empty() ? std::string() : "view " + n.view;
  if (!n.kit.empty()) text += fmt::format("{}with {}", text.empty() ? "" : " ", n.kit);
  if (!n.file.empty()) text += fmt::format("{}in {}", text.empty() ? "" : " ", n.file);
  text +=
      fmt::format("{}not checked: {} (missing: {}).", text.empty() ? "" : ": ", n.what, n.missing);
  Json j = {{"ruleId", open_rule},
            {"ruleIndex", rule},
            {"kind", "open"},
            {"level", "none"},
            {"message", {{"text", std::move(text)}}}};
  // No place: a question is not about a line of the file.
  if (!n.file.empty()) j["properties"] = {{"file", n.file}};
  return j;
}

} // namespace

std::vector<std::string> stable_ids(const Findings& findings, const text::Sources& sources) {
  std::vector<std::string> out;
  std::map<std::string, int> seen; // the same words in one file twice: they are counted
  for (const Diagnostic& d : findings.all()) {
    std::string key(d.definition->code);
    const auto add = [&](std::string_view part) {
      key += '\n';
      key += part;
    };
    add(d.kit);
    for (const std::string& view : d.views)
      add(view);
    if (d.span.known()) {
      add(sources[d.span.file].name());
      add(sources.text(d.span));
    }
    const int before = seen[key]++;
    add(std::to_string(before));
    constexpr std::size_t digits = 16;
    out.push_back(text::sha256(key).substr(0, digits));
  }
  return out;
}

std::string render_json(const Findings& findings, const std::vector<NotChecked>& not_checked,
                        const text::Sources& sources) {
  Json list = Json::array();
  const std::vector<std::string> ids = stable_ids(findings, sources);
  for (std::size_t i = 0; i < ids.size(); ++i)
    list.push_back(finding(findings.all()[i], ids[i], sources));
  Json unchecked = Json::array();
  for (const NotChecked& n : not_checked) {
    Json j = {{"what", n.what}, {"missing", n.missing}};
    if (!n.file.empty()) j["file"] = n.file;
    if (!n.view.empty()) j["view"] = n.view;
    if (!n.kit.empty()) j["kit"] = n.kit;
    unchecked.push_back(std::move(j));
  }
  const Json out = {{"norma", 1},
                    {"findings", std::move(list)},
                    {"not_checked", std::move(unchecked)},
                    {"counts",
                     {{"error", findings.count(Severity::error)},
                      {"warning", findings.count(Severity::warning)},
                      {"advice", findings.count(Severity::advice)},
                      {"accepted", findings.accepted()},
                      {"not_shown", findings.dropped()}}}};
  return dumped(out);
}

std::string render_sarif(const Findings& findings, const std::vector<NotChecked>& not_checked,
                         const text::Sources& sources) {
  std::vector<const Definition*> used;
  for (const Diagnostic& d : findings.all())
    used.push_back(d.definition);
  std::sort(used.begin(), used.end(),
            [](const Definition* a, const Definition* b) { return a->code < b->code; });
  used.erase(std::unique(used.begin(), used.end()), used.end());
  Json rules = Json::array();
  for (const Definition* d : used) {
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
  const std::vector<std::string> ids = stable_ids(findings, sources);
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const Diagnostic& d = findings.all()[i];
    const auto rule = std::find(used.begin(), used.end(), d.definition) - used.begin();
    results.push_back(sarif_result(d, ids[i], static_cast<std::size_t>(rule), sources));
  }
  for (const NotChecked& n : not_checked)
    results.push_back(sarif_open(n, used.size()));
  Json run = {
      {"tool",
       {{"driver", {{"name", "norma"}, {"version", text::version()}, {"rules", std::move(rules)}}}}},
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

std::string render_lines(const Findings& findings, const text::Sources& sources) {
  std::string out;
  for (const Diagnostic& d : findings.all()) {
    if (d.span.known()) {
      const text::Source& source = sources[d.span.file];
      const text::Place place = source.place(d.span.begin);
      out += fmt::format("{}:{}:{}: ", text::printable(source.name()), place.line, place.column);
    }
    out += fmt::format("{}{}: {} {}: ", d.accepted.empty() ? "" : "accepted ", to_text(d.severity),
                       d.definition->code, d.definition->name);
    std::string about = views_text(d.views);
    if (!d.kit.empty()) about += fmt::format("{}with {}", about.empty() ? "" : " ", d.kit);
    if (!about.empty()) out += text::printable(about) + ": ";
    out += text::printable(d.message) + "\n";
  }
  if (findings.dropped() > 0)
    out += fmt::format("{} more findings are not shown\n", findings.dropped());
  return out;
}

} // namespace norma::diag
