// No standard rules this form; what programs read of it is the schema `junit-10.xsd` of the xUnit
// plugin (https://github.com/jenkinsci/xunit-plugin, src/main/resources/org/jenkinsci/plugins/xunit/
// types/model/xsd/junit-10.xsd): a choice of skipped, error, failure, system-out in a case.
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "emit/annotations.hpp"
#include "emit/told.hpp"
#include "emit/xml.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

/// Stands where others have a protocol's name: no name of one holds a blank.
constexpr std::string_view run_suite = "the run";

struct TestCase {
  std::string name;
  std::vector<const Told*> told;
  std::vector<std::string> not_checked;
};

struct Suite {
  std::string name;
  std::string protocol;
  std::vector<TestCase> cases; // the first for the protocol as a whole
};

std::string place_text_of(const Told& told, const report::Report& report) {
  const text::Span span = told.finding->span;
  if (!span.known()) return {};
  const text::Source& source = report.sources[span.file];
  const text::Place place = source.place(span.begin);
  return fmt::format("{}:{}:{}: ", source.name(), place.line, place.column);
}

std::string line_of(const Told& told, const report::Report& report) {
  const diag::Diagnostic& d = *told.finding;
  std::string out = fmt::format("{}{}{}: {} [{} {}]", place_text_of(told, report),
                                d.accepted.empty() ? "" : "accepted ", to_text(d.severity),
                                wording::text(d.message), d.definition->code, d.definition->name);
  if (!d.accepted.empty()) out += "\nbecause: " + d.accepted;
  for (const diag::Said& note : d.notes)
    out += "\nnote: " + wording::text(note);
  for (const diag::Said& help : d.help)
    out += "\nhelp: " + wording::text(help);
  return out;
}

class SuiteMaker {
 public:
  SuiteMaker(const report::Report& report, const AllTold& told) : report_(report), told_(told) {
    for (std::size_t i = 0; i < told.list.size(); ++i)
      places_[told.list[i].finding].push_back(i);
  }

  std::vector<Suite> make() {
    std::set<int> held_files;
    for (const report::Held& held : report_.held) {
      held_files.insert(held.about.file);
      add(held);
    }
    // What could not be read as a protocol was held against nothing.
    for (std::size_t i = 0; i < report_.files.size(); ++i) {
      if (held_files.count(static_cast<int>(i)) > 0) continue;
      report::Held alone;
      alone.about.file = static_cast<int>(i);
      add(alone);
    }
    Suite rest{"the run", std::string(run_suite), {{"the run", {}, {}}}};
    for (std::size_t i = 0; i < told_.list.size(); ++i) {
      if (shown_.count(i) == 0) rest.cases.front().told.push_back(&told_.list[i]);
    }
    for (const report::NotChecked& n : report_.not_checked) {
      if (n.about == diag::Subject{}) rest.cases.front().not_checked.push_back(question(n));
    }
    suites_.push_back(std::move(rest));
    return std::move(suites_);
  }

 private:
  static std::string question(const report::NotChecked& n) {
    return fmt::format("{} (missing: {})", wording::text(n.what), wording::text(n.missing));
  }

  void add(const report::Held& held) {
    const diag::SubjectNames names = report_.names(held.about);
    Suite suite{std::string(names.file), std::string(names.protocol), {{"the protocol", {}, {}}}};
    if (suite.protocol.empty()) suite.protocol = suite.name;
    if (!names.group.empty()) suite.name += fmt::format(" for {}", names.group);
    if (!names.kit.empty()) suite.name += fmt::format(" with {}", names.kit);
    const std::size_t views = held.plan.views.size();
    for (const plan::ViewPlan& view : held.plan.views)
      suite.cases.push_back({"view " + view.view->name, {}, {}});
    if (held.protocol != nullptr) {
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
      if (n->about != diag::Subject{}) case_of(&n->about).not_checked.push_back(question(*n));
    }
    suites_.push_back(std::move(suite));
  }

  const report::Report& report_;
  const AllTold& told_;
  std::map<const diag::Diagnostic*, std::vector<std::size_t>> places_; // in the list
  std::set<std::size_t> shown_;
  std::vector<Suite> suites_;
};

struct Counts {
  std::size_t tests = 0;
  std::size_t failures = 0;
  std::size_t skipped = 0;

  [[nodiscard]] std::string attributes() const {
    return fmt::format(R"(tests="{}" failures="{}" errors="0" skipped="{}")", tests, failures,
                       skipped);
  }
};

std::string case_text(const TestCase& one, const Suite& suite, const report::Report& report,
                      diag::Severity fails, Counts& counts) {
  std::string failures;
  std::string others;
  for (const Told* told : one.told) {
    const diag::Diagnostic& d = *told->finding;
    const std::string line = line_of(*told, report);
    if (d.severity < fails || !d.accepted.empty()) {
      others += line + "\n";
      continue;
    }
    failures += fmt::format("      <failure message=\"{}\" type=\"{}\">{}</failure>\n",
                            xml_escaped(wording::text(d.message)), d.definition->code,
                            xml_escaped(line));
  }
  std::string questions;
  for (const std::string& question : one.not_checked)
    questions += (questions.empty() ? "" : "\n") + ("not checked: " + question);
  std::string out = fmt::format("    <testcase classname=\"{}\" name=\"{}\">\n",
                                xml_escaped(suite.protocol), xml_escaped(one.name));
  ++counts.tests;
  if (!failures.empty()) {
    ++counts.failures;
    out += failures;
    others += questions.empty() ? "" : questions + "\n";
  } else if (!questions.empty()) {
    ++counts.skipped;
    out += fmt::format("      <skipped message=\"{}\"/>\n", xml_escaped(questions));
  }
  if (!others.empty())
    out += fmt::format("      <system-out>{}</system-out>\n", xml_escaped(others));
  return out + "    </testcase>\n";
}

} // namespace

std::string findings_junit(const report::Report& report, diag::Severity fails) {
  const AllTold told = told_apart(report);
  Counts all;
  std::string body;
  std::size_t left = 0;
  for (std::size_t s = static_cast<std::size_t>(fails); s < told.left_out.size(); ++s)
    left += told.left_out[s];
  for (const Suite& suite : SuiteMaker(report, told).make()) {
    Counts counts;
    std::string cases;
    // Of those that are too many nobody can tell whose they are: the suite of the run fails.
    if (left > 0 && suite.protocol == run_suite) {
      ++counts.tests;
      ++counts.failures;
      cases += fmt::format("    <testcase classname=\"norma\" name=\"all findings shown\">\n"
                           "      <failure message=\"{} more findings are not shown\"/>\n"
                           "    </testcase>\n",
                           left);
    }
    for (const TestCase& one : suite.cases)
      cases += case_text(one, suite, report, fails, counts);
    body += fmt::format("  <testsuite name=\"{}\" {}>\n{}  </testsuite>\n", xml_escaped(suite.name),
                        counts.attributes(), cases);
    all.tests += counts.tests;
    all.failures += counts.failures;
    all.skipped += counts.skipped;
  }
  return fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                     "<testsuites name=\"norma\" {}>\n{}</testsuites>\n",
                     all.attributes(), body);
}

} // namespace norma::emit
