#include "emit/chairs.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "emit/subject_words.hpp"
#include "text/utf8.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

std::string name_of(const report::Report& report, const report::Held& held) {
  return held.kit == nullptr ? "no kit" : std::string(report.names(held.about).kit);
}

/// Does it stand against the view, or the series, with this kit?
bool counts(const diag::Diagnostic& d, const diag::Subject& about) {
  return d.accepted.empty() && report::Report::speaks_of(d, about);
}

std::string graded(std::size_t errors, std::size_t warnings) {
  return errors > 0 ? "no" : warnings > 0 ? fmt::format("poor ({})", warnings) : "yes";
}

/// What the table says of one view with one kit.
std::string cell(const report::Report& report, const report::Held& held, std::size_t view) {
  const diag::Subject about = held.about.of_view(static_cast<int>(view));
  std::size_t errors = 0;
  std::size_t warnings = 0;
  for (const diag::Diagnostic& d : report.findings.all()) {
    if (!counts(d, about)) continue;
    errors += d.severity == diag::Severity::error ? 1 : 0;
    warnings += d.severity == diag::Severity::warning ? 1 : 0;
  }
  return graded(errors, warnings) + (held.plan.views[view].open.empty() ? "" : " ?");
}

std::string padded(const std::string& text, std::size_t width) {
  const std::size_t has = text::display_width(text);
  return text + std::string(width > has ? width - has : 0, ' ');
}

} // namespace

std::string chairs(const report::Report& report, const std::vector<const report::Held*>& held) {
  if (held.empty()) return {};
  const report::Held& first = *held.front();
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> head{"view"};
  for (const report::Held* h : held)
    head.push_back(text::printable(name_of(report, *h)));
  rows.push_back(std::move(head));
  for (std::size_t i = 0; i < first.plan.views.size(); ++i) {
    std::vector<std::string> row{first.plan.views[i].view->name};
    for (const report::Held* h : held)
      row.push_back(cell(report, *h, i));
    rows.push_back(std::move(row));
  }
  std::vector<std::size_t> widths(held.size() + 1, 0);
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i)
      widths[i] = std::max(widths[i], text::display_width(row[i]));
  }
  std::string out = fmt::format(
      "{}{}\n\n", text::printable(first.protocol->title),
      first.protocol->group_label.empty() ? std::string() : ", " + first.protocol->group_label);
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i)
      line += (i > 0 ? "  " : "") + padded(row[i], widths[i]);
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  out += "\nyes: nothing stands against it; poor: warnings, as many as in brackets; no: it cannot "
         "be had; ?: something was not checked.\n";
  for (const report::Held* h : held) {
    std::string list;
    for (const diag::Diagnostic& d : report.findings.all()) {
      if (d.severity != diag::Severity::error) continue;
      std::vector<std::string> views;
      for (std::size_t i = 0; i < h->plan.views.size(); ++i) {
        const diag::Subject about = h->about.of_view(static_cast<int>(i));
        if (counts(d, about)) views.push_back(view_label(report, about));
      }
      if (views.empty()) continue;
      list += fmt::format("  {}: {} [{}]\n", views_text(views),
                          text::printable(wording::text(d.message)), d.definition->code);
      if (!d.help.empty())
        list += fmt::format("    what would do: {}\n",
                            text::printable(wording::text(d.help.front())));
    }
    out += fmt::format("\n{}: {}\n{}", text::printable(name_of(report, *h)),
                       list.empty() ? "every view can be had" : "cannot be had:", list);
  }
  return out;
}

} // namespace norma::emit
