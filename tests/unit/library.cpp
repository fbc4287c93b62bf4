// Files that build on files: found, read once, bounded.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <filesystem>
#include <string>

#include "cli/run.hpp"
#include "support/opened.hpp"
#include "work.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

std::string protocol(const std::string& name, const std::string& base = {},
                     const std::string& from = {}) {
  const std::string head = base.empty()
                               ? "for adults\nsensor 36 x 24 mm\nview a \"A\" { ratio 1:2 }\n"
                               : fmt::format("builds on {} from \"{}\"\n", base, from);
  return fmt::format("norma 1\nprotocol {} \"P\" {{\n{}}}\n", name, head);
}

std::string told(const text::Files& files, const std::string& path, std::string root = {}) {
  text::Sources sources;
  diag::Findings findings;
  Opened library(files, sources, std::move(root));
  static_cast<void>(library.open(path, findings));
  std::string out;
  for (const auto& d : findings.all())
    out += (out.empty() ? "" : " ") + std::string(d.definition->name);
  return out;
}

} // namespace

TEST_CASE("a base in a folder beside, above and below; dots in the way are taken out") {
  text::MemoryFiles files;
  files.put("a/p.norma", protocol("p", "q", "../b/./q.norma"));
  files.put("b/q.norma", protocol("q", "r", "c/../c/r.norma"));
  files.put("b/c/r.norma", protocol("r"));
  CHECK(told(files, "a/p.norma").empty());
}

TEST_CASE("a way out of the root, an absolute one, a missing file, a circle, another name") {
  text::MemoryFiles files;
  files.put("a/p.norma", protocol("p", "q", "../../q.norma"));
  CHECK(told(files, "a/p.norma") == "base_outside");
  files.put("a/p.norma", protocol("p", "q", "/q.norma"));
  CHECK(told(files, "a/p.norma") == "base_outside");
  files.put("b/q.norma", protocol("q"));
  files.put("a/p.norma", protocol("p", "q", "../b/q.norma"));
  CHECK(told(files, "a/p.norma").empty());
  CHECK(told(files, "a/p.norma", "a") == "base_outside");
  files.put("a/p.norma", protocol("p", "q", "none.norma"));
  CHECK(told(files, "a/p.norma") == "base_unreadable");
  files.put("a/p.norma", protocol("p", "p", "p.norma"));
  CHECK(told(files, "a/p.norma") == "goes_in_circles");
  files.put("a/p.norma", protocol("p", "q", "q.norma"));
  files.put("a/q.norma", protocol("q", "p", "p.norma"));
  CHECK(told(files, "a/p.norma") == "goes_in_circles");
  files.put("a/q.norma", protocol("r"));
  CHECK(told(files, "a/p.norma") == "base_name_differs");
  files.put("a/q.norma", "norma 1\n");
  CHECK(told(files, "a/p.norma") == "protocol_missing");
}

TEST_CASE("two protocols on one base: the base is read once") {
  text::MemoryFiles files;
  files.put("p.norma", protocol("p", "r", "r.norma"));
  files.put("q.norma", protocol("q", "r", "./r.norma"));
  files.put("r.norma", protocol("r"));
  text::Sources sources;
  diag::Findings findings;
  Opened library(files, sources, "");
  static_cast<void>(library.open("p.norma", findings));
  static_cast<void>(library.open("q.norma", findings));
  CHECK(library.files_read() == 3);
  CHECK(findings.empty());
}

TEST_CASE("a protocol that was opened, and is built on later, is read again and told of once") {
  text::MemoryFiles files;
  files.put("p.norma", protocol("p", "r", "r.norma"));
  files.put("r.norma", "norma 1\nprotocol r \"P\" {\nview a \"A\" { ratoi 1:2 }\n}\n");
  text::Sources sources;
  diag::Findings findings;
  Opened library(files, sources, "");
  static_cast<void>(library.open("r.norma", findings));
  for (const char* path : {"p.norma", "r.norma", "p.norma"}) {
    const auto opened = library.open(path, findings);
    const auto* declared = std::get<const model::Declared*>(opened);
    REQUIRE(declared != nullptr);
    CHECK(declared->view("a") != nullptr);
  }
  CHECK(library.files_read() == 2);
  CHECK(sources.size() == 2);
  REQUIRE(findings.all().size() == 1);
  CHECK(findings.all()[0].definition->name == "unknown_word");
}

TEST_CASE("ten levels are fine; past the limit it is one finding") {
  for (const int levels : {10, 32, 33, 1000}) {
    text::MemoryFiles files;
    for (int i = 0; i < levels; ++i)
      files.put(fmt::format("p{}.norma", i),
                protocol(fmt::format("p{}", i), fmt::format("p{}", i + 1),
                         fmt::format("p{}.norma", i + 1)));
    files.put(fmt::format("p{}.norma", levels), protocol(fmt::format("p{}", levels)));
    CAPTURE(levels);
    CHECK(told(files, "p0.norma") == (levels <= 32 ? "" : "built_too_deep"));
  }
}

TEST_CASE("on the disk: the same file by two names is one; a link among plain files is followed") {
  const Folder folder;
  fs::create_directories(folder.path() / "sub");
  write_file(folder.path() / "p.norma", protocol("p"));
  write_file(folder.path() / "q.norma", protocol("q"));
  fs::create_symlink(folder.path() / "p.norma", folder.path() / "r.norma");
  const text::DiskFiles disk;
  text::Sources sources;
  diag::Findings findings;
  Opened library(disk, sources, "");
  for (const char* name : {"p.norma", "q.norma", "r.norma", "sub/../q.norma", "./p.norma"}) {
    const auto opened = library.open((folder.path() / name).string(), findings);
    CHECK(std::get<const model::Declared*>(opened) != nullptr);
  }
  CHECK(library.files_read() == 2);
}

TEST_CASE("on the disk: links are followed before it is asked where they lead") {
  const Folder folder;
  fs::create_directories(folder.path() / "inside/sub");
  write_file(folder.path() / "outside.norma", protocol("q"));
  write_file(folder.path() / "inside/q.norma", protocol("q"));
  fs::create_symlink(folder.path() / "outside.norma", folder.path() / "inside/link.norma");
  fs::create_symlink("../q.norma", folder.path() / "inside/sub/good.norma");
  fs::create_directory_symlink(folder.path(), folder.path() / "inside/up");
  const text::DiskFiles disk;
  const std::string inside = (folder.path() / "inside").string();
  const std::string p = inside + "/p.norma";
  const auto with = [&](const std::string& from) {
    write_file(p, protocol("p", "q", from));
    return told(disk, p);
  };
  CHECK(with("q.norma").empty());
  CHECK(with("sub/good.norma").empty());
  CHECK(with("link.norma") == "base_outside");
  CHECK(with("up/outside.norma") == "base_outside");
  CHECK(with("../outside.norma") == "base_outside");
  CHECK(with("sub") == "base_unreadable");
  // A repository's top is the root, from wherever in it norma is run.
  fs::create_directory(folder.path() / ".git");
  CHECK(with("../outside.norma").empty());
  CHECK(told(disk, p, inside) == "base_outside");
  const Inside here(folder.path() / "inside");
  CHECK(cli::run({"check", "--root", ".", "p.norma"}).code == 1);
  CHECK(cli::run({"check", "p.norma"}).code == 0);
}

TEST_CASE("a finding in a base is told once, where it stands, for all who build on it") {
  text::MemoryFiles files;
  files.put("p.norma", protocol("p", "r", "r.norma"));
  files.put("q.norma", protocol("q", "r", "r.norma"));
  files.put("r.norma", "norma 1\nprotocol r \"R\" {\nraito 1:2\n}\n");
  session::Session session;
  session.run(files, {{"p.norma", "q.norma", "r.norma"}, {}, {2026, 11, 25}});
  REQUIRE(session.report().findings.all().size() == 1);
  CHECK(session.report().sources[session.report().findings.all()[0].span.file].name() == "r.norma");
}

} // namespace norma::test
