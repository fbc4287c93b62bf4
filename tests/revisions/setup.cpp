// `norma git-setup`: what it writes, and what it leaves alone.
#include <doctest/doctest.h>

#include "cli/commands.hpp"
#include "made.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::string value(MadeRepository& made, const char* key) {
  git_config* config = nullptr;
  REQUIRE(git_repository_config(&config, made.get()) == 0);
  git_buf text{};
  const bool there = git_config_get_string_buf(&text, config, key) == 0;
  std::string out = there ? std::string(text.ptr, text.size) : "none";
  git_buf_dispose(&text);
  git_config_free(config);
  return out;
}

} // namespace

TEST_CASE("git-setup writes once, and keeps what is there") {
  const Folder folder;
  MadeRepository made(folder.path());
  fs::create_directory(folder.path() / "below");
  const Inside inside(folder.path() / "below");
  const fs::path file = folder.path() / ".gitattributes";
  SUBCASE("no file yet") {}
  SUBCASE("a file without a last line end") { write_file(file, "*.png binary"); }
  SUBCASE("a file with much") {
    write_file(file, "# ours\r\n*.png binary\r\n*.norma text eol=lf\n\n*.normal diff=other\n");
  }
  const std::string before = fs::exists(file) ? read_file(file) : "";
  const cli::Outcome told = run_norma({"git-setup"});
  CHECK(told.code == 0);
  CHECK(has(told.out, "*.norma diff=norma\n"));
  CHECK((fs::exists(file) ? read_file(file) : "") == before);
  CHECK(value(made, "diff.norma.command") == "none");

  const cli::Outcome first = run_norma({"git-setup", "--write"});
  CHECK(first.code == 0);
  CHECK(has(first.out, "a line added"));
  CHECK(has(first.out, "2 set"));
  const std::string ended = before.empty() || before.back() == '\n' ? before : before + "\n";
  CHECK(read_file(file) == ended + "*.norma diff=norma\n");
  CHECK(value(made, "diff.norma.command") == cli::command_for_git);
  CHECK(value(made, "diff.norma.textconv") == "none");
  CHECK(value(made, "difftool.norma.cmd") == "norma compare \"$LOCAL\" \"$REMOTE\"");

  const std::string settings = read_file(made.inside() / "config");
  const cli::Outcome again = run_norma({"git-setup", "--write"});
  CHECK(again.code == 0);
  CHECK(!has(again.out, "added"));
  CHECK(read_file(file) == ended + "*.norma diff=norma\n");
  CHECK(read_file(made.inside() / "config") == settings);

  CHECK(has(run_norma({"git-setup", "--write", "--textconv"}).out, "1 set"));
  CHECK(value(made, "diff.norma.textconv") == "norma show --plain");
  // git itself reads it so.
  const char* attribute = nullptr;
  REQUIRE(git_attr_get(&attribute, made.get(), 0, "below/a.norma", "diff") == 0);
  CHECK(std::string(attribute) == "norma");
}

TEST_CASE("git-setup leaves alone what is somebody's choice or leads elsewhere") {
  const Folder folder;
  MadeRepository made(folder.path() / "in");
  const Inside inside(folder.path() / "in");
  SUBCASE("another way to compare") {
    for (const char* line : {"*.norma diff=mine\n", "*.norma -diff\n", "*.norma binary\n",
                             "*.norma diff=norma\n*.norma  text\tdiff=mine"}) {
      CAPTURE(line);
      write_file(".gitattributes", line);
      const cli::Outcome out = run_norma({"git-setup", "--write"});
      CHECK(out.code == 2);
      CHECK(has(out.err, "already says how *.norma is compared"));
      CHECK(read_file(".gitattributes") == line);
    }
  }
  SUBCASE("a link") {
    write_file("../elsewhere", "kept\n");
    fs::create_symlink("../elsewhere", ".gitattributes");
    const cli::Outcome out = run_norma({"git-setup", "--write"});
    CHECK(out.code == 2);
    CHECK(has(out.err, ".gitattributes is a link: it is not written"));
    CHECK(read_file("../elsewhere") == "kept\n");
  }
  SUBCASE("a link in place of the settings") {
    fs::rename(".git/config", "../config");
    fs::create_symlink("../../config", ".git/config");
    const std::string before = read_file("../config");
    const cli::Outcome out = run_norma({"git-setup", "--write"});
    CHECK(out.code == 2);
    CHECK(has(out.err, "a link to another place"));
    CHECK(read_file("../config") == before);
  }
  SUBCASE("a folder in place of the file") {
    fs::create_directory(".gitattributes");
    CHECK(has(run_norma({"git-setup", "--write"}).err, "it is a folder"));
  }
  SUBCASE("a work tree elsewhere") {
    fs::create_directory("../other");
    made.set("core.worktree", (folder.path() / "other").string());
    const cli::Outcome out = run_norma({"git-setup", "--write"});
    CHECK(out.code == 2);
    CHECK(has(out.err, "not in the repository's work tree"));
    CHECK(!fs::exists("../other/.gitattributes"));
  }
  CHECK(value(made, "diff.norma.command") == "none");
}

TEST_CASE("git's external diff tells of each file, and never fails") {
  const Folder folder;
  MadeRepository made(folder.path());
  const Inside inside(folder.path());
  const auto protocol = [](const char* aperture) {
    return "norma 1\n\nprotocol p \"P\" {\n  builds on        base from \"base.norma\"\n"
           "  change view front because \"it is so\" {\n    aperture         " +
           std::string(aperture) + "\n  }\n}\n";
  };
  fs::create_directory("tmp");
  write_file("base.norma", small_protocol("base"));
  write_file("tmp/old_p.norma", protocol("f/22"));
  write_file("p.norma", protocol("f/25"));
  const auto diff = [](std::vector<std::string> words) {
    words.insert(words.begin(), {"compare", "--on", "2026-11-25", "--from-git"});
    const cli::Outcome out = run_norma(words);
    CHECK(out.code == 0);
    CHECK(out.err == "");
    return out.out;
  };
  const std::string hex(40, 'a');
  const std::string changed =
      diff({"p.norma", "tmp/old_p.norma", hex, "100644", "p.norma", hex, "100644"});
  CHECK(has(changed, "`aperture f/22` becomes `aperture f/25`"));
  CHECK(!has(changed, "cannot be read"));
  const std::string renamed = diff({"was.norma", "tmp/old_p.norma", hex, "100644", "p.norma", hex,
                                    "100644", "p.norma", "similarity index 90%\n"});
  CHECK(has(renamed, "`aperture f/22` becomes `aperture f/25`"));
  CHECK(has(diff({"p.norma", "/dev/null", ".", ".", "p.norma", hex, "100644"}), "in p.norma"));
  CHECK(has(diff({"p.norma", "tmp/old_p.norma", hex, "100644", "/dev/null", ".", "."}),
            "in p.norma"));
  CHECK(diff({"p.norma"}) == "p.norma: not merged yet\n\n");
  CHECK(has(diff({"p.norma", "p.norma", hex, "120000", "p.norma", hex, "100644"}), "a link"));
  CHECK(has(diff({"p.norma", "tmp/none", hex, "100644", "p.norma", hex, "100644"}),
            "p.norma: cannot be read: there is no such file"));
  // A kit that is none, or is not there, is no fault of the protocol, and ends no diff of git.
  write_file("bad.yaml", "no kit\n");
  for (const char* kit : {"bad.yaml", "none.yaml"}) {
    const std::string said =
        diff({"--kit", kit, "p.norma", "tmp/old_p.norma", hex, "100644", "p.norma", hex, "100644"});
    CHECK_MESSAGE(has(said, kit), said);
  }
  CHECK(run_norma({"compare", "--from-git", "a", "b"}).code == 2);
}

TEST_CASE("git-setup without a work tree, and without a repository") {
  const Folder folder;
  MadeRepository bare(folder.path() / "bare.git", true);
  {
    const Inside inside(folder.path() / "bare.git");
    CHECK(run_norma({"git-setup", "--write"}).err == "norma: the repository has no work tree\n");
  }
  const Inside inside(folder.path());
  CHECK(run_norma({"git-setup", "--write"}).err ==
        "norma: the current folder lies in no repository\n");
  CHECK(run_norma({"git-setup"}).code == 0);
}

} // namespace norma::test
