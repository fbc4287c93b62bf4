// What strangers put into a repository, and what is not there: told in a plain sentence, in bounded
// time, and nothing outside is read.
#include <doctest/doctest.h>

#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <fstream>

#include "made.hpp"
#include "revisions/revisions.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// What `norma show` says of it; it must fail.
std::string why_not(const std::string& name) {
  const cli::Outcome out = run_norma({"show", name});
  CHECK(out.code == 2);
  CHECK(out.out.empty());
  const std::string start = "norma: cannot read ";
  CHECK(out.err.starts_with(start));
  CHECK(!has(out.err, "root:")); // of /etc/passwd
  const std::size_t behind = out.err.rfind(": ");
  const std::size_t name_ends =
      out.err.find(": ", std::min(start.size() + name.size(), out.err.size()));
  return out.err.substr((name_ends == std::string::npos ? behind : name_ends) + 2);
}

const char* const plain_path =
    "behind the colon stands a plain path from the top of the revision\n";

MadeRepository& with_one(MadeRepository& made) {
  made.commit({{"a.norma", small_protocol("a")}, {"b/c.norma", small_protocol("c")}});
  return made;
}

} // namespace

TEST_CASE("paths that lead elsewhere") {
  const Folder folder;
  MadeRepository made(folder.path() / "in");
  with_one(made);
  write_file(folder.path() / "x.norma", small_protocol("x"));
  const Inside inside(folder.path() / "in");
  for (const char* path :
       {"../x.norma", "/etc/passwd", "//etc/passwd", "a.norma/", "b//c.norma", "./a.norma",
        "b/./c.norma", "b/../a.norma", "b/c.norma/..", "/", "..", "."}) {
    CAPTURE(path);
    CHECK(why_not(std::string("HEAD:") + path) == plain_path);
  }
  CHECK(why_not("HEAD:/etc/passwd") == plain_path);
  CHECK(why_not("HEAD:nothing.norma") ==
        "the revision has no such file (paths start at its top)\n");
  CHECK(why_not("HEAD:a.norma/x.norma") ==
        "the revision has no such file (paths start at its top)\n");
  CHECK(why_not("HEAD:A.norma") == "the revision has no such file (paths start at its top)\n");
  CHECK(has(run_norma({"show", "HEAD:"}).out, "protocol a"));
  CHECK(why_not(":a.norma") == "there is no such file\n");
  CHECK(why_not("HEAD:b.norma:x") == "the revision has no such file (paths start at its top)\n");
  CHECK(has(run_norma({"check", "--kit", "HEAD:b", "a.norma"}).err, "it is a folder"));
  const std::string long_path(100000, 'x');
  CHECK(has(why_not("HEAD:" + long_path), "no such file"));
  std::string deep = "HEAD:";
  for (int i = 0; i < 50000; ++i)
    deep += "b/";
  CHECK(has(why_not(deep + "x"), "no such file"));
}

TEST_CASE("links and submodules are refused by what they are") {
  const Folder folder;
  MadeRepository made(folder.path());
  const std::string on_link = "norma 1\n\nprotocol o \"O\" {\n  builds on        a from \"";
  made.commit({{"a.norma", small_protocol("a")},
               {"passwd.norma", {"/etc/passwd", GIT_FILEMODE_LINK}},
               {"text.norma", {small_protocol("a"), GIT_FILEMODE_LINK}},
               {"folder", {"/etc", GIT_FILEMODE_LINK}},
               {"sub", {"1234567890123456789012345678901234567890", GIT_FILEMODE_COMMIT}},
               {"sub.norma", {"1234567890123456789012345678901234567890", GIT_FILEMODE_COMMIT}},
               {"on_link.norma", on_link + "text.norma\"\n}\n"},
               {"on_sub.norma", on_link + "sub.norma\"\n}\n"},
               {"on_folder.norma", on_link + "folder/passwd\"\n}\n"}});
  const Inside inside(folder.path());
  const std::string link = "it is a link, and links of a revision are not followed";
  const std::string submodule = "it is a repository of its own (a submodule)";
  CHECK(why_not("HEAD:passwd.norma") == link + "\n");
  CHECK(why_not("HEAD:text.norma") == link + "\n");
  CHECK(why_not("HEAD:folder/passwd") == link + "\n");
  CHECK(why_not("HEAD:sub.norma") == submodule + "\n");
  CHECK(why_not("HEAD:sub/a.norma") == "the revision has no such file (paths start at its top)\n");
  CHECK(has(run_norma({"show", "HEAD:on_link.norma"}).err, "cannot be read: " + link));
  CHECK(has(run_norma({"show", "HEAD:on_sub.norma"}).err, "cannot be read: " + submodule));
  CHECK(has(run_norma({"show", "HEAD:on_folder.norma"}).err, "cannot be read: " + link));
  // A listing passes them over, as on the disk.
  CHECK(has(run_norma({"check", "HEAD"}).out, "4 protocols"));
  CHECK(has(run_norma({"check", "--kit", "HEAD:passwd.norma", "HEAD:a.norma"}).err, link));
}

TEST_CASE("revisions that are none") {
  const Folder folder;
  MadeRepository made(folder.path());
  const Inside inside(folder.path());
  CHECK(why_not("HEAD:a.norma") == "nothing has been committed yet\n");
  CHECK(why_not("HEAD~1:a.norma") == "nothing has been committed yet\n");
  CHECK(has(run_norma({"check", "HEAD"}).err, "nothing has been committed yet"));
  CHECK(why_not("main:a.norma") == "there is no such file, and no revision main\n");
  with_one(made);
  CHECK(why_not("HEAD~1:a.norma") == "there is no such file, and no revision HEAD~1\n");
  CHECK(why_not("none:a.norma") == "there is no such file, and no revision none\n");
  CHECK(why_not("deadbeef:a.norma") == "there is no such file, and no revision deadbeef\n");
  CHECK(has(why_not(std::string(40, 'd') + ":a.norma"), "does not hold it; fetch first"));
  CHECK(why_not("HEAD^{blob}:a.norma") == "there is no such file, and no revision HEAD^{blob}\n");
  CHECK(why_not("HEAD..main:a.norma") == "this is a range: name one revision\n");
  CHECK(why_not("HEAD^{/change}:a.norma") ==
        "norma does not search the history for a text: name the revision\n");
  CHECK(why_not("@{/change}:a.norma") ==
        "norma does not search the history for a text: name the revision\n");
  CHECK(why_not(std::string(5000, 'x') + ":a.norma") ==
        "the name of a revision is not that long\n");
  const std::string blob = git_oid_tostr_s(&static_cast<const git_oid&>(made.id("HEAD:a.norma")));
  CHECK(why_not(blob + ":a.norma") == blob + " is no revision\n");
  CHECK(has(why_not("\x1b[31m:a.norma"), "no revision \\u{1b}[31m"));
  CHECK(has(why_not("\xff:a.norma"), "no revision \\x{ff}"));
  // The command line takes it for an option; behind -- it is a file's name.
  CHECK(run_norma({"show", "--upload-pack=x:a.norma"}).code == 2);
  CHECK(has(run_norma({"show", "--", "--upload-pack=x:a.norma"}).err,
            "a revision does not begin with -"));
  CHECK(has(run_norma({"check", "--kit=-x:kit.yaml", "a.norma"}).err,
            "a revision does not begin with -"));
}

TEST_CASE("no repository at all") {
  const Folder folder;
  const Inside inside(folder.path());
  CHECK(why_not("HEAD:a.norma") ==
        "there is no such file, and no repository to look for a revision in\n");
}

TEST_CASE("objects that are damaged or not in this copy") {
  const Folder folder;
  MadeRepository made(folder.path());
  with_one(made);
  const Inside inside(folder.path());
  const std::string damaged = "the repository is damaged there; `git fsck` says more\n";
  const std::string not_here = "this copy of the repository does not hold it; fetch first (where "
                               "nothing is to be fetched, it is damaged)\n";
  const auto truncated = [&](const std::string& spec) {
    const fs::path file = made.object(made.id(spec));
    fs::permissions(file, fs::perms::owner_all);
    const std::string bytes = read_file(file);
    write_file(file, bytes.substr(0, bytes.size() / 2));
  };
  SUBCASE("a file that is cut") {
    truncated("HEAD:a.norma");
    CHECK(why_not("HEAD:a.norma") == damaged);
    CHECK(has(run_norma({"show", "HEAD:b/c.norma"}).out, "protocol c"));
  }
  SUBCASE("a file with other bytes") {
    const fs::path file = made.object(made.id("HEAD:a.norma"));
    fs::permissions(file, fs::perms::owner_all);
    fs::remove(file);
    fs::copy_file(made.object(made.id("HEAD:b/c.norma")), file);
    CHECK(why_not("HEAD:a.norma") == damaged);
  }
  SUBCASE("a folder that is cut") {
    truncated("HEAD^{tree}");
    CHECK(why_not("HEAD:a.norma") == damaged);
  }
  SUBCASE("a commit that is cut") {
    truncated("HEAD");
    CHECK(why_not("HEAD:a.norma") == damaged);
  }
  SUBCASE("a pipe in place of a file, and in place of a commit") {
    const fs::path file = made.object(made.id("HEAD:a.norma"));
    fs::remove(file);
    REQUIRE(::mkfifo(file.c_str(), 0600) == 0);
    CHECK(why_not("HEAD:a.norma") == damaged);
    const fs::path commit = made.object(made.id("HEAD"));
    fs::remove(commit);
    REQUIRE(::mkfifo(commit.c_str(), 0600) == 0);
    CHECK(why_not("HEAD:b/c.norma") == damaged);
  }
  SUBCASE("in another repository, whose objects this one uses") {
    MadeRepository other(folder.path() / "other");
    write_file(other.inside() / "objects/info/alternates", "# ours\n../../../.git/objects\n");
    other.commit_tree(made.id("HEAD^{tree}"));
    const Inside there(folder.path() / "other");
    CHECK(has(run_norma({"show", "HEAD:a.norma"}).out, "protocol a"));
    truncated("HEAD:a.norma");
    CHECK(why_not("HEAD:a.norma") == damaged);
  }
  SUBCASE("by the beginning of a name") {
    const std::string head = git_oid_tostr_s(&static_cast<const git_oid&>(made.id("HEAD")));
    CHECK(has(run_norma({"show", head.substr(0, 8) + ":a.norma"}).out, "protocol a"));
    truncated("HEAD");
    CHECK(why_not(head.substr(0, 8) + ":a.norma") == damaged);
  }
  SUBCASE("a commit that is larger than commits are") {
    git_object* head = nullptr;
    REQUIRE(git_revparse_single(&head, made.get(), "HEAD") == 0);
    git_oid id;
    REQUIRE(git_commit_amend(&id, reinterpret_cast<git_commit*>(head), "refs/heads/main", nullptr,
                             nullptr, nullptr, std::string(50u << 20u, 'x').c_str(), nullptr) == 0);
    git_object_free(head);
    CHECK(why_not("HEAD:a.norma") == damaged);
  }
  SUBCASE("an object of another kind") {
    const std::string commit = git_oid_tostr_s(&static_cast<const git_oid&>(made.id("HEAD")));
    const std::string blob = git_oid_tostr_s(&static_cast<const git_oid&>(made.id("HEAD:a.norma")));
    made.commit({{"a.norma", {blob, GIT_FILEMODE_TREE}}}, "refs/heads/odd");
    CHECK(why_not("odd:a.norma/b.norma") == damaged);
    made.commit({{"a.norma", {commit, GIT_FILEMODE_COMMIT}}}, "refs/heads/other");
    CHECK(has(why_not("other:a.norma"), "a submodule"));
  }
  SUBCASE("a file that was left out when it was fetched") {
    made.set("core.repositoryformatversion", "1");
    made.set("extensions.partialclone", "origin");
    fs::remove(made.object(made.id("HEAD:a.norma")));
    CHECK(why_not("HEAD:a.norma") == not_here);
    CHECK(has(run_norma({"show", "HEAD:b/c.norma"}).out, "protocol c"));
  }
  SUBCASE("a history that was cut off") {
    const git_oid old = made.id("HEAD");
    made.commit({{"a.norma", small_protocol("later")}});
    const std::string head = git_oid_tostr_s(&static_cast<const git_oid&>(made.id("HEAD")));
    fs::remove(made.object(old));
    write_file(made.inside() / "shallow", head + "\n");
    CHECK(has(run_norma({"show", "HEAD:a.norma"}).out, "protocol later"));
    CHECK(why_not("HEAD~1:a.norma") ==
          "this copy of the repository does not go back to HEAD~1; fetch first (`git fetch "
          "--unshallow`)\n");
    const std::string digits = git_oid_tostr_s(&old);
    CHECK(has(why_not(digits + ":a.norma"), "does not go back so far; fetch first"));
  }
}

TEST_CASE("repositories of a kind that cannot be read") {
  const Folder folder;
  MadeRepository made(folder.path());
  with_one(made);
  const Inside inside(folder.path());
  made.set("core.repositoryformatversion", "1");
  SUBCASE("with other names of objects") {
    made.set("extensions.objectformat", "sha256");
    CHECK(why_not("HEAD:a.norma") ==
          "the repository names its objects by SHA-256, and norma reads only SHA-1\n");
  }
  SUBCASE("with something that nobody knows") {
    made.set("extensions.tomorrow", "yes");
    CHECK(why_not("HEAD:a.norma") == "the repository is of a kind that norma cannot read\n");
  }
  SUBCASE("with settings that do not touch what is read") {
    made.set("extensions.worktreeconfig", "true");
    made.set("extensions.preciousobjects", "true");
    CHECK(has(run_norma({"show", "HEAD:a.norma"}).out, "protocol a"));
  }
  SUBCASE("with settings that are no settings") {
    write_file(made.inside() / "config", "[core\nroot:x:0:0");
    CHECK(why_not("HEAD:a.norma") == "the configuration of the repository cannot be read\n");
  }
}

TEST_CASE("settings from elsewhere change nothing") {
  const Folder folder;
  MadeRepository made(folder.path() / "in");
  with_one(made);
  const fs::path home = folder.path() / "home";
  fs::create_directory(home);
  const std::string hostile = "[core]\n\tbare = true\n\tworktree = /\n\tprecomposeunicode = true\n"
                              "[extensions]\n\tobjectformat = sha256\n[alias]\n\tHEAD = none\n";
  write_file(folder.path() / "outside", hostile);
  write_file(home / ".gitconfig", hostile + "[include]\n\tpath = /etc/passwd\n");
  const Variable at("HOME", home.c_str());
  const Inside inside(folder.path() / "in");
  const std::string usual = run_norma({"check", "HEAD"}).out;
  CHECK(has(usual, "2 protocols"));
  const std::string settings = read_file(made.inside() / "config");
  for (const std::string& path : {(folder.path() / "outside").string(), std::string("~/.gitconfig"),
                                  (folder.path() / "none").string(), std::string("/etc")}) {
    CAPTURE(path);
    write_file(made.inside() / "config", settings + "[include]\n\tpath = " + path + "\n");
    const cli::Outcome out = run_norma({"check", "HEAD"});
    CHECK(out.out == usual);
    CHECK(out.err == "");
  }
  // What is no setting is not shown, whoever may read it.
  write_file(made.inside() / "config", settings + "[include]\n\tpath = /etc/passwd\n");
  CHECK(why_not("HEAD:a.norma") == "the configuration of the repository cannot be read\n");
}

TEST_CASE("pipes and devices in place of git's own files are told, and not waited for") {
  const Folder folder;
  MadeRepository made(folder.path());
  with_one(made);
  const Inside inside(folder.path());
  const auto pipe = [&](const fs::path& path) {
    fs::remove(path);
    REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
  };
  const fs::path git = made.inside();
  SUBCASE("HEAD") { pipe(git / "HEAD"); }
  SUBCASE("the settings") { pipe(git / "config"); }
  SUBCASE("packed references") { pipe(git / "packed-refs"); }
  SUBCASE("where another work tree says what is common") { pipe(git / "commondir"); }
  SUBCASE("a branch") { pipe(git / "refs/heads/main"); }
  SUBCASE("a log") { pipe(git / "logs/HEAD"); }
  SUBCASE("other objects") { pipe(git / "objects/info/alternates"); }
  SUBCASE("a link to a device") {
    fs::remove(git / "HEAD");
    fs::create_symlink("/dev/zero", git / "HEAD");
  }
  SUBCASE("what the settings include") {
    pipe(folder.path() / "more");
    write_file(git / "config", read_file(git / "config") + "[include]\n\tPath = \"../more\"\n");
  }
  SUBCASE("what the included settings include") {
    pipe(folder.path() / "more");
    write_file(folder.path() / "some", "[include] path = more");
    write_file(git / "config", read_file(git / "config") + "[include]\n\tpath = ../some\n");
  }
  CHECK(why_not("HEAD:a.norma") == "a pipe or a device stands where git has its files\n");
}

TEST_CASE("a repository that belongs to somebody else") {
  if (::geteuid() != 0) {
    MESSAGE("only root can give a folder away: left out");
    return;
  }
  const Folder folder;
  const fs::path top = folder.path() / "in";
  MadeRepository made(top);
  with_one(made);
  const uid_t nobody = 65534;
  REQUIRE(::chown(top.c_str(), nobody, nobody) == 0);
  for (const auto& entry : fs::recursive_directory_iterator(top))
    REQUIRE(::lchown(entry.path().c_str(), nobody, nobody) == 0);
  const fs::path home = folder.path() / "home";
  fs::create_directory(home);
  const Variable at("HOME", home.c_str());
  const Variable other("XDG_CONFIG_HOME", nullptr);
  const Inside inside(top);
  const std::string refused = "the repository belongs to somebody else; where you trust it, tell "
                              "git: `git config --global --add safe.directory FOLDER`\n";
  CHECK(why_not("HEAD:a.norma") == refused);
  // Its own word for itself does not count.
  write_file(made.inside() / "config",
             read_file(made.inside() / "config") + "[safe]\n\tdirectory = *\n");
  CHECK(why_not("HEAD:a.norma") == refused);
  write_file(home / ".gitconfig", "[safe]\n\tdirectory = " + (folder.path() / "x").string() + "\n");
  CHECK(why_not("HEAD:a.norma") == refused);
  // The user's does, as with git itself.
  write_file(home / ".gitconfig", "[safe]\n\tdirectory = " + fs::canonical(top).string() + "\n");
  CHECK(has(run_norma({"show", "HEAD:a.norma"}).out, "protocol a"));
  write_file(home / ".gitconfig", "[safe]\n\tdirectory = *\n");
  CHECK(has(run_norma({"show", "HEAD:a.norma"}).out, "protocol a"));
  fs::remove(home / ".gitconfig");
  CHECK(why_not("HEAD:a.norma") == refused);
}

TEST_CASE("what is too large, too many or too deep is told soon") {
  const Folder folder;
  MadeRepository made(folder.path());
  const Inside inside(folder.path());
  const auto start = std::chrono::steady_clock::now();
  SUBCASE("a file of zeros, that is small where it lies") {
    made.commit({{"huge.norma", std::string(200u << 20u, '\0')},
                 {"edge.norma", std::string(text::largest_file + 1, ' ')},
                 {"fits.norma", std::string(text::largest_file, ' ')}});
    CHECK(why_not("HEAD:huge.norma") == "it is larger than 16 MB\n");
    CHECK(why_not("HEAD:edge.norma") == "it is larger than 16 MB\n");
    const auto fits = revisions::files()->read("HEAD:fits.norma");
    REQUIRE(std::holds_alternative<std::string>(fits));
    CHECK(std::get<std::string>(fits).size() == text::largest_file);
  }
  // Ten times what the level below holds, so many levels high.
  const auto stacked = [&](const char* file, int levels) {
    git_oid id = made.tree({{file, "x"}});
    for (int level = 0; level < levels; ++level) {
      Contents all;
      const std::string digits = git_oid_tostr_s(&id);
      for (int i = 0; i < 10; ++i)
        all.emplace("f" + std::to_string(i), Content(digits, GIT_FILEMODE_TREE));
      id = made.tree(all);
    }
    made.commit_tree(id);
  };
  SUBCASE("a few folders, each many times in the next") {
    stacked("x.txt", 12);
    CHECK(has(run_norma({"check", "HEAD"}).err, "it holds more than 1,000,000 entries"));
  }
  SUBCASE("the same with protocols") {
    stacked("x.norma", 6);
    CHECK(has(run_norma({"check", "HEAD"}).err, "it holds more than 100,000 files"));
  }
  SUBCASE("many files below a long name") {
    Contents all;
    for (int i = 0; i < 2000; ++i)
      all.emplace("p" + std::to_string(i) + ".norma", "norma 1\n");
    const git_oid id = made.tree(all);
    made.commit({{std::string(60000, 'x'), {git_oid_tostr_s(&id), GIT_FILEMODE_TREE}}});
    CHECK(has(run_norma({"check", "HEAD"}).err, "one of its paths has more than 4096 letters"));
  }
  SUBCASE("folders in folders in folders") {
    git_oid id = made.tree({{"x.norma", "x"}});
    std::string path;
    for (int level = 0; level < 5000; ++level) {
      id = made.tree({{"f", {git_oid_tostr_s(&id), GIT_FILEMODE_TREE}}});
      path += "f/";
    }
    made.commit_tree(id);
    CHECK(has(run_norma({"check", "HEAD"}).err, "its folders lie more than 100 deep"));
    CHECK(has(why_not("HEAD:" + path + "x.norma"), "no such file"));
  }
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(60)); // on a busy machine
}

TEST_CASE("names that act on a terminal are written out") {
  const Folder folder;
  MadeRepository made(folder.path());
  const std::string odd = "a\x1b[31m\xe2\x80\xae_\x07.norma";
  made.commit(
      {{odd, small_protocol("odd")}, {"\xff.norma", "norma 1\n"}, {"new\nline.norma", "x"}});
  const Inside inside(folder.path());
  for (const std::vector<std::string>& words : {std::vector<std::string>{"check", "HEAD"},
                                                {"check", "--format", "lines", "HEAD"},
                                                {"check", "--format", "github", "HEAD"},
                                                {"check", "--format", "json", "HEAD"},
                                                {"tidy", "--check", "HEAD"},
                                                {"show", "HEAD:" + odd},
                                                {"show", "HEAD:x" + odd}}) {
    CAPTURE(words.back());
    const std::string out = said(run_norma(words));
    CHECK(!out.empty());
    CHECK(!has(out, "\x1b"));
    CHECK(!has(out, "\xe2\x80\xae"));
    CHECK(!has(out, "\x07"));
    CHECK(!has(out, "\xff"));
    CHECK(!has(out, "new\nline"));
  }
  CHECK(has(run_norma({"show", "HEAD:" + odd}).out, "protocol odd"));
}

} // namespace norma::test
