#include "emit/in_mouths.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "emit/document.hpp"
#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "facts/facts.hpp"
#include "facts/phrases.hpp"
#include "plan/many_mouths.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

using mouths::Promise;
using mouths::Varies;

constexpr std::array<const diag::Sentence<0>*, mouths::promises> broken_words{
    &facts::phrase::broken_placed, &facts::phrase::broken_fits, &facts::phrase::broken_framed,
    &facts::phrase::broken_turned, &facts::phrase::broken_seen, &facts::phrase::broken_sharp,
    &facts::phrase::broken_lit};

/// Whole parts of a hundred; what is not none or all is never said to be.
int of_hundred(std::size_t part, std::size_t whole) {
  if (whole == 0 || part == 0) return 0;
  if (part == whole) return 100;
  const double share = static_cast<double>(part) / static_cast<double>(whole);
  return std::clamp(static_cast<int>(std::lround(100 * share)), 1, 99);
}

int of_hundred(double share) { return static_cast<int>(std::lround(100 * share)); }

diag::Said what_to_measure(Varies what) {
  switch (what) {
  case Varies::corner_aside:
  case Varies::corner_back: return frame::measure_corner();
  case Varies::opening: return frame::measure_opening();
  case Varies::upper_canines:
  case Varies::lower_canines:
  case Varies::upper_molars:
  case Varies::lower_molars:
  case Varies::tooth_size:
  case Varies::overjet:
  case Varies::overbite:
  case Varies::palate: return frame::measure_arch();
  }
  return {};
}

diag::Said reasons_of(const mouths::Shares& shares) {
  std::vector<std::size_t> order;
  for (std::size_t p = 0; p < mouths::promises; ++p) {
    if (shares.first[p] > 0) order.push_back(p);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return shares.first[a] > shares.first[b]; });
  diag::List out;
  for (const std::size_t p : order)
    out.items.emplace_back(
        frame::mouths_of_hundred((*broken_words[p])(), of_hundred(shares.first[p], shares.mouths)));
  return frame::mouths_why_not(out);
}

/// The shares of each surface, as a table.
std::string teeth_of(const mouths::Shares& shares, const wording::Language& in) {
  using Row = std::array<std::string, 6>;
  std::vector<Row> rows{{in.text(frame::mouths_teeth()), in.text(frame::in_frame()),
                         in.text(frame::seen()), in.text(frame::mouths_lit()),
                         in.text(frame::mouths_all_three()), in.text(frame::mouths_at_worst())}};
  for (const mouths::SurfaceShare& s : shares.surfaces) {
    const auto share = [&](std::size_t part) {
      return fmt::format("{}", of_hundred(part, shares.mouths));
    };
    rows.push_back(
        {fmt::format("{} {}", s.which.tooth.iso(), in.text(surface_said(s.which.surface))),
         share(s.framed), share(s.seen), share(s.lit), share(s.all),
         in.text(diag::Measure{physics::Kind::share, s.worst_twentieth, true})});
  }
  std::array<std::size_t, 6> widths{};
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(widths[i], text::display_width(row[i]));
  }
  std::string out;
  for (const Row& row : rows) {
    std::string line = "    " + padded(row[0], widths[0]);
    for (std::size_t i = 1; i < row.size(); ++i)
      line += "  " + padded_left(row[i], widths[i]);
    out += line + "\n";
  }
  return out;
}

std::string hangs_of(const report::ViewInMouths& view, const wording::Language& in) {
  // What does next to nothing is left out, and what cannot be told from nothing with so few mouths.
  constexpr double least = 0.05;
  constexpr std::size_t most = 4;
  diag::List list;
  list.semicolons = true;
  std::optional<Varies> first;
  for (const mouths::Hangs& h : view.hangs) {
    if (h.by.total < least || h.by.total < 2 * h.by.total_error) continue;
    if (!first) first = h.what;
    list.items.emplace_back(frame::mouths_hangs_by(plan::what_varies(h.what)(),
                                                   of_hundred(std::min(h.by.total, 1.0)),
                                                   std::max(of_hundred(h.by.total_error), 1)));
    if (list.items.size() == most) break;
  }
  if (list.items.empty()) return "";
  const auto line = [&](const diag::Said& said) {
    return "  " + wrapped(text::printable(in.text(said)), 86, 4) + "\n";
  };
  return line(frame::mouths_hangs(list)) + line(frame::mouths_measure(what_to_measure(*first)));
}

diag::Said verdict_of(const mouths::Shares& shares, const std::string& view) {
  if (shares.hold == shares.mouths) return frame::mouths_hold_in_all(view);
  if (shares.hold == 0) return frame::mouths_hold_in_none(view);
  return frame::mouths_hold_in(view, of_hundred(shares.hold, shares.mouths),
                               std::max(of_hundred(shares.error), 1));
}

} // namespace

std::string in_mouths(const report::Report& report, const report::InMouths& of,
                      const wording::Language& in) {
  const auto paragraph = [&](const diag::Said& said, std::size_t indent = 0) {
    return wrapped(text::printable(in.text(said)), 88, indent) + "\n";
  };
  const auto number = [](std::size_t n) { return static_cast<int>(n); };
  const model::Protocol& protocol = *of.held->protocol;
  const std::string kit(report.names(of.held->about).kit);
  const diag::Said group =
      protocol.group.known() ? group_said(protocol.group.get()) : frame::adults();
  std::string out = paragraph(frame::mouths_title(protocol.title, kit)) + "\n";
  out += paragraph(frame::mouths_drawn(number(of.asked), group));
  if (of.left_out > 0) out += paragraph(frame::mouths_left_out(number(of.left_out)));
  if (of.spaced > 0) out += paragraph(frame::mouths_spaced(number(of.spaced)));
  const bool assumed =
      std::any_of(of.views.begin(), of.views.end(), [](const report::ViewInMouths& v) {
        const facts::Fact* corner = v.view->facts.find(facts::fact::corner_side);
        return v.shares && corner != nullptr && corner->status == facts::Status::assumed;
      });
  if (assumed) out += paragraph(frame::mouths_range());
  for (const report::ViewInMouths& view : of.views) {
    const std::string name = view_label(report, view.about, in);
    out += "\n";
    if (!view.shares) {
      out += paragraph(frame::mouths_not_looked(name, view.missing), 2);
      continue;
    }
    out += paragraph(verdict_of(*view.shares, name), 2);
    if (view.shares->hold < view.shares->mouths)
      out += "  " + wrapped(text::printable(in.text(reasons_of(*view.shares))), 86, 4) + "\n";
    out += hangs_of(view, in);
    out += teeth_of(*view.shares, in);
  }
  return out;
}

} // namespace norma::emit
