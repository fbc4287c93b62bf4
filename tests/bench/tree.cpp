// A tree of protocols that build on each other: written to a folder, then resolved, all of them.
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

#include "model/resolve.hpp"
#include "text/files.hpp"
#include "workspace/workspace.hpp"

namespace fs = std::filesystem;

namespace {

constexpr int levels = 10;
constexpr int protocols = 2000;

/// Level 0 is the school's record; each other protocol builds on one of the level below.
void write(const fs::path& folder, const std::string& five) {
  fs::create_directories(folder);
  const auto put = [&](const std::string& name, const std::string& text) {
    std::ofstream(folder / name) << text;
  };
  put("p0_0.norma", five);
  const int wide = (protocols - 1) / (levels - 1); // level 0 holds one
  for (int level = 1; level < levels; ++level) {
    for (int i = 0; i < wide; ++i) {
      const int below = level == 1 ? 0 : i;
      const std::string base =
          level == 1 ? "harbour_five" : fmt::format("p{}_{}", level - 1, below);
      put(fmt::format("p{}_{}.norma", level, i),
          fmt::format("norma 1\n\nprotocol p{0}_{1} \"P\" {{\n"
                      "  builds on {2} from \"p{3}_{4}.norma\"\n"
                      "  change view right because \"ours\" {{ iso {5} }}\n}}\n",
                      level, i, base, level - 1, below, 100 * level));
    }
  }
}

} // namespace

int main(int count, char** arguments) {
  if (count != 3) {
    fmt::print("usage: norma_tree five.norma FOLDER\n");
    return 2;
  }
  const norma::text::DiskFiles disk;
  const auto five = disk.read(arguments[1]);
  if (!std::holds_alternative<std::string>(five)) return 2;
  const fs::path folder = arguments[2];
  write(folder, std::get<std::string>(five));
  std::vector<std::string> paths;
  for (const auto& entry : fs::directory_iterator(folder))
    paths.push_back(entry.path().string());
  std::sort(paths.begin(), paths.end());

  double best = 1e9;
  std::size_t views = 0;
  for (int round = 0; round < 5; ++round) {
    const auto start = std::chrono::steady_clock::now();
    const norma::workspace::Workspace space(
        std::make_shared<norma::text::DiskFiles>(),
        std::make_shared<norma::workspace::Store>(norma::workspace::Limits::batch()));
    const norma::workspace::Snapshot files = space.snapshot();
    std::size_t findings = 0;
    views = 0;
    for (const std::string& path : paths) {
      const auto built = std::get<std::shared_ptr<const norma::workspace::Built>>(
          files.built(path, folder.string()));
      norma::diag::Findings found = *built->files.front().findings;
      for (const auto& group : norma::model::groups_of(*built->protocol))
        views += norma::model::resolve(*built->protocol, group, found).views.size();
      findings += found.all().size();
    }
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    best = std::min(best, took.count());
    if (findings > 0) {
      fmt::print("findings in the tree\n");
      return 1;
    }
  }
  fmt::print("  {} protocols, {} levels deep, {} views: {:.2f} s\n", paths.size(), levels, views,
             best);
}
