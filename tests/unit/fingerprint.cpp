// Fingerprints: what changes them, what does not, and vectors that must never change.
#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "model/fingerprint.hpp"
#include "model/resolve.hpp"
#include "session/documents.hpp"
#include "support/opened.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

struct Prints {
  model::Fingerprint digests;
  model::Canonical text;
};
Prints of(const std::string& bytes) {
  text::MemoryFiles files;
  files.put("p.norma", bytes);
  text::Sources sources;
  diag::Findings findings;
  Opened library(files, sources, "");
  const auto* declared = std::get<const model::Declared*>(library.open("p.norma", findings));
  REQUIRE(declared != nullptr);
  const auto group = model::groups_of(*declared).front();
  return {model::fingerprint(*declared, group), model::canonical(*declared, group)};
}

const std::string small = "norma 1\n"
                          "protocol small \"Small\" {\n"
                          "  revision 1\n"
                          "  for adults\n"
                          "  sensor 36 x 24 mm\n"
                          "  every mouth view { ratio 1:2 }\n"
                          "  view a \"A\" {\n"
                          "    say \"caf\xc3\xa9\"\n"
                          "    shutter 1/125 s\n"
                          "    must show labial 13 to 11, 21\n"
                          "  }\n"
                          "  series s = a optional\n"
                          "}\n";

} // namespace

TEST_CASE("vectors: the canonical form and its digests (digests by sha256sum of coreutils)") {
  const Prints p = of(small);
  CHECK(p.text.pictures == "norma canonical 2 pictures\n"
                           "for adults\n"
                           "sensor; size=36/1 mm x 24/1 mm\n"
                           "view\n"
                           "  ratio; ratio=1:2\n"
                           "  shutter; time=1/125 s\n"
                           "  must show; teeth=facial 11; teeth=facial 12; teeth=facial 13; "
                           "teeth=facial 21\n");
  CHECK(p.text.everything == "norma canonical 2 everything\n"
                             "protocol small \"Small\"\n"
                             "for adults\n"
                             "sensor; size=36/1 mm x 24/1 mm\n"
                             "view a \"A\"\n"
                             "  ratio; ratio=1:2\n"
                             "  shutter; time=1/125 s\n"
                             "  say; text=\"caf\xc3\xa9\"\n"
                             "  must show; teeth=facial 11; teeth=facial 12; teeth=facial 13; "
                             "teeth=facial 21\n"
                             "series s = a?\n");
  CHECK(p.digests.pictures == "1a10667d4cb56368d0fa6e36da10df25f64a14e9c17c2301e68be4f53a89d963");
  CHECK(p.digests.everything == "f282015a5c7957fa5189d5bbe45a702a4de673662536850ccb69b37bb65c0b03");
}

TEST_CASE("how it is written does not matter") {
  const model::Fingerprint plain = of(small).digests;
  for (const auto& [from, to] : {
           std::pair{"1:2", "2:4"},
           std::pair{"36 x 24 mm", "3.6 x 2.4 cm"},
           std::pair{"1/125 s", "8 ms"},
           std::pair{"labial 13 to 11, 21", "facial 21, 11 to 13, 12"},
           std::pair{"caf\xc3\xa9", "cafe\xcc\x81"}, // the accent as a character of its own
           std::pair{"revision 1", "revision 2\n  adopted 2026-01-01"},
           std::pair{"every mouth view { ratio 1:2 }", "# nothing"},
       }) {
    std::string other = changed(small, from, to);
    if (std::string_view(to) == "# nothing") other = changed(other, "say", "ratio 1:2\n    say");
    CAPTURE(other);
    CHECK(of(other).digests.pictures == plain.pictures);
    CHECK(of(other).digests.everything == plain.everything);
  }
}

TEST_CASE("what shapes the picture changes both; what else is said changes one") {
  const model::Fingerprint plain = of(small).digests;
  for (const auto& [from, to] : {std::pair{"1:2", "1:2.5"}, std::pair{"13 to 11, 21", "13 to 11"},
                                 std::pair{"for adults", "for children, mixed teeth"}}) {
    const std::string other = changed(small, from, to);
    CHECK(of(other).digests.pictures != plain.pictures);
    CHECK(of(other).digests.everything != plain.everything);
  }
  for (const auto& [from, to] :
       {std::pair{"caf\xc3\xa9", "tea"}, std::pair{"\"Small\"", "\"Large\""},
        std::pair{"a optional", "a"}, std::pair{"protocol small", "protocol other"},
        std::pair{"view a", "view b"}}) {
    std::string other = changed(small, from, to);
    if (std::string_view(to) == "view b") other = changed(other, "s = a", "s = b");
    CHECK(of(other).digests.pictures == plain.pictures);
    CHECK(of(other).digests.everything != plain.everything);
  }
}

TEST_CASE(
    "the pictures' digest: views by what they say, not by their names; hands are no picture") {
  const std::string two =
      changed(changed(small, "  series s = a optional\n",
                      "  view b \"B\" {\n    exposure as view a\n    mirror occlusal, held by "
                      "assistant\n  }\n  series s = a, b\n"),
              "ratio 1:2 }", "ratio 1:2\n    aperture f/22 }");
  const model::Fingerprint plain = of(two).digests;
  std::string renamed = changed(two, "view a \"A\"", "view z \"A\"");
  renamed = changed(changed(renamed, "as view a", "as view z"), "s = a, b", "s = z, b");
  CHECK(of(renamed).digests.pictures == plain.pictures);
  const std::string held = changed(two, "held by assistant", "held by patient");
  CHECK(of(held).digests.pictures == plain.pictures);
  CHECK(of(held).digests.everything != plain.everything);
  // What is said to the patient, and the pull of a retractor.
  CHECK(of(changed(two, "aperture f/22", "retractor both tension firm")).digests.pictures !=
        of(changed(two, "aperture f/22", "retractor both tension light")).digests.pictures);
  // A reference to another view is another picture.
  const std::string itself = changed(two, "as view a", "as view b");
  CHECK(of(itself).digests.pictures != plain.pictures);
}

TEST_CASE(
    "a protocol as `show` prints it is read without a finding and has the same fingerprints") {
  namespace fs = std::filesystem;
  const text::DiskFiles disk;
  std::size_t seen = 0;
  for (const auto& entry : fs::recursive_directory_iterator(root() / "protocols")) {
    if (entry.path().extension() != ".norma") continue;
    CAPTURE(entry.path().string());
    const auto run = session::show(disk, entry.path().string(), "", "");
    REQUIRE(run->made);
    CHECK(run->report.findings.empty());
    text::MemoryFiles files;
    files.put("shown.norma", *run->made);
    const auto again = session::show(files, "shown.norma", "", "");
    CHECK(again->report.findings.empty());
    REQUIRE(again->made);
    const auto prints = [](const std::string& text) {
      return text.substr(text.find("# fingerprint"), 2 * 98);
    };
    CHECK(prints(*again->made) == prints(*run->made));
    ++seen;
  }
  CHECK(seen >= 12);
}

TEST_CASE("shown plainly it asks for the same, names no file, and does not change with its name") {
  namespace fs = std::filesystem;
  using session::Showing;
  const text::DiskFiles disk;
  const auto prints = [](const text::Files& files, const std::string& path) {
    const auto run = session::show(files, path, "", "");
    REQUIRE(run->made);
    return run->made->substr(run->made->find("# fingerprint"), 2 * 98);
  };
  std::size_t seen = 0;
  std::size_t built_on = 0;
  for (const auto& entry : fs::recursive_directory_iterator(root() / "protocols")) {
    if (entry.path().extension() != ".norma") continue;
    const std::string path = entry.path().string();
    CAPTURE(path);
    const auto run = session::show(disk, path, "", "", {}, Showing::plain);
    REQUIRE(run->made);
    CHECK(run->made->find(".norma") == std::string::npos);
    CHECK(run->made->find("fingerprint") == std::string::npos);
    if (run->groups.size() < 2) {
      text::MemoryFiles files;
      files.put("shown.norma", *run->made);
      CHECK(prints(files, "shown.norma") == prints(disk, path));
    }
    ++seen;

    // As a tool hands it on: alone, and by another name.
    const text::ReadResult bytes = disk.read(path);
    text::MemoryFiles alone;
    alone.put("tmp/a1b2_" + entry.path().filename().string(), std::get<std::string>(bytes));
    const auto there = session::show(alone, "tmp/a1b2_" + entry.path().filename().string(), "tmp",
                                     "", {}, Showing::plain);
    REQUIRE(there->made);
    if (there->made->find("could not be read") == std::string::npos) {
      CHECK(*there->made == *run->made);
      continue;
    }
    // What it builds on is not there: beside its bases it still asks for the same.
    ++built_on;
    text::MemoryFiles beside;
    for (const auto& other : fs::recursive_directory_iterator(root() / "protocols")) {
      if (other.path().extension() == ".norma")
        beside.put(fs::relative(other.path(), root()).string(), read_file(other.path()));
    }
    const std::string place = fs::relative(entry.path(), root()).string();
    const std::string before = prints(beside, place);
    beside.put(place, *there->made);
    CHECK(prints(beside, place) == before);
  }
  CHECK(seen >= 12);
  CHECK(built_on >= 2);
}

} // namespace norma::test
