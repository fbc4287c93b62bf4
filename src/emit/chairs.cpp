#include "emit/chairs.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>

#include "diag/catalogue.hpp"
#include "emit/document.hpp"
#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "facts/facts.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

std::string name_of(const report::Report& report, const report::Held& held,
                    const wording::Language& in) {
  return held.kit == nullptr ? in.text(frame::no_kit()) : std::string(report.names(held.about).kit);
}

/// What stands against one view, series or protocol with one kit, the gravest first. Advice about
/// single views is not for this table.
std::vector<const diag::Diagnostic*> against(const report::Report& report,
                                             const diag::Subject& about) {
  std::vector<const diag::Diagnostic*> out = report.said_of(about);
  out.erase(std::remove_if(out.begin(), out.end(),
                           [&](const diag::Diagnostic* d) {
                             const bool minor = d->severity == diag::Severity::advice &&
                                                about.view != diag::Subject::none;
                             return !d->accepted.empty() || minor;
                           }),
            out.end());
  std::stable_sort(out.begin(), out.end(),
                   [](const auto* a, const auto* b) { return a->severity > b->severity; });
  return out;
}

/// The speed with which a view that is too dark or too bright can be had.
diag::Value iso_that_does(const plan::ViewPlan& view) {
  return view.facts.value(facts::fact::iso_that_does);
}

/// Do all of these warnings leave the mean mouth out, and half of the others?
bool in_most_mouths(const std::vector<const diag::Diagnostic*>& found) {
  return std::all_of(found.begin(), found.end(), [](const diag::Diagnostic* d) {
    return d->severity != diag::Severity::warning ||
           (d->in_mouths && d->in_mouths->mean && d->in_mouths->hold >= 50);
  });
}

/// What the table says of it: the codes are told below. `iso`: with that the flash would do; empty
/// where there is none.
std::string cell(std::vector<const diag::Diagnostic*> found, bool open, const diag::Value& iso,
                 const wording::Language& in) {
  const auto by_iso = [](const diag::Diagnostic* d) {
    return d->definition == &diag::catalogue::flash_cannot_deliver;
  };
  // Where something else stands in the way as gravely, it helps nothing.
  const bool cured = !iso.empty() && std::any_of(found.begin(), found.end(), by_iso) &&
                     std::all_of(found.begin(), found.end(), [&](const diag::Diagnostic* d) {
                       return by_iso(d) || d->severity != diag::Severity::error;
                     });
  if (cured) found.erase(std::remove_if(found.begin(), found.end(), by_iso), found.end());
  std::string out = in.text(frame::yes());
  if (!found.empty()) {
    const diag::Severity gravest = found.front()->severity;
    if (gravest == diag::Severity::error) out = in.text(frame::no());
    if (gravest == diag::Severity::warning)
      out = in.text(in_most_mouths(found) ? frame::in_most() : frame::poor());
  }
  if (cured) out = in.text(frame::with_iso(out, iso));
  if (!found.empty()) {
    const diag::Severity gravest = found.front()->severity;
    std::vector<std::string_view> codes;
    for (const diag::Diagnostic* d : found) {
      const std::string_view code = d->definition->code;
      if (d->severity == gravest && std::find(codes.begin(), codes.end(), code) == codes.end())
        codes.push_back(code);
    }
    std::sort(codes.begin(), codes.end());
    constexpr std::size_t most = 2;
    for (std::size_t i = 0; i < std::min(codes.size(), most); ++i)
      out += fmt::format("{} {}", i == 0 ? ":" : ",", codes[i]);
    if (codes.size() > most) out += fmt::format(" +{}", codes.size() - most);
  }
  return out + (open ? " ?" : "");
}

/// A row of the table: a view, a series, or the protocol.
struct RowOf {
  std::string name;
  int view = diag::Subject::none;
  int series = diag::Subject::none;

  [[nodiscard]] diag::Subject about(const report::Held& held) const {
    return {held.about.file, held.about.group, held.about.kit, view, series};
  }
};

std::vector<RowOf> rows_of(const report::Held& held, const wording::Language& in) {
  std::vector<RowOf> out;
  for (std::size_t i = 0; i < held.plan.views.size(); ++i)
    out.push_back({held.plan.views[i].view->name, static_cast<int>(i)});
  for (std::size_t i = 0; i < held.plan.series.size(); ++i)
    out.push_back({in.text(frame::series(held.plan.series[i].series->name)), diag::Subject::none,
                   static_cast<int>(i)});
  out.push_back({in.text(frame::protocol())});
  return out;
}

/// A kit, and what stands against each row of the table with it.
struct Chair {
  const report::Held* held;
  std::vector<std::vector<const diag::Diagnostic*>> against;

  Chair(const report::Report& report, const report::Held& with, const std::vector<RowOf>& rows)
      : held(&with) {
    for (const RowOf& row : rows)
      against.push_back(emit::against(report, row.about(with)));
  }
};

/// Findings of one severity at one chair, with what would do.
std::string told(const report::Report& report, const Chair& chair, const std::vector<RowOf>& rows,
                 diag::Severity severity, const wording::Language& in) {
  struct Named {
    std::vector<std::string> views;
    std::string series;
  };
  // In the order in which they stand among all findings: there they lie one behind the other.
  std::map<const diag::Diagnostic*, Named> found;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (const diag::Diagnostic* d : chair.against[i]) {
      if (d->severity != severity) continue;
      Named& named = found[d];
      if (rows[i].view != diag::Subject::none)
        named.views.push_back(view_label(report, rows[i].about(*chair.held), in));
      else if (rows[i].series != diag::Subject::none)
        named.series = rows[i].name;
    }
  }
  std::string out;
  for (const auto& [d, named] : found) {
    const std::string about = named.views.empty() ? named.series : views_text(named.views, in);
    out += fmt::format("  {}{}{} [{}]\n", about, about.empty() ? "" : ": ",
                       text::printable(in.text(d->message)), d->definition->code);
    if (!d->help.empty())
      out += "    " + text::printable(in.text(frame::would_do(d->help.front()))) + "\n";
  }
  return out;
}

} // namespace

std::string chairs(const report::Report& report, const std::vector<const report::Held*>& held,
                   const wording::Language& in) {
  if (held.empty()) return {};
  const report::Held& first = *held.front();
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> head{in.text(frame::view())};
  for (const report::Held* h : held)
    head.push_back(text::printable(name_of(report, *h, in)));
  rows.push_back(std::move(head));
  const std::vector<RowOf> named = rows_of(first, in);
  std::vector<Chair> all;
  for (const report::Held* h : held)
    all.emplace_back(report, *h, named);
  for (std::size_t i = 0; i < named.size(); ++i) {
    const RowOf& of = named[i];
    std::vector<std::string> row{of.name};
    for (const Chair& chair : all) {
      const bool open = of.view != diag::Subject::none &&
                        !chair.held->plan.views[static_cast<std::size_t>(of.view)].open.empty();
      const diag::Value iso =
          of.view == diag::Subject::none
              ? diag::Value()
              : iso_that_does(chair.held->plan.views[static_cast<std::size_t>(of.view)]);
      row.push_back(cell(chair.against[i], open, iso, in));
    }
    rows.push_back(std::move(row));
  }
  std::vector<std::size_t> widths(held.size() + 1, 0);
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i)
      widths[i] = std::max(widths[i], text::display_width(row[i]));
  }
  const bool of_several = !first.protocol->group_label.empty();
  std::string out = fmt::format("{}{}\n\n", text::printable(first.protocol->title),
                                of_several ? ", " + in.text(group_said(first.protocol->group.get()))
                                           : std::string());
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i)
      line += (i > 0 ? "  " : "") + padded(row[i], widths[i]);
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  out += "\n" + in.text(frame::legend()) + "\n";
  for (const Chair& chair : all) {
    const std::string impossible = told(report, chair, named, diag::Severity::error, in);
    const std::string poor = told(report, chair, named, diag::Severity::warning, in);
    const std::string advice = told(report, chair, named, diag::Severity::advice, in);
    out += fmt::format("\n{}: {}\n{}", text::printable(name_of(report, *chair.held, in)),
                       in.text(impossible.empty() ? frame::every_view() : frame::cannot_be_had()),
                       impossible);
    if (!poor.empty()) out += fmt::format("  {}\n{}", in.text(frame::what_is_poor()), poor);
    if (!advice.empty()) out += fmt::format("  {}\n{}", in.text(frame::what_is_advised()), advice);
  }
  return out;
}

} // namespace norma::emit
