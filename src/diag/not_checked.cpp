#include "diag/not_checked.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "diag/diagnostic.hpp"

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
  std::map<std::tuple<std::string_view, std::string_view, std::string_view>, std::size_t> places;
  for (const NotChecked& n : all) {
    const auto [place, is_new] = places.emplace(std::tie(n.kit, n.missing, n.view), by_view.size());
    if (is_new) {
      by_view.push_back({n.kit, n.missing, {n.view}, {n.what}});
      continue;
    }
    std::vector<std::string>& what = by_view[place->second].what;
    if (std::find(what.begin(), what.end(), n.what) == what.end()) what.push_back(n.what);
  }
  std::vector<Group> merged;
  std::map<std::tuple<std::string, std::string, std::vector<std::string>>, std::size_t> alike;
  for (Group& g : by_view) {
    const auto [place, is_new] = alike.emplace(std::tuple(g.kit, g.missing, g.what), merged.size());
    if (is_new) {
      merged.push_back(std::move(g));
    } else {
      merged[place->second].views.push_back(g.views.front());
    }
  }
  std::vector<std::string> lines;
  for (const Group& g : merged) {
    std::string about = g.views.front().empty() ? std::string() : views_text(g.views);
    if (!g.kit.empty()) about += fmt::format("{}with {}", about.empty() ? "" : " ", g.kit);
    if (!about.empty()) about += ": ";
    lines.push_back(fmt::format("{}{} (missing: {})", about, joined(g.what, "; "), g.missing));
  }
  return lines;
}

} // namespace norma::diag
