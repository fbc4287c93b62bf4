// What a revision holds is read as if it lay on the disk.
#include <doctest/doctest.h>

#include <chrono>
#include <cstdlib>
#include <set>

#include "cli/commands.hpp"
#include "made.hpp"
#include "revisions/revisions.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::string base(const std::string& ratio) {
  return small_protocol("base", "  every mouth view {\n    ratio            " + ratio + "\n  }\n");
}
/// Without a header of its own.
std::string ours(const std::string& way) {
  return "norma 1\n\nprotocol ours \"Ours\" {\n  builds on        base from \"" + way + "\"\n}\n";
}

std::string read_by(const text::Files& files, const std::string& path) {
  const text::ReadResult out = files.read(path);
  const auto* error = std::get_if<text::ReadError>(&out);
  return error == nullptr ? std::get<std::string>(out) : "! " + error->why;
}

} // namespace

TEST_CASE("a protocol and what it builds on come from the same revision, wherever one stands") {
  const Folder folder;
  const fs::path top = folder.path() / "work";
  MadeRepository made(top);
  made.commit(
      {{"protocols/ours.norma", ours("base.norma")}, {"protocols/base.norma", base("1:2")}});
  made.commit(
      {{"protocols/ours.norma", ours("base.norma")}, {"protocols/base.norma", base("1:3")}});
  fs::create_directories(top / "protocols/deep");
  write_file(top / "protocols/ours.norma", ours("base.norma"));
  write_file(top / "protocols/base.norma", base("1:4"));
  const auto ratio = [](const std::string& revision) {
    const cli::Outcome out = run_norma({"show", "--plain", revision + ":protocols/ours.norma"});
    CHECK(out.code == 0);
    const std::size_t at = out.out.find("ratio            ");
    return at == std::string::npos ? said(out) : out.out.substr(at + 17, 3);
  };
  git_object* head = nullptr;
  REQUIRE(git_revparse_single(&head, made.get(), "HEAD~1") == 0);
  const std::string digits = git_oid_tostr_s(git_object_id(head));
  git_signature* by = nullptr;
  git_signature_new(&by, "Harbour Lane", "lead@harbour.example", 1700000000, 0);
  git_oid tag;
  REQUIRE(git_tag_create(&tag, made.get(), "v1", head, by, "first", 0) == 0);
  git_reference* branch = nullptr;
  REQUIRE(git_reference_create(&branch, made.get(), "refs/heads/lead/larger", git_object_id(head),
                               0, nullptr) == 0);
  git_reference_free(branch);
  git_signature_free(by);
  git_object_free(head);
  for (const fs::path& stand : {top, top / "protocols/deep"}) {
    const Inside inside(stand);
    CHECK(ratio("HEAD") == "1:3");
    CHECK(ratio("main") == "1:3");
    CHECK(ratio("@") == "1:3");
    CHECK(ratio("HEAD~1") == "1:2");
    CHECK(ratio("HEAD^") == "1:2");
    CHECK(ratio("HEAD@{1}") == "1:2");
    CHECK(ratio("lead/larger") == "1:2");
    CHECK(ratio("refs/heads/lead/larger") == "1:2");
    CHECK(ratio("v1") == "1:2");
    CHECK(ratio(digits) == "1:2");
    CHECK(ratio(digits.substr(0, 10)) == "1:2");
  }
  const Inside inside(top);
  // The disk is still the disk.
  CHECK(has(run_norma({"show", "protocols/ours.norma"}).out, "1:4"));
  CHECK(has(run_norma({"show", "HEAD~1:protocols/ours.norma"}).out,
            "# HEAD~1:protocols/base.norma:7"));

  SUBCASE("in a linked work tree") {
    git_worktree* linked = nullptr;
    REQUIRE(git_worktree_add(&linked, made.get(), "other", (folder.path() / "other").c_str(),
                             nullptr) == 0);
    git_worktree_free(linked);
    const Inside other(folder.path() / "other");
    CHECK(ratio("HEAD") == "1:3");
    CHECK(ratio("main~1") == "1:2");
  }
  SUBCASE("in a bare repository") {
    MadeRepository bare(folder.path() / "bare.git", true);
    bare.commit(
        {{"protocols/ours.norma", ours("base.norma")}, {"protocols/base.norma", base("1:5")}});
    const Inside other(folder.path() / "bare.git");
    CHECK(ratio("HEAD") == "1:5");
    CHECK(ratio("main") == "1:5");
  }
  SUBCASE("where git's own hooks say which repository") {
    const Inside other(folder.path());
    CHECK(has(run_norma({"check", "HEAD"}).err, "no repository"));
    const Variable given("NORMA_TEST_GIT_DIR", (top / ".git").c_str());
    CHECK(ratio("HEAD") == "1:3");
  }
  SUBCASE("but not above where git may look") {
    const Inside other(top / "protocols/deep");
    const Variable ceiling("GIT_CEILING_DIRECTORIES", (top / "protocols").c_str());
    CHECK(has(run_norma({"check", "HEAD"}).err, "no repository"));
  }
}

TEST_CASE("what lies on the disk is the disk's, though its name holds a colon") {
  const Folder folder;
  MadeRepository made(folder.path());
  made.commit({{"a.norma", ours("base.norma")}, {"base.norma", base("1:2")}});
  const Inside inside(folder.path());
  write_file("HEAD:b.norma", base("1:9"));
  CHECK(has(run_norma({"show", "HEAD:b.norma"}).out, "1:9"));
  CHECK(has(run_norma({"check", "HEAD:b.norma"}).out, "1 protocol"));
  // Nobody can put a base below a revision.
  write_file("HEAD:base.norma", base("1:9"));
  CHECK(has(run_norma({"show", "HEAD:a.norma"}).out, "1:2"));
  CHECK(has(run_norma({"show", "HEAD:base.norma"}).out, "1:9"));
  CHECK(has(run_norma({"show", "main:base.norma"}).out, "1:2"));
}

TEST_CASE("a folder of a revision, or all of it, stands for its protocols") {
  const Folder folder;
  MadeRepository made(folder.path());
  const std::string p = small_protocol("p");
  made.commit({{"a.norma", p},
               {"b/c.norma", p},
               {"b/d/e.norma", p},
               {"b/x.txt", p},
               {"b/link.norma", {"c.norma", GIT_FILEMODE_LINK}},
               {".hidden/f.norma", p},
               {"node_modules/g.norma", p},
               {"cache/CACHEDIR.TAG", "Signature: 8a477f597d28d172789f06886806bc55\n"},
               {"cache/h.norma", p},
               {"sub", {"1234567890123456789012345678901234567890", GIT_FILEMODE_COMMIT}}});
  const Inside inside(folder.path());
  const auto files = revisions::files();
  const auto listed = [&](const std::string& name) {
    const auto out = files->listed(name, ".norma");
    const auto* error = std::get_if<text::ReadError>(&out);
    return error == nullptr ? std::get<std::vector<std::string>>(out)
                            : std::vector<std::string>{"! " + error->why};
  };
  using Names = std::vector<std::string>;
  CHECK(listed("HEAD") == Names{"HEAD:a.norma", "HEAD:b/c.norma", "HEAD:b/d/e.norma"});
  CHECK(listed("HEAD:") == listed("HEAD"));
  CHECK(listed("HEAD:b") == Names{"HEAD:b/c.norma", "HEAD:b/d/e.norma"});
  CHECK(listed("HEAD:b/") == listed("HEAD:b"));
  CHECK(listed("HEAD:a.norma") == Names{"HEAD:a.norma"});
  CHECK(listed("HEAD:none") == Names{"! the revision has no such file (paths start at its top)"});
  CHECK(listed("none") == Names{"! there is no such file, and no revision none"});
  CHECK(listed("none.norma") == Names{"none.norma"});
  // A folder on the disk comes before a branch of its name.
  fs::create_directory("main");
  CHECK(listed("main").empty());
  CHECK(has(run_norma({"check", "HEAD"}).out, "3 protocols, 3 views checked"));
  CHECK(has(run_norma({"check", "HEAD:b/x.txt"}).out, "1 protocol, 1 view checked"));
}

TEST_CASE("what lies below a folder or a revision has one name, wherever that is") {
  using cli::name_below;
  CHECK(name_below("HEAD", "HEAD:b/c.norma") == "b/c.norma");
  CHECK(name_below("HEAD:", "HEAD:b/c.norma") == "b/c.norma");
  CHECK(name_below("HEAD:b", "HEAD:b/c.norma") == "c.norma");
  CHECK(name_below("HEAD:b/", "HEAD:b/c.norma") == "c.norma");
  CHECK(name_below("lead/larger", "lead/larger:b/c.norma") == "b/c.norma");
  CHECK(name_below("old", "old/b/c.norma") == "b/c.norma");
  CHECK(name_below("old/", "old/b/c.norma") == "b/c.norma");
  CHECK(name_below("./old", "old/b/c.norma") == "b/c.norma");
  CHECK(name_below("../old", "../old/b/c.norma") == "b/c.norma");
  CHECK(name_below("/a/old", "/a/old/b/c.norma") == "b/c.norma");
  CHECK(name_below(".", "b/c.norma") == "b/c.norma");
  CHECK(name_below("./", "b/c.norma") == "b/c.norma");
  CHECK(name_below("a.norma", "a.norma") == "");
  CHECK(name_below("HEAD:a.norma", "HEAD:a.norma") == "");
}

TEST_CASE("a root bounds what protocols of a revision build on") {
  const Folder folder;
  MadeRepository made(folder.path());
  made.commit({{"base.norma", base("1:2")},
               {"mine/ours.norma", ours("../base.norma")},
               {"mine/up.norma", ours("../../base.norma")},
               {"mine/absolute.norma", ours("/etc/passwd")},
               {"mine/tricky.norma", ours("HEAD:base.norma")}});
  const Inside inside(folder.path());
  fs::create_directory("mine");
  const auto shows = [](std::vector<std::string> more, const std::string& file) {
    std::vector<std::string> words{"show", file};
    words.insert(words.end(), more.begin(), more.end());
    return said(run_norma(words));
  };
  const std::string outside = "R012 base_outside";
  CHECK(has(shows({}, "HEAD:mine/ours.norma"), "1:2"));
  CHECK(has(shows({"--root", "."}, "HEAD:mine/ours.norma"), "1:2"));
  CHECK(has(shows({"--root", ".."}, "HEAD:mine/ours.norma"), "1:2"));
  CHECK(has(shows({"--root", "mine"}, "HEAD:mine/ours.norma"), outside));
  CHECK(has(shows({"--root", "HEAD:"}, "HEAD:mine/ours.norma"), "1:2"));
  CHECK(has(shows({"--root", "HEAD:mine"}, "HEAD:mine/ours.norma"), outside));
  CHECK(has(shows({"--root", "/usr"}, "HEAD:mine/ours.norma"), outside));
  CHECK(has(shows({}, "HEAD:mine/up.norma"), outside));
  CHECK(has(shows({}, "HEAD:mine/absolute.norma"), outside));
  CHECK(has(shows({}, "HEAD:mine/tricky.norma"), "R011 base_unreadable"));
}

TEST_CASE("every command reads revisions, kits too, and finds what it finds on the disk") {
  const Folder folder;
  MadeRepository made(folder.path());
  Contents all;
  for (const auto& entry : fs::recursive_directory_iterator(root() / "protocols")) {
    if (!entry.is_regular_file()) continue;
    all.emplace(fs::relative(entry.path(), root()).string(), read_file(entry.path()));
    const fs::path copy = folder.path() / fs::relative(entry.path(), root());
    fs::create_directories(copy.parent_path());
    fs::copy_file(entry.path(), copy);
  }
  made.commit(all);
  const Inside inside(folder.path());
  const auto same = [](const std::vector<std::string>& words) {
    CAPTURE(words.front());
    std::vector<std::string> of_revision = words;
    for (std::string& word : of_revision) {
      if (word.starts_with("protocols")) word.insert(0, "HEAD:");
    }
    const cli::Outcome disk = run_norma(words);
    const cli::Outcome revision = run_norma(of_revision);
    CHECK(disk.code == revision.code);
    CHECK(!disk.out.empty());
    const auto plain = [](std::string text) {
      for (std::size_t at; (at = text.find("HEAD:")) != std::string::npos;)
        text.erase(at, 5);
      return text;
    };
    CHECK(plain(said(revision)) == plain(said(disk)));
  };
  const std::string five = "protocols/five.norma";
  const std::string children = "protocols/children.norma";
  const std::vector<std::string> kit{"--on", "2026-11-25", "--kit", "protocols/kits/chair_3.yaml"};
  const auto with_kit = [&](std::vector<std::string> words) {
    words.insert(words.end(), kit.begin(), kit.end());
    return words;
  };
  same(with_kit({"check", "--format", "json", children}));
  same({"check", "--on", "2026-11-25", "--format", "sarif", "protocols"});
  same(with_kit({"plan", five}));
  same(with_kit({"list", children}));
  same(with_kit({"card", five}));
  same(with_kit({"tray", five}));
  same({"marks", five});
  same(with_kit({"chairs", five}));
  same(with_kit({"mouths", "--mouths", "16", "protocols/three.norma"}));
  same(with_kit({"margins", "--shots", "0", "protocols/three.norma"}));
  same(with_kit({"explain", five, "front"}));
  same({"show", "--plain", children});
  same({"names", "views", children});
  same({"kit", "--on", "2026-11-25", "protocols/kits/chair_3.yaml"});
  const cli::Outcome tidy = run_norma({"tidy", "--check", "HEAD:protocols"});
  CHECK(said(tidy) == "");
  CHECK(tidy.code == 0);
  CHECK(has(run_norma({"check", "HEAD:protocols/kits/chair_3.yaml"}).err, "give it as --kit"));
}

TEST_CASE("nothing is written into a revision") {
  const Folder folder;
  MadeRepository made(folder.path());
  made.commit({{"a.norma", "norma 1\nprotocol a \"A\" { sensor 36 x 24 mm }\n"}});
  const Inside inside(folder.path());
  const cli::Outcome out = run_norma({"tidy", "HEAD:a.norma"});
  CHECK(out.code == 2);
  CHECK(has(out.err, "cannot write HEAD:a.norma: a revision stays as it is"));
  CHECK(run_norma({"tidy", "--check", "HEAD:a.norma"}).code == 1);
  CHECK(!fs::exists("HEAD:a.norma"));
}

TEST_CASE("a revision stays what it was while norma runs") {
  const Folder folder;
  MadeRepository made(folder.path());
  made.commit({{"a.norma", "one"}, {"b.norma", "one"}});
  const Inside inside(folder.path());
  const auto files = revisions::files();
  CHECK(read_by(*files, "HEAD:a.norma") == "one");
  made.commit({{"a.norma", "two"}, {"b.norma", "two"}});
  CHECK(read_by(*files, "HEAD:b.norma") == "one");
  CHECK(read_by(*files, "HEAD~1:b.norma") == "one");
  CHECK(read_by(*revisions::files(), "HEAD:b.norma") == "two");
}

TEST_CASE("two thousand protocols ten folders deep are all there, in little time") {
  const Folder folder;
  MadeRepository made(folder.path());
  Contents all;
  std::set<std::string> expected;
  for (int i = 0; i < 2000; ++i) {
    std::string path;
    for (int level = 0, n = i; level < 10; ++level, n /= 3)
      path += "f" + std::to_string(n % 3) + "/";
    path += "p" + std::to_string(i) + ".norma";
    expected.insert("HEAD:" + path);
    all.emplace(path, small_protocol("p" + std::to_string(i)));
  }
  made.commit(all);
  const Inside inside(folder.path());
  const auto start = std::chrono::steady_clock::now();
  const auto files = revisions::files();
  const auto listed = files->listed("HEAD", ".norma");
  REQUIRE(std::holds_alternative<std::vector<std::string>>(listed));
  const auto& names = std::get<std::vector<std::string>>(listed);
  CHECK(std::set<std::string>(names.begin(), names.end()) == expected);
  CHECK(names.size() == expected.size());
  for (const std::string& name : names)
    CHECK(read_by(*files, name).starts_with("norma 1"));
  const auto took = std::chrono::steady_clock::now() - start;
  MESSAGE("listed and read in ",
          std::chrono::duration_cast<std::chrono::milliseconds>(took).count(), " ms");
  CHECK(took < std::chrono::seconds(20)); // on a busy machine
  CHECK(has(run_norma({"check", "--no-scene", "HEAD"}).out, "2000 protocols, 2000 views checked"));
}

TEST_CASE("norma becomes norma-press where a revision is to be read, and only there") {
  const Folder folder;
  MadeRepository made(folder.path());
  made.commit({{"a.norma", small_protocol("a")}});
  const Inside inside(folder.path());
  const Variable given("GIT_DIR", nullptr);
  const std::string quiet = " >out 2>&1";
  const auto run_program = [&](const std::string& program, const std::string& rest) {
    const int status = std::system((program + " " + rest + quiet).c_str());
    return std::pair(WEXITSTATUS(status), read_file("out"));
  };
  const std::string norma = NORMA_PROGRAM;
  const auto read = run_program(norma, "show --plain HEAD:a.norma");
  CHECK(read.first == 0);
  CHECK(has(read.second, "protocol a"));
  CHECK(has(run_program(norma, "check HEAD").second, "1 protocol, 1 view"));
  CHECK(has(run_program(norma, "check none").second, "no revision none"));
  // Standard input is still there for it.
  CHECK(
      has(run_program("echo 'norma 1' | " + norma, "check - HEAD:a.norma").second, "2 protocols"));
  CHECK(has(run_program(norma, "git-setup --write").second, "2 set"));

  fs::copy_file(norma, "alone");
  const auto alone = run_program("./alone", "check HEAD:a.norma");
  CHECK(alone.first == 2);
  CHECK(has(alone.second, "HEAD:a.norma is no file, and to read a revision norma needs the program "
                          "norma-press beside it"));
  CHECK(run_program("./alone", "check none").second ==
        "norma: cannot read none: there is no such file\n");
}

} // namespace norma::test
