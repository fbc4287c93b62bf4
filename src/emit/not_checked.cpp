#include "emit/not_checked.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"

namespace norma::emit {
namespace {

using Texts = std::vector<std::string_view>; // of what the lines are made for

struct Group {
  Texts files;
  std::string_view kit;
  std::string_view missing;
  Texts views;
  Texts what;
};

std::string joined(const Texts& parts, std::string_view by) {
  std::string out;
  for (const std::string_view part : parts) {
    if (!out.empty()) out += by;
    out += part;
  }
  return out;
}

/// `a.norma, b.norma and 998 more`.
std::string files_text(const Texts& files, const wording::Language& in) {
  constexpr std::size_t shown = 3;
  if (files.size() <= shown) return joined(files, ", ");
  return in.text(frame::and_more(joined({files.begin(), files.begin() + shown}, ", "),
                                 static_cast<int>(files.size() - shown)));
}

/// Groups that are the same by `key` as one, their `list` one behind the other.
template <class Key>
std::vector<Group> merged(const std::vector<Group>& groups, Key key, Texts Group::*list) {
  std::vector<Group> out;
  std::map<decltype(key(groups.front())), std::size_t> places;
  for (const Group& g : groups) {
    const auto [place, is_new] = places.emplace(key(g), out.size());
    if (is_new) {
      out.push_back(g);
    } else {
      (out[place->second].*list).push_back((g.*list).front());
    }
  }
  return out;
}

} // namespace

std::vector<std::string> not_checked_lines(const report::Report& report,
                                           const std::vector<const report::NotChecked*>& asked,
                                           Naming naming, const wording::Language& in) {
  // Kept until the lines are made of them.
  struct Words {
    std::string_view file;
    std::string_view kit;
    std::string view;
    std::string what;
    std::string missing;
  };
  std::vector<Words> all;
  all.reserve(asked.size());
  for (const report::NotChecked* n : asked) {
    const diag::SubjectNames names = report.names(n->about);
    if (naming == Naming::all) {
      all.push_back({names.file, names.kit, view_label(report, n->about, in), in.text(n->what),
                     in.text(n->missing)});
    } else {
      all.push_back({{}, {}, std::string(names.view), in.text(n->what), in.text(n->missing)});
    }
  }
  // Questions of one view with one missing datum first, then views with the same questions, then
  // files with the same views.
  std::vector<Group> by_view;
  std::map<std::tuple<std::string_view, std::string_view, std::string_view, std::string_view>,
           std::size_t>
      places;
  std::set<std::string_view> files;
  for (const Words& n : all) {
    if (!n.file.empty()) files.insert(n.file);
    const auto [place, is_new] = places.emplace(
        std::tuple<std::string_view, std::string_view, std::string_view, std::string_view>(
            n.file, n.kit, n.missing, n.view),
        by_view.size());
    if (is_new) {
      by_view.push_back({{n.file}, n.kit, n.missing, {n.view}, {n.what}});
      continue;
    }
    Texts& what = by_view[place->second].what;
    if (std::find(what.begin(), what.end(), n.what) == what.end()) what.push_back(n.what);
  }
  const auto by_file = merged(
      by_view, [](const Group& g) { return std::tie(g.files, g.kit, g.missing, g.what); },
      &Group::views);
  const auto groups = merged(
      by_file, [](const Group& g) { return std::tie(g.views, g.kit, g.missing, g.what); },
      &Group::files);
  std::vector<std::string> lines;
  for (const Group& g : groups) {
    std::string about =
        g.views.front().empty() ? std::string() : views_text({g.views.begin(), g.views.end()}, in);
    const auto add = [&](const diag::Said& more) {
      about += (about.empty() ? "" : " ") + in.text(more);
    };
    if (!g.kit.empty()) add(frame::with_kit(g.kit));
    // With one protocol in the run it goes without saying which.
    if (files.size() > 1 && !g.files.front().empty()) add(frame::in_file(files_text(g.files, in)));
    const std::string what = joined(g.what, "; ");
    lines.push_back(in.text(about.empty() ? frame::missing(what, g.missing)
                                          : frame::missing_of(about, what, g.missing)));
  }
  return lines;
}

} // namespace norma::emit
