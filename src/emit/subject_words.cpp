#include "emit/subject_words.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace norma::emit {

std::string view_label(const report::Report& report, const diag::Subject& about) {
  const diag::SubjectNames names = report.names(about);
  if (names.view.empty()) return {};
  return names.group.empty() ? std::string(names.view)
                             : fmt::format("{} ({})", names.view, names.group);
}

std::vector<std::string> view_labels(const report::Report& report,
                                     const std::vector<diag::Subject>& about) {
  std::vector<std::string> out;
  for (const diag::Subject& one : about) {
    std::string label = view_label(report, one);
    if (!label.empty() && std::find(out.begin(), out.end(), label) == out.end())
      out.push_back(std::move(label));
  }
  return out;
}

std::string views_text(const std::vector<std::string>& views) {
  constexpr std::size_t most = 12;
  constexpr std::size_t shown = 10;
  if (views.empty()) return {};
  const std::size_t count = views.size() > most ? shown : views.size();
  std::string out = views.size() > 1 ? "views " : "view ";
  for (std::size_t i = 0; i < count; ++i)
    out += (i > 0 ? ", " : "") + views[i];
  if (count < views.size()) out += fmt::format(" and {} more", views.size() - count);
  return out;
}

namespace {

std::string protocols_text(const report::Report& report, const std::vector<diag::Subject>& about) {
  constexpr std::size_t shown = 3;
  std::vector<std::string_view> names;
  for (const diag::Subject& one : about) {
    const std::string_view name = report.names(one).protocol;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::string out;
  for (std::size_t i = 0; i < std::min(shown, names.size()); ++i)
    out += fmt::format("{}{}", i > 0 ? ", " : "", names[i]);
  if (names.size() > shown) out += fmt::format(" and {} more", names.size() - shown);
  return out;
}

/// `in`: protocols to be named; "" for none.
std::string with_protocols(const report::Report& report, const std::vector<diag::Subject>& about,
                           std::string_view in) {
  std::string out = views_text(view_labels(report, about));
  if (!in.empty()) out += fmt::format("{}in {}", out.empty() ? "" : " ", in);
  if (about.empty()) return out;
  const std::string_view kit = report.names(about.front()).kit;
  if (!kit.empty()) out += fmt::format("{}with {}", out.empty() ? "" : " ", kit);
  return out;
}

} // namespace

std::string about_text(const report::Report& report, const std::vector<diag::Subject>& about) {
  return with_protocols(report, about, {});
}

std::string about_text(const report::Report& report, const diag::Diagnostic& found,
                       const std::vector<diag::Subject>& about) {
  const bool elsewhere = std::any_of(about.begin(), about.end(), [&](const diag::Subject& one) {
    return report.points_elsewhere(found, one);
  });
  return with_protocols(report, about, elsewhere ? protocols_text(report, about) : std::string());
}

} // namespace norma::emit
