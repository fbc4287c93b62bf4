// The command line: bad input gives a clear finding and a clean exit, never a crash or silence.
#include <doctest/doctest.h>

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <string>

#include "cli/run.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

cli::Outcome check(const std::string& bytes) {
  write_file("p.norma", bytes);
  return cli::run({"check", "--on", "2026-11-25", "p.norma"});
}
bool shows(const cli::Outcome& o, std::string_view what) {
  return (o.out + o.err).find(what) != std::string::npos;
}
std::string with_view(const std::string& statement) {
  return "norma 1\nprotocol p \"P\" {\n  for adults\n  sensor 36 x 24 mm\n  view v \"V\" {\n    " +
         statement + "\n  }\n}\n";
}

} // namespace

TEST_CASE("bad protocols: the code that is told, exit 1, nothing a terminal would act on") {
  const Folder folder;
  const Inside inside(folder.path());
  struct Row {
    const char* what;
    std::string bytes;
    const char* code;
  };
  const std::string braces = "a " + std::string(1000000, '{');
  const Row rows[] = {
      {"empty", "", "R00"},
      {"binary", std::string("\x7f\x45\x4c\x46\0\1\2", 7), "S001"},
      {"a million braces", braces, "S00"},
      {"unknown word", with_view("raito 1:2"), "M001"},
      {"unknown unit", with_view("shutter 1/125 sek"), "M00"},
      {"1:0", with_view("ratio 1:0"), "[M"},
      {"f/0", with_view("aperture f/0"), "[M"},
      {"0,5", with_view("exposure 0,5 stop more"), "S00"},
      {"negative length", with_view("allowed blur -0.03 mm on the sensor"), "[M"},
      {"tooth 19", with_view("must show facial 19"), "[M"},
      {"a row across jaws", with_view("must show facial 15 to 45"), "[M"},
      {"a view twice", "norma 1\nprotocol p \"P\" {\n view v \"V\" { }\n view v \"V\" { }\n}\n",
       "[R"},
      {"an open string", with_view("say \"open"), "S00"},
      {"an open block", "norma 1\nprotocol p \"P\" {\n view v \"V\" {\n", "S00"},
      {"escapes in a name", "norma 1\nprotocol p \"\x1b]0;x\x07\" {\n \x1b[2J\n}\n", "[S"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const cli::Outcome o = check(row.bytes);
    CHECK(o.code == 1);
    CHECK_MESSAGE(shows(o, row.code), o.out);
    CHECK(std::none_of(o.out.begin(), o.out.end(),
                       [](unsigned char c) { return (c < 0x20 && c != '\n') || c == 0x7f; }));
    // JSON says the same and is JSON.
    const cli::Outcome json = cli::run({"check", "--format", "json", "p.norma"});
    CHECK(json.code == 1);
    CHECK(json.out.starts_with("{"));
    CHECK(json.out.find('\x1b') == std::string::npos);
  }
}

TEST_CASE("what cannot be read or is no command: exit 2, one line on standard error") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("large.norma", "norma 1\n");
  std::filesystem::resize_file("large.norma", 16 * 1024 * 1024 + 1);
  write_file("ok.norma", five());
  const std::vector<std::vector<std::string>> runs = {
      {"check", "none.norma"},
      {"check", "."},
      {"check", "large.norma"},
      {"check", "--kit", "none.yaml", "ok.norma"},
      {"check", "--on", "2026-02-30", "ok.norma"},
      {"check", "--format", "xml", "ok.norma"},
      {"check", "--fail-on", "sometimes", "ok.norma"},
      {"check"},
      {},
      {"chekc", "ok.norma"},
      {"plan", "ok.norma"},
      {"list", "--series", "none", "--kit", "none.yaml", "ok.norma"},
      {"explain", "ok.norma", "none"},
      {"explain", "P999"},
      {"check", "none\x1b[31m.norma"},
  };
  for (const auto& words : runs) {
    const cli::Outcome o = cli::run(words);
    CAPTURE(o.err);
    CHECK(o.code == 2);
    CHECK(o.out.empty());
    CHECK(o.err.starts_with("norma: "));
    CHECK(std::count(o.err.begin(), o.err.end(), '\n') == 1);
    CHECK(o.err.find('\x1b') == std::string::npos);
  }
}

TEST_CASE("--fail-on decides the exit code, never what is told") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("p.norma", five());
  write_file("k.yaml", chair(7));
  const auto run = [](const char* level) {
    return cli::run(
        {"check", "--on", "2026-11-25", "--fail-on", level, "--kit", "k.yaml", "p.norma"});
  };
  CHECK(run("error").code == 1);
  CHECK(run("never").code == 0);
  CHECK(run("never").out == run("error").out);
  write_file("k.yaml", chair(3));
  // Only warnings: the second molars stand behind the cheek.
  CHECK(run("error").code == 0);
  CHECK(run("warning").code == 1);
  CHECK(run("advice").code == 1);
}

TEST_CASE("plan --picture draws a view, or says why not") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("p.norma", five());
  write_file("k.yaml", chair(3));
  const auto run = [](const std::vector<std::string>& more) {
    std::vector<std::string> words{"plan", "--on", "2026-11-25", "--kit", "k.yaml", "p.norma"};
    words.insert(words.end(), more.begin(), more.end());
    return cli::run(words);
  };
  const auto drawn = run({"--picture", "right"});
  CHECK(drawn.code == 0);
  CHECK(drawn.out.starts_with("<svg "));
  CHECK(drawn.out.ends_with("</svg>\n"));
  // The cheek hides the second molars; the first ones are seen.
  CHECK(drawn.out.find(">(17)<") != std::string::npos);
  CHECK(drawn.out.find(">16<") != std::string::npos);
  CHECK(drawn.out.find(">(16)<") == std::string::npos);
  CHECK(drawn.out.find("nan") == std::string::npos);
  CHECK(drawn.out.find("Local codes and the responsible clinician decide.") != std::string::npos);
  CHECK(run({"--picture", "upper"}).out.find("class=\"d-mirror\"") != std::string::npos);

  CHECK(run({"--picture", "right", "-o", "r.svg"}).out.empty());
  CHECK(read_file("r.svg") == drawn.out);
  CHECK(run({"--picture", "front", "-o", "r.svg"}).code == 0); // written anew
  CHECK(read_file("r.svg") == run({"--picture", "front"}).out);
  CHECK(run({"-o", "plan.json"}).code == 0);
  CHECK(read_file("plan.json") == run({}).out);

  CHECK(run({"--picture", "rihgt"}).code == 2);
  CHECK(shows(run({"--picture", "rihgt"}), "did you mean `right`?"));
  CHECK(run({"--picture", "right", "-o", "no/such/r.svg"}).code == 2);
  CHECK(run({"--picture", "right", "-o", "."}).code == 2);

  // A title is data; it must not become part of the drawing's language.
  std::string hostile = five();
  hostile.replace(hostile.find("\"Right side\""), 12, "\"</title><script>&\"");
  write_file("p.norma", hostile);
  const auto escaped = run({"--picture", "right"}).out;
  CHECK(escaped.find("&lt;/title&gt;&lt;script&gt;&amp;") != std::string::npos);
  CHECK(escaped.find("<script") == std::string::npos);

  write_file("p.norma", with_view("ratio 1:2"));
  const auto none = run({"--picture", "v"});
  CHECK(none.code == 2);
  CHECK(shows(none, "cannot be drawn"));
}

TEST_CASE("what was not checked is always said") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("p.norma", five());
  write_file("k.yaml", chair(3));
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"check", "p.norma"},
           {"check", "--kit", "k.yaml", "p.norma"},
           {"list", "--kit", "k.yaml", "p.norma"},
           {"list", "--format", "markdown", "--kit", "k.yaml", "p.norma"}}) {
    const cli::Outcome o = cli::run(words);
    CHECK_MESSAGE(o.out.find("ot checked") != std::string::npos, words.front());
  }
  CHECK(cli::run({"plan", "--kit", "k.yaml", "p.norma"}).out.find("not_checked") !=
        std::string::npos);
}

TEST_CASE("standard input is a file of the name it is given") {
  const Folder folder;
  const Inside inside(folder.path());
  std::filesystem::create_directory("below");
  write_file("below/base.norma", five());
  const std::string follower =
      "norma 1\nprotocol mine \"Mine\" {\n  builds on harbour_five from \"base.norma\"\n}\n";
  std::string input = follower;
  const auto run = [&](std::vector<std::string> words) {
    return cli::run(words, {[&] { return text::ReadResult(input); }, {}, {}});
  };
  // By its name it lies beside its base; without one it does not.
  const cli::Outcome named = run({"check", "-", "--stdin-name", "below/mine.norma"});
  CHECK(named.code == 0);
  CHECK(shows(named, "1 protocol, 5 views checked"));
  const cli::Outcome bare = run({"check", "-"});
  CHECK(bare.code == 1);
  CHECK(shows(bare, "-:3:"));
  CHECK(shows(bare, "R011"));
  // It stands before a file of that name.
  write_file("below/mine.norma", "not a protocol");
  CHECK(run({"check", "-", "--stdin-name", "below/mine.norma"}).out == named.out);
  CHECK(shows(run({"show", "-", "--stdin-name", "below/mine.norma"}), "view front"));

  // What is tidied goes on; nothing is written, and a broken text does not go on.
  input = "norma 1\nprotocol p \"P\" {\n      for adults\n}\n";
  const cli::Outcome tidied = run({"tidy", "-"});
  CHECK(tidied.code == 0);
  CHECK(tidied.out == "norma 1\nprotocol p \"P\" {\n  for              adults\n}\n");
  CHECK(tidied.err.empty());
  const cli::Outcome looked = run({"tidy", "--check", "-"});
  CHECK(looked.code == 1);
  CHECK(looked.out.empty());
  CHECK(looked.err == "-: not in the one layout\n");
  input = tidied.out;
  CHECK(run({"tidy", "-"}).out == input);
  CHECK(run({"tidy", "--check", "-"}).code == 0);
  input = "norma 1\nprotocol p \"P {\n";
  const cli::Outcome broken = run({"tidy", "-", "--stdin-name", "below/mine.norma"});
  CHECK(broken.code == 1);
  CHECK(broken.out.empty());
  CHECK(shows(broken, "below/mine.norma:2:"));
  CHECK(read_file("below/mine.norma") == "not a protocol");

  CHECK(run({"check", "-", "-"}).code == 2);
  CHECK(run({"check", "below", "--stdin-name", "x.norma"}).code == 2);
  CHECK(run({"chairs", "--kit", "k.yaml", "-"}).code == 2); // a file of that name is not there
  CHECK(cli::run({"check", "-"}).code == 2);                // nothing comes in
}

TEST_CASE("a group that some files lack is told; only where all lack it the run fails") {
  const Folder folder;
  const Inside inside(folder.path());
  const auto protocol = [](const char* name, const char* group) {
    return fmt::format("norma 1\nprotocol {} \"P\" {{\n  for {}\n  sensor 36 x 24 mm\n"
                       "  view v \"V\" {{ }}\n}}\n",
                       name, group);
  };
  write_file("a.norma", protocol("a", "adults"));
  write_file("c.norma", protocol("c", "children, mixed teeth"));
  write_file("k.yaml", chair(3));
  for (const char* command : {"check", "plan", "list", "chairs", "show"}) {
    CAPTURE(command);
    std::vector<std::string> words{command, "--for", "adults", "a.norma", "c.norma"};
    if (std::string_view(command) != "check" && std::string_view(command) != "show")
      words.insert(words.end(), {"--kit", "k.yaml"});
    const cli::Outcome some = cli::run(words);
    CHECK(some.code == 0);
    CHECK(shows(some, "norma: c.norma is left out: it says nothing for adults\n"));
    CHECK(some.out.find("c.norma is") == std::string::npos);
    CHECK(some.out.find("DO NOT USE") == std::string::npos);
    words[2] = "children, milk teeth";
    const cli::Outcome none = cli::run(words);
    CHECK(none.code == 2);
    CHECK(none.out.empty());
  }
}

TEST_CASE("folders are walked for protocols, those that tools fill are not") {
  const Folder folder;
  const Inside inside(folder.path());
  const std::string loose = "norma 1\nprotocol p \"P\" {\n      for adults\n}\n";
  for (const char* name :
       {"a", "sub", ".git", "node_modules", "sub/__pycache__", "cache", "like"}) {
    std::filesystem::create_directories(name);
    write_file(std::string(name) + "/p.norma", loose);
  }
  write_file("cache/CACHEDIR.TAG",
             "Signature: 8a477f597d28d172789f06886806bc55\n# made by a tool\n");
  write_file("like/CACHEDIR.TAG", "Signature: none\n");
  CHECK(cli::run({"tidy", "--check", "."}).out == "a/p.norma: not in the one layout\n"
                                                  "like/p.norma: not in the one layout\n"
                                                  "sub/p.norma: not in the one layout\n");
  CHECK(cli::run({"tidy", "."}).code == 0);
  CHECK(cli::run({"tidy", "--check", "."}).code == 0);
  CHECK(read_file("cache/p.norma") == loose);
  write_file("k.yaml", chair(3));
  CHECK(cli::run({"plan", "--kit", "k.yaml", "."}).code == 0);
}

TEST_CASE("names, one a line") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("five.norma", five());
  CHECK(cli::run({"names", "views", "five.norma"}).out == "front\nupper\nlower\nright\nleft\n");
  CHECK(cli::run({"names", "groups", "five.norma"}).out == "adults\n");
  const std::string topics = cli::run({"names", "topics"}).out;
  for (const char* topic : {"P003\n", "no_aperture_holds\n", "must show\n"})
    CHECK(topics.find(topic) != std::string::npos);
  for (const std::vector<std::string>& wrong :
       std::vector<std::vector<std::string>>{{"names", "views"},
                                             {"names", "pictures", "five.norma"},
                                             {"names", "topics", "five.norma"}})
    CHECK(cli::run(wrong).code == 2);
}

TEST_CASE("colour and breaks where the screen has them, and only there") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("p.norma", five());
  write_file("k.yaml", chair(7));
  const std::vector<std::string> words{"check", "--on", "2026-11-25", "--kit", "k.yaml", "p.norma"};
  const auto on = [&](emit::Screen screen) { return cli::run(words, {{}, screen, {}}).out; };
  const std::string plain = on({});
  CHECK(plain.find('\033') == std::string::npos);
  CHECK(plain == cli::run(words).out);
  // Without its colours it is the same text.
  std::string coloured = on({true, 0});
  CHECK(coloured.find("\033[1;31merror\033[0m: ") != std::string::npos);
  CHECK(coloured.find("\033[1;33mwarning\033[0m: ") != std::string::npos);
  for (std::size_t at = coloured.find('\033'); at != std::string::npos; at = coloured.find('\033'))
    coloured.erase(at, coloured.find('m', at) + 1 - at);
  CHECK(coloured == plain);
  // Nothing stands beyond the width but a word that is longer, or a line of the file.
  const std::string narrow = on({false, 60});
  std::istringstream lines(narrow);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(" | ") != std::string::npos) continue;
    CHECK_MESSAGE((line.size() <= 60 || line.find(' ', 4) == std::string::npos), line);
  }
  // Lines of the file are cut to the width; all else is there.
  const auto flowing = [](const std::string& text) {
    std::string out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
      if (line.find(" | ") != std::string::npos) continue;
      std::copy_if(line.begin(), line.end(), std::back_inserter(out),
                   [](char c) { return c != ' '; });
    }
    return out;
  };
  CHECK(flowing(narrow) == flowing(plain));
}

} // namespace norma::test
