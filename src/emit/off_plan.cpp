#include "emit/off_plan.hpp"

#include <algorithm>
#include <cmath>

#include "emit/document.hpp"
#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "facts/off_terms.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

using margins::Promise;

using facts::broken_said;
using facts::size_said;
using facts::term_of;

/// Whole parts of a hundred; what is not none or all is never said to be.
int of_hundred_shots(std::size_t part, std::size_t whole) {
  if (part == 0 || part == whole) return part == 0 ? 0 : 100;
  const double share = static_cast<double>(part) / static_cast<double>(whole);
  return std::clamp(static_cast<int>(std::lround(100 * share)), 1, 99);
}

/// The spreads that are assumed, or those of a view's own tolerance.
diag::List spreads_said(const std::vector<report::Spread>& spreads, report::Spread::By by) {
  diag::List out;
  out.semicolons = true;
  for (const report::Spread& s : spreads) {
    if (s.by == by)
      out.items.emplace_back(frame::off_spread(term_of(s.what), size_said(s.what, s.size)));
  }
  return out;
}

diag::Said together_said(const margins::Together& t) {
  std::vector<std::size_t> order;
  for (std::size_t p = 0; p < margins::promises; ++p) {
    if (t.first[p] > 0) order.push_back(p);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return t.first[a] > t.first[b]; });
  diag::List why;
  for (const std::size_t p : order)
    why.items.emplace_back(frame::mouths_of_hundred(term_of(static_cast<Promise>(p)),
                                                    of_hundred_shots(t.first[p], t.shots)));
  if (t.hold == t.shots) return frame::off_together_all();
  return frame::off_together(of_hundred_shots(t.hold, t.shots),
                             std::max(static_cast<int>(std::lround(100 * t.error)), 1), why);
}

std::string off_paragraph(const diag::Said& said, std::size_t indent, const wording::Language& in) {
  return std::string(indent, ' ') +
         wrapped(text::printable(in.text(said)), 88 - indent, indent + 2) + "\n";
}

/// Both ways of each stand side by side.
std::string margins_text(const std::vector<margins::Margin>& all, const wording::Language& in) {
  std::string out;
  for (std::size_t i = 0; i + 1 < all.size(); i += 2) {
    const diag::Said error = term_of(all[i].what);
    const bool none = !all[i].breaks && !all[i + 1].breaks;
    out +=
        off_paragraph(none ? frame::off_both_ways(error, size_said(all[i].what, all[i].size))
                           : frame::off_line(error, margin_said(all[i]), margin_said(all[i + 1])),
                      2, in);
  }
  return out;
}

/// What is assumed is the same for all views: each thing once.
std::vector<report::Spread> assumed_in(const std::vector<report::ViewOffPlan>& views) {
  std::vector<report::Spread> out;
  for (const margins::ErrorRow& row : margins::error_rows()) {
    const auto has = [&](const report::Spread& s) {
      return s.what == row.what && s.by == report::Spread::By::assumed;
    };
    for (const report::ViewOffPlan& view : views) {
      const auto found = std::find_if(view.spreads.begin(), view.spreads.end(), has);
      if (!view.together || found == view.spreads.end()) continue;
      out.push_back(*found);
      break;
    }
  }
  return out;
}

} // namespace

diag::Said margin_said(const margins::Margin& m) {
  const diag::Measure size = size_said(m.what, m.size);
  return m.breaks ? facts::phrase::off_then(size, term_of(m.way), broken_said(*m.breaks))
                  : frame::off_far(size, term_of(m.way));
}

std::string off_plan(const report::Report& report, const report::OffPlan& of,
                     const wording::Language& in) {
  const auto paragraph = [&](const diag::Said& said, std::size_t indent) {
    return off_paragraph(said, indent, in);
  };
  const auto page = [&](const diag::Said& said) {
    return wrapped(text::printable(in.text(said)), 88, 0) + "\n";
  };
  std::string out =
      paragraph(frame::off_title(of.held->protocol->title, report.names(of.held->about).kit), 0) +
      "\n" + page(frame::off_how());
  for (const report::ViewOffPlan& view : of.views) {
    const std::string name = view_label(report, view.about, in);
    out += "\n";
    if (!view.margins) {
      out += paragraph(frame::mouths_not_looked(name, view.missing), 0);
      continue;
    }
    if (view.margins->fails) {
      out += paragraph(frame::off_fails(name, broken_said(*view.margins->fails)), 0);
      continue;
    }
    out += paragraph(frame::off_view(name), 0) + margins_text(view.margins->margins, in);
    if (!view.together) continue;
    out += paragraph(together_said(*view.together), 2);
    const auto own = spreads_said(view.spreads, report::Spread::By::tolerance);
    if (!own.items.empty()) out += paragraph(frame::off_by_tolerance(own), 4);
  }
  const auto assumed = spreads_said(assumed_in(of.views), report::Spread::By::assumed);
  if (!assumed.items.empty()) out += "\n" + page(frame::off_assumed(assumed));
  return out;
}

} // namespace norma::emit
