#include "server/code_action.hpp"

#include <algorithm>

#include "server/server_words.hpp"
#include "text/utf8.hpp"

namespace norma::server {
namespace {

/// A title is one line, and a short one.
std::string shown(const std::string& text) {
  constexpr std::size_t most = 60;
  std::string out = text::printable(text);
  if (out.size() > most) out = std::string(text::cut(out, most)) + "...";
  return out;
}

diag::Said title_of(const Edit& edit) {
  if (edit.text.empty()) return said::fix_remove(shown(edit.before));
  if (edit.before.empty()) return said::fix_insert(shown(edit.text));
  return said::fix_replace(shown(edit.before), shown(edit.text));
}

bool meet(Range a, Range b) { return a.start <= b.end && b.start <= a.end; }

} // namespace

std::vector<Action> quick_fixes(const std::vector<Told>& found, Range range) {
  std::vector<Action> out;
  for (const Told& told : found) {
    if (!meet(told.range, range)) continue;
    for (const Edit& edit : told.edits)
      out.push_back({title_of(edit), &told, {edit}, edit.safe});
  }
  return out;
}

std::vector<Edit> safe_edits(const std::vector<Told>& found, const std::string& path) {
  std::vector<Edit> all;
  for (const Told& told : found) {
    // Of several ways to mend the same thing the first is taken.
    const auto safe = std::find_if(told.edits.begin(), told.edits.end(), [&](const Edit& edit) {
      return edit.safe && edit.place.path == path;
    });
    if (safe != told.edits.end()) all.push_back(*safe);
  }
  std::sort(all.begin(), all.end());
  std::vector<Edit> out;
  for (Edit& edit : all) {
    if (out.empty() || out.back().place.range.end <= edit.place.range.start) {
      const bool again = !out.empty() && out.back().place == edit.place;
      if (!again) out.push_back(std::move(edit));
    }
  }
  return out;
}

} // namespace norma::server
