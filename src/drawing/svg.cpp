#include "drawing/svg.hpp"

#include <fmt/core.h>

#include "text/utf8.hpp"

namespace norma::drawing {
namespace {

class Writer {
 public:
  explicit Writer(std::string_view id) : id_(id) {}

  void write(const std::vector<Item>& items) {
    for (const Item& item : items)
      write(item);
  }
  std::string take() { return std::move(out_); }

 private:
  void write(const Item& item) {
    if (item.label) return label(item.role, *item.label);
    for (const Group& g : item.group)
      group(g);
    if (!item.line.through.empty())
      out_ += fmt::format("<path class=\"d-{}\" d=\"{}\"/>\n", look_of(item.role).name,
                          path(item.line));
  }

  void group(const Group& g) {
    const std::string clip = fmt::format("{}-{}", id_, ++clips_);
    out_ += fmt::format("<clipPath id=\"{0}\"><path d=\"{1}\"/></clipPath>\n"
                        "<g clip-path=\"url(#{0})\">\n",
                        clip, path(g.clip));
    write(g.items);
    out_ += "</g>\n";
  }

  void label(Role role, const Label& l) {
    constexpr std::string_view anchors[] = {"start", "middle", "end"};
    out_ += fmt::format("<text class=\"d-{}\" x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{:.2f}\" "
                        "text-anchor=\"{}\"{}>{}</text>\n",
                        look_of(role).name, l.at.x, l.at.y, l.size,
                        anchors[static_cast<std::size_t>(l.anchor)],
                        l.bold ? " font-weight=\"bold\"" : "", escaped(l.text));
  }

  static std::string path(const Line& line) {
    std::string out;
    const auto spot = [&](char how, Spot s) {
      out += fmt::format("{}{}{:.1f} {:.1f}", out.empty() || how == ' ' ? "" : " ", how, s.x, s.y);
    };
    if (line.through.empty()) return out;
    spot('M', line.through.front());
    if (line.smooth) {
      for (const Curve& c : curves(line)) {
        spot('C', c.near_from);
        spot(' ', c.near_to);
        spot(' ', c.to);
      }
    } else {
      for (std::size_t i = 1; i < line.through.size(); ++i)
        spot('L', line.through[i]);
    }
    return line.closed ? out + "Z" : out;
  }

  std::string_view id_;
  int clips_ = 0;
  std::string out_;
};

} // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text::printable(text)) {
    switch (c) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += "&gt;"; break;
    case '"': out += "&quot;"; break;
    case '\'': out += "&#39;"; break;
    default: out += c;
    }
  }
  return out;
}

std::string as_svg(const Drawing& drawing, std::string_view title, std::string_view id) {
  Writer writer(id);
  writer.write(drawing.items);
  return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.2f} {:.2f}\" "
                     "role=\"img\" aria-label=\"{}\"><g id=\"{}\">\n{}</g></svg>\n",
                     drawing.width, drawing.height, escaped(title), id, writer.take());
}

std::string as_svg_turned(const Drawing& drawing, physics::Turn turn, std::string_view title,
                          std::string_view id) {
  const double w = drawing.width;
  const double h = drawing.height;
  // Where the corner comes to lie, and which way its sides lead from there.
  const Spot corner = turned({0, 0}, w, h, turn);
  const Spot right = turned({w, 0}, w, h, turn) - corner;
  const Spot down = turned({0, h}, w, h, turn) - corner;
  const bool side = on_its_side(turn);
  return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.2f} {:.2f}\" "
                     "role=\"img\" aria-label=\"{}\"><use href=\"#{}\" "
                     "transform=\"matrix({:g} {:g} {:g} {:g} {:.2f} {:.2f})\"/></svg>\n",
                     side ? h : w, side ? w : h, escaped(title), id, right.x / w, right.y / w,
                     down.x / h, down.y / h, corner.x, corner.y);
}

std::string svg_style() {
  const auto colour = [](const std::optional<std::uint32_t>& c) {
    return c ? fmt::format("#{:06x}", *c) : std::string("none");
  };
  std::string out;
  for (const Look& look : looks()) {
    out += fmt::format(".d-{}{{fill:{};stroke:{};stroke-width:{:g}}}\n", look.name,
                       colour(look.fill), colour(look.line), look.width);
  }
  return out;
}

std::string svg_file(const Drawing& drawing, std::string_view title) {
  Writer writer("d");
  writer.write(drawing.items);
  constexpr double dots = 4; // for each millimetre, where nothing says how large it is shown
  return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{:.0f}\" height=\"{:.0f}\" "
                     "viewBox=\"0 0 {:.2f} {:.2f}\" font-family=\"sans-serif\" role=\"img\">\n"
                     "<title>{}</title>\n<style>\n{}</style>\n{}</svg>\n",
                     dots * drawing.width, dots * drawing.height, drawing.width, drawing.height,
                     escaped(title), svg_style(), writer.take());
}

} // namespace norma::drawing
