// Folders are layers: every #include below src/ is held against the tables in CMakeLists.txt.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "support/support.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

std::vector<fs::path> sources() {
  std::vector<fs::path> out;
  for (const auto& e : fs::recursive_directory_iterator(root() / "src")) {
    if (e.path().extension() == ".cpp" || e.path().extension() == ".hpp") out.push_back(e.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::string layer_of(const fs::path& file) {
  return fs::relative(file, root() / "src").begin()->string();
}

/// Layer -> layers it may include, from `norma_layer(name ... USES ... )`.
std::map<std::string, std::set<std::string>> table() {
  std::map<std::string, std::set<std::string>> out;
  for (const auto& e : fs::directory_iterator(root() / "src")) {
    if (!e.is_directory()) continue;
    std::string text = read_file(e.path() / "CMakeLists.txt");
    std::replace(text.begin(), text.end(), '\n', ' ');
    std::smatch m;
    REQUIRE(std::regex_search(text, m, std::regex("norma_layer\\(([a-z]+)([^)]*)\\)")));
    CHECK(m[1] == e.path().filename().string());
    std::set<std::string>& uses = out[m[1]];
    std::istringstream words(m[2].str());
    std::string section;
    for (std::string word; words >> word;) {
      if (word == "SOURCES" || word == "USES" || word == "PRIVATE") {
        section = word;
      } else if (section == "USES") {
        uses.insert(word);
      }
    }
  }
  return out;
}

/// What stands between < > or " " behind #include, line by line.
std::vector<std::string> includes(const fs::path& file) {
  std::vector<std::string> out;
  std::istringstream in(read_file(file));
  static const std::regex pattern("^\\s*#\\s*include\\s*([<\"][^>\"]+)[>\"].*");
  std::smatch m;
  for (std::string line; std::getline(in, line);) {
    if (std::regex_match(line, m, pattern)) out.push_back(m[1]);
  }
  return out;
}

} // namespace

TEST_CASE("a folder includes only the folders of its table") {
  const auto uses = table();
  std::size_t seen = 0;
  for (const fs::path& file : sources()) {
    const std::string layer = layer_of(file);
    if (uses.count(layer) == 0) continue; // a file of no layer
    for (const std::string& include : includes(file)) {
      if (include.front() != '"') continue;
      ++seen;
      const std::string other = include.substr(1, include.find('/') - 1);
      CAPTURE(fs::relative(file, root()).string());
      CAPTURE(include);
      CHECK_MESSAGE(uses.count(other) == 1, "not a folder of src/");
      CHECK((other == layer || uses.at(layer).count(other) == 1));
    }
  }
  CHECK(seen > 200);
}

TEST_CASE("arrows point one way: the table has no circle") {
  std::map<std::string, std::set<std::string>> left = table();
  while (!left.empty()) {
    const auto bottom = std::find_if(left.begin(), left.end(), [&](const auto& row) {
      return std::none_of(row.second.begin(), row.second.end(),
                          [&](const std::string& used) { return left.count(used) == 1; });
    });
    REQUIRE_MESSAGE(bottom != left.end(), "these use each other: ", left.begin()->first);
    left.erase(bottom);
  }
}

TEST_CASE("each library from outside stays in its place") {
  struct Place {
    const char* include;              // how its headers start
    std::vector<std::string> only_in; // folders or files
    std::size_t most_files;           // that include it
  };
  const Place places[] = {
      {"<tao/pegtl", {"syntax"}, 2},
      {"<yaml-cpp", {"kit"}, 1},
      // two layers in one unit each
      {"<nlohmann",
       {"emit/json.hpp", "planfile/read.cpp", "project/known.cpp", "server/json.hpp"},
       4},
      {"<CLI/", {"cli"}, 1},
      {"<microhttpd", {"web"}, 1},
      {"<git2", {"revisions"}, 3},
      {"<fmt/format", {"fmt.cpp"}, 1},
  };
  for (const Place& place : places) {
    CAPTURE(place.include);
    std::set<std::string> including;
    for (const fs::path& file : sources()) {
      const std::string name = fs::relative(file, root() / "src").string();
      for (const std::string& include : includes(file)) {
        if (!include.starts_with(place.include)) continue;
        CAPTURE(name);
        including.insert(name);
        CHECK(std::any_of(place.only_in.begin(), place.only_in.end(), [&](const std::string& p) {
          return name == p || name.starts_with(p + "/");
        }));
      }
    }
    CHECK(including.size() >= 1);
    CHECK(including.size() <= place.most_files);
  }
}

TEST_CASE("what stands at the top") {
  const std::set<std::string> allowed{
      "CMakeLists.txt",    "README.md", "DEVELOPERS.md", "LICENSE", "src",
      "grammar",           "protocols", "tests",         "editors", "docs",
      "CMakePresets.json", "build"};
  for (const auto& e : fs::directory_iterator(root())) {
    const std::string name = e.path().filename().string();
    if (name.starts_with(".")) continue;
    CHECK_MESSAGE(allowed.count(name) == 1, name);
  }
}

TEST_CASE("no source tells more than one story") {
  for (const fs::path& file : sources()) {
    const std::string text = read_file(file);
    CAPTURE(fs::relative(file, root()).string());
    CHECK(std::count(text.begin(), text.end(), '\n') <= 600);
  }
}

} // namespace norma::test
