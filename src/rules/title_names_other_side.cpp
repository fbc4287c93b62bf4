#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {
namespace {

/// Does `title` name that side, and not the other one? Words are set off by what is no letter.
bool names_side(std::string_view title, std::string_view side, std::string_view other) {
  const auto has = [&](std::string_view word) {
    const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    const auto found = std::search(title.begin(), title.end(), word.begin(), word.end(),
                                   [](char a, char b) { return (a | 0x20) == b; });
    if (found == title.end()) return false;
    const auto stop = found + static_cast<std::ptrdiff_t>(word.size());
    return (found == title.begin() || !letter(found[-1])) &&
           (stop == title.end() || !letter(*stop));
  };
  return has(side) && !has(other);
}

} // namespace

void title_names_other_side(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  if (!view.must_show.known() || view.must_show->empty()) return;
  const model::Faces& shown = view.must_show.get();
  const bool right = shown.front().tooth.is_right();
  const bool one_side = std::all_of(shown.begin(), shown.end(), [&](const model::NamedFace& f) {
    return f.tooth.is_right() == right;
  });
  if (!one_side || !names_side(view.title, right ? "left" : "right", right ? "right" : "left"))
    return;
  auto& d = out.report(
      diag::make(catalogue::title_names_other_side, view.heading, view.title, name_of_side(right)));
  d.with_label(view.must_show.span(), note::said_here());
}

} // namespace norma::rules
