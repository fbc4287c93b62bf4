// Findings for the services that run checks: what strangers write into files and names does not
// act on them, and what they drop is counted.
#include "emit/hosts.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>

#include "diag/catalogue.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

namespace catalogue = diag::catalogue;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    out.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

std::size_t starting(const std::vector<std::string>& lines, std::string_view with) {
  return static_cast<std::size_t>(std::count_if(
      lines.begin(), lines.end(), [&](const std::string& l) { return l.rfind(with, 0) == 0; }));
}

std::size_t counted(const std::string& text, std::string_view part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != text.npos; at = text.find(part, at + 1))
    ++n;
  return n;
}

/// A finding in a file of that name that says `words`.
report::Report saying(const std::string& name, const std::string& words) {
  report::Report report;
  const text::FileId file = report.sources.add(name, "norma 1\n");
  report.findings.add(diag::make(catalogue::unknown_word, {file, 0, 5}, words));
  return report;
}

} // namespace

// escapeData and escapeProperty, packages/core/src/command.ts
// (https://github.com/actions/toolkit/blob/main/packages/core/src/command.ts).
TEST_CASE("a workflow command holds no sign that ends it") {
  CHECK(emit::command_data("50%, a:b\nnext\r") == "50%25, a:b%0Anext\\u{0d}");
  CHECK(emit::command_property("a,b:c%\nd") == "a%2Cb%3Ac%25%0Ad");
  // Directional overrides and other controls are written out.
  CHECK(emit::command_data("\u202eabc\x1b[0m") == "\\u{202e}abc\\u{1b}[0m");
  // A message is cut at 4096 characters, between two of them.
  std::string long_one(4095, 'a');
  long_one += "\u00fc%";
  CHECK(emit::command_data(long_one) == std::string(4095, 'a'));
  CHECK(emit::command_data(std::string(4097, '%')).size() == 3 * 4096);
}

TEST_CASE("a hostile file name and word stay within their workflow command") {
  const auto report =
      saying("a,b::error::x\n::stop-commands::y.norma", "w\n::add-mask::z\r##[error]");
  const std::vector<std::string> lines = lines_of(emit::findings_github(report));
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].rfind("::error file=a%2Cb%3A%3Aerror%3A%3Ax%0A%3A%3Astop-commands%3A%3Ay.norma,"
                       "line=1,endLine=1,col=1,endColumn=6,title=M001 unknown_word::",
                       0) == 0);
  CHECK(lines[1] == "0 accepted, 0 not checked.");
}

TEST_CASE("ten workflow commands of a kind, the graver first; the rest is counted") {
  report::Report report;
  const text::FileId file = report.sources.add("p.norma", std::string(400, 'x'));
  for (std::uint32_t i = 0; i < 40; ++i) {
    const text::Span at{file, i, i + 1};
    report.findings.add(diag::make(catalogue::mirror_may_fog, at));
    if (i < 12) report.findings.add(diag::make(catalogue::picture_turn_missing, at));
  }
  std::vector<std::string> lines = lines_of(emit::findings_github(report));
  CHECK(starting(lines, "::error ") == 10);
  CHECK(starting(lines, "::notice ") == 10);
  CHECK(lines.size() == 21);
  CHECK(lines.front().rfind("::error ", 0) == 0);
  CHECK(lines.back() ==
        "2 more of level error, 30 more of level advice; 0 accepted, 0 not checked.");
  report.not_checked.push_back({{}, diag::Said("what"), diag::Said("a datum")});
  lines = lines_of(emit::findings_github(report));
  CHECK(starting(lines, "::notice title=not checked::") == 1);
  CHECK(starting(lines, "::notice ") == 10);
  CHECK(lines.back() ==
        "2 more of level error, 31 more of level advice; 0 accepted, 1 not checked.");
}

TEST_CASE("files are named from the repository's folder, however they were typed") {
  const auto named = [](const std::string& typed, const std::string& in_project) {
    report::Report report = saying(typed, "w");
    report.in_project.emplace(static_cast<text::FileId>(0), in_project);
    return emit::path_in_repository(report, static_cast<text::FileId>(0));
  };
  CHECK(named("five.norma", "protocols/five.norma") == "protocols/five.norma");
  CHECK(named("../protocols/./five.norma", "protocols/five.norma") == "protocols/five.norma");
  CHECK(named("../../../repo/protocols/five.norma", "protocols/five.norma") ==
        "protocols/five.norma");
  CHECK(named("../five.norma", "five.norma") == "five.norma");
  CHECK(named("/home/ci/protocols/five.norma", "protocols/five.norma") == "protocols/five.norma");
  // Without a repository: as typed.
  CHECK(named("./protocols/five.norma", "five.norma") == "protocols/five.norma");
}

// XML 1.0, section 2.2, production Char (https://www.w3.org/TR/xml/#charsets).
TEST_CASE("test results hold no character that XML forbids") {
  CHECK(emit::xml_escaped("<a b=\"c\">&'\n") == "&lt;a b=&quot;c&quot;&gt;&amp;'&#10;");
  CHECK(emit::xml_escaped("]]>\x01\x1b\x7f\u202e\ufffe\uffff\xff") ==
        "]]&gt;\\u{01}\\u{1b}\\u{7f}\\u{202e}\\x{ff}");
  const std::string out =
      emit::findings_junit(saying("<&\x02>.norma", "]]><failure/>\x03\""), diag::Severity::error);
  CHECK(out.find("<failure/>") == out.npos);
  CHECK(std::none_of(out.begin(), out.end(),
                     [](char c) { return static_cast<unsigned char>(c) < 0x20 && c != '\n'; }));
}

TEST_CASE("a view is a case: failed, skipped where it was not checked, or passed") {
  const Work w(changed(five(), "  series record",
                       "  accept tooth_hidden in right because \"see [[ATTACHMENT|/etc/passwd]]\"\n"
                       "  series record"),
               chair(7));
  const report::Report& report = w.session->report();
  const std::string out = emit::findings_junit(report, diag::Severity::error);
  const model::Protocol& p = *report.held.front().protocol;
  // Each view, each series, the protocol, the run.
  const std::size_t cases = p.views.size() + p.series.size() + 2;
  CHECK(counted(out, "<testcase ") == cases);
  CHECK(out.find(fmt::format("<testsuites name=\"norma\" tests=\"{}\"", cases)) != out.npos);
  std::size_t failing = 0;
  for (int v = 0; v < static_cast<int>(p.views.size()); ++v) {
    const auto told = report.said_of(report.held.front().about.of_view(v));
    failing += std::any_of(told.begin(), told.end(), [](const diag::Diagnostic* d) {
      return d->severity == diag::Severity::error && d->accepted.empty();
    });
  }
  CHECK(failing > 0);
  CHECK(counted(out, "<failure ") == failing);
  // What hangs over the whole protocol was not checked: this school has adopted nothing.
  CHECK(counted(out, "<skipped ") > 0);
  CHECK(out.find("see [ [ATTACHMENT|/etc/passwd]]") != out.npos);
  CHECK(out.find("[[ATTACHMENT") == out.npos);
  CHECK(counted(emit::findings_junit(report, std::nullopt), "<failure ") == 0);
  CHECK(counted(emit::findings_junit(report, diag::Severity::advice), "<failure ") >
        counted(out, "<failure "));
}

// Two cases of one class name and name are one for their readers: "Unit test reports"
// (https://docs.gitlab.com/ci/testing/unit_test_reports/).
TEST_CASE("no two cases of test results have one name") {
  text::MemoryFiles files;
  files.put("x/p.norma", five());
  files.put("y/p.norma", five());
  files.put("a.yaml", chair(3));
  files.put("b.yaml", chair(3));
  session::Session session;
  session::Request request{
      {"x/p.norma", "y/p.norma", "x/p.norma"}, {"a.yaml", "b.yaml"}, {2026, 11, 25}};
  request.scene = false;
  REQUIRE(!session.run(files, request));
  std::map<std::string, int> names;
  for (const std::string& line :
       lines_of(emit::findings_junit(session.report(), diag::Severity::error))) {
    if (line.find("<testcase ") != line.npos) ++names[line];
  }
  CHECK(names.size() > 20);
  for (const auto& one : names)
    CHECK_MESSAGE(one.second == 1, one.first);
}

} // namespace norma::test
