#include "emit/not_checked.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <deque>
#include <map>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

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

/// Texts that lines are made of, until they are: each once, so that equal ones lie in one place.
class Kept {
 public:
  explicit Kept(const wording::Language& in) : in_(in) {}

  std::string_view text(std::string_view text) {
    const auto found = texts_.find(text);
    if (found != texts_.end()) return *found;
    all_.emplace_back(text);
    return *texts_.insert(all_.back()).first;
  }
  std::string_view said(const diag::Said& said) {
    if (said.row == nullptr || !said.arguments.empty()) return text(in_.text(said));
    std::string_view& is = rows_[said.row];
    if (is.data() == nullptr) is = text(in_.text(said));
    return is;
  }

 private:
  const wording::Language& in_;
  std::deque<std::string> all_;
  std::unordered_set<std::string_view> texts_;
  std::unordered_map<const diag::Row*, std::string_view> rows_;
};

/// What questions are asked of, and for want of which datum.
struct Asked {
  std::string_view file;
  std::string_view kit;
  std::string_view missing;
  std::string_view view;

  friend bool operator==(const Asked&, const Asked&) = default;
  struct Hash {
    std::size_t operator()(const Asked& asked) const {
      std::size_t out = 0;
      for (const std::string_view part : {asked.file, asked.kit, asked.missing, asked.view})
        out = out * 31 + std::hash<std::string_view>()(part);
      return out;
    }
  };
};

} // namespace

std::vector<std::string> not_checked_lines(const report::Report& report,
                                           const std::vector<const report::NotChecked*>& asked,
                                           Naming naming, const wording::Language& in) {
  Kept kept(in);
  // Questions of one view with one missing datum first, then views with the same questions, then
  // files with the same views.
  std::vector<Group> by_view;
  std::unordered_map<Asked, std::size_t, Asked::Hash> places;
  std::unordered_set<std::string_view> files;
  for (const report::NotChecked* n : asked) {
    const diag::SubjectNames names = report.names(n->about);
    Asked key{{}, {}, kept.said(n->missing), kept.text(names.view)};
    if (naming == Naming::all) {
      key = {names.file, names.kit, key.missing, kept.text(view_label(report, n->about, in))};
      if (!key.file.empty()) files.insert(key.file);
    }
    const std::string_view what = kept.said(n->what);
    const auto [place, is_new] = places.emplace(key, by_view.size());
    if (is_new) {
      by_view.push_back({{key.file}, key.kit, key.missing, {key.view}, {what}});
      continue;
    }
    Texts& whats = by_view[place->second].what;
    if (std::find(whats.begin(), whats.end(), what) == whats.end()) whats.push_back(what);
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
