// Comparisons: edits that change nothing are told as nothing, and none that changes something is
// missed.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>

#include "all_statements.hpp"
#include "emit/comparison.hpp"
#include "emit/document.hpp"
#include "facts/facts.hpp"
#include "session/compared.hpp"
#include "session/documents.hpp"
#include "support/support.hpp"
#include "wording/wording.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

using review::Class;

/// Files of both sides by name.
struct Tree {
  std::map<std::string, std::string> before;
  std::map<std::string, std::string> after;
  std::string kit_before = chair(3); // "" for no kit
  std::string kit_after = chair(3);
  bool scene = true;
};

std::string shown(const review::Comparison& all) {
  return emit::as_text(emit::comparison(all, wording::english()));
}

/// Holds what a comparison names.
struct Result {
  session::Compared compared;
  [[nodiscard]] const review::Comparison& all() const { return compared.comparison; }
  [[nodiscard]] Class gravest() const { return all().gravest(); }
  [[nodiscard]] std::string text() const { return shown(all()); }
  [[nodiscard]] bool tells(std::string_view what) const {
    return text().find(what) != std::string::npos;
  }
};

Result compared(const Tree& tree) {
  text::MemoryFiles before;
  text::MemoryFiles after;
  session::CompareRequest request;
  for (const auto& [name, bytes] : tree.before) {
    before.put(name, bytes);
    request.before.push_back({name, name});
  }
  for (const auto& [name, bytes] : tree.after) {
    after.put(name, bytes);
    request.after.push_back({name, name});
  }
  if (!tree.kit_after.empty()) {
    before.put("k.yaml", tree.kit_before);
    after.put("k.yaml", tree.kit_after);
    request.kits_before = request.kits_after = {"k.yaml"};
  }
  request.on = {2026, 11, 25};
  request.scene = tree.scene;
  auto answer = session::compared(before, after, request);
  REQUIRE(std::holds_alternative<session::Compared>(answer));
  return {std::get<session::Compared>(std::move(answer))};
}

Result compared(const std::string& before, const std::string& after) {
  return compared(Tree{{{"p.norma", before}}, {{"p.norma", after}}});
}

std::string shipped(const std::string& name) {
  return read_file((root() / "protocols" / (name + ".norma")).string());
}

const review::ViewChange* view_of(const Result& r, std::string_view name) {
  for (const review::ProtocolChange& p : r.all().protocols) {
    for (const review::ViewChange& v : p.views) {
      const bool named =
          v.after >= 0 ? p.new_protocol()->views[static_cast<std::size_t>(v.after)].name == name
                       : p.old_protocol()->views[static_cast<std::size_t>(v.before)].name == name;
      if (named) return &v;
    }
  }
  return nullptr;
}

} // namespace

TEST_CASE("an edit that changes nothing is none") {
  // What is written in another way.
  const std::string five = shipped("five");
  std::size_t edits = 0;
  const auto none = [&](const std::string& before, const std::string& after) {
    ++edits;
    REQUIRE(before != after);
    const Result r = compared(before, after);
    CHECK_MESSAGE(r.gravest() == Class::none, r.text());
    CHECK(r.all().without_kit() == Class::none);
  };
  for (const auto& [from, to] : {
           std::pair{"ratio            1:2\n", "ratio 2:4\n"},
           std::pair{"ratio            1:2\n", "ratio 1:2 # half size\n"},
           std::pair{"36 x 24 mm", "3.6 x 2.4 cm"},
           std::pair{"36 x 24 mm  # the ratios below are meant for this sensor", "36 x 24 mm"},
           std::pair{"1/125 s", "8 ms"},
           std::pair{"60 deg from midline", "60.0 deg from midline"},
           std::pair{"from right, 60 deg from midline", "60 deg from midline, from right"},
           std::pair{"together, usual bite", "usual bite, together"},
           std::pair{"facial 12 to 17, 42 to 47", "facial 42 to 47, 17 to 12"},
           std::pair{"facial 12 to 17, 42 to 47", "buccal 12, 13, 14 to 17, 42 to 44, 45 to 47"},
           std::pair{"facial 12 to 17, 42 to 47", "facial 12 to 17, facial 42 to 47"},
           std::pair{"occlusal 17 to 27\n    must be", "occlusal 27 to 17\n    must be"},
           std::pair{"record, teaching", "teaching, record"},
           std::pair{"retractor both   tension even, held by patient",
                     "retractor left tension even, held by patient\n    retractor right tension "
                     "even, held by patient"},
           std::pair{"tension firm, outwards and back, held by assistant",
                     "held by assistant, outwards and back, tension firm"},
           std::pair{"by record number, without name of the patient",
                     "without name of the patient, by record number"},
           std::pair{"    head             turned left\n", "\thead turned left\n"},
           std::pair{"norma 1\n", "norma 1\n\n# A heading.\n\n"},
           std::pair{"as seen directly, front teeth at the top",
                     "front teeth at the top, as seen directly"},
           std::pair{"f/22 to f/32", "f/22 to f/32.0"},
           std::pair{"    mouth            open wide\n    head             tipped back\n",
                     "    head             tipped back\n    mouth            open wide\n"},
           std::pair{"between 11 and 21", "between 21 and 11"},
           std::pair{"tension even, held by patient", "tension even, wetted, held by patient"},
       }) {
    if (five.find(from) == std::string::npos) FAIL(from);
    CAPTURE(from);
    CAPTURE(to);
    none(five, changed(five, from, to));
  }
  // Line ends, a mark at the start, blanks at the ends of lines.
  std::string crlf;
  std::string blanks;
  for (const char c : five) {
    crlf += c == '\n' ? "\r\n" : std::string(1, c);
    blanks += c == '\n' ? "   \n" : std::string(1, c);
  }
  none(five, crlf);
  none(five, "\xef\xbb\xbf" + five);
  none(five, blanks);
  // Inheritance unrolled: what `show` prints says the same.
  const text::DiskFiles disk;
  // (`children` speaks of several groups, and `show` prints one.)
  for (const char* name : {"five", "three", "sides", "orthodontic", "one_tooth", "restoration",
                           "soft_tissue", "tongue_side", "two_hands", "no_teeth"}) {
    CAPTURE(name);
    const std::string path = (root() / "protocols" / (std::string(name) + ".norma")).string();
    const auto run = session::show(disk, path, "", "");
    REQUIRE(run->made);
    Tree tree;
    for (const auto& entry : std::filesystem::directory_iterator(root() / "protocols")) {
      const std::string file = entry.path().filename().string();
      if (!file.ends_with(".norma")) continue;
      tree.before[file] = tree.after[file] = read_file(entry.path().string());
    }
    tree.after[std::string(name) + ".norma"] = *run->made;
    const Result r = compared(tree);
    ++edits;
    // (Who builds on it finds each line in its views now, not in what holds for all of them.)
    for (const review::ProtocolChange& p : r.all().protocols) {
      if (r.all().files[p.file].path_after == std::string(name) + ".norma")
        CHECK_MESSAGE(p.gravest() == Class::none, r.text());
    }
  }
  // Views, series and statements in another order.
  const std::string two =
      "norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n{}{}  series s = a, b\n}\n";
  const std::string a =
      "  view a \"A\" { ratio 1:2\n aperture f/22\n must show facial 13 to 23\n }\n";
  const std::string b = "  view b \"B\" { ratio 1:3\n aperture f/22\n must show facial 11 }\n";
  none(fmt::format(fmt::runtime(changed(changed(two, "P\" {", "P\" {{"), "a, b\n}", "a, b\n}}")), a,
                   b),
       fmt::format(fmt::runtime(changed(changed(two, "P\" {", "P\" {{"), "a, b\n}", "a, b\n}}")), b,
                   a));
  // Every pair of neighbouring lines of a view, exchanged.
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < five.size();) {
    const std::size_t stop = five.find('\n', at);
    lines.push_back(five.substr(at, stop - at));
    at = stop + 1;
  }
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    const auto of_view = [](const std::string& line) {
      return line.starts_with("    ") && line.find_first_of("{}") == std::string::npos;
    };
    if (!of_view(lines[i]) || !of_view(lines[i + 1])) continue;
    std::vector<std::string> other = lines;
    std::swap(other[i], other[i + 1]);
    std::string text;
    for (const std::string& line : other)
      text += line + "\n";
    CAPTURE(lines[i]);
    none(five, text);
  }
  CHECK(edits >= 60);
}

TEST_CASE("a file that is moved or renamed is the same one") {
  const std::string five = shipped("five");
  const Result moved = compared(Tree{{{"a/five.norma", five}}, {{"b/record.norma", five}}});
  CHECK(moved.gravest() == Class::none);
  CHECK(moved.all().protocols.empty());
  const std::string three = shipped("three");
  const Result crossed = compared(
      Tree{{{"a.norma", five}, {"b.norma", three}}, {{"c.norma", three}, {"d.norma", five}}});
  CHECK(crossed.gravest() == Class::none);
  CHECK(crossed.all().unchanged == 2);
}

TEST_CASE("compared with itself: none, for each protocol that is shipped") {
  for (const auto& entry : std::filesystem::directory_iterator(root() / "protocols")) {
    if (entry.path().extension() != ".norma") continue;
    const std::string text = read_file(entry.path().string());
    const Result r = compared(text, text + "# the end\n");
    CHECK(r.gravest() == Class::none);
  }
}

TEST_CASE("where everything is renamed, wording changes and nothing else") {
  std::string five = shipped("five");
  std::string other = five;
  for (const auto& [from, to] : {std::pair{"front", "ahead"},
                                 {"upper", "roof"},
                                 {"lower", "floor"},
                                 {"right", "one"},
                                 {"left", "two"},
                                 {"harbour_five", "harbour_all"},
                                 {"record =", "set ="}}) {
    // Names alone: at headings, behind `as view`, `same as`, and in series.
    for (const char* before : {"view ", "same as ", "protocol ", "series "}) {
      const std::string find = std::string(before) + from;
      for (std::size_t at = other.find(find); at != std::string::npos;
           at = other.find(find, at + 1))
        other.replace(at, find.size(), before + std::string(to));
    }
  }
  const std::size_t series = other.find("series set");
  REQUIRE(series != std::string::npos);
  std::string names = other.substr(series);
  for (const auto& [from, to] : {std::pair{"front", "ahead"},
                                 {"upper", "roof"},
                                 {"lower", "floor"},
                                 {"right", "one"},
                                 {"left", "two"}}) {
    for (std::size_t at = names.find(from); at != std::string::npos; at = names.find(from, at + 1))
      names.replace(at, std::string(from).size(), to);
  }
  other = other.substr(0, series) + names;
  const Result r = compared(five, other);
  CHECK_MESSAGE(r.gravest() == Class::wording, r.text());
  CHECK(r.tells("was called upper, is called roof now"));
}

TEST_CASE("names exchanged crosswise are told as names") {
  const std::string five = shipped("five");
  std::string other = changed(five, "view upper \"Upper arch\"", "view x \"Lower arch\"");
  other = changed(other, "view lower \"Lower arch\", same as upper",
                  "view upper \"Upper arch\", same as x");
  other = changed(other, "view x \"Lower arch\"", "view lower \"Lower arch\"");
  other = changed(other, "same as x", "same as lower");
  const Result r = compared(five, other);
  CHECK_MESSAGE(r.gravest() <= Class::work, r.text()); // the series takes them in another order
  REQUIRE(view_of(r, "lower") != nullptr);
  CHECK(view_of(r, "lower")->renamed);
  CHECK(view_of(r, "upper")->renamed);
}

TEST_CASE("no edit of a clause is missed") {
  std::size_t edits = 0;
  each_word([&](const Word& word) {
    if (word.name == "revision" || word.name == "adopted" || word.name == "review by") return;
    const Texts all = statements_of(word);
    // What a word means at the least: the mildest of its clauses.
    Class least = review::class_of(review::kind_of(word.effect));
    for (const words::Clause& c : word.clauses)
      least = std::min(least, review::class_of(review::kind_of(words::effect_of(word, c, false))));
    for (std::size_t i = 1; i < all.size(); i += 1 + all.size() / 12) {
      const auto before = protocols_with(word, all.front());
      const auto after = protocols_with(word, all[i]);
      ++edits;
      CAPTURE(all.front());
      CAPTURE(all[i]);
      for (const bool kit : {false, true}) {
        Tree tree{{{"p.norma", before.front()}}, {{"p.norma", after.front()}}};
        tree.scene = false;
        if (!kit) tree.kit_after = tree.kit_before = "";
        const Result r = compared(tree);
        const bool alike = may_be_alike(all.front(), all[i]);
        const Class told = std::max(r.gravest(), r.all().without_kit());
        CHECK_MESSAGE((alike || told >= least), r.text());
        CHECK_MESSAGE((alike || !r.all().protocols.empty()), r.text());
      }
    }
  });
  CHECK(edits > 150);
}

TEST_CASE("old and new exchanged: what was gained is lost") {
  const std::string five = shipped("five");
  const std::string weaker =
      changed(five, "tension firm, outwards and back", "tension light, outwards");
  const Result there = compared(five, weaker);
  const Result back = compared(weaker, five);
  CHECK(there.gravest() == back.gravest());
  const auto teeth = [](const Result& r, bool lost) {
    diag::Teeth out;
    for (const review::Entry& e : view_of(r, "right")->entries) {
      for (const review::Differs& d : e.kits.front().effects.facts) {
        if (d.row != &facts::fact::teeth_seen) continue;
        out = lost ? d.lost : d.gained;
      }
    }
    return out;
  };
  CHECK_FALSE(teeth(there, true).empty());
  CHECK(teeth(there, true) == teeth(back, false));
  CHECK(teeth(there, false) == teeth(back, true));
}

TEST_CASE("a clause has the class that its effect has: held is work, kind is direction") {
  const std::string five = shipped("five");
  const auto changed_to = [&](const char* from, const char* to) {
    return compared(five, changed(five, from, to));
  };
  // The assistant's hand in place of the operator's: the picture stays.
  CHECK(changed_to("air              on the mirror, held by assistant",
                   "air              on the mirror, needs no hand")
            .gravest() == Class::work);
  CHECK(changed_to("60 deg from midline", "50 deg from midline").gravest() == Class::comparability);
  CHECK(changed_to("consent for      record", "consent for      publication, record").gravest() ==
        Class::record);
  CHECK(changed_to("consent for      record", "consent for      publication, record")
            .tells("Consent goes further in harbour_five"));
  CHECK(changed_to("\"Right side\"", "\"Right\"").gravest() == Class::wording);
  CHECK(changed_to("breathe through the nose", "breathe slowly").gravest() == Class::wording);
  CHECK(changed_to("take again at most 2", "take again at most 3").gravest() == Class::work);
  CHECK(changed_to("revision         3", "revision         4").gravest() == Class::record);
}

TEST_CASE("a number without effect at a kit is told with what it comes to") {
  // f/22 is taken from both ranges: it holds 12 to 22.
  const std::string five = shipped("five");
  const std::string other =
      changed(five, "    must show        facial 15 to 25",
              "    aperture         f/22 to f/29\n    must show        facial 15 to 25");
  const Result r = compared(five, other);
  CHECK_MESSAGE(r.all().at_kit(0) < Class::quality, r.text());
  CHECK(r.all().without_kit() == Class::quality);
  CHECK(r.tells("no effect"));
  CHECK(r.tells("aperture to set f/22 before and after"));
}

TEST_CASE("a kit alone is a change") {
  const std::string five = shipped("five");
  Tree tree{{{"p.norma", five}}, {{"p.norma", five}}};
  tree.kit_after = chair(7);
  const Result r = compared(tree);
  CHECK(r.all().without_kit() == Class::none);
  CHECK(r.all().at_kit(0) >= Class::quality);
  CHECK(r.tells("another kit now"));
  CHECK(r.tells("not checked any more"));
}

TEST_CASE("a base's change is told once, then whom it reaches") {
  const std::string five = shipped("five");
  const std::string follower =
      "norma 1\nprotocol quarry \"Quarry\" {\n  builds on harbour_five from \"five.norma\"\n"
      "  revision 1\n}\n";
  const std::string apart =
      "norma 1\nprotocol apart \"Apart\" {\n  builds on harbour_five from \"five.norma\"\n"
      "  change view right because \"our own pull\" {\n    retractor right tension firm, outwards\n"
      "  }\n}\n";
  Tree tree{{{"five.norma", five}, {"quarry.norma", follower}, {"apart.norma", apart}}, {}};
  tree.after = tree.before;
  tree.after["five.norma"] =
      changed(five, "tension firm, outwards and back", "tension light, outwards");
  const Result r = compared(tree);
  REQUIRE(r.all().protocols.size() == 3);
  CHECK(r.all().protocols.front().new_protocol()->name == "harbour_five");
  for (const review::ProtocolChange& p : r.all().protocols) {
    if (p.new_protocol()->name == "quarry") {
      CHECK(p.views.size() == 2);
      for (const review::ViewChange& v : p.views)
        CHECK_FALSE(v.told_here());
      CHECK(p.builds_on == std::vector<int>{0});
    }
    if (p.new_protocol()->name == "apart") CHECK(p.views.empty());
  }
  CHECK(r.tells("broken: quarry (right, left)")); // with a light pull nothing is seen of 17 in any mouth
  CHECK(r.tells("not reached: apart"));
}

TEST_CASE("of a large tree only what is affected is worked out") {
  const std::string five = shipped("five");
  const std::string follower = "norma 1\nprotocol q{} \"Q\" {{\n  builds on harbour_five from "
                               "\"{}.norma\"\n}}\n";
  Tree tree;
  for (int i = 0; i < 40; ++i) {
    tree.before[fmt::format("b{}.norma", i)] = changed(five, "harbour_five", "harbour_five");
    tree.before[fmt::format("f{}.norma", i)] =
        fmt::format(fmt::runtime(follower), i, fmt::format("b{}", i));
  }
  tree.after = tree.before;
  tree.after["b7.norma"] = changed(five, "60 deg", "50 deg");
  const Result r = compared(tree);
  CHECK(r.all().unchanged == 78);
  CHECK(r.all().protocols.size() == 2);
  CHECK(r.compared.counters.checked == 4); // the base and its follower, before and after
}

TEST_CASE("what cannot be read is not the same, not new and not gone") {
  const std::string five = shipped("five");
  for (const std::string& broken : {std::string("norma 1\nprotocol p \"Z\xe4hne\" { }\n"),
                                    std::string(), std::string("\xff\xfe\0\0", 4)}) {
    for (const auto& [before, after] :
         {std::pair{five, broken}, {broken, five}, {broken, broken}}) {
      const Result r = compared(before, after);
      CHECK_MESSAGE(r.tells("Could not be read, and is not compared: p.norma"), r.text());
      CHECK_FALSE(r.tells("Nothing changes: the same pictures"));
      CHECK_FALSE(r.tells("is new"));
      CHECK_FALSE(r.tells("no longer: none"));
    }
  }
  // A circle of bases.
  const std::string a = "norma 1\nprotocol a \"A\" {\n  builds on b from \"b.norma\"\n}\n";
  const std::string b = "norma 1\nprotocol b \"B\" {\n  builds on a from \"a.norma\"\n}\n";
  Tree circle{{{"a.norma", a}, {"b.norma", b}}, {{"a.norma", a}, {"b.norma", b}}};
  const Result r = compared(circle);
  CHECK(r.all().unchanged == 0);
  CHECK_MESSAGE((r.tells("could not be read whole") || r.tells("Could not be read")), r.text());
}

TEST_CASE("a camera that is turned over for a wanted picture is work") {
  const std::string five = shipped("five");
  const Result r = compared(
      five, changed(five, "operator         behind the head", "operator         in front"));
  CHECK_MESSAGE(r.gravest() == Class::work, r.text());
  // Where no picture is wanted, it comes out upside down.
  const std::string bare =
      changed(five, "    picture          as seen directly, front teeth at the top\n", "");
  const Result turned = compared(
      bare, changed(bare, "operator         behind the head", "operator         in front"));
  CHECK_MESSAGE(turned.gravest() == Class::comparability, turned.text());
}

TEST_CASE("a group of patients that is added leaves the others as they were") {
  const std::string five = shipped("five");
  const std::string more = changed(five, "    say              \"Teeth together, please, and",
                                   "    for children, mixed teeth {\n      ratio 1:1.5\n    }\n    "
                                   "say              \"Teeth together, please, and");
  const Result r = compared(five, more);
  for (const review::ProtocolChange& p : r.all().protocols) {
    if (p.group == "adults") CHECK_MESSAGE(p.gravest() == Class::none, r.text());
  }
  CHECK_FALSE(r.tells("cannot be laid side by side"));
}

TEST_CASE("a view that gets another name and another title is told with both") {
  const std::string five = shipped("five");
  std::string other = changed(five, "view right \"Right side\"", "view one \"From the right\"");
  other = changed(other, "same as right", "same as one");
  other = changed(other, "lower, right, left", "lower, one, left");
  const Result r = compared(five, other);
  CHECK_MESSAGE(r.tells("was called right, is called one now"), r.text());
  CHECK(r.tells("\u201cRight side\u201d"));
}

TEST_CASE("a finding that gets graver, or says other numbers, is told once") {
  const std::string five = shipped("five");
  // In 81 of 100 mouths no aperture holds: with a smaller range it is in none of them.
  const Result r = compared(five, changed(five, "f/22 to f/32", "f/22"));
  CHECK_MESSAGE((r.tells("it was a warning") || r.tells("warning that says something else")),
                r.text());
  CHECK_FALSE(r.tells("warning that is gone: in"));
}

TEST_CASE("files that change names are the same files; strangers are not matched") {
  const std::string five = shipped("five");
  const std::string one = shipped("one_tooth");
  const Result swapped =
      compared(Tree{{{"a.norma", five}, {"b.norma", one}},
                    {{"a.norma", one}, {"b.norma", changed(five, "1/125 s", "1/160 s")}}});
  CHECK(swapped.gravest() <= Class::work);
  const Result strangers = compared(Tree{{{"a.norma", five}, {"three.norma", shipped("three")}},
                                         {{"a.norma", five}, {"new.norma", one}}});
  CHECK(strangers.tells("This protocol is new"));
  CHECK(strangers.tells("This protocol is there no longer"));
}

TEST_CASE("a wrong group and a wrong kit are told, not taken for no change") {
  text::MemoryFiles files;
  files.put("p.norma", shipped("five"));
  files.put("k.yaml", "no kit\n");
  session::CompareRequest request;
  request.before = request.after = {{"p.norma", "p.norma"}};
  request.on = {2026, 11, 25};
  request.group = "nobody";
  CHECK(std::holds_alternative<session::NoGroup>(session::compared(files, files, request)));
  request.group = "";
  request.kits_before = request.kits_after = {"k.yaml"};
  CHECK(std::holds_alternative<session::NoKit>(session::compared(files, files, request)));
}

} // namespace norma::test
