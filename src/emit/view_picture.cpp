#include "emit/view_picture.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "emit/svg.hpp"
#include "facts/facts.hpp"
#include "physics/defaults.hpp"
#include "physics/scene/viewfinder.hpp"
#include "text/utf8.hpp"

namespace norma::emit {

std::string escaped_svg(std::string_view s) {
  std::string out;
  for (const char c : text::printable(s)) {
    switch (c) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += "&gt;"; break;
    case '"': out += "&quot;"; break;
    default: out += c;
    }
  }
  return out;
}
namespace {

using physics::Point;
using physics::Shown;
using physics::Surface;

// Sizes in SVG units.
constexpr double picture_side = 440; // the sensor's long side
constexpr double plan_scale = 3.2;   // a millimetre of the mouth
constexpr double margin = 24;
constexpr double plan_half_width = 70; // mm
constexpr double plan_front = -75;     // mm behind the incisors
constexpr double plan_back = 75;       // mm
constexpr double font = 11;

struct Flat {
  double x = 0, y = 0;
};

std::string points_text(const std::vector<Flat>& points) {
  std::string out;
  for (const Flat& p : points)
    out += fmt::format("{}{:.1f},{:.1f}", out.empty() ? "" : " ", p.x, p.y);
  return out;
}

std::string label(Flat at, std::string_view text, std::string_view more = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.0f}\" {}>{}</text>\n", at.x,
                     at.y, font, more, escaped_svg(text));
}

/// A piece of something, with how far it lies from the lens.
struct Piece {
  std::vector<Flat> corners;
  double away = 0;
  std::string_view look;
};

class Picture {
 public:
  Picture(const plan::ViewPlan& view, const physics::Mouth& mouth, const wording::Language& in)
      : in_(in), view_(view), scene_(*view.scene), mouth_(mouth), lens_(scene_.eye.lens),
        scale_(picture_side / std::max(scene_.eye.sensor.width, scene_.eye.sensor.height).in(mm)),
        width_(scene_.eye.sensor.width.in(mm)*scale_),
        height_(scene_.eye.sensor.height.in(mm)*scale_) {}

  std::string draw() {
    const double plan_width = 2 * plan_half_width * plan_scale;
    const double plan_height = (plan_back - plan_front) * plan_scale;
    const double whole_width = 3 * margin + width_ + plan_width;
    const double whole_height = 5 * margin + std::max(height_, plan_height) + 4 * font;
    out_ = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.0f}\" height=\"{1:.0f}\" "
        "viewBox=\"0 0 {0:.0f} {1:.0f}\" font-family=\"sans-serif\" role=\"img\">\n"
        "<title>{2}</title>\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
        whole_width, whole_height, escaped_svg(in_.text(frame::drawn(view_.view->title))));
    out_ += label({margin, margin}, view_.view->title, "font-weight=\"bold\"");
    camera_panel({margin, 2 * margin});
    plan_panel({2 * margin + width_, 2 * margin});
    const double below = 4 * margin + std::max(height_, plan_height);
    double row = 0;
    for (const diag::Said& said : {frame::drawn_model(view_.facts.value(plan::fact::patient)),
                                   frame::drawn_numbers(), list::care_who_decides()}) {
      out_ += label({margin, below + 1.5 * font * row++}, in_.text(said));
    }
    return out_ + "</svg>\n";
  }

 private:
  // The camera's picture ----------------------------------------------------------------------

  [[nodiscard]] std::optional<Flat> in_picture(Point p, Flat corner) const {
    return in_picture(p, corner, scene_.eye.lens);
  }
  [[nodiscard]] std::optional<Flat> in_picture(Point p, Flat corner,
                                               const physics::Pinhole& lens) const {
    const auto at = physics::project(p, lens);
    if (!at) return std::nullopt;
    return Flat{corner.x + 0.5 * width_ + at->right.in(mm)*scale_,
                corner.y + 0.5 * height_ - at->up.in(mm)*scale_};
  }

  /// What of a piece lies before the mirror: what lies behind it is neither seen in it nor before
  /// it.
  [[nodiscard]] std::vector<Point> before_mirror(const std::vector<Point>& corners) const {
    const std::optional<physics::PlaneMirror>& mirror = scene_.eye.mirror;
    if (!mirror) return corners;
    const auto before = [&](Point p) {
      return physics::along(p - mirror->middle, mirror->normal).in(mm);
    };
    std::vector<Point> out;
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const Point a = corners[i];
      const Point b = corners[(i + 1) % corners.size()];
      const double at_a = before(a);
      const double at_b = before(b);
      if (at_a >= 0) out.push_back(a);
      if ((at_a >= 0) != (at_b >= 0))
        out.push_back(a + physics::direction(a, b) * (at_a / (at_a - at_b) * mm));
    }
    return out;
  }

  /// As `lens_` sees it.
  void add_piece(const std::vector<Point>& corners, std::string_view look, Flat corner) {
    Piece piece;
    piece.look = look;
    const std::vector<Point> seen = before_mirror(corners);
    for (const Point& p : seen) {
      const auto at = in_picture(p, corner, lens_);
      if (!at) return;
      piece.corners.push_back(*at);
      piece.away += physics::along(p - lens_.pupil, lens_.axes.forward).in(mm) /
                    static_cast<double>(seen.size());
    }
    if (piece.corners.size() > 2) pieces_.push_back(std::move(piece));
  }

  void add_surface(const physics::Crown& crown, Surface surface, std::string_view look,
                   Flat corner) {
    constexpr int n = 4;
    const auto grid = physics::surface_grid(crown, surface, n);
    for (int i = 0; i + 1 < n; ++i) {
      for (int j = 0; j + 1 < n; ++j) {
        const auto at = [&](int a, int b) { return grid[static_cast<std::size_t>(a * n + b)]; };
        const Point d = lens_.pupil - at(i, j).at;
        const physics::Vec to{d.x.in(mm), d.y.in(mm), d.z.in(mm)};
        if (physics::dot(at(i, j).normal, to) <= 0 &&
            physics::dot(at(i + 1, j + 1).normal, to) <= 0)
          continue;
        add_piece({at(i, j).at, at(i + 1, j).at, at(i + 1, j + 1).at, at(i, j + 1).at}, look,
                  corner);
      }
    }
  }

  void add_box(const physics::Box& b, std::string_view look, Flat corner) {
    const auto at = [&](int sx, int sy, int sz) {
      return b.middle + b.axes[0] * (b.half[0] * sx) + b.axes[1] * (b.half[1] * sy) +
             b.axes[2] * (b.half[2] * sz);
    };
    for (const int s : {-1, 1}) {
      add_piece({at(s, -1, -1), at(s, 1, -1), at(s, 1, 1), at(s, -1, 1)}, look, corner);
      add_piece({at(-1, s, -1), at(1, s, -1), at(1, s, 1), at(-1, s, 1)}, look, corner);
      add_piece({at(-1, -1, s), at(1, -1, s), at(1, 1, s), at(-1, 1, s)}, look, corner);
    }
  }

  void add_teeth(Flat corner) {
    for (const physics::Box& b : mouth_.boxes) {
      if (b.body == physics::Body::gum) add_box(b, "fill=\"#e8d2cf\" stroke=\"#d9bdb9\"", corner);
    }
    for (const physics::Crown& c : mouth_.crowns) {
      for (const Surface s : {Surface::facial, Surface::biting, Surface::lingual}) {
        const bool asked = std::any_of(view_.shown.begin(), view_.shown.end(), [&](const Shown& x) {
          return x.tooth == c.tooth && x.surface == s;
        });
        add_surface(c, s,
                    asked ? "fill=\"#fffbe8\" stroke=\"#6b6b6b\""
                          : "fill=\"#f2f2f2\" stroke=\"#c4c4c4\"",
                    corner);
      }
    }
  }

  /// Far pieces first: near ones are drawn over them.
  void draw_pieces() {
    std::stable_sort(pieces_.begin(), pieces_.end(),
                     [](const Piece& a, const Piece& b) { return a.away > b.away; });
    for (const Piece& p : pieces_) {
      out_ += fmt::format("<polygon points=\"{}\" {} stroke-width=\"0.5\"/>\n",
                          points_text(p.corners), p.look);
    }
    pieces_.clear();
  }

  void camera_panel(Flat corner) {
    out_ += fmt::format("<clipPath id=\"frame\"><rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" "
                        "height=\"{:.1f}\"/></clipPath>\n<g clip-path=\"url(#frame)\">\n",
                        corner.x, corner.y, width_, height_);
    const std::vector<Flat> outline = mirror_outline(corner);
    if (!outline.empty()) {
      out_ += fmt::format("<clipPath id=\"mirror\"><polygon points=\"{}\"/></clipPath>\n"
                          "<polygon points=\"{}\" fill=\"#eef4f8\" stroke=\"#35607a\"/>\n"
                          "<g clip-path=\"url(#mirror)\">\n",
                          points_text(outline), points_text(outline));
    }
    for (const physics::Box& b : mouth_.boxes) {
      if (soft(b) && !near(b)) add_box(b, "fill=\"#f1e3e0\" stroke=\"#e0cbc6\"", corner);
    }
    add_teeth(corner);
    draw_pieces();
    if (!outline.empty()) out_ += "</g>\n";
    if (scene_.eye.mirror) {
      // What the camera itself sees before the mirror hides what stands in it.
      lens_ = physics::camera_of(scene_.eye);
      add_teeth(corner);
      draw_pieces();
    }
    // Lips and cheeks last, seen through: they lie in front of what they hide.
    for (const physics::Box& b : mouth_.boxes) {
      if (soft(b) && near(b))
        add_box(b, "fill=\"#b9857a\" fill-opacity=\"0.18\" stroke=\"#8f5f55\"", corner);
    }
    draw_pieces();
    lens_ = scene_.eye.lens;
    numbers(corner);
    out_ += "</g>\n";
    out_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                        "fill=\"none\" stroke=\"black\" stroke-width=\"1.5\"/>\n",
                        corner.x, corner.y, width_, height_);
    out_ += label(
        {corner.x, corner.y + height_ + 1.3 * font},
        in_.text(scene_.eye.mirror ? frame::drawn_as_shot_in_mirror() : frame::drawn_as_shot()));
  }

  [[nodiscard]] static bool soft(const physics::Box& b) {
    return b.body == physics::Body::cheek || b.body == physics::Body::lip;
  }
  /// Before the plane of focus, where it can come between.
  [[nodiscard]] bool near(const physics::Box& b) const {
    return physics::along(b.middle - lens_.pupil, lens_.axes.forward) < lens_.focus_distance;
  }

  [[nodiscard]] std::vector<Flat> mirror_outline(Flat corner) const {
    std::vector<Flat> out;
    if (!scene_.eye.mirror) return out;
    for (const Point& p : physics::mirror_edge(*scene_.eye.mirror)) {
      if (const auto at = in_picture(p, corner)) out.push_back(*at);
    }
    return out;
  }

  void numbers(Flat corner) {
    const auto limit = view_.facts.get(plan::fact::turned_limit);
    for (const Shown& s : view_.shown) {
      const physics::Crown* c = physics::find_crown(mouth_.crowns, s.tooth);
      if (c == nullptr) continue;
      const auto at = in_picture(physics::surface_grid(*c, s.surface, 3)[4].at, corner);
      if (!at) continue;
      const bool enough = enough_of(s) && (!limit || s.obliquity <= *limit);
      out_ +=
          label(*at, enough ? fmt::format("{}", s.tooth.iso()) : fmt::format("({})", s.tooth.iso()),
                "text-anchor=\"middle\"");
    }
  }

  // From above -----------------------------------------------------------------------------------

  [[nodiscard]] static Flat in_plan(Point p, Flat corner) {
    return {corner.x + (p.x.in(mm) + plan_half_width) * plan_scale,
            corner.y + (p.y.in(mm)-plan_front) * plan_scale};
  }

  void line(Point a, Point b, Flat corner, std::string_view look) {
    const Flat p = in_plan(a, corner);
    const Flat q = in_plan(b, corner);
    out_ += fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" {}/>\n", p.x,
                        p.y, q.x, q.y, look);
  }

  void polygon(const std::vector<Point>& points, Flat corner, std::string_view look) {
    std::vector<Flat> flat;
    for (const Point& p : points)
      flat.push_back(in_plan(p, corner));
    out_ += fmt::format("<polygon points=\"{}\" {}/>\n", points_text(flat), look);
  }

  void plan_panel(Flat corner) {
    const double w = 2 * plan_half_width * plan_scale;
    const double h = (plan_back - plan_front) * plan_scale;
    out_ += fmt::format("<clipPath id=\"plan\"><rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" "
                        "height=\"{:.1f}\"/></clipPath>\n<g clip-path=\"url(#plan)\">\n",
                        corner.x, corner.y, w, h);
    for (const physics::Box& b : mouth_.boxes) {
      if (b.body != physics::Body::cheek) continue;
      const auto at = [&](int sx, int sy) {
        return b.middle + b.axes[0] * (b.half[0] * sx) + b.axes[1] * (b.half[1] * sy);
      };
      polygon({at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)}, corner,
              "fill=\"#b9857a\" fill-opacity=\"0.3\" stroke=\"#8f5f55\"");
    }
    const bool upper_named = std::any_of(view_.shown.begin(), view_.shown.end(),
                                         [](const Shown& s) { return s.tooth.is_upper(); });
    for (const physics::Crown& c : mouth_.crowns) {
      if (c.tooth.is_upper() != upper_named) continue;
      const auto at = [&](int sx, int sy) {
        return c.edge + c.along * (0.5 * sx * c.size.width) + c.facial * (0.5 * sy * c.size.depth);
      };
      polygon({at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)}, corner,
              "fill=\"#fffbe8\" stroke=\"#6b6b6b\"");
      Flat middle = in_plan(c.edge, corner);
      middle.y += 0.35 * font;
      out_ += label(middle, fmt::format("{}", c.tooth.iso()), "text-anchor=\"middle\"");
    }
    const physics::Eye& eye = scene_.eye;
    if (eye.mirror)
      polygon(physics::mirror_edge(*eye.mirror), corner,
              "fill=\"none\" stroke=\"#35607a\" stroke-dasharray=\"4 3\"");
    // The field's edges and the axis, to the plane of focus.
    const Point focus = eye.lens.pupil + eye.lens.axes.forward * eye.lens.focus_distance;
    const Length half = 0.5 * eye.sensor.width / eye.lens.ratio.value();
    if (!eye.mirror) {
      line(eye.pupil, focus, corner, "stroke=\"black\" stroke-dasharray=\"6 3\"");
      line(eye.pupil, focus + eye.lens.axes.right * half, corner, "stroke=\"black\"");
      line(eye.pupil, focus - eye.lens.axes.right * half, corner, "stroke=\"black\"");
      if (few_heads()) {
        for (const Point& head : scene_.lamp)
          line(head, focus, corner, "stroke=\"#c08000\" stroke-dasharray=\"2 2\"");
      }
    }
    out_ += "</g>\n";
    out_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                        "fill=\"none\" stroke=\"black\"/>\n",
                        corner.x, corner.y, w, h);
    out_ += label({corner.x + 4, corner.y + h - 6}, in_.text(frame::drawn_right()));
    out_ += label({corner.x + w - 4, corner.y + h - 6}, in_.text(frame::drawn_left()),
                  "text-anchor=\"end\"");
    const diag::Said lines = eye.mirror    ? frame::drawn_mirror()
                             : few_heads() ? frame::drawn_field_lamp()
                                           : frame::drawn_field();
    out_ += label({corner.x, corner.y + h + 1.3 * font}, in_.text(frame::drawn_above(lines)));
  }

  /// A lamp of one head or two, and no ring.
  [[nodiscard]] bool few_heads() const { return !scene_.lamp.empty() && scene_.lamp.size() <= 2; }

  const wording::Language& in_;
  const plan::ViewPlan& view_;
  const plan::Scene& scene_;
  const physics::Mouth& mouth_;
  physics::Pinhole lens_; // of what is being drawn: the camera's image in the mirror, or itself
  double scale_;          // a millimetre of the sensor
  double width_;
  double height_;
  std::vector<Piece> pieces_;
  std::string out_;
};

} // namespace

std::string view_picture(const plan::ViewPlan& view, const wording::Language& in) {
  if (!view.scene) return {};
  const physics::Mouth mouth = physics::make_mouth(view.scene->mouth);
  return Picture(view, mouth, in).draw();
}

} // namespace norma::emit
