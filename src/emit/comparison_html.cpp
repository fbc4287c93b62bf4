#include <fmt/core.h>

#include <algorithm>

#include "drawing/svg.hpp"
#include "emit/card_words.hpp"
#include "emit/compared_said.hpp"
#include "emit/compared_words.hpp"
#include "emit/comparison.hpp"
#include "emit/document_pages.hpp"
#include "emit/html.hpp"
#include "emit/page_parts.hpp"
#include "emit/view_drawings.hpp"

namespace norma::emit {
namespace {

using drawing::escaped;
using review::ProtocolChange;
using review::ViewChange;

/// Pairs of drawings on a page; each takes some hundred kilobytes.
constexpr std::size_t most_drawn = 60;

/// Words of the language, which stand between backticks, as code.
std::string with_code(const std::string& elements) {
  std::string out;
  bool inside = false;
  for (std::size_t i = 0; i < elements.size(); ++i) {
    // A pair lies within one element.
    const std::size_t next = elements.find_first_of("`<", i + 1);
    const bool pair = inside || (next != std::string::npos && elements[next] == '`');
    if (elements[i] != '`' || !pair) {
      out += elements[i];
      continue;
    }
    out += inside ? "</code>" : "<code>";
    inside = !inside;
  }
  return out;
}

class ComparisonHtml {
 public:
  ComparisonHtml(const review::Comparison& all, const wording::Language& in) : all_(all), in_(in) {}

  std::string build() {
    Document page = comparison(all_, in_);
    page.front().kind = BlockKind::title; // the verdict
    for (const ProtocolChange& p : all_.protocols) {
      for (const ViewChange& v : p.views) {
        if (v.told_here() && v.gravest() >= review::Class::quality) pairs(p, v);
      }
    }
    std::string body = "<main>\n<section>\n" + with_code(elements_of(page, in_)) + "</section>\n";
    if (!out_.empty()) {
      body += fmt::format("<section>\n<h1>{}</h1>\n{}", text(compared::drawings()), out_);
      if (left_out_ > 0)
        body += fmt::format("<p>{}</p>\n", text(compared::not_drawn(static_cast<int>(left_out_))));
      body += "</section>\n";
    }
    const std::string style = std::string(sheet_style) + drawing::svg_style();
    const std::string title = page.empty() ? std::string() : page.front().text;
    return html_file({title, style, body + "</main>\n", ""}, in_);
  }

 private:
  [[nodiscard]] std::string text(const diag::Said& what) const { return escaped(in_.text(what)); }

  void pairs(const ProtocolChange& p, const ViewChange& v) {
    for (std::size_t k = 0; k < all_.kits.size(); ++k) {
      // Where a kit shows no other picture, there is nothing to lay side by side.
      const bool other = std::any_of(v.entries.begin(), v.entries.end(), [&](const auto& e) {
        return e.kits[k].effect >= review::Class::quality;
      });
      if (!other) continue;
      if (drawn_ == most_drawn) {
        ++left_out_;
        continue;
      }
      ++drawn_;
      const diag::Said view = in_protocol(all_, p, view_said(p, v));
      const std::string& kit = all_.kits[k].name;
      out_ +=
          fmt::format("<h2>{}</h2>\n<div class=\"pair\">\n",
                      text(kit.empty() ? compared::views(view) : compared::drawn_with(view, kit)));
      one(p.before, v.before, k, compared::before());
      one(p.after, v.after, k, compared::after());
      out_ += "</div>\n";
    }
  }

  void one(const std::vector<const report::Held*>& held, int view, std::size_t kit,
           const diag::Said& side) {
    out_ += fmt::format("<div><h3>{}</h3>\n", text(side));
    if (view < 0) {
      out_ += fmt::format("<p>{}</p>\n", text(compared::no_such_view()));
    } else {
      const plan::ViewPlan& planned = held[kit]->plan.views[static_cast<std::size_t>(view)];
      if (const auto drawings = view_drawings(planned, Numbers::of_asked, in_)) {
        figure(drawings->finder, drawings->finder_words);
        figure(drawings->above, card::above());
      } else {
        out_ +=
            fmt::format("<p>{}</p>\n", text(compared::not_looked_at(missing_for_scene(planned))));
      }
    }
    out_ += "</div>\n";
  }

  void figure(const drawing::Drawing& what, const diag::Said& caption) {
    out_ += fmt::format("<figure>{}<figcaption>{}</figcaption></figure>\n",
                        drawing::as_svg(what, in_.text(caption), fmt::format("d{}", ++number_)),
                        text(caption));
  }

  const review::Comparison& all_;
  const wording::Language& in_;
  std::string out_;
  std::size_t drawn_ = 0;
  std::size_t left_out_ = 0;
  std::size_t number_ = 0;
};

} // namespace

std::string comparison_html(const review::Comparison& all, const wording::Language& in) {
  return ComparisonHtml(all, in).build();
}

} // namespace norma::emit
