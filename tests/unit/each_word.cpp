// Each word of a view, by itself: its patterns are walked, and whatever can be chosen in them is
// told apart; an edit from one to the next is worked out as a fresh run does.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <map>

#include "all_statements.hpp"
#include "emit/checklist.hpp"
#include "emit/findings_json.hpp"
#include "emit/plan_json.hpp"
#include "work.hpp"
#include "workspace/workspace.hpp"

namespace norma::test {
namespace {

constexpr words::Date on_day{2026, 11, 25};

/// What comes of it: facts, acts, findings, what is not checked, and the list for the chair; not
/// where it stands, and not the words as they were read.
std::string outcome(const report::Report& report) {
  const wording::Language& in = wording::english();
  std::string out;
  for (const report::Held& held : report.held) {
    for (const plan::ViewPlan& v : held.plan.views) {
      for (const plan::Fact& f : v.facts.all())
        out +=
            fmt::format("{} {} {:.9g} {} {}\n", f.row->name, static_cast<int>(f.state),
                        f.number().value_or(0), f.value ? in.text(*f.value) : "", in.text(f.why));
      for (const plan::Act& act : v.acts)
        out += "> " + said(act) + "\n";
    }
    out += emit::as_text(emit::checklist(report, held, "", in));
  }
  for (const auto& n : report.not_checked)
    out += fmt::format("? {} {}\n", in.text(n.what), in.text(n.missing));
  for (const auto& d : report.findings.all())
    out += fmt::format("{} {}\n", d.definition->code, in.text(d.message));
  return out;
}

/// The files that are printed of it.
std::string printed(const report::Report& report) {
  return emit::findings_json(report) + emit::plan_json(report, wording::english());
}

/// Runs over one file after the other, all by the same workspace.
class OneFile {
 public:
  OneFile() : space_(files_) {
    files_->put("k.yaml", chair(3));
    files_->put("p.norma", "norma 1\n");
  }
  report::Report report(const std::string& protocol) {
    space_.edit("p.norma", protocol);
    const auto snapshot = space_.snapshot();
    workspace::Ask ask;
    ask.kits = std::get<workspace::Kits>(snapshot.kits({"k.yaml"}));
    ask.on = on_day;
    ask.scene = false;
    auto answer = snapshot.report({"p.norma"}, ask);
    return std::get<report::Report>(std::move(answer));
  }

 private:
  std::shared_ptr<text::MemoryFiles> files_ = std::make_shared<text::MemoryFiles>();
  workspace::Workspace space_;
};

} // namespace

TEST_CASE("whatever can be chosen in a word is told apart") {
  each_word([](const Word& word) {
    std::map<std::string, std::string> by_outcome;
    for (const std::string& statement : statements_of(word)) {
      std::string all;
      for (const std::string& protocol : protocols_with(word, statement)) {
        const report::Report report = OneFile().report(protocol);
        for (const auto& d : report.findings.all())
          CHECK_MESSAGE(d.definition->code[0] != 'E', statement, ": ",
                        wording::english().text(d.message));
        all += outcome(report);
      }
      const auto [first, fresh] = by_outcome.emplace(all, statement);
      CHECK_MESSAGE((fresh || may_be_alike(first->second, statement)), "told alike: `",
                    first->second, "` and `", statement, "`");
    }
  });
}

TEST_CASE("the title of a second choice is told as it is now") {
  OneFile file;
  const Word& word = *words::find_word("or else view", words::in_view);
  const std::string text = protocols_with(word, "or else view other").front();
  for (const char* title : {"\"The other\"", "\"Another\"", "\"The other\""}) {
    const std::string now = changed(text, "\"The other\"", title);
    CHECK(difference(printed(OneFile().report(now)), printed(file.report(now))) == "");
    CHECK(outcome(file.report(now)).find(std::string(title).substr(1, 5)) != std::string::npos);
  }
}

TEST_CASE("a statement that is edited is worked out as in a fresh run") {
  OneFile file;
  each_word([&](const Word& word) {
    for (const std::string& statement : statements_of(word)) {
      for (const std::string& protocol : protocols_with(word, statement)) {
        CAPTURE(statement);
        CHECK(difference(printed(OneFile().report(protocol)), printed(file.report(protocol))) ==
              "");
      }
    }
  });
}

} // namespace norma::test
