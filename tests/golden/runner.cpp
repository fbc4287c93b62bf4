#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "cases.hpp"
#include "cli/run.hpp"
#include "diag/catalogue.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace fs = std::filesystem;

std::vector<std::string> stages() {
  return {"syntax", "names", "meaning", "kit", "rules", "output", "compare"};
}

std::vector<Case> cases_of(const std::string& stage) {
  std::vector<Case> out;
  const fs::path top = root() / "tests/golden" / stage;
  if (!fs::exists(top)) return out;
  for (const auto& subject : fs::directory_iterator(top)) {
    if (!subject.is_directory()) continue;
    for (const auto& entry : fs::directory_iterator(subject.path())) {
      if (!entry.is_directory()) continue;
      const std::string name = entry.path().filename().string();
      out.push_back({entry.path(), subject.path().filename().string(), name.starts_with("fail_")});
    }
  }
  std::sort(out.begin(), out.end(),
            [](const Case& a, const Case& b) { return a.folder < b.folder; });
  return out;
}

namespace {

std::string transcript(const cli::Outcome& outcome) {
  std::string out = outcome.out;
  if (!outcome.err.empty()) out += "-- standard error --\n" + outcome.err;
  return out + fmt::format("-- exit {} --\n", outcome.code);
}

void run_case(const Case& c) {
  CAPTURE(c.folder.string());
  const Inside inside(c.folder);
  std::vector<std::string> words = split_command(read_file("cmd"));
  REQUIRE(!words.empty());
  REQUIRE(words.front() == "norma");
  words.erase(words.begin());
  const std::string got = transcript(cli::run(words));

  if (update_golden()) write_file("expected", got);
  REQUIRE_MESSAGE(fs::exists("expected"), "no expected transcript");
  const std::string diff = difference(read_file("expected"), got);
  CHECK_MESSAGE(diff.empty(), diff);

  const diag::Definition* subject = diag::catalogue::find(c.subject);
  if (subject == nullptr) return;
  const bool named =
      got.find(fmt::format("[{} {}]", subject->code, subject->name)) != std::string::npos;
  CHECK_MESSAGE(named == c.must_fail, "a fail_ case shows its finding, an ok_ case does not");
}

void run_stage(const std::string& stage) {
  const std::vector<Case> cases = cases_of(stage);
  REQUIRE_MESSAGE(!cases.empty(), "no cases below tests/golden/", stage);
  for (const Case& c : cases)
    run_case(c);
}

} // namespace

TEST_CASE("golden: the text itself") { run_stage("syntax"); }
TEST_CASE("golden: names and structure") { run_stage("names"); }
TEST_CASE("golden: meaning and units") { run_stage("meaning"); }
TEST_CASE("golden: kits") { run_stage("kit"); }
TEST_CASE("golden: rules") { run_stage("rules"); }
TEST_CASE("golden: what is printed") { run_stage("output"); }
TEST_CASE("golden: before, after, and what a comparison says") { run_stage("compare"); }

TEST_CASE("every kind of change has a case, and stands in docs/comparing.md") {
  std::set<std::string> subjects;
  for (const Case& c : cases_of("compare"))
    subjects.insert(c.subject);
  const std::string page = read_file((root() / "docs/comparing.md").string());
#define NORMA_KIND(name, effect)                                                                   \
  CHECK_MESSAGE(subjects.count(#name) == 1, #name);                                                \
  CHECK_MESSAGE(page.find("| `" #name "` | " #effect " |") != std::string::npos, #name);
#include "review/kinds.def"
}

TEST_CASE("every finding of the catalogue has a failing case, a passing one, and a page") {
  std::set<std::string> failing;
  std::set<std::string> passing;
  for (const std::string& stage : stages()) {
    for (const Case& c : cases_of(stage))
      (c.must_fail ? failing : passing).insert(c.subject);
  }
  for (const diag::Definition* d : diag::catalogue::all()) {
    CAPTURE(std::string(d->name));
    CHECK(failing.count(std::string(d->name)) == 1);
    CHECK(passing.count(std::string(d->name)) == 1);
    CHECK(fs::exists(root() / "docs/diagnostics" / (std::string(d->code) + ".md")));
  }
}

} // namespace norma::test
