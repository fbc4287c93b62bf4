// Findings as a collection: capped by gravity, counted in full, with ids that last.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "diag/catalogue.hpp"
#include "emit/findings_json.hpp"
#include "emit/sarif.hpp"
#include "emit/told.hpp"
#include "text/utf8.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

namespace catalogue = diag::catalogue;

std::vector<std::string> ids(const Work& w) {
  std::vector<std::string> out;
  for (const emit::Told& told : emit::told_apart(w.session->report()).list)
    out.push_back(told.id);
  return out;
}

} // namespace

TEST_CASE("numbers behind a finding stand in the unit that is named beside them") {
  // 60 degrees is pi / 3.
  CHECK(physics::in_its_unit(physics::Kind::angle, 1.0471975511965976) == doctest::Approx(60.0));
  CHECK(physics::in_its_unit(physics::Kind::length, 12.5) == 12.5);
  report::Report report;
  auto& d = report.findings.add(diag::make(catalogue::mirror_may_fog, {}));
  d.evidence.push_back({diag::Said("angle"), physics::Kind::angle, 1.0471975511965976,
                        diag::Relation::at_most, 0.5235987755982988});
  const std::string json = emit::findings_json(report);
  CHECK(json.find("\"actual\": 60.0") != json.npos);
  CHECK(json.find("\"limit\": 30.0") != json.npos);
  CHECK(json.find("\"unit\": \"deg\"") != json.npos);
}

TEST_CASE("past a thousand the graver findings are left, and all are counted") {
  diag::Findings f;
  for (std::uint32_t i = 0; i < 1500; ++i) {
    const text::Span at{static_cast<text::FileId>(0), i, i + 1};
    f.add(diag::make(catalogue::mirror_may_fog, at));
  }
  for (std::uint32_t i = 0; i < 10; ++i) {
    const text::Span at{static_cast<text::FileId>(0), 5000 + i, 5001 + i};
    f.add(diag::make(catalogue::picture_turn_missing, at));
  }
  f.settle();
  CHECK(f.all().size() == diag::Findings::most);
  CHECK(f.count(diag::Severity::error) == 10);
  CHECK(f.count(diag::Severity::advice) == 1500);
  CHECK(f.dropped() == 510);
  CHECK(f.worst() == diag::Severity::error);
  // In the order of places, the errors at the end.
  CHECK(f.all().back().severity == diag::Severity::error);
  CHECK(std::is_sorted(f.all().begin(), f.all().end(),
                       [](const auto& a, const auto& b) { return a.span < b.span; }));
  // Advice alone does not count as an error, however much is dropped.
  diag::Findings mild;
  for (std::uint32_t i = 0; i < 1200; ++i)
    mild.add(diag::make(catalogue::mirror_may_fog, {static_cast<text::FileId>(0), i, i + 1}));
  mild.settle();
  CHECK(mild.worst() == diag::Severity::advice);
}

TEST_CASE("an id stays while what it speaks of does") {
  const Work plain(five(), chair(7));
  const std::vector<std::string> before = ids(plain);
  REQUIRE(before.size() > 10);
  CHECK(std::set<std::string>(before.begin(), before.end()).size() == before.size());
  // A comment above moves every line; another power changes the numbers.
  CHECK(ids(Work("# a comment\n\n" + five(), "# another\n" + chair(7))) == before);
  CHECK(ids(Work(five(), changed(chair(7), "guide number: 3 m", "guide number: 2.9 m"))) == before);
  // Another kit, other ids.
  const std::vector<std::string> other =
      ids(Work(five(), changed(chair(7), "name: chair_7", "name: chair_8")));
  for (const std::string& id : other)
    CHECK(std::find(before.begin(), before.end(), id) == before.end());
}

TEST_CASE("each subject has a finding of its own, with names and an id") {
  const Work w(changed(five(), "  series record",
                       "  accept tooth_hidden in right because \"so\"\n"
                       "  series record"),
               chair(3));
  const report::Report& report = w.session->report();
  const emit::AllTold told = emit::told_apart(report);
  std::size_t subjects = 0;
  for (const diag::Diagnostic& d : report.findings.all())
    subjects += std::max<std::size_t>(1, d.about.size());
  CHECK(told.list.size() == subjects);
  CHECK(told.count(diag::Severity::error) + told.count(diag::Severity::warning) +
            told.count(diag::Severity::advice) + told.accepted ==
        subjects);
  CHECK(told.accepted > 0);
  for (const emit::Told& one : told.list)
    CHECK(one.names.protocol == (one.about == nullptr ? "" : "harbour_five"));
}

TEST_CASE("past a thousand subjects the graver findings are told, and all are counted") {
  report::Report report;
  for (int view = 0; view < 3000; ++view) {
    diag::Diagnostic mild = diag::make(catalogue::mirror_may_fog, {});
    mild.about = {diag::Subject{}.of_view(view)};
    report.findings.add(std::move(mild));
    if (view % 500 != 0) continue;
    diag::Diagnostic grave = diag::make(catalogue::picture_turn_missing, {});
    grave.about = {diag::Subject{}.of_view(view)};
    report.findings.add(std::move(grave));
  }
  report.findings.settle();
  REQUIRE(report.findings.all().size() == 2); // merged, as text has them
  const emit::AllTold told = emit::told_apart(report);
  CHECK(told.list.size() == diag::Findings::most);
  CHECK(told.count(diag::Severity::error) == 6);
  CHECK(told.count(diag::Severity::advice) == 3000);
  CHECK(told.not_shown() == 3006 - diag::Findings::most);
  CHECK(std::count_if(told.list.begin(), told.list.end(), [](const emit::Told& one) {
          return one.finding->severity == diag::Severity::error;
        }) == 6);
  // Alike in all but their number.
  std::set<std::string> all;
  for (const emit::Told& one : told.list)
    all.insert(one.id);
  CHECK(all.size() == told.list.size());
}

TEST_CASE("evidence has the number that its unit says") {
  report::Report report;
  report.findings.add(diag::make(catalogue::mirror_may_fog, {}))
      .with_evidence({"turned by", physics::Kind::angle, (45 * degree).base(),
                      diag::Relation::at_most, (30 * degree).base()});
  const std::string json = emit::findings_json(report);
  CHECK(json.find("\"actual\": 45.0,") != std::string::npos);
  CHECK(json.find("\"limit\": 30.0,") != std::string::npos);
  CHECK(json.find("\"unit\": \"deg\"") != std::string::npos);
}

TEST_CASE("JSON holds no character that a terminal acts on") {
  CHECK(text::printable_json("{\"a\": \"\u202e\u009b\x7f\u00fc\"}\n") ==
        "{\"a\": \"\\u202e\\u009b\\u007f\u00fc\"}\n");
  // RFC 8259, section 7: two escapes. 0xe0041 - 0x10000 = 0xd0041: 0xd800 + 0x340, 0xdc00 + 0x041.
  CHECK(text::printable_json("\"\U000e0041\"") == "\"\\udb40\\udc41\"");
  CHECK(text::printable_json("[\n  1\n]\n") == "[\n  1\n]\n");
}

TEST_CASE("SARIF: accepted findings are suppressed, open questions are notifications of the run") {
  const std::string text = changed(five(), "  series record",
                                   "  accept tooth_hidden in right because \"lived with\"\n"
                                   "  series record");
  const Work w(text, chair(3));
  const std::string sarif = emit::findings_sarif(w.session->report(), [](std::string_view code) {
    return code == "P019"
               ? "# P019\n\nFirst line\nand second.\n\nMore.\n\n## An example\nNot this.\n"
               : "";
  });
  CHECK(sarif.find("\"justification\": \"lived with\"") != std::string::npos);
  CHECK(sarif.find("\"kind\": \"open\"") == std::string::npos);
  CHECK(sarif.find("\"toolExecutionNotifications\": [") < sarif.find("not checked: "));
  CHECK(sarif.find("\"text\": \"First line and second.\"") != std::string::npos);
  CHECK(sarif.find("\"text\": \"First line and second.\\n\\nMore.\"") != std::string::npos);
  CHECK(sarif.find("Not this") == std::string::npos);
  CHECK(sarif.find("\"version\": \"2.1.0\"") != std::string::npos);
}

} // namespace norma::test
