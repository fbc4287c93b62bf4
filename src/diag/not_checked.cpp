#include "diag/not_checked.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace norma::diag {
namespace {

struct Group {
  std::string kit;
  std::string missing;
  std::vector<std::string> views;
  std::vector<std::string> what;
};

std::string joined(const std::vector<std::string>& parts, std::string_view by) {
  std::string out;
  for (const std::string& part : parts) {
    if (!out.empty()) out += by;
    out += part;
  }
  return out;
}

} // namespace

std::vector<std::string> not_checked_lines(const std::vector<NotChecked>& all) {
  // Questions of one view with one missing datum first, then views with the same questions.
  std::vector<Group> by_view;
  for (const NotChecked& n : all) {
    const auto same = std::find_if(by_view.begin(), by_view.end(), [&](const Group& g) {
      return g.kit == n.kit && g.missing == n.missing && g.views.front() == n.view;
    });
    if (same == by_view.end()) {
      by_view.push_back({n.kit, n.missing, {n.view}, {n.what}});
    } else if (std::find(same->what.begin(), same->what.end(), n.what) == same->what.end()) {
      same->what.push_back(n.what);
    }
  }
  std::vector<Group> merged;
  for (Group& g : by_view) {
    const auto same = std::find_if(merged.begin(), merged.end(), [&](const Group& m) {
      return m.kit == g.kit && m.missing == g.missing && m.what == g.what;
    });
    if (same == merged.end()) {
      merged.push_back(std::move(g));
    } else {
      same->views.push_back(g.views.front());
    }
  }
  std::vector<std::string> lines;
  for (const Group& g : merged) {
    std::string about;
    if (!g.views.front().empty()) {
      about = fmt::format("{} {}", g.views.size() > 1 ? "views" : "view", joined(g.views, ", "));
    }
    if (!g.kit.empty()) about += fmt::format("{}with {}", about.empty() ? "" : " ", g.kit);
    if (!about.empty()) about += ": ";
    lines.push_back(fmt::format("{}{} (missing: {})", about, joined(g.what, "; "), g.missing));
  }
  return lines;
}

} // namespace norma::diag
