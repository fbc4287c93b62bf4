// No standard rules this form. What programs read of it: the schema junit-10.xsd of the xUnit
// plugin (https://github.com/jenkinsci/xunit-plugin,
// src/main/resources/org/jenkinsci/plugins/xunit/types/ model/xsd/junit-10.xsd), and "Unit test
// reports", section "JUnit XML format specification"
// (https://docs.gitlab.com/ci/testing/unit_test_reports/): a case is known by class name and name,
// of two alike the second is dropped; why it is skipped is the element's content.
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "emit/hosts.hpp"
#include "emit/told.hpp"
#include "text/utf8.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

struct TestCase {
  std::string name;
  std::vector<const Told*> told;
  std::vector<std::string> not_checked;
};

struct Suite {
  std::string name;            // the class name of its cases, too: no two suites have the same
  std::vector<TestCase> cases; // the first for the protocol as a whole
};

std::string line_of(const Told& told, const report::Report& report) {
  const diag::Diagnostic& d = *told.finding;
  const wording::Language& english = wording::english();
  std::string out;
  if (const text::FileId file = file_of(report, told); file != text::FileId::none)
    out += path_in_repository(report, file) + ":";
  if (d.span.known()) {
    const text::Place place = report.sources[d.span.file].place(d.span.begin);
    out += fmt::format("{}:{}: ", place.line, place.column);
  } else if (!out.empty()) {
    out += " ";
  }
  out += fmt::format("{}{}: {} [{} {}]", d.accepted.empty() ? "" : "accepted ", to_text(d.severity),
                     english.text(d.message), d.definition->code, d.definition->name);
  if (!d.accepted.empty()) out += "\nbecause: " + d.accepted;
  for (const diag::Said& note : d.notes)
    out += "\nnote: " + english.text(note);
  for (const diag::Said& help : d.help)
    out += "\nhelp: " + english.text(help);
  return out;
}

class SuiteMaker {
 public:
  SuiteMaker(const report::Report& report, const AllTold& told) : report_(report), told_(told) {
    for (std::size_t i = 0; i < told.list.size(); ++i)
      places_[told.list[i].finding].push_back(i);
  }

  std::vector<Suite> make() {
    std::set<int> done;
    for (const report::Held& held : report_.held) {
      if (report_.first_of(held.about.file) != held.about.file) continue;
      done.insert(held.about.file);
      add(held);
    }
    // What could not be read as a protocol was held against nothing.
    for (std::size_t i = 0; i < report_.files.size(); ++i) {
      report::Held alone;
      alone.about.file = static_cast<int>(i);
      if (report_.first_of(alone.about.file) == alone.about.file &&
          done.count(alone.about.file) == 0)
        add(alone);
    }
    Suite rest{"the run", {{"the run", {}, {}}}};
    for (std::size_t i = 0; i < told_.list.size(); ++i) {
      if (shown_.count(i) == 0) rest.cases.front().told.push_back(&told_.list[i]);
    }
    for (const report::NotChecked& n : report_.not_checked) {
      if (n.about == diag::Subject{}) rest.cases.front().not_checked.push_back(open_text(n));
    }
    suites_.push_back(std::move(rest));
    return std::move(suites_);
  }

 private:
  void add(const report::Held& held) {
    const diag::SubjectNames names = report_.names(held.about);
    Suite suite{path_in_repository(
                    report_, report_.files[static_cast<std::size_t>(held.about.file)].read.front()),
                {{"the protocol", {}, {}}}};
    if (!names.group.empty()) suite.name += fmt::format(" for {}", names.group);
    if (!names.kit.empty()) suite.name += fmt::format(" with {}", names.kit);
    // Outside of repositories two files may have one path.
    if (const std::size_t before = names_[suite.name]++; before > 0)
      suite.name += fmt::format(" ({})", before + 1);
    const std::size_t views = held.protocol == nullptr ? 0 : held.protocol->views.size();
    if (held.protocol != nullptr) {
      for (const model::View& view : held.protocol->views)
        suite.cases.push_back({"view " + view.name, {}, {}});
      for (const model::Series& series : held.protocol->series)
        suite.cases.push_back({"series " + series.name, {}, {}});
    }
    const auto case_of = [&](const diag::Subject* about) -> TestCase& {
      std::size_t at = 0;
      if (about != nullptr && about->view != diag::Subject::none)
        at = 1 + static_cast<std::size_t>(about->view);
      else if (about != nullptr && about->series != diag::Subject::none)
        at = 1 + views + static_cast<std::size_t>(about->series);
      return suite.cases[at < suite.cases.size() ? at : 0];
    };
    for (const diag::Diagnostic* d : report_.findings_for(held)) {
      for (const std::size_t i : places_[d]) {
        const Told& told = told_.list[i];
        if (told.about != nullptr && !told.about->meets(held.about)) continue;
        case_of(told.about).told.push_back(&told);
        shown_.insert(i);
      }
    }
    for (const report::NotChecked* n : report_.not_checked_for(held)) {
      if (n->about != diag::Subject{}) case_of(&n->about).not_checked.push_back(open_text(*n));
    }
    suites_.push_back(std::move(suite));
  }

  const report::Report& report_;
  const AllTold& told_;
  std::map<const diag::Diagnostic*, std::vector<std::size_t>> places_; // in the list
  std::set<std::size_t> shown_;
  std::map<std::string, std::size_t> names_; // of suites: how many have it
  std::vector<Suite> suites_;
};

struct Counts {
  std::size_t tests = 0;
  std::size_t failures = 0;
  std::size_t skipped = 0;

  [[nodiscard]] std::string attributes() const {
    return fmt::format(R"(tests="{}" failures="{}" errors="0")", tests, failures);
  }
};

/// In the output of a case `[[ATTACHMENT|path]]` names a file to be shown.
std::string output_text(std::string plain) {
  for (std::size_t at = plain.find("[["); at != std::string::npos; at = plain.find("[[", at + 1))
    plain.insert(at + 1, " ");
  return xml_escaped(plain);
}

std::string case_text(const TestCase& one, const std::string& suite, const report::Report& report,
                      std::optional<diag::Severity> fails, Counts& counts) {
  std::string failures;
  std::string others;
  for (const Told* told : one.told) {
    const diag::Diagnostic& d = *told->finding;
    const std::string line = line_of(*told, report);
    if (!fails || d.severity < *fails || !d.accepted.empty()) {
      others += line + "\n";
      continue;
    }
    failures += fmt::format("      <failure message=\"{}\" type=\"{}\">{}</failure>\n",
                            xml_escaped(wording::english().text(d.message)), d.definition->code,
                            xml_escaped(line));
  }
  std::string questions;
  for (const std::string& question : one.not_checked)
    questions += (questions.empty() ? "" : "\n") + ("not checked: " + question);
  std::string out = fmt::format("    <testcase classname=\"{}\" name=\"{}\">\n", xml_escaped(suite),
                                xml_escaped(one.name));
  ++counts.tests;
  if (!failures.empty()) {
    ++counts.failures;
    out += failures;
    others += questions.empty() ? "" : questions + "\n";
  } else if (!questions.empty()) {
    ++counts.skipped;
    const std::string text = xml_escaped(questions);
    out += fmt::format("      <skipped message=\"{}\">{}</skipped>\n", text, text);
  }
  if (!others.empty())
    out += fmt::format("      <system-out>{}</system-out>\n", output_text(others));
  return out + "    </testcase>\n";
}

} // namespace

std::string findings_junit(const report::Report& report, std::optional<diag::Severity> fails) {
  const AllTold told = told_apart(report);
  Counts all;
  std::string body;
  std::size_t left = 0;
  for (std::size_t s = fails ? static_cast<std::size_t>(*fails) : told.left_out.size();
       s < told.left_out.size(); ++s)
    left += told.left_out[s];
  const std::vector<Suite> suites = SuiteMaker(report, told).make();
  for (const Suite& suite : suites) {
    Counts counts;
    std::string cases;
    // Of those that are too many nobody can tell whose they are: the suite of the run fails.
    if (left > 0 && &suite == &suites.back()) {
      ++counts.tests;
      ++counts.failures;
      cases += fmt::format("    <testcase classname=\"{}\" name=\"all findings shown\">\n"
                           "      <failure message=\"{} more findings are not shown\"/>\n"
                           "    </testcase>\n",
                           xml_escaped(suite.name), left);
    }
    for (const TestCase& one : suite.cases)
      cases += case_text(one, suite.name, report, fails, counts);
    body += fmt::format("  <testsuite name=\"{}\" {} skipped=\"{}\">\n{}  </testsuite>\n",
                        xml_escaped(suite.name), counts.attributes(), counts.skipped, cases);
    all.tests += counts.tests;
    all.failures += counts.failures;
  }
  return fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                     "<testsuites name=\"norma\" {}>\n{}</testsuites>\n",
                     all.attributes(), body);
}

std::string xml_escaped(std::string_view plain) {
  const std::string printable = text::printable(plain, true);
  std::string out;
  out.reserve(printable.size());
  for (std::size_t i = 0; i < printable.size(); ++i) {
    const std::string_view rest = std::string_view(printable).substr(i);
    if (rest.starts_with("\xEF\xBF\xBE") || rest.starts_with("\xEF\xBF\xBF")) {
      i += 2;
      continue;
    }
    switch (printable[i]) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += "&gt;"; break;
    case '"': out += "&quot;"; break;
    case '\n': out += "&#10;"; break;
    default: out += printable[i];
    }
  }
  return out;
}

} // namespace norma::emit
