#include <fmt/core.h>

#include <algorithm>

#include "drawing/svg.hpp"
#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "emit/off_plan.hpp"
#include "facts/off_terms.hpp"

namespace norma::emit {
namespace {

// Sizes in SVG units.
constexpr double beside_bars = 400; // beside the bars
constexpr double longest_bar = 150;
constexpr double bars_row = 44;
constexpr double bar_thick = 12;
constexpr double top_space = 56;
constexpr double bar_font = 11;
constexpr double middle_x = beside_bars + longest_bar;
constexpr double bars_width = 2 * middle_x;

std::string text_at(double x, double y, std::string_view anchor, const std::string& text,
                    std::string_view more = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.0f}\" text-anchor=\"{}\" "
                     "{}>{}</text>\n",
                     x, y, bar_font, anchor, more, drawing::escaped(text));
}

std::string box(double x, double y, double width, double height, std::string_view look) {
  return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" {}/>\n", x,
                     y, width, height, look);
}

/// One thing, both ways: what it holds, and where two standard deviations lie.
std::string bars(const margins::Margin& less, const margins::Margin& more, double spread, double y,
                 const wording::Language& in) {
  const double scale = longest_bar / margins::row_of(less.what).most;
  const double centre = y + 0.5 * bar_thick;
  std::string out = text_at(middle_x, y - 6, "middle", in.text(facts::term_of(less.what)),
                            "font-weight=\"bold\"");
  const double band = std::min(2 * spread * scale, longest_bar);
  if (band > 0) out += box(middle_x - band, y - 3, 2 * band, bar_thick + 6, "fill=\"#f3d9a4\"");
  out += box(middle_x - less.size * scale, y, (less.size + more.size) * scale, bar_thick,
             "fill=\"#5b7fa6\"");
  for (const auto* m : {&less, &more}) {
    const double way = m == &less ? -1 : 1;
    const double end = middle_x + way * m->size * scale;
    if (m->breaks)
      out += fmt::format("<line x1=\"{0:.1f}\" y1=\"{1:.1f}\" x2=\"{0:.1f}\" y2=\"{2:.1f}\" "
                         "stroke=\"#a02020\" stroke-width=\"3\"/>\n",
                         end, y - 4, y + bar_thick + 4);
    out += text_at(middle_x + way * (longest_bar + 8), centre + 4, way < 0 ? "end" : "start",
                   in.text(margin_said(*m)));
  }
  out += fmt::format("<line x1=\"{0:.1f}\" y1=\"{1:.1f}\" x2=\"{0:.1f}\" y2=\"{2:.1f}\" "
                     "stroke=\"black\"/>\n",
                     middle_x, y - 4, y + bar_thick + 4);
  return out;
}

} // namespace

std::string off_plan_picture(const report::ViewOffPlan& view, const wording::Language& in) {
  if (!view.margins || view.margins->fails) return {};
  const auto& all = view.margins->margins;
  const double rows = 0.5 * static_cast<double>(all.size());
  const double height = top_space + rows * bars_row + 3 * 1.6 * bar_font + 20;
  const std::string title = in.text(frame::off_drawn(view.view->view->title));
  std::string out =
      fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.0f}\" height=\"{1:.0f}\" "
                  "viewBox=\"0 0 {0:.0f} {1:.0f}\" font-family=\"sans-serif\" role=\"img\">\n"
                  "<title>{2}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
                  bars_width, height, drawing::escaped(title));
  out += text_at(middle_x, 22, "middle", title, "font-weight=\"bold\"");
  double y = top_space;
  for (std::size_t i = 0; i + 1 < all.size(); i += 2) {
    const auto spread =
        std::find_if(view.spreads.begin(), view.spreads.end(),
                     [&](const report::Spread& s) { return s.what == all[i].what; });
    out += bars(all[i], all[i + 1], spread == view.spreads.end() ? 0 : spread->size, y, in);
    y += bars_row;
  }
  for (const diag::Said& said :
       {frame::off_drawn_bars(), frame::off_drawn_band(), list::care_who_decides()}) {
    out += text_at(20, y, "start", in.text(said));
    y += 1.6 * bar_font;
  }
  return out + "</svg>\n";
}

} // namespace norma::emit
