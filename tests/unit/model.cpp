// Merging, order, derivation, groups: each rule on a protocol of a few lines.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "model/resolve.hpp"
#include "model/views.hpp"
#include "model/write.hpp"
#include "support/opened.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

/// Protocols read from memory: p.norma is the one that is asked about.
struct Model {
  text::MemoryFiles files;
  text::Sources sources;
  diag::Findings findings;
  std::unique_ptr<Opened> library;
  const model::Declared* declared = nullptr;

  explicit Model(std::string body, std::string base = {}) {
    const std::string head = base.empty() ? "" : "builds on base from \"base.norma\"\n";
    files.put("p.norma", "norma 1\nprotocol p \"P\" {\n" + head + body + "\n}\n");
    if (!base.empty())
      files.put("base.norma", "norma 1\nprotocol base \"Base\" {\n" + base + "\n}\n");
    library = std::make_unique<Opened>(files, sources, "");
    declared = std::get<const model::Declared*>(library->open("p.norma", findings));
    REQUIRE(declared != nullptr);
    for (const auto& group : model::groups_of(*declared))
      static_cast<void>(model::resolve(*declared, group, findings));
    findings.settle();
  }
  /// The statements of a view, sorted, one a line.
  [[nodiscard]] std::string view(const std::string& name,
                                 std::optional<model::Group> group = std::nullopt) {
    REQUIRE(declared->view(name) != nullptr);
    diag::Findings quiet;
    model::Views views(*declared, std::move(group), quiet);
    const auto* statements = views.statements_of(name);
    if (statements == nullptr) return "nothing";
    std::vector<std::string> lines;
    for (const model::Statement& s : *statements)
      lines.push_back(model::to_text(s));
    std::sort(lines.begin(), lines.end());
    std::string out;
    for (const std::string& line : lines)
      out += (out.empty() ? "" : "; ") + line;
    return out;
  }
  [[nodiscard]] std::string told() const {
    std::string out;
    for (const auto& d : findings.all())
      out += (out.empty() ? "" : " ") + std::string(d.definition->name);
    return out;
  }
};

const model::Group adults{false, {}};
const model::Group mixed{true, model::GroupTeeth::mixed_teeth};
const model::Group milk{true, model::GroupTeeth::milk_teeth};

} // namespace

TEST_CASE("a view's word takes the place of what holds for every view; others stay") {
  Model m("every mouth view { ratio 1:2\n iso 200 }\nview a \"A\" { ratio 1:1 }");
  CHECK(m.view("a") == "iso 200; ratio 1:1");
  CHECK(m.told().empty());
}

TEST_CASE("what holds for faces does not hold for the mouth") {
  Model m("every mouth view { ratio 1:2 }\nevery face view { ratio 1:10 }\n"
          "view a \"A\" { }\nface view b \"B\" { }");
  CHECK(m.view("a") == "ratio 1:2");
  CHECK(m.view("b") == "ratio 1:10");
}

TEST_CASE("a keyed word is replaced key by key, and `both` is one of each") {
  Model m("every mouth view { retractor both tension even }\n"
          "view a \"A\" { retractor left none }");
  CHECK(m.view("a") == "retractor left none; retractor right tension even");
  CHECK(Model("view a \"A\" { retractor both none\n retractor left none }").told() ==
        "both_and_side");
}

TEST_CASE("a mention of a list replaces all of it; `also` adds to it") {
  const std::string every =
      "every mouth view { say \"one\"\n say \"two\"\n must show facial 11 }\n";
  CHECK(Model(every + "view a \"A\" { say \"three\" }").view("a") ==
        "must show facial 11; say \"three\"");
  CHECK(Model(every + "view a \"A\" { also say \"three\"\n also must show 12 to 14 }").view("a") ==
        "must show facial 11, 12 to 14; say \"one\"; say \"three\"; say \"two\"");
}

TEST_CASE("`no` removes a word, or one key of it, and nothing else") {
  const std::string every =
      "every mouth view { ratio 1:2\n retractor both none\n say \"one\"\n say \"two\" }\n";
  CHECK(Model(every + "view a \"A\" { no words to say\n no retractor left }").view("a") ==
        "ratio 1:2; retractor right none");
  CHECK(Model(every + "view a \"A\" { no retractor }").view("a") ==
        "ratio 1:2; say \"one\"; say \"two\"");
}

TEST_CASE("`also` and `no` that meet nothing are told, once") {
  CHECK(Model("view a \"A\" { also say \"x\" }").told() == "nothing_inherited");
  CHECK(Model("view a \"A\" { no mirror }").told() == "nothing_to_remove");
  CHECK(Model("every mouth view { ratio 1:2 }\nview a \"A\" { also ratio 1:3 }").told() ==
        "also_not_a_list");
  // For several groups the same line is the same finding.
  CHECK(Model("for adults\nview a \"A\" { no mirror\n for children { ratio 1:1 } }").told() ==
        "nothing_to_remove");
}

TEST_CASE("layers: every view, every view for a group, view, view for a group") {
  Model m("for adults\n"
          "every mouth view { ratio 1:2\n iso 100\n aperture f/22\n shutter 1/125 s\n"
          "  for children, mixed teeth { iso 200\n aperture f/16\n shutter 1/60 s } }\n"
          "view a \"A\" { aperture f/11\n shutter 1/30 s\n"
          "  for children, mixed teeth { shutter 1/15 s } }");
  CHECK(m.view("a", adults) == "aperture f/11; iso 100; ratio 1:2; shutter 1/30 s");
  CHECK(m.view("a", mixed) == "aperture f/11; iso 200; ratio 1:2; shutter 1/15 s");
  CHECK(m.view("a", milk) == "aperture f/11; iso 100; ratio 1:2; shutter 1/30 s");
  const auto groups = model::groups_of(*m.declared);
  REQUIRE(groups.size() == 2);
  CHECK(*groups[0] == adults);
  CHECK(*groups[1] == mixed);
}

TEST_CASE("a block for a group makes a protocol for that group, whoever the rest is for") {
  Model m(
      "sensor 36 x 24 mm\nview a \"A\" { ratio 1:2\n for children, mixed teeth { ratio 1:1 } }");
  const auto groups = model::groups_of(*m.declared);
  REQUIRE(groups.size() == 2);
  CHECK_FALSE(groups[0].has_value()); // nobody says whom it is for
  diag::Findings findings;
  const model::Protocol p = model::resolve(*m.declared, groups[1], findings);
  REQUIRE(p.group.known());
  CHECK(p.group.get() == mixed);
}

TEST_CASE("a block for all children lies below one for a narrower group") {
  Model m("for children, mixed teeth\nview a \"A\" {\n"
          "  for children, mixed teeth { ratio 1:1 }\n  for children { ratio 1:3\n iso 400 } }");
  CHECK(m.view("a", mixed) == "iso 400; ratio 1:1");
  CHECK(m.view("a", milk) == "iso 400; ratio 1:3");
  CHECK(model::groups_of(*m.declared).size() == 1);
}

TEST_CASE("a derived view has all of its source, turned over, and its own words on top") {
  Model m("every mouth view { iso 200 }\n"
          "view r \"R\" { camera from right, 60 deg from midline\n retractor right tension firm\n"
          "  must show facial 12 to 17\n lamp towards the front teeth\n code IV01 }\n"
          "view l \"L\", same as r, for the other side { iso 100 }");
  CHECK(m.view("l") == "camera from left, 60 deg from midline; code IV18; iso 100; "
                       "lamp towards the front teeth; must show facial 22 to 27; "
                       "retractor left tension firm");
}

TEST_CASE("the other jaw: teeth and heights change over, what is of one jaw does not cross") {
  Model m("view u \"U\" { must show occlusal 17 to 27\n camera 30 deg from above\n tongue back\n"
          "  code IV25\n mirror occlusal }\n"
          "view l \"L\", same as u, for the lower jaw { }");
  CHECK(m.view("l") == "camera 30 deg from below; mirror occlusal; must show occlusal 47 to 37");
}

TEST_CASE("late: a change of the source in an extension reaches what is made from it") {
  Model m(
      "change view r because \"x\" { must show facial 11 to 15 }",
      "view r \"R\" { must show facial 11 to 17 }\nview l \"L\", same as r, for the other side");
  CHECK(m.view("r") == "must show facial 11 to 15");
  CHECK(m.view("l") == "must show facial 21 to 25");
}

TEST_CASE("an extension: its words for every view lie below the views of the base") {
  Model m("every mouth view { iso 400\n aperture f/16 }",
          "every mouth view { iso 200\n ratio 1:2 }\nview a \"A\" { aperture f/22 }");
  CHECK(m.view("a") == "aperture f/22; iso 400; ratio 1:2");
}

TEST_CASE("`no` and `also` in a change reach what the view takes over from every view") {
  Model m("change view a because \"x\" { no iso\n also say \"two\" }",
          "every mouth view { iso 200\n say \"one\" }\nview a \"A\" { ratio 1:2 }");
  CHECK(m.view("a") == "ratio 1:2; say \"one\"; say \"two\"");
  CHECK(m.told().empty());
}

TEST_CASE("revision and dates are a document's own; sensor and group are taken over") {
  Model m("revision 7", "revision 3\nadopted 2026-09-01\nfor adults\nsensor 36 x 24 mm\n"
                        "view a \"A\" { }");
  diag::Findings findings;
  const model::Protocol p = model::resolve(*m.declared, adults, findings);
  CHECK(p.revision.get() == 7);
  CHECK(p.adopted.absent());
  CHECK(p.sensor.known());
}

TEST_CASE("series: taken over whole, changed as a whole, optional views marked") {
  Model m("change series s = b optional, a", "view a \"A\" { }\nview b \"B\" { }\nseries s = a, b");
  diag::Findings findings;
  const model::Protocol p = model::resolve(*m.declared, std::nullopt, findings);
  REQUIRE(p.series.size() == 1);
  REQUIRE(p.series[0].entries.size() == 2);
  CHECK(p.series[0].entries[0].view == "b");
  CHECK(p.series[0].entries[0].optional);
  CHECK_FALSE(p.series[0].entries[1].optional);
}

TEST_CASE("what cannot be edited is told") {
  const std::string base = "view a \"A\" { ratio 1:2 }\nview b \"B\", same as a\nseries s = a, b";
  CHECK(Model("change view c because \"x\" { }", base).told() == "unknown_view");
  CHECK(Model("drop view c because \"x\"", base).told() == "unknown_view");
  CHECK(Model("view a \"A\" { }", base).told() == "name_taken");
  CHECK(Model("series s = a", base).told() == "name_taken");
  CHECK(Model("change view a because \"x\" { }\nchange view a because \"y\" { }", base).told() ==
        "said_twice");
  CHECK(Model("change view a because \"x\" { background plain }", base).told() == "misplaced_word");
  CHECK(Model("drop view a because \"x\"\ndrop view b because \"x\"", base).told() ==
        "dropped_from_series dropped_from_series");
  CHECK(Model("drop view a because \"x\"\nchange series s = b", base).told() == "source_dropped");
}

TEST_CASE("what a base keeps fixed stays, whichever way it would change") {
  const std::string base =
      "every mouth view { iso 200 }\n"
      "view a \"A\" { others must keep iso, ratio\n ratio 1:2\n must show facial 11 }";
  CHECK(Model("change view a because \"x\" { must show facial 12 }", base).told().empty());
  CHECK(Model("change view a because \"x\" { ratio 1:2 }", base).told().empty()); // the same
  CHECK(Model("change view a because \"x\" { ratio 1:3 }", base).told() == "fixed_by_base");
  CHECK(Model("change view a because \"x\" { no ratio }", base).told() == "fixed_by_base");
  CHECK(Model("every mouth view { iso 100 }", base).told() == "fixed_by_base");
  CHECK(Model("change view a because \"x\" { no words that others must keep }", base).told() ==
        "fixed_by_base");
}

TEST_CASE("the parts of a statement say the same in either order") {
  for (const char* teeth : {"teeth edge to edge, usual bite", "teeth usual bite, edge to edge"}) {
    const Model m(std::string("view v \"V\" {\n") + teeth + "\n}");
    diag::Findings quiet;
    const model::Protocol p = model::resolve(*m.declared, std::nullopt, quiet);
    REQUIRE(p.view("v") != nullptr);
    CHECK(p.view("v")->teeth->relation == model::TeethRelation::edge_to_edge);
    CHECK(p.view("v")->teeth->bite == model::Bite::usual_bite);
    CHECK(p.view("v")->teeth_together());
  }
}

TEST_CASE("circles are told and end: of views, of exposures, of second choices") {
  CHECK(Model("view a \"A\", same as b\nview b \"B\", same as a").told() == "goes_in_circles");
  CHECK(Model("view a \"A\", same as a").told() == "goes_in_circles");
  CHECK(Model("view a \"A\" { exposure as view b }\nview b \"B\" { exposure as view a }").told() ==
        "goes_in_circles");
  CHECK(Model("view a \"A\" { or else view b }\nview b \"B\" { or else view a }").told() ==
        "goes_in_circles");
}

TEST_CASE("views that say the same share what was read; each finding stands at its own view") {
  // What each of these finds is told once for each view, at the text of that view.
  const std::string same = "    exposure as view nowhere\n    or else view nobody\n"
                           "    must show facial 11, facial that tooth\n";
  Model m("  view a \"A\" {\n" + same + "  }\n  view b \"Bb\" {\n" + same + "  }");
  const std::string_view text = m.sources[m.declared->file].bytes();
  for (const std::string_view at : {"nowhere", "nobody", "facial that tooth"}) {
    CAPTURE(at);
    std::vector<std::size_t> wanted;
    for (std::size_t i = text.find(at); i != std::string_view::npos; i = text.find(at, i + 1))
      wanted.push_back(i);
    REQUIRE(wanted.size() == 2);
    std::vector<std::size_t> told;
    for (const diag::Diagnostic& d : m.findings.all()) {
      if (m.sources.text(d.span) == at) told.push_back(d.span.begin);
    }
    CHECK(told == wanted);
  }
}

TEST_CASE("parts that an extension adds stand in the extension, the others in the base") {
  const std::string also = "    also must show facial that tooth\n";
  Model m("  change view a because \"x\" {\n" + also + "  }\n  change view b because \"x\" {\n" +
              also + "  }",
          "  view a \"A\" {\n    must show facial 11\n  }\n"
          "  view b \"B\" {\n    must show facial 11\n  }");
  std::vector<std::uint32_t> lines;
  for (const diag::Diagnostic& d : m.findings.all()) {
    if (d.definition->name != "nothing_filled_in") continue;
    CHECK(d.span.file == m.declared->file);
    CHECK(m.sources.text(d.span) == "facial that tooth");
    lines.push_back(m.sources[d.span.file].place(d.span.begin).line);
  }
  CHECK(lines == std::vector<std::uint32_t>{5, 8});
  for (const char* name : {"a", "b"}) {
    diag::Findings quiet;
    model::Views views(*m.declared, std::nullopt, quiet);
    const auto* statements = views.statements_of(name);
    REQUIRE(statements != nullptr);
    for (const model::Statement& s : *statements) {
      if (s.word->name != "must show") continue;
      std::string places;
      for (const model::Part& part : s.parts)
        places += std::string(m.sources.text(s.place(part))) + "; ";
      CHECK(places == "facial 11; facial that tooth; ");
      CHECK(s.place(s.parts[0]).file != s.place(s.parts[1]).file);
    }
  }
}

TEST_CASE("small texts that ask for much are told so, in bounded time and memory") {
  // A chain in which each view has one statement more.
  std::string chain = "view v0 \"V\" { say \"x\" }\n";
  for (int i = 1; i < 2000; ++i)
    chain += fmt::format("view v{} \"V\", same as v{} {{ also say \"x\" }}\n", i, i - 1);
  CHECK(Model(chain).told().find("protocol_too_large") != std::string::npos);
  // The same the other way round, deep before anything is resolved.
  std::string deep;
  for (int i = 0; i < 20000; ++i)
    deep += fmt::format("view v{} \"V\", same as v{}\n", i, i + 1);
  CHECK(Model(deep + "view v20000 \"V\" { }").told().find("protocol_too_large") !=
        std::string::npos);
  // Much for every view, and many views.
  std::string every = "every mouth view {\n";
  for (int i = 0; i < 400; ++i)
    every += fmt::format("say \"{}\"\n", i);
  every += "}\n";
  for (int i = 0; i < 3000; ++i)
    every += fmt::format("view v{} \"V\"\n", i);
  CHECK(Model(every).told() == "protocol_too_large");
  // More views than there may be.
  std::string views;
  for (int i = 0; i < 20002; ++i)
    views += fmt::format("view v{} \"V\"\n", i);
  CHECK(Model(views).told() == "protocol_too_large");
  // A long way of exposures that ends in a circle.
  std::string ways;
  for (int i = 0; i < 19000; ++i)
    ways += fmt::format("view v{} \"V\" {{ exposure as view v{} }}\n", i, i + 1);
  CHECK(Model(ways + "view v19000 \"V\" { exposure as view v0 }").told() == "goes_in_circles");
}

TEST_CASE("what a change says to a group goes on top of what the base says to it") {
  Model m("change view a because \"ours\" { for children { iso 400 } }",
          "for children, mixed teeth\nview a \"A\" { ratio 1:2\n for children { ratio 1:1\n iso "
          "200 } }");
  const auto children = model::groups_of(*m.declared).front();
  CHECK(m.view("a", children) == "iso 400; ratio 1:1");
}

TEST_CASE("both and one side clash, whichever is said first") {
  for (const char* order :
       {"retractor both dry\n retractor left wetted", "retractor left wetted\n retractor both dry",
        "retractor both dry\n retractor right wetted",
        "retractor right wetted\n retractor both dry"})
    CHECK(Model(std::string("view a \"A\" { ") + order + " }").told() == "both_and_side");
}

} // namespace norma::test
