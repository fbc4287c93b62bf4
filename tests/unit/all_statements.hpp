// Statements of each word of the language, made from its patterns: every choice in them, and two
// values for each literal.
#pragma once

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include "words/vocabulary.hpp"

namespace norma::test {

using words::Clause;
using words::Word;
using Texts = std::vector<std::string>;

/// Two values of a kind, so that a change of it can be told.
inline Texts values_of(std::string_view kind) {
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
inline Texts with_each(const Texts& all, const Texts& more) {
  Texts out;
  for (const std::string& a : all) {
    for (const std::string& m : more)
      out.push_back(a + (a.empty() || m.empty() ? "" : " ") + m);
  }
  return out;
}

/// All that a pattern reads, with two values for each literal; up to `]` where it is in brackets.
inline Texts readings(std::string_view& rest) {
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
inline Texts readings(const Clause& clause) {
  std::string_view rest = clause.pattern;
  return readings(rest);
}

/// The statements of a word, each of its clauses read in every way, the others as they must be.
inline Texts statements_of(const Word& word) {
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

/// Statements that come to the same, each kind with the reason: two that one of these reads may be
/// told alike.
inline const std::vector<std::regex>& alike() {
  static const std::vector<std::regex> all = [] {
    const std::string surfaces = "(facial|buccal|labial|occlusal|incisal|lingual|palatal)";
    std::vector<std::regex> out;
    for (const std::string& pattern :
         {// One thing said in two ways.
          std::string("aperture f/22( to f/22)?"), std::string("aperture f/32( to f/32)?"),
          std::string("(centre|focus) on (between 12 and )?12"),
          std::string("(centre|focus) on (between 14 and )?14"),
          std::string("(centre|focus) on between (12 and 14|14 and 12)"),
          std::string("camera (from right, 20 deg from midline|20 deg from midline, from right)"),
          // Of this kit the same piece is taken.
          std::string("lamp (point|modelling light)"),
          std::string("lamp (ring|even light|towards the .*)"),
          std::string("retractor right (metal|frosted|wetted)"),
          std::string("retractor right (plastic|clear)"),
          // It goes without saying, is asked of nobody, or speaks of what is not there: the plan
          // has the words.
          std::string("grey card (held by assistant, )?before the first view"),
          std::string("file names .*"), std::string("frame .*18 x 12 mm"),
          std::string("may show in part .*"), std::string("picture marked .*"),
          std::string("must (show|be sharp) (.* third|whichever teeth are there)"),
          "or else show (" + surfaces + " that tooth|[^0-9]*|gum of .*)",
          // Looked at in three dimensions.
          std::string("teeth turned away .*"), std::string("must be sharp .*11")})
      out.emplace_back(pattern);
    // The names of a surface; facial where none is said.
    for (const char* word : {"must show", "or else show", "must be sharp"}) {
      for (const char* names :
           {"(facial |buccal |labial )?", "(occlusal |incisal )", "(lingual |palatal )"}) {
        for (const char* teeth : {"11", "21", "14 to 15", "that tooth"})
          out.emplace_back(fmt::format("{} {}{}", word, names, teeth));
      }
    }
    return out;
  }();
  return all;
}
inline bool may_be_alike(const std::string& a, const std::string& b) {
  return std::any_of(alike().begin(), alike().end(), [&](const std::regex& kind) {
    return std::regex_match(a, kind) && std::regex_match(b, kind);
  });
}

/// A direct view from the side, one in a mirror over the arch, one of a tooth named at the chair;
/// of a face where the word stands nowhere else. Each says the statement in the place of its own.
inline Texts protocols_with(const Word& word, const std::string& statement) {
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

/// Those that structure a file have no statement of their own; what others must keep binds those
/// who build on it (tests/golden/names/fixed_by_base).
template <class Visit> void each_word(Visit visit) {
  for (const Word& word : words::vocabulary()) {
    if (word.level == 0 && word.name != "builds on" && word.name != "others must keep") visit(word);
  }
}

} // namespace norma::test
