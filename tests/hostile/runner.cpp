// What strangers send: texts, kits, names, paths, sizes. norma answers each with a finding or a
// plain refusal, in bounded time and memory, and prints nothing that a terminal would act on.
#include <doctest/doctest.h>
#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "cli/run.hpp"
#include "support/support.hpp"
#include "text/utf8.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

const std::string day = "2026-11-25";

/// Holds an answer against what every answer keeps to.
void hold(const cli::Outcome& o) {
  CHECK(o.code >= 0);
  CHECK(o.code <= 2);
  constexpr std::size_t much = 16u * 1024u * 1024u;
  CHECK(o.out.size() + o.err.size() < much);
  CHECK((o.code == 0 || !(o.out + o.err).empty())); // silence is no answer to a fault
  for (const std::string* text : {&o.out, &o.err}) {
    CHECK(!text::first_unsound_byte(*text));
    const bool acts = std::any_of(text->begin(), text->end(), [](char c) {
      return (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7f;
    });
    CHECK_MESSAGE(!acts, "a control character is printed");
    // C1 controls and marks that turn the direction of writing, as UTF-8.
    for (const char* bad : {"\u009b", "\u202e", "\u2028"})
      CHECK(text->find(bad) == std::string::npos);
  }
}

cli::Outcome run(std::vector<std::string> arguments) {
  std::string command;
  for (const std::string& a : arguments)
    command += a + " ";
  CAPTURE(command);
  cli::Outcome o = cli::run(arguments);
  hold(o);
  return o;
}

std::vector<fs::path> files_of(const char* folder) {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(root() / "tests/hostile" / folder))
    out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

const std::string chair_3() { return (root() / "protocols/kits/chair_3.yaml").string(); }
const std::string five() { return (root() / "protocols/five.norma").string(); }

} // namespace

TEST_CASE("hostile protocols: every command answers") {
  const auto all = files_of("protocols");
  REQUIRE(all.size() >= 100);
  for (const fs::path& path : all) {
    CAPTURE(path.filename().string());
    const std::string file = path.string();
    const cli::Outcome alone = run({"check", "--on", day, file});
    CHECK(alone.code != 2);
    run({"check", "--on", day, "--format", "json", "--kit", chair_3(), file});
    run({"check", "--on", day, "--format", "sarif", "--kit", chair_3(), file});
    run({"check", "--on", day, "--format", "lines", "--no-scene", "--kit", chair_3(), file});
    run({"list", "--on", day, "--kit", chair_3(), file});
    run({"plan", "--on", day, "--kit", chair_3(), file});
    run({"chairs", "--on", day, "--kit", chair_3(), file});
    run({"show", file});
    run({"explain", "--on", day, file, "v"});
    run({"tidy", "--check", file});
  }
}

TEST_CASE("hostile kits: check and kit answer") {
  const auto all = files_of("kits");
  REQUIRE(all.size() >= 70);
  for (const fs::path& path : all) {
    CAPTURE(path.filename().string());
    run({"check", "--on", day, "--kit", path.string(), five()});
    run({"list", "--on", day, "--kit", path.string(), five()});
    run({"plan", "--on", day, "--kit", path.string(), five()});
    run({"kit", "--on", day, path.string()});
    run({"kit", "--on", day, "--format", "markdown", path.string()});
  }
}

TEST_CASE("names of files: whatever a disk allows") {
  const Folder folder;
  const Inside inside(folder.path());
  const std::string text = "norma 1\nprotocol p \"P\" { }\n";
  for (const std::string& name :
       {std::string("a b.norma"), std::string("./-x.norma"), std::string("\xc3\xbc.norma"),
        std::string("\x1b[31mred.norma"), std::string("new\nline.norma"),
        std::string("\xff\xfe.norma"), std::string("\xe2\x80\xae.norma"),
        std::string("'quote\".norma"), std::string("%s%n{}.norma"), std::string("#hash?.norma"),
        std::string(200, 'n') + ".norma"}) {
    CAPTURE(name);
    std::ofstream(name) << text;
    CHECK(run({"check", "--on", day, name}).code == 0);
    CHECK(run({"check", "--on", day, "--format", "sarif", name}).code == 0);
    std::ofstream(name) << "not norma";
    CHECK(run({"check", "--on", day, name}).code == 1);
    CHECK(run({"check", "--on", day, "--format", "sarif", name}).code == 1);
    CHECK(run({"check", "--on", day, "--format", "json", name}).code == 1);
    fs::remove(name);
  }
  CHECK(run({"check", std::string(5000, 'x')}).code == 2);
  CHECK(run({"check", ""}).code == 2);
  CHECK(run({"check", std::string("a\0b", 3)}).code == 2);
}

TEST_CASE("paths: links, pipes, folders, what nobody may read") {
  const Folder folder;
  const Inside inside(folder.path());
  const std::string text = "norma 1\nprotocol p \"P\" { }\n";
  fs::create_symlink("loop.norma", "loop.norma");
  CHECK(run({"check", "loop.norma"}).code == 2);
  fs::create_symlink("nowhere.norma", "dangling.norma");
  CHECK(run({"check", "dangling.norma"}).code == 2);
  REQUIRE(::mkfifo("pipe.norma", 0600) == 0);
  CHECK(run({"check", "pipe.norma"}).code == 2);
  CHECK(run({"check", "--kit", "pipe.norma", "loop.norma"}).code == 2);
  CHECK(run({"check", "/dev/zero"}).code == 2);
  fs::create_directory("folder.norma");
  CHECK(run({"check", "folder.norma"}).code == 2); // a folder, with no protocol in it
  fs::remove_all("folder.norma");
  fs::remove("loop.norma");
  fs::remove("dangling.norma");
  fs::remove("pipe.norma");

  // Bases: by a link out of the root, by the root's own name, from above.
  const Folder outside;
  std::ofstream(outside.path() / "secret.norma") << "norma 1\nprotocol s \"TOP SECRET\" { }\n";
  fs::create_symlink(outside.path() / "secret.norma", "link.norma");
  fs::create_directory_symlink(outside.path(), "way");
  const std::string absolute = (outside.path() / "secret.norma").string();
  for (const std::string& from :
       {std::string("link.norma"), std::string("way/secret.norma"), absolute,
        "../" + outside.path().filename().string() + "/secret.norma"}) {
    CAPTURE(from);
    std::ofstream("p.norma") << fmt::format(
        "norma 1\nprotocol p \"P\" {{\n  builds on s from \"{}\"\n}}\n", from);
    const cli::Outcome o = run({"check", "--on", day, "p.norma"});
    CHECK(o.code == 1);
    CHECK((o.out + o.err).find("TOP SECRET") == std::string::npos);
    CHECK(run({"show", "p.norma"}).out.find("TOP SECRET") == std::string::npos);
  }
  fs::remove("way");
  fs::remove("link.norma");
  fs::remove("p.norma");

  // A folder is searched without following links or entering hidden folders.
  fs::create_directories("deep/.hidden");
  std::ofstream("deep/.hidden/no.norma") << "not norma";
  fs::create_directory_symlink("..", "deep/up");
  fs::create_symlink(absolute, "deep/linked.norma");
  std::ofstream("deep/yes.norma") << text;
  const cli::Outcome found = run({"check", "--on", day, "deep"});
  CHECK(found.code == 0);
  CHECK(found.out.find("1 protocol") != std::string::npos);
  fs::path down = "deep";
  for (int i = 0; i < 60; ++i)
    down /= "d";
  fs::create_directories(down);
  std::ofstream(down / "p.norma") << text;
  CHECK(run({"check", "--on", day, "deep"}).out.find("2 protocols") != std::string::npos);

  if (::geteuid() != 0) { // root may read everything
    std::ofstream("closed.norma") << text;
    fs::permissions("closed.norma", fs::perms::none);
    CHECK(run({"check", "closed.norma"}).code == 2);
  }
}

TEST_CASE("project files that strangers put there") {
  const Folder folder;
  const Inside inside(folder.path());
  fs::create_directories("deep/er");
  fs::copy_file(five(), "deep/er/five.norma");
  const auto hold_all = [] {
    for (const auto& line : std::vector<std::vector<std::string>>{
             {"check", "--no-scene", "--on", day},
             {"check", "--no-scene", "--on", day, "--format", "json", "deep/er/five.norma"},
             {"list", "--on", day, "deep"},
             {"compare", "--on", day, "deep", "deep/er"}})
      CHECK(run(line).code == 2);
  };
  // As texts: each kit of the corpus in its place, and what is meant for it.
  for (const fs::path& file : files_of("kits")) {
    CAPTURE(file.string());
    fs::copy_file(file, "norma.yaml", fs::copy_options::overwrite_existing);
    CHECK(run({"check", "--no-scene", "--on", day}).code == 2);
  }
  std::string many = "norma project: 1\nkits:\n";
  for (int i = 0; i < 9000; ++i)
    many += fmt::format("  - k{}.yaml\n", i);
  std::string folders = "norma project: 1\nfolders:\n";
  for (int i = 0; i < 5000; ++i)
    folders += fmt::format("  - folder: deep/{0}/../{0}/..\n", i);
  std::string way = "norma project: 1\nkits: ";
  for (int i = 0; i < 60; ++i)
    way += "../";
  for (const std::string& text :
       {many, folders, way + "etc/passwd\n", std::string("norma project: 1\nkits: /etc/passwd\n"),
        std::string("norma project: 1\nkits: \"a\\nb\\e[2J.yaml\"\n"),
        std::string("norma project: 1\nkits: \"\\0\"\n"),
        std::string("norma project: 1\nleave out: \"\\u202e\"\n"),
        std::string("norma project: 1\nkits: deep\nbaseline: /etc/cron.d/x.json\n"),
        "norma project: 1\nkits: " + std::string(100000, 'k') + "\n"}) {
    CAPTURE(text.substr(0, 40));
    write_file("norma.yaml", text);
    hold_all();
  }
  // In its place: a folder, a pipe that nobody writes to, links to elsewhere and to nowhere.
  fs::remove("norma.yaml");
  fs::create_directory("norma.yaml");
  hold_all();
  fs::remove("norma.yaml");
  REQUIRE(::mkfifo("norma.yaml", 0600) == 0);
  hold_all();
  for (const char* to : {"/etc/passwd", "nowhere", "norma.yaml", "/dev/zero"}) {
    fs::remove("norma.yaml");
    fs::create_symlink(to, "norma.yaml");
    hold_all();
  }
  // A kit that is a pipe, or a link out of the tree.
  fs::remove("norma.yaml");
  write_file("norma.yaml", "norma project: 1\nkits: kit.yaml\n");
  REQUIRE(::mkfifo("kit.yaml", 0600) == 0);
  hold_all();
  fs::remove("kit.yaml");
  fs::create_symlink(chair_3(), "kit.yaml");
  hold_all();
}

TEST_CASE("sizes: too large, very many findings, long chains of bases") {
  const Folder folder;
  const Inside inside(folder.path());
  {
    std::ofstream big("big.norma");
    const std::string line(1024, '#');
    for (int i = 0; i < 17 * 1024; ++i)
      big << line << "\n";
  }
  const cli::Outcome big = run({"check", "big.norma"});
  CHECK(big.code == 2);
  CHECK(big.err.find("16 MB") != std::string::npos);
  CHECK(run({"check", "--kit", "big.norma", five()}).code != 0);

  // 10,000 findings: a thousand are shown, all are counted.
  std::string many = "norma 1\nprotocol p \"P\" {\n  for adults\n  view v \"V\" {\n";
  for (int i = 0; i < 10000; ++i)
    many += fmt::format("    wrong{} 1\n", i);
  std::ofstream("many.norma") << many + "  }\n}\n";
  const cli::Outcome told = run({"check", "--on", day, "many.norma"});
  CHECK(told.code == 1);
  CHECK(told.out.find("9000 more findings are not shown") != std::string::npos);
  CHECK(told.out.find("10000 errors") != std::string::npos);
  const cli::Outcome json = run({"check", "--on", day, "--format", "json", "many.norma"});
  CHECK(json.out.find("\"error\": 10000") != std::string::npos);
  CHECK(json.out.find("\"not_shown\": 9000") != std::string::npos);

  // A thousand pieces of advice do not hide an error behind them.
  std::string advice = "norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n";
  for (int i = 0; i < 1100; ++i)
    advice += fmt::format(
        "  view v{0} \"V\" {{ retractor both dry, tension light, held by patient }}\n", i);
  std::ofstream("advice.norma") << advice + "  view last \"L\" { ratoi 1:2 }\n}\n";
  const cli::Outcome last = run({"check", "--on", day, "advice.norma"});
  CHECK(last.code == 1);
  CHECK(last.out.find("M001") != std::string::npos);

  // Bases forty deep; bases that each change much.
  for (int i = 0; i < 41; ++i) {
    std::string own = fmt::format("norma 1\nprotocol p{} \"P\" {{\n", i);
    if (i > 0) own += fmt::format("  builds on p{0} from \"p{0}.norma\"\n", i - 1);
    for (int v = 0; v < 20; ++v)
      own += fmt::format("  view v{}_{} \"V\" {{ ratio 1:2 }}\n", i, v);
    std::ofstream(fmt::format("p{}.norma", i)) << own + "}\n";
  }
  const cli::Outcome deep = run({"check", "--on", day, "p40.norma"});
  CHECK(deep.out.find("R014") != std::string::npos);
}

TEST_CASE("a file that changes while it is read: each answer is about one text") {
  const Folder folder;
  const Inside inside(folder.path());
  const std::string good = "norma 1\nprotocol p \"P\" { }\n";
  std::ofstream("p.norma") << good;
  std::atomic<bool> stop{false};
  std::thread writer([&] {
    for (int i = 0; !stop; ++i) {
      std::ofstream out("p.norma", std::ios::trunc);
      out << good;
      if (i % 2 == 0) out << std::string(static_cast<std::size_t>(i % 5000), '#') << "\nwrong {\n";
    }
  });
  for (int i = 0; i < 200; ++i)
    run({"check", "--on", day, "p.norma", "p.norma"});
  stop = true;
  writer.join();
}

} // namespace norma::test
