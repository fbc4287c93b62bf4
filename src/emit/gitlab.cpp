// The published form: "Code Quality", "Code Quality report format"
// (https://docs.gitlab.com/ci/testing/code_quality/#code-quality-report-format).
#include <map>
#include <string_view>

#include "emit/annotations.hpp"
#include "emit/json.hpp"
#include "emit/told.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

std::string_view gravity(diag::Severity s) {
  switch (s) {
  case diag::Severity::error: return "major";
  case diag::Severity::warning: return "minor";
  case diag::Severity::advice: break;
  }
  return "info";
}

/// Relative to the repository, and without `./` before it.
std::string_view path_of(std::string_view name) {
  while (name.starts_with("./"))
    name.remove_prefix(2);
  return name;
}

} // namespace

std::string findings_gitlab(const report::Report& report) {
  Json out = Json::array();
  // Each is to be unique: protocols of one name have the same ids.
  std::map<std::string_view, std::size_t> seen;
  const AllTold told = told_apart(report);
  for (const Told& one : told.list) {
    const diag::Diagnostic& d = *one.finding;
    const std::string_view name =
        d.span.known() ? std::string_view(report.sources[d.span.file].name()) : one.names.file;
    if (!d.accepted.empty() || name.empty()) continue;
    const std::uint32_t line =
        d.span.known() ? report.sources[d.span.file].place(d.span.begin).line : 1;
    std::string text = about_text(report, one);
    text += (text.empty() ? "" : ": ") + wording::text(d.message);
    const std::size_t before = seen[one.id]++;
    out.push_back({{"description", std::move(text)},
                   {"check_name", d.definition->code},
                   {"fingerprint", before == 0 ? one.id : one.id + "-" + std::to_string(before)},
                   {"severity", gravity(d.severity)},
                   {"location", {{"path", path_of(name)}, {"lines", {{"begin", line}}}}}});
  }
  return dumped(out);
}

} // namespace norma::emit
