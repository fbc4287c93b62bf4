// Each word of a view, by itself: its patterns are walked, and whatever can be chosen in them is
// told apart; an edit from one to the next is worked out as a fresh run does.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>

#include "emit/checklist.hpp"
#include "emit/findings_json.hpp"
#include "emit/plan_json.hpp"
#include "words/vocabulary.hpp"
#include "work.hpp"
#include "workspace/workspace.hpp"

namespace norma::test {
namespace {

using words::Clause;
using words::Word;
using Texts = std::vector<std::string>;

constexpr words::Date on_day{2026, 11, 25};

/// Two values of a kind, so that a change of it can be told.
Texts values_of(std::string_view kind) {
  static const std::map<std::string_view, Texts> all{{"number", {"200", "400"}},
                                                     {"count", {"2", "3"}},
                                                     {"length", {"24 mm", "34 mm"}},
                                                     {"angle", {"20 deg", "40 deg"}},
                                                     {"stops", {"1 stop", "2 stops"}},
                                                     {"time", {"1/125 s", "1/250 s"}},
                                                     {"size", {"18 x 12 mm", "36 x 24 mm"}},
                                                     {"temperature", {"5500 K", "3200 K"}},
                                                     {"ratio", {"1:2", "1:3"}},
                                                     {"f_number", {"f/22", "f/32"}},
                                                     {"date", {"2026-09-01", "2027-09-01"}},
                                                     {"tooth", {"12", "14"}},
                                                     {"teeth", {"14 to 15", "11", "21"}},
                                                     {"name", {"one", "other"}},
                                                     {"text", {"\"a\"", "\"b\""}},
                                                     {"code", {"IV01", "IV18"}},
                                                     {"word", {"ratio", "camera"}}};
  const auto found = all.find(kind);
  REQUIRE_MESSAGE(found != all.end(), "no value for ", std::string(kind));
  return found->second;
}

/// Each of `all` with each of `more` behind it.
Texts with_each(const Texts& all, const Texts& more) {
  Texts out;
  for (const std::string& a : all) {
    for (const std::string& m : more)
      out.push_back(a + (a.empty() || m.empty() ? "" : " ") + m);
  }
  return out;
}

/// All that a pattern reads, with two values for each literal; up to `]` where it is in brackets.
Texts readings(std::string_view& rest) {
  Texts out{""};
  while (!rest.empty() && rest.front() != ']') {
    const char first = rest.front();
    const std::size_t stop = first == '(' ? rest.find(')') : rest.find_first_of(" ]");
    if (first == ' ') {
      rest.remove_prefix(1);
    } else if (first == '[') {
      rest.remove_prefix(1);
      Texts inner = readings(rest);
      rest.remove_prefix(1);
      inner.emplace_back("");
      out = with_each(out, inner);
    } else {
      const std::string_view piece = rest.substr(0, stop);
      Texts choices;
      for (std::string_view left = first == '(' ? piece.substr(1) : "x"; !left.empty();) {
        const std::size_t bar = std::min(left.find('|'), left.size());
        choices.emplace_back(left.substr(0, bar));
        left.remove_prefix(std::min(bar + 1, left.size()));
      }
      out = with_each(out, first == '('   ? choices
                           : first == '@' ? values_of(piece.substr(1))
                                          : Texts{std::string(piece)});
      rest.remove_prefix(std::min(stop, rest.size()) + (first == '(' ? 1 : 0));
    }
  }
  return out;
}
Texts readings(const Clause& clause) {
  std::string_view rest = clause.pattern;
  return readings(rest);
}

/// The statements of a word, each of its clauses read in every way, the others as they must be.
Texts statements_of(const Word& word) {
  Texts out;
  const std::string head = std::string(word.name) + (word.key.empty() ? "" : " right");
  for (const Clause& clause : word.clauses) {
    std::string lead;
    std::string beside;
    for (const Clause& other : word.clauses) {
      if (other.slot == clause.slot || (!other.required && clause.with != other.slot)) continue;
      (other.leads ? lead : beside) += ", " + readings(other).front();
    }
    for (const std::string& one : readings(clause))
      out.push_back(head + " " +
                    (lead.empty() ? one + beside : lead.substr(2) + ", " + one + beside));
  }
  if (!word.key.empty()) {
    for (const char* key : {" left ", " both "})
      out.push_back(std::string(word.name) + key + readings(word.clauses.back()).front());
  }
  return out;
}

/// One name for a surface, as the language has it.
std::string with_one_name(std::string statement) {
  const std::pair<std::string_view, std::string_view> names[] = {{"buccal ", "facial "},
                                                                 {"labial ", "facial "},
                                                                 {"incisal ", "occlusal "},
                                                                 {"palatal ", "lingual "}};
  if (statement.starts_with("mirror")) return statement;
  for (const auto& [name, one] : names) {
    const std::size_t at = statement.find(name);
    if (at != std::string::npos && statement.find("third") == std::string::npos)
      statement.replace(at, name.size(), one);
  }
  return statement;
}

/// A direct view from the side, one in a mirror over the arch, one of a tooth named at the chair;
/// of a face where the word stands nowhere else. Each says the statement in the place of its own.
Texts protocols_with(const Word& word, const std::string& statement) {
  const bool of_protocol = word.places == words::in_protocol;
  const Texts mouth{
      "ratio 1:2\naperture f/22 to f/32\niso 200\nshutter 1/125 s\n"
      "retractor both tension even, held by patient\ncamera from right, 60 deg from "
      "midline\nlamp point, towards the front teeth\nmust show facial 12 to 17\n"
      "must be sharp facial 13 to 16\ntake again if \"it is cut\"\n",
      "ratio 1:2\naperture f/22 to f/32\niso 200\nmirror occlusal, held by assistant\n"
      "retractor both tension even, held by patient\nphotographed in a mirror\n"
      "must show occlusal 17 to 27\npicture as seen directly\n",
      "tooth named at the chair, 12 to 14\nratio 1:1\naperture f/22 to f/32\n"
      "camera straight ahead\nretractor both tension even, held by patient\n"
      "must show facial that tooth\n"};
  const Texts face{"ratio 1:10\naperture f/8\niso 200\nlips relaxed\nteeth together\n"
                   "background plain\nmust show whole head\n"};
  const bool of_face = (word.places & (words::in_view | words::in_protocol)) == 0;
  Texts out;
  for (const std::string& lines : of_face ? face : mouth) {
    std::string said;
    for (std::size_t at = 0; at < lines.size();) {
      const std::size_t stop = lines.find('\n', at);
      const std::string line = lines.substr(at, stop - at);
      at = stop + 1;
      if (of_protocol || !line.starts_with(std::string(word.name) + " "))
        said += "    " + line + "\n";
    }
    const std::string head = of_protocol ? "  " + statement + "\n" : "";
    const std::string own = of_protocol ? "" : "    " + statement + "\n";
    out.push_back(fmt::format(
        "norma 1\n\nprotocol p \"P\" {{\n{}{}{}  view one \"One\" {{\n    ratio 1:2\n    "
        "aperture f/22\n    camera straight ahead\n    must show facial 11\n  }}\n  view other "
        "\"The other\" {{\n    ratio 1:2\n    aperture f/16\n    camera straight ahead\n    must "
        "show facial 21\n  }}\n  {} v \"V\" {{\n{}{}  }}\n}}\n",
        head, word.name == "for" ? "" : "  for adults\n",
        word.name == "sensor" ? "" : "  sensor 36 x 24 mm\n", of_face ? "face view" : "view", said,
        own));
  }
  return out;
}

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

/// Those that structure a file have no statement of their own; what others must keep binds those
/// who build on it (tests/golden/names/fixed_by_base).
template <class Visit> void each_word(Visit visit) {
  for (const Word& word : words::vocabulary()) {
    if (word.level == 0 && word.name != "builds on" && word.name != "others must keep") visit(word);
  }
}

} // namespace

TEST_CASE("whatever can be chosen in a word is told apart") {
  each_word([](const Word& word) {
    std::map<std::string, std::string> by_told;
    for (const std::string& statement : statements_of(word)) {
      std::string all;
      for (const std::string& protocol : protocols_with(word, statement)) {
        const report::Report report = OneFile().report(protocol);
        for (const auto& d : report.findings.all())
          CHECK_MESSAGE(d.definition->code[0] != 'E', statement, ": ",
                        wording::english().text(d.message));
        all += outcome(report) + emit::plan_json(report, wording::english());
      }
      const auto [first, fresh] = by_told.emplace(all, with_one_name(statement));
      CHECK_MESSAGE((fresh || first->second == with_one_name(statement)), "told alike: `",
                    first->second, "` and `", statement, "`");
    }
  });
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
