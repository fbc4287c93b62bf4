#include "emit/off_plan.hpp"

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
    &frame::broken_clear,     &frame::broken_fits, &frame::broken_framed, &frame::broken_turned,
    &frame::broken_in_mirror, &frame::broken_seen, &frame::broken_sharp,  &frame::broken_lit};

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

std::string off_plan(const report::Report& report, const report::OffPlan& of,
                     const wording::Language& in) {
  const auto paragraph = [&](const diag::Said& said, std::size_t indent) {
    return wrapped(text::printable(in.text(said)), 88 - indent, indent + 2) + "\n";
  };
  std::string out =
      paragraph(frame::off_title(of.held->protocol->title, report.names(of.held->about).kit), 0) +
      "\n" + wrapped(text::printable(in.text(frame::off_how())), 88, 0) + "\n";
  for (const report::ViewOffPlan& view : of.views) {
    const std::string name = view_label(report, view.about, in);
    out += "\n";
    if (!view.margins) {
      out += paragraph(frame::mouths_not_looked(name, view.missing), 0);
    } else if (view.margins->fails) {
      out += paragraph(frame::off_fails(name, broken_said(*view.margins->fails)), 0);
    } else {
      out += paragraph(frame::off_view(name), 0);
      const auto& all = view.margins->margins;
      // Both ways of each stand side by side.
      for (std::size_t i = 0; i + 1 < all.size(); i += 2) {
        const bool none = !all[i].breaks && !all[i + 1].breaks;
        const diag::Said error = error_said(all[i].what);
        out +=
            "  " + paragraph(none ? frame::off_both_ways(error, size_said(all[i].what, all[i].size))
                                  : frame::off_line(error, one_way(all[i]), one_way(all[i + 1])),
                             2);
      }
    }
  }
  return out;
}

} // namespace norma::emit
