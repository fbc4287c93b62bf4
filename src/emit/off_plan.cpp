#include "emit/off_plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "emit/document.hpp"
#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

using margins::Promise;

constexpr std::array<const diag::Sentence<0>*, margins::promises> broken_words{
    &frame::broken_clear,  &frame::broken_fits,      &frame::broken_framed, &frame::broken_sharp,
    &frame::broken_turned, &frame::broken_in_mirror, &frame::broken_seen,   &frame::broken_lit};

constexpr std::array<const diag::Sentence<0>*, margins::errors> error_words{
    &frame::off_camera_sideways, &frame::off_camera_height, &frame::off_camera_roll,
    &frame::off_camera_distance, &frame::off_aim_across,    &frame::off_aim_up,
    &frame::off_focus,           &frame::off_mirror_angle,  &frame::off_mirror_turn,
    &frame::off_mirror_slide,    &frame::off_corner_aside,  &frame::off_corner_back};

constexpr std::array<const diag::Sentence<0>*, margins::ways> way_words{&frame::way_right,
                                                                        &frame::way_left,
                                                                        &frame::way_forward,
                                                                        &frame::way_back,
                                                                        &frame::way_up,
                                                                        &frame::way_down,
                                                                        &frame::way_clockwise,
                                                                        &frame::way_anticlockwise,
                                                                        &frame::way_nearer,
                                                                        &frame::way_farther,
                                                                        &frame::way_picture_right,
                                                                        &frame::way_picture_left,
                                                                        &frame::way_picture_top,
                                                                        &frame::way_picture_bottom,
                                                                        &frame::way_more,
                                                                        &frame::way_less};

diag::Said one_way(const margins::Margin& m) {
  const diag::Measure size = size_said(m.what, m.size);
  return m.breaks ? frame::off_then(size, way_said(m.way), broken_said(*m.breaks))
                  : frame::off_far(size, way_said(m.way));
}

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
      out.items.emplace_back(frame::off_spread(error_said(s.what), size_said(s.what, s.size)));
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
    why.items.emplace_back(
        frame::mouths_of_hundred((*broken_words[p])(), of_hundred_shots(t.first[p], t.shots)));
  if (t.hold == t.shots) return frame::off_together_all();
  return frame::off_together(of_hundred_shots(t.hold, t.shots),
                             std::max(static_cast<int>(std::lround(100 * t.error)), 1), why);
}

} // namespace

diag::Said broken_said(const margins::Broken& broken) {
  const diag::Said word = (*broken_words[static_cast<std::size_t>(broken.promise)])();
  switch (broken.teeth.size()) {
  case 0: return word;
  case 1: return frame::broken_one(broken.teeth, word);
  default: return frame::broken_several(broken.teeth, word);
  }
}

diag::Said error_said(margins::Error what) {
  return (*error_words[static_cast<std::size_t>(what)])();
}

diag::Said way_said(margins::Way way) { return (*way_words[static_cast<std::size_t>(way)])(); }

diag::Measure size_said(margins::Error what, double size) {
  constexpr double hair = 1e-9;
  const double told = size < 10 ? std::floor(10 * size + hair) / 10 : std::floor(size + hair);
  const physics::Kind kind = margins::row_of(what).kind;
  return {kind, kind == physics::Kind::angle ? (told * degree).base() : (told * mm).base(), true};
}

namespace {

std::string off_paragraph(const diag::Said& said, std::size_t indent, const wording::Language& in) {
  return std::string(indent, ' ') +
         wrapped(text::printable(in.text(said)), 88 - indent, indent + 2) + "\n";
}

/// Both ways of each stand side by side.
std::string margins_text(const std::vector<margins::Margin>& all, const wording::Language& in) {
  std::string out;
  for (std::size_t i = 0; i + 1 < all.size(); i += 2) {
    const diag::Said error = error_said(all[i].what);
    const bool none = !all[i].breaks && !all[i + 1].breaks;
    out += off_paragraph(none ? frame::off_both_ways(error, size_said(all[i].what, all[i].size))
                              : frame::off_line(error, one_way(all[i]), one_way(all[i + 1])),
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
