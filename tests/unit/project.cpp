// The project file: where it is found, what is wrong with it, and what holds for which protocol.
#include "project/project.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>
#include <unistd.h>

#include <filesystem>
#include <string>
#include <vector>

#include "cli/run.hpp"
#include "support/support.hpp"
#include "wording/wording.hpp"

namespace norma::test {
namespace {

namespace fs = std::filesystem;

std::string protocol_named(const std::string& name, const std::string& more = "") {
  return fmt::format(
      "norma 1\n\nprotocol {} \"One\" {{\n  for      adults{}\n  sensor   36 x 24 mm\n\n"
      "  view front \"Front\" {{\n    ratio    1:2\n    aperture f/32\n  }}\n}}\n",
      name, more);
}

/// The lens of each ends at another aperture: P018 says so of one that ends before f/32.
std::string kit_named(const std::string& name, int ends_at) {
  return fmt::format("norma kit: 1\nname: {}\nsensor: 36 x 24 mm\nlens:\n  focal length: 100 mm\n"
                     "  aperture: f/2.8 to f/{}\n",
                     name, ends_at);
}

/// A tree with a project file at its top; `put` writes what lies in it.
class ProjectTree {
 public:
  explicit ProjectTree(const std::string& project) {
    put("norma.yaml", project);
    put("kits/long.yaml", kit_named("long", 32));
    put("kits/short.yaml", kit_named("short", 16));
    put("school/one.norma", protocol_named("one"));
    put("quarry/two.norma", protocol_named("two"));
  }
  void put(const std::string& name, const std::string& text) const {
    fs::create_directories((top() / name).parent_path());
    write_file(top() / name, text);
  }
  [[nodiscard]] fs::path top() const { return folder_.path() / "tree"; }

 private:
  Folder folder_;
};

cli::Outcome ran_in(const fs::path& folder, const std::string& line) {
  const Inside inside(folder);
  auto words = split_command(line);
  words.erase(words.begin());
  return cli::run(words);
}

bool holds_part(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// What is said of a project file: each finding's code, first place and message.
std::vector<std::string> found_in(const std::string& project) {
  const ProjectTree tree(project);
  const Inside inside(tree.top());
  const auto read = project::read_project(text::DiskFiles(), "norma.yaml");
  std::vector<std::string> out;
  const auto* broken = std::get_if<project::NotRead>(&read);
  if (broken == nullptr) return out;
  for (const auto& d : broken->findings.all()) {
    const auto place = broken->sources[d.span.file].place(d.span.begin);
    out.push_back(fmt::format("{}:{} {} {}", place.line, place.column, d.definition->code,
                              wording::english().text(d.message)));
  }
  return out;
}

std::string first_found(const std::string& project) {
  const auto all = found_in(project);
  return all.empty() ? "" : all.front();
}

const std::string head = "norma project: 1\n";

} // namespace

TEST_CASE("a project file that is sound is read without a word") {
  CHECK(found_in(head).empty());
  CHECK(found_in(head + "kits: kits/long.yaml\ngroups: [adults, \"children, mixed teeth\"]\n"
                        "fail on: never\nleave out: [quarry, school/one.norma]\n"
                        "baseline: known.json\nfolders:\n  - folder: school/\n    kits: []\n")
            .empty());
}

TEST_CASE("what a project file names is there, below it, and what it is taken for") {
  CHECK(first_found(head + "kits: kits/lnog.yaml\n") ==
        "2:7 K008 `kits/lnog.yaml` cannot stand here: there is no such file or folder; the way "
        "starts at the project file");
  CHECK(first_found(head + "kits: ../elsewhere.yaml\n") ==
        "2:7 K008 `../elsewhere.yaml` cannot stand here: it leads out of the folder of the project "
        "file, where all that it names lies");
  CHECK(holds_part(first_found(head + "kits: /etc/passwd\n"), "it leads out of the folder"));
  CHECK(first_found(head + "kits: kits\n") == "2:7 K008 `kits` cannot stand here: it is a folder");
  CHECK(
      first_found(head + "kits: school/one.norma\n") ==
      "2:7 K008 `school/one.norma` cannot stand here: it is no kit: a kit starts with `norma kit: "
      "1`");
  CHECK(holds_part(first_found(head + "kits: [norma.yaml]\n"),
                   "2:8 K008 `norma.yaml` cannot stand here: "
                   "it is no kit"));
  CHECK(first_found(head + "leave out: drafts\n") ==
        "2:12 K008 `drafts` cannot stand here: there is no such file or folder; the way starts at "
        "the project file");
  CHECK(first_found(head + "folders:\n  - folder: shcool\n") ==
        "3:13 K008 `shcool` cannot stand here: there is no such file or folder; the way starts at "
        "the project file");
  CHECK(first_found(head + "folders:\n  - folder: kits/long.yaml\n") ==
        "3:13 K008 `kits/long.yaml` cannot stand here: it is a file, and a folder is wanted");
  CHECK(holds_part(first_found(head + "folders:\n  - folder: .\n"),
                   "it is the folder of the project"));
  CHECK(first_found(head + "folders:\n  - folder: school\n  - folder: ./school/\n") ==
        "4:13 K008 `./school/` cannot stand here: this folder stands above already");
  CHECK(first_found(head + "baseline: known.txt\n") ==
        "2:11 K008 `known.txt` cannot stand here: the file of known findings is called something "
        "that ends in `.json`");
  CHECK(holds_part(first_found(head + "baseline: ../known.json\n"), "it leads out of the folder"));
}

TEST_CASE("a project file is as strict as a kit") {
  CHECK(first_found("") == "1:1 K002 the file is empty");
  CHECK(first_found("kits: kits/long.yaml\n") == "1:1 K007 the project has no `norma project`");
  CHECK(first_found("norma project: 2\nanything: 1\n") ==
        "1:16 K008 `2` cannot stand here: this norma reads project files of edition 1");
  CHECK(first_found(head + "kit: kits/long.yaml\n") == "2:1 K003 there is no key `kit` here");
  CHECK(first_found(head + "kits: kits/long.yaml\nkits: kits/short.yaml\n") ==
        "3:1 K004 the key `kits` is given twice");
  CHECK(first_found(head + "kits: [kits/long.yaml, kits/long.yaml]\n") ==
        "2:24 K009 `kits/long.yaml` cannot be: it is named twice");
  CHECK(first_found(head + "kits: &a kits/long.yaml\n") ==
        "2:7 K005 anchors and aliases are not read");
  CHECK(holds_part(first_found(head + "fail on: warnings\n"),
                   "2:10 K008 `warnings` cannot stand here"));
  CHECK(holds_part(first_found(head + "groups: grown-ups\n"),
                   "2:9 K008 `grown-ups` cannot stand here"));
}

TEST_CASE("two kits of a project have two names") {
  const ProjectTree tree(head + "kits: [kits/long.yaml, kits/copy.yaml]\n");
  tree.put("kits/copy.yaml", kit_named("long", 22));
  const Inside inside(tree.top());
  const auto read = project::read_project(text::DiskFiles(), "norma.yaml");
  const auto* broken = std::get_if<project::NotRead>(&read);
  REQUIRE(broken != nullptr);
  REQUIRE(broken->findings.all().size() == 1);
  CHECK(holds_part(wording::english().text(broken->findings.all().front().message),
                   "it has the same name as `kits/long.yaml` (long)"));
}

TEST_CASE("links of a project lead nowhere outside") {
  const ProjectTree tree(head + "kits: kits/led.yaml\n");
  write_file(tree.top().parent_path() / "outside.yaml", kit_named("outside", 32));
  fs::create_symlink("../../outside.yaml", tree.top() / "kits/led.yaml");
  auto out = ran_in(tree.top(), "norma check");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err,
                   "norma.yaml:2:7: error: `kits/led.yaml` cannot stand here: it leads out"));
  // The file itself may be such a link, too.
  fs::rename(tree.top() / "norma.yaml", tree.top().parent_path() / "elsewhere.yaml");
  fs::create_symlink("../elsewhere.yaml", tree.top() / "norma.yaml");
  out = ran_in(tree.top(), "norma check school");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err, "norma.yaml:1:1: error"));
}

TEST_CASE("each folder has its kits, and findings speak of the kit that is meant") {
  const ProjectTree tree(head + "kits: kits/long.yaml\nfolders:\n  - folder: quarry\n    kits: "
                                "kits/short.yaml\n");
  tree.put("quarry/deep/three.norma", protocol_named("three"));
  const auto out = ran_in(tree.top(), "norma check --format lines");
  CHECK(holds_part(out.out,
                   "quarry/two.norma:9:5: error: P018 aperture_out_of_reach: view front with "
                   "short"));
  CHECK(holds_part(out.out, "quarry/deep/three.norma:9:5: error: P018"));
  CHECK_FALSE(holds_part(out.out, "school/one.norma:9:5"));
  CHECK_FALSE(holds_part(out.out, "with long: f/32"));
  CHECK(holds_part(out.out, "3 protocols, 2 kits, 3 views checked: 2 errors"));
  CHECK(out.code == 1);
  // The same by itself: neither ids nor sentences hang on what else is looked at.
  const auto ids = [&](const std::string& line) {
    const std::string json = ran_in(tree.top(), line).out;
    std::vector<std::string> found;
    for (std::size_t at = json.find("\"id\": \""); at != std::string::npos;
         at = json.find("\"id\": \"", at + 1))
      found.push_back(json.substr(at + 7, 16));
    return found;
  };
  const auto all = ids("norma check --format json");
  const auto some = ids("norma check --format json quarry");
  REQUIRE(all.size() == 2);
  CHECK(all == some);
}

TEST_CASE("what the command line says goes before the project file") {
  const ProjectTree tree(head + "kits: kits/short.yaml\nfail on: never\n");
  CHECK(ran_in(tree.top(), "norma check").code == 0);
  CHECK(ran_in(tree.top(), "norma check --fail-on error").code == 1);
  CHECK(ran_in(tree.top(), "norma check --fail-on error --kit kits/long.yaml").code == 0);
  const auto without = ran_in(tree.top(), "norma check --no-project --format lines school");
  CHECK(holds_part(without.out, "1 protocol, 1 view checked: 0 errors"));
  CHECK(ran_in(tree.top(), "norma check --no-project").code == 2);
}

TEST_CASE(
    "a folder that names no kits of its own takes those above it, and none where it says so") {
  const ProjectTree tree(head +
                         "kits: kits/short.yaml\nfolders:\n  - folder: school\n    groups: adults\n"
                         "  - folder: quarry\n    kits: []\n");
  const auto out = ran_in(tree.top(), "norma check --format lines");
  CHECK(holds_part(out.out, "school/one.norma:9:5: error: P018"));
  CHECK_FALSE(holds_part(out.out, "quarry/two.norma:9:5"));
}

TEST_CASE("groups of patients that are not looked at are told") {
  const ProjectTree tree(head + "groups: adults\n");
  tree.put("school/one.norma", protocol_named("one", "; children, mixed teeth"));
  tree.put("quarry/two.norma",
           "norma 1\n\nprotocol two \"Two\" {\n  for      children, milk teeth\n  view front "
           "\"Front\" {\n    ratio    1:2\n  }\n}\n");
  auto out = ran_in(tree.top(), "norma check --format lines");
  CHECK(holds_part(out.err,
                   "quarry/two.norma is left out: it says nothing for the groups of patients "
                   "that norma.yaml names"));
  CHECK(holds_part(out.out, "1 view checked"));
  out = ran_in(tree.top(), "norma check --format lines --for 'children, milk teeth' quarry");
  CHECK(holds_part(out.out, "1 protocol, 1 view checked"));
  out = ran_in(tree.top(), "norma check quarry");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err, "says nothing for the groups of patients that norma.yaml names"));
  tree.put("norma.yaml", head + "groups: children\n"); // all of them
  out = ran_in(tree.top(), "norma check --format lines");
  CHECK(out.err.empty());
}

TEST_CASE("what is left out is not looked at, but where it is named") {
  const ProjectTree tree(head + "leave out: [quarry]\n");
  auto out = ran_in(tree.top(), "norma check --format lines");
  CHECK(holds_part(out.out, "1 protocol, 1 view checked"));
  CHECK(holds_part(out.err, "norma.yaml leaves out 1 of the protocols that were found: quarry"));
  CHECK(holds_part(ran_in(tree.top(), "norma check --format lines .").out, "1 protocol, 1 view"));
  CHECK(holds_part(ran_in(tree.top(), "norma check --format lines quarry").out,
                   "1 protocol, 1 view"));
  out = ran_in(tree.top() / "quarry", "norma check --format lines two.norma");
  CHECK(holds_part(out.out, "1 protocol, 1 view checked"));
  CHECK(out.err.empty());
  CHECK(
      holds_part(ran_in(tree.top() / "quarry", "norma check --format lines .").out, "1 protocol"));
  tree.put("norma.yaml", head + "leave out: [quarry, school]\n");
  out = ran_in(tree.top(), "norma check");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err, "all that was asked for is left out by norma.yaml"));
}

TEST_CASE("a project file is found from below, and not above the folder that holds .git") {
  const ProjectTree tree(head + "kits: kits/short.yaml\n");
  CHECK(holds_part(ran_in(tree.top() / "quarry", "norma check --format lines").out,
                   "../school/one.norma:9:5: error: P018"));
  CHECK(holds_part(ran_in(tree.top() / "quarry", "norma check --format lines two.norma").out,
                   "two.norma:9:5: error: P018"));
  CHECK(
      holds_part(ran_in("/", "norma check --format lines " + (tree.top() / "quarry").string()).out,
                 "two.norma:9:5: error: P018"));
  fs::create_directory(tree.top() / "quarry/.git");
  auto out = ran_in(tree.top() / "quarry", "norma check");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err, "there is no norma.yaml here or above"));
  out = ran_in(tree.top() / "quarry", "norma check --format lines two.norma");
  CHECK(holds_part(out.out, "0 errors"));
}

TEST_CASE("without .git what a protocol builds on lies below the project file") {
  const ProjectTree tree(head);
  tree.put("quarry/two.norma", "norma 1\n\nprotocol two \"Two\" {\n  builds on one from "
                               "\"../school/one.norma\"\n}\n");
  CHECK(holds_part(ran_in(tree.top(), "norma check --format lines quarry/two.norma").out,
                   "0 errors"));
  fs::remove(tree.top() / "norma.yaml");
  CHECK(holds_part(ran_in(tree.top(), "norma check --format lines quarry/two.norma").out,
                   "R012 base_outside"));
}

TEST_CASE("files of two projects are not looked at in one run") {
  const ProjectTree tree(head);
  tree.put("quarry/norma.yaml", head);
  const auto out = ran_in(tree.top(), "norma check");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err, "ask for each by itself, or leave its folder out of the other"));
  tree.put("norma.yaml", head + "leave out: quarry\n");
  CHECK(holds_part(ran_in(tree.top(), "norma check --format lines").out, "1 protocol, 1 view"));
}

TEST_CASE("commands that need a kit take those of the folder, or say what is missing") {
  const ProjectTree tree(head + "folders:\n  - folder: school\n    kits: kits/long.yaml\n");
  for (const std::string command : {"plan", "list", "tray", "chairs", "mouths", "margins"}) {
    CAPTURE(command);
    CHECK(ran_in(tree.top(), "norma " + command + " --fail-on never school/one.norma").code == 0);
    const auto out = ran_in(tree.top(), "norma " + command + " quarry/two.norma");
    CHECK(out.code == 2);
    CHECK(
        holds_part(out.err, "quarry/two.norma needs a kit: norma.yaml names none for its folder"));
    const auto alone = ran_in(tree.top(), "norma " + command + " --no-project school/one.norma");
    CHECK(holds_part(alone.err, "school/one.norma needs a kit: give one with --kit KIT"));
  }
}

TEST_CASE("a project file that cannot be gone by stops each command, in each form") {
  const ProjectTree tree(head + "kits: kits/lnog.yaml\n");
  for (const std::string form : {"lines", "json", "sarif", "github", "gitlab", "junit"}) {
    CAPTURE(form);
    const auto out = ran_in(tree.top(), "norma check --format " + form);
    CHECK(out.code == 2);
    CHECK(holds_part(out.out, "kits/lnog.yaml"));
    CHECK(out.err == "norma: nothing was looked at: norma.yaml must be mended first\n");
  }
  const auto out = ran_in(tree.top(), "norma list school/one.norma");
  CHECK(out.code == 2);
  CHECK(holds_part(out.err, "norma.yaml:2:7: error: `kits/lnog.yaml` cannot stand here"));
}

TEST_CASE("a change is held against the kits of the project, where they are the same for all") {
  const ProjectTree tree(head + "folders:\n  - folder: school\n    kits: kits/short.yaml\n  - "
                                "folder: quarry\n    kits: kits/long.yaml\n");
  tree.put("school/old.norma", protocol_named("one"));
  std::string opened = protocol_named("one");
  opened.replace(opened.find("f/32"), 4, "f/16");
  tree.put("school/one.norma", opened);
  auto out = ran_in(tree.top(), "norma compare school/old.norma school/one.norma");
  CHECK(holds_part(out.out, "with short: "));
  CHECK_FALSE(holds_part(out.out, "with long"));
  out = ran_in(tree.top(), "norma compare --kit kits/long.yaml school/old.norma school/one.norma");
  CHECK(holds_part(out.out, "with long: "));
  CHECK_FALSE(holds_part(out.out, "with short"));
  out = ran_in(tree.top(), "norma compare --no-project school/old.norma school/one.norma");
  CHECK_FALSE(holds_part(out.out, "with short"));
}

TEST_CASE("a folder from which all protocols went, or into which they came, is compared") {
  const ProjectTree tree(head);
  fs::create_directory(tree.top() / "empty");
  const auto gone = ran_in(tree.top(), "norma compare school empty");
  CHECK(gone.code == 0);
  CHECK(holds_part(gone.out, "one"));
  CHECK(ran_in(tree.top(), "norma compare empty school").code == 0);
  CHECK(ran_in(tree.top(), "norma affected school empty").code == 0);
  const auto none = ran_in(tree.top(), "norma compare empty empty");
  CHECK(none.code == 2);
  CHECK(holds_part(none.err, "there is no protocol (.norma) below empty, and none below empty"));
  CHECK(ran_in(tree.top(), "norma check empty").code == 2); // else it stays an error
}

TEST_CASE("what a change affects is told in each form, and with other kits before") {
  const ProjectTree tree(head);
  const std::string line = "norma affected --kit kits/short.yaml --old-kit kits/long.yaml ";
  CHECK(holds_part(ran_in(tree.top(), line + "school school").out, "one"));
  CHECK(ran_in(tree.top(), line + "--format markdown school school").out.starts_with("- "));
  CHECK(ran_in(tree.top(), line + "--format json school school").out.starts_with("{"));
  CHECK(holds_part(ran_in(tree.top(), line + "--format html school school").out, "<html"));
}

} // namespace norma::test
