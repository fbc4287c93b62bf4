// The published form: "Code Quality", section "Code Quality report format"
// (https://docs.gitlab.com/ci/testing/code_quality/#code-quality-report-format).
#include <string_view>

#include "emit/hosts.hpp"
#include "emit/json.hpp"
#include "emit/told.hpp"

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

} // namespace

std::string findings_gitlab(const report::Report& report) {
  Json out = Json::array();
  const AllTold told = told_apart(report);
  for (const Told& one : told.list) {
    const diag::Diagnostic& d = *one.finding;
    const text::FileId file = file_of(report, one);
    if (!d.accepted.empty() || file == text::FileId::none) continue;
    const std::uint32_t line = d.span.known() ? report.sources[file].place(d.span.begin).line : 1;
    out.push_back(
        {{"description", told_text(report, one)},
         {"check_name", d.definition->code},
         {"fingerprint", one.id},
         {"severity", gravity(d.severity)},
         {"location", {{"path", path_in_repository(report, file)}, {"lines", {{"begin", line}}}}}});
  }
  return dumped(out);
}

} // namespace norma::emit
