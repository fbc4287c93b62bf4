// A tree of 2,000 protocols that build on each other (as tree.cpp writes it), held in a workspace:
// one protocol is edited again and again, and each time all are asked for.
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "workspace/workspace.hpp"

namespace fs = std::filesystem;
namespace workspace = norma::workspace;

namespace {

double milliseconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
      .count();
}

std::string told(const workspace::Counters& c) {
  return fmt::format("parsed {}, built {}, checked {}, views worked out {}", c.parsed, c.built,
                     c.checked, c.views_worked);
}

std::string text_of(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path).rdbuf();
  return out.str();
}

/// All of `paths`; false where one has no answer.
bool ask_all(const workspace::Workspace& space, const std::vector<std::string>& paths,
             const std::string& kit, bool scene) {
  const workspace::Snapshot files = space.snapshot();
  workspace::Ask ask;
  auto kits = files.kits(kit.empty() ? std::vector<std::string>() : std::vector{kit});
  if (!std::holds_alternative<workspace::Kits>(kits)) return false;
  ask.kits = std::get<workspace::Kits>(kits);
  ask.on = {2026, 11, 25};
  ask.scene = scene;
  return std::all_of(paths.begin(), paths.end(), [&](const std::string& path) {
    const auto answer = files.check(path, ask);
    return std::holds_alternative<std::shared_ptr<const workspace::Checked>>(answer);
  });
}

} // namespace

int main(int count, char** arguments) {
  if (count != 3) {
    fmt::print("usage: norma_edit KIT FOLDER\n");
    return 2;
  }
  std::vector<std::string> paths;
  for (const auto& entry : fs::directory_iterator(arguments[2]))
    paths.push_back(entry.path().string());
  std::sort(paths.begin(), paths.end());
  const std::string top = (fs::path(arguments[2]) / "p9_7.norma").string();
  const std::string middle = (fs::path(arguments[2]) / "p5_7.norma").string();

  for (const auto& [kit, scene] :
       {std::pair<std::string, bool>{"", false}, {arguments[1], false}, {arguments[1], true}}) {
    workspace::Workspace space(std::make_shared<norma::text::DiskFiles>());
    const auto start = std::chrono::steady_clock::now();
    if (!ask_all(space, paths, kit, scene)) return 1;
    fmt::print("  {}{}: {} protocols at first {:.0f} ms\n", kit.empty() ? "no kit" : "with a kit",
               scene ? " and the scene" : "", paths.size(), milliseconds_since(start));
    for (const std::string& path : {top, middle}) {
      const std::string text = text_of(path);
      std::vector<double> times;
      workspace::Counters spent;
      std::size_t dirty = 0;
      for (int i = 0; i < 21; ++i) {
        std::string edited = text;
        edited.replace(edited.find("right"), 5, "left"); // from which no other view is made
        const std::size_t at = edited.find("iso ");
        edited.replace(at, edited.find(' ', at + 4) - at, fmt::format("iso {}", 3200 + i));
        const workspace::Counters before = space.counters();
        const auto begin = std::chrono::steady_clock::now();
        dirty = space.edit(path, edited).size();
        if (!ask_all(space, paths, kit, scene)) return 1;
        times.push_back(milliseconds_since(begin));
        spent = space.counters() - before;
      }
      std::sort(times.begin(), times.end());
      fmt::print("    one edited that {} build on, all asked: median {:.1f} ms, fastest {:.1f} ms "
                 "({})\n",
                 dirty - 1, times[times.size() / 2], times.front(), told(spent));
      space.close(path);
    }
  }
}
