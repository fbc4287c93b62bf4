// Known findings: the file, and runs that are held against it.
#include "project/known.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <filesystem>
#include <string>
#include <vector>

#include "cli/run.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace {

namespace fs = std::filesystem;
using project::Known;

std::string protocol_at(const std::string& name, const std::string& aperture,
                        const std::string& more = "") {
  return fmt::format(
      "norma 1\n\nprotocol {0} \"One\" {{\n  for      adults\n  sensor   36 x 24 mm\n\n"
      "  view front \"Front\" {{\n    ratio    1:2\n    aperture {1}\n  }}\n{2}}}\n",
      name, aperture, more);
}

/// A lens that ends at f/16: P018 says so of a view that asks for f/32.
class KnownTree {
 public:
  KnownTree() {
    put("norma.yaml", "norma project: 1\nkits: kits/short.yaml\nbaseline: known.json\n");
    put("kits/short.yaml", "norma kit: 1\nname: short\nsensor: 36 x 24 mm\nlens:\n"
                           "  focal length: 100 mm\n  aperture: f/2.8 to f/16\n");
    put("school/one.norma", protocol_at("one", "f/32"));
    put("quarry/two.norma", protocol_at("two", "f/32"));
  }
  void put(const std::string& name, const std::string& text) const {
    fs::create_directories((folder_.path() / name).parent_path());
    write_file(folder_.path() / name, text);
  }
  [[nodiscard]] std::string text(const std::string& name) const {
    return read_file(folder_.path() / name);
  }
  [[nodiscard]] cli::Outcome check(const std::string& line) const {
    const Inside inside(folder_.path());
    return cli::run(split_command("check --on 2026-11-25 " + line));
  }
  [[nodiscard]] std::vector<Known> known() const {
    auto all = project::read_known(text("known.json"));
    REQUIRE(std::holds_alternative<std::vector<Known>>(all));
    return std::get<std::vector<Known>>(std::move(all));
  }

 private:
  Folder folder_;
};

bool told_in(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

int times_in(const std::string& text, std::string_view part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

Known one_known() {
  return {"a/b.norma", "P003",        "b",     "adults",       "front",
          "",          "chair \"3\"", "error", "what\n\u00e9", "0123456789abcdef"};
}

std::string why_not_read(const std::string& text) {
  const auto answer = project::read_known(text);
  const auto* error = std::get_if<project::KnownError>(&answer);
  return error == nullptr ? "" : fmt::format("{}: {}", error->line, error->why);
}

} // namespace

TEST_CASE("known findings are written sorted, one a line, and read again") {
  Known other = one_known();
  other.file = "a/a.norma";
  other.view = other.group = "";
  other.series = "full";
  const std::string text = project::known_text({one_known(), other});
  CHECK(times_in(text, "\n") == 7); // three before them, two of them, two behind
  CHECK(text.find("a/a.norma") < text.find("a/b.norma"));
  CHECK(text == project::known_text({other, one_known()}));
  const auto again = project::read_known(text);
  REQUIRE(std::holds_alternative<std::vector<Known>>(again));
  CHECK(std::get<std::vector<Known>>(again) == std::vector<Known>{other, one_known()});
  CHECK(std::get<std::vector<Known>>(project::read_known(project::known_text({}))).empty());
}

TEST_CASE("a file of known findings that is none is told, with its line where there is one") {
  const std::string good = project::known_text({one_known()});
  CHECK(why_not_read(good).empty());
  CHECK(why_not_read("") == "1: this is no JSON");
  CHECK(why_not_read(good.substr(0, good.size() - 3)) == "5: this is no JSON");
  CHECK(why_not_read("{\"norma known findings\": 1,\n<<<<<<< ours\n") ==
        "2: marks of a merge stand in it");
  CHECK(told_in(why_not_read("[]"), "it is no file of known findings"));
  CHECK(told_in(why_not_read("{\"findings\": []}"), "it is no file of known findings"));
  CHECK(told_in(why_not_read("{\"norma known findings\": 2, \"findings\": []}"), "of edition 1"));
  CHECK(told_in(why_not_read("{\"norma known findings\": 1}"), "`findings`, a list"));
  CHECK(told_in(why_not_read("{\"norma known findings\": 1, \"findings\": [], \"a\": 1}"),
                "and nothing else"));
  CHECK(told_in(why_not_read("{\"norma known findings\": 1, \"findings\": [1]}"), "no finding"));
  const auto with = [&](const std::string& part, const std::string& other) {
    std::string text = good;
    text.replace(text.find(part), part.size(), other);
    return why_not_read(text);
  };
  CHECK(told_in(with("\"code\"", "\"cod\""), "a finding has no `code`"));
  CHECK(told_in(with("\"view\"", "\"veiw\""), "a finding has a key that there is not"));
  CHECK(told_in(with("\"P003\"", "3"), "`code` of a finding is no text"));
  CHECK(told_in(with("0123456789abcdef", "0123456789abcdeg"), "16 hexadecimal digits"));
}

TEST_CASE("what strangers put into a file of known findings is bounded") {
  const std::string start = "{\"norma known findings\": 1, \"findings\": [";
  CHECK(!why_not_read(std::string(1000000, '[')).empty());
  CHECK(told_in(why_not_read(start + std::string(1000, '[') + std::string(1000, ']') + "]}"),
                "nested deeper"));
  std::string many = start;
  for (int i = 0; i < 1500000; ++i)
    many += "0,";
  CHECK(told_in(why_not_read(many + "0]}"), "it holds more"));
  CHECK(told_in(why_not_read(std::string(9000000, ' ')), "at most 8 MB"));
  CHECK(!why_not_read(start + "\"\xff\"]}").empty());
}

TEST_CASE("only what is new is shown, and counts") {
  const KnownTree tree;
  CHECK(tree.check("").code == 1);
  auto out = tree.check("--write-baseline");
  CHECK(out.code == 0);
  CHECK(told_in(out.err, "known.json: known findings now: 2 (new in it: 2; taken out: 0)"));
  REQUIRE(tree.known().size() == 2);
  CHECK(tree.known().front().file == "quarry/two.norma");
  CHECK(tree.known().front().kit == "short");
  const std::string written = tree.text("known.json");
  out = tree.check("--baseline --format lines");
  CHECK(out.code == 0);
  CHECK_FALSE(told_in(out.out, "P018"));
  CHECK(told_in(out.out, "Known, and not shown: 2 (known.json)."));
  CHECK(told_in(out.out, "0 errors"));
  // Without the word nothing is hidden.
  CHECK(tree.check("").code == 1);
  // A second view does the same: it is new, though the first stays known.
  tree.put("school/one.norma", protocol_at("one", "f/32",
                                           "  view other \"Other\" {\n    ratio    "
                                           "1:2\n    aperture f/32\n  }\n"));
  out = tree.check("--baseline --format lines");
  CHECK(out.code == 1);
  CHECK(times_in(out.out, "P018") == 1);
  CHECK(told_in(out.out, "view other with short"));
  CHECK(told_in(out.out, "Known, and not shown: 2"));
  CHECK(told_in(out.out, "1 error,"));
  CHECK(tree.text("known.json") == written);
  // It is written the same way whoever writes it.
  CHECK(tree.check("--write-baseline").code == 0);
  CHECK(tree.known().size() == 3);
}

TEST_CASE("what is no longer there is told, and taken out") {
  const KnownTree tree;
  (void)tree.check("--write-baseline");
  tree.put("quarry/two.norma", protocol_at("two", "f/16"));
  auto out = tree.check("--baseline --format lines");
  CHECK(out.code == 0);
  CHECK(told_in(out.out, "No longer there: P018 in quarry/two.norma: view front with short"));
  CHECK(told_in(out.out, "Of known.json, no longer there: 1;"));
  out = tree.check("--write-baseline --format lines");
  CHECK(told_in(out.err, "known findings now: 1 (new in it: 0; taken out: 1)"));
  CHECK_FALSE(told_in(out.out, "No longer there"));
  // A file that is gone takes its findings along.
  tree.put("norma.yaml", tree.text("norma.yaml") + "leave out: school\n");
  CHECK(
      told_in(tree.check("--baseline --format lines").out, "No longer there: P018 in school/one"));
}

TEST_CASE("what a run could not have found is neither gone nor taken out") {
  const KnownTree tree;
  (void)tree.check("--write-baseline");
  tree.put("quarry/two.norma", protocol_at("two", "f/16"));
  tree.put("school/one.norma", protocol_at("one", "f/16"));
  tree.put("kits/long.yaml", "norma kit: 1\nname: long\nsensor: 36 x 24 mm\nlens:\n"
                             "  focal length: 100 mm\n  aperture: f/2.8 to f/32\n");
  const auto gone = [&](const std::string& line) {
    return times_in(tree.check("--baseline --format lines " + line).out, "No longer there: ");
  };
  CHECK(gone("") == 2);
  CHECK(gone("school") == 1);
  CHECK(gone("--kit kits/long.yaml") == 0);
  CHECK(gone("--kit kits/short.yaml quarry/two.norma") == 1);
  CHECK(gone("--no-scene") == 0);
  (void)tree.check("--write-baseline school");
  REQUIRE(tree.known().size() == 1);
  CHECK(tree.known().front().file == "quarry/two.norma");
  CHECK(tree.check("--write-baseline --no-scene").code == 2);
}

TEST_CASE("errors of a text itself are never known") {
  const KnownTree tree;
  tree.put("quarry/two.norma", protocol_at("two", "f/23"));
  auto out = tree.check("--write-baseline --format lines");
  CHECK(out.code == 1);
  CHECK(told_in(out.out, "M010"));
  CHECK(told_in(out.err, "not written, since a text cannot be read, or lies outside: 1"));
  REQUIRE(tree.known().size() == 1);
  CHECK(tree.known().front().code == "P018");
}

TEST_CASE("what is accepted is not known, and no longer there") {
  const KnownTree tree;
  (void)tree.check("--write-baseline");
  tree.put(
      "quarry/two.norma",
      protocol_at("two", "f/32", "  accept aperture_out_of_reach in front because \"old lens\"\n"));
  const auto out = tree.check("--baseline --format lines");
  CHECK(told_in(out.out, "accepted error: P018"));
  CHECK(told_in(out.out, "No longer there: P018 in quarry/two.norma"));
  (void)tree.check("--write-baseline");
  CHECK(tree.known().size() == 1);
}

TEST_CASE("known findings in the forms for programs") {
  const KnownTree tree;
  (void)tree.check("--write-baseline");
  tree.put("quarry/two.norma", protocol_at("two", "f/16"));
  tree.put("school/three.norma", protocol_at("three", "f/32"));
  const std::string json = tree.check("--baseline --format json").out;
  CHECK(told_in(json, "\"baseline\": {\n    \"file\": \"known.json\",\n    \"known\": 1,"));
  CHECK(times_in(json, "\"code\": \"P018\"") == 2); // the new one, and the one that is gone
  CHECK(told_in(json, "\"error\": 1,"));
  const std::string sarif = tree.check("--baseline --format sarif").out;
  CHECK(times_in(sarif, "\"baselineState\": \"new\"") == 1);
  CHECK(times_in(sarif, "\"baselineState\": \"unchanged\"") == 1);
  CHECK(times_in(sarif, "\"baselineState\": \"absent\"") == 1);
  CHECK(times_in(sarif, "\"ruleId\"") == 3); // each has its state
  CHECK_FALSE(told_in(tree.check("--format sarif").out, "baselineState"));
  CHECK(times_in(tree.check("--baseline --format github").out, "::error ") == 1);
  CHECK(told_in(tree.check("--baseline --format github").out, "1 known, 0 accepted"));
  CHECK(times_in(tree.check("--baseline --format gitlab").out, "\"fingerprint\"") == 1);
  CHECK(times_in(tree.check("--baseline --format junit").out, "<failure") == 1);
  // The id of what is new does not hang on what is known.
  const auto id_of = [](const std::string& text) {
    const std::size_t at = text.find("\"id\": \"", text.find("\"findings\""));
    return text.substr(at + 7, 16);
  };
  CHECK(id_of(json) == id_of(tree.check("--format json school/three.norma").out));
}

TEST_CASE("more findings than are shown can be known") {
  const KnownTree tree;
  std::string views;
  for (int i = 0; i < 1500; ++i)
    views +=
        fmt::format("  view v{} \"View {}\" {{\n    ratio    1:2\n    aperture f/32\n  }}\n", i, i);
  tree.put("school/one.norma", protocol_at("one", "f/32", views));
  (void)tree.check("--write-baseline");
  CHECK(tree.known().size() == 1502);
  auto out = tree.check("--baseline --format lines");
  CHECK(out.code == 0);
  CHECK(told_in(out.out, "Known, and not shown: 1502"));
  tree.put("school/one.norma",
           protocol_at("one", "f/32",
                       views + "  view last \"Last\" {\n    ratio    1:2\n    aperture "
                               "f/32\n  }\n"));
  out = tree.check("--baseline --format json");
  CHECK(out.code == 1);
  CHECK(times_in(out.out, "\"code\"") == 1);
}

TEST_CASE("a run that is to know findings says what it lacks") {
  const KnownTree tree;
  auto out = tree.check("--baseline");
  CHECK(out.code == 2);
  CHECK(told_in(out.err, "known.json is not there yet: `norma check --write-baseline` writes it"));
  tree.put("known.json", "not ours");
  out = tree.check("--write-baseline");
  CHECK(out.code == 2);
  CHECK(told_in(out.err, "known.json:1: this is no JSON"));
  CHECK(tree.text("known.json") == "not ours");
  tree.put("known.json", "{\n\"norma known findings\": 1,\n<<<<<<< ours\n");
  out = tree.check("--baseline");
  CHECK(out.code == 2);
  CHECK(told_in(out.err, "known.json:3: marks of a merge stand in it; `norma check "
                         "--write-baseline`, without files and kits, writes it anew"));
  CHECK(tree.check("--write-baseline school").code == 2); // the rest of it would be lost
  CHECK(tree.check("--write-baseline").code == 0);
  tree.put("norma.yaml", "norma project: 1\n");
  out = tree.check("--baseline");
  CHECK(out.code == 2);
  CHECK(told_in(out.err, "norma.yaml names no file of known findings"));
  out = tree.check("--baseline --no-project school");
  CHECK(out.code == 2);
  CHECK(told_in(out.err, "--baseline needs a project file"));
}

} // namespace norma::test
