// The whole series as one table for the screen: a row for each view.
#include <fmt/core.h>

#include "drawing/svg.hpp"
#include "emit/card.hpp"
#include "emit/card_words.hpp"
#include "emit/html.hpp"
#include "emit/page_parts.hpp"

namespace norma::emit {
namespace {

using drawing::escaped;

class RowsPage {
 public:
  explicit RowsPage(const wording::Language& in) : in_(in) {}

  std::string build(const std::vector<Cards>& all) {
    for (const Cards& cards : all)
      sheet(cards);
    const std::string title =
        all.empty() ? std::string() : in_.text(card::title(all.front().title));
    const std::string style = std::string(rows_style) + drawing::svg_style();
    return html_file({title, style, "<main>\n" + out_ + "</main>\n", ""}, in_);
  }

 private:
  [[nodiscard]] std::string text(const diag::Said& what) const { return escaped(in_.text(what)); }

  void sheet(const Cards& cards) {
    out_ += fmt::format("<section>\n<h1>{}</h1>\n", escaped(cards.title));
    if (!cards.unread.empty()) {
      out_ += fmt::format("<p class=\"big\">{}</p>\n", escaped(cards.unread.front()));
      lines({cards.unread.begin() + 1, cards.unread.end()});
    } else {
      out_ += fmt::format(
          "<table>\n<colgroup><col class=\"picture\"><col class=\"name\"><col class=\"settings\">"
          "<col class=\"camera\"><col class=\"hands\"><col></colgroup>\n"
          "<thead><tr><th scope=\"colgroup\" colspan=\"2\">{}</th><th scope=\"col\">{}</th>"
          "<th scope=\"col\">{}</th><th scope=\"col\">{}</th><th scope=\"col\">{}</th></tr></thead>"
          "\n<tbody>\n",
          text(card::all()), text(card::settings()), text(card::camera()), text(card::holds()),
          text(card::changes()));
      for (const Card& c : cards.cards)
        row(c);
      out_ += "</tbody>\n</table>\n";
    }
    out_ += fmt::format("<footer>{} {}</footer>\n</section>\n", escaped(cards.about),
                        escaped(cards.caution));
  }

  void lines(const std::vector<std::string>& all) {
    if (all.empty()) return;
    out_ += "<ul>\n";
    for (const std::string& one : all)
      out_ += fmt::format("<li>{}</li>\n", escaped(one));
    out_ += "</ul>\n";
  }
  void line(const std::string& who, const std::string& what) {
    out_ += fmt::format("<li><b>{}</b>: {}</li>\n", escaped(who), escaped(what));
  }

  void row(const Card& c) {
    ++number_;
    out_ += "<tr>\n<td>";
    if (c.finder)
      out_ += drawing::as_svg(drawing::plainer(*c.finder), in_.text(card::finder_of(c.title)),
                              fmt::format("r{}", number_));
    out_ += fmt::format(
        "</td>\n<th scope=\"row\"><b>{}</b> {} {}",
        escaped(c.optional ? c.title + " (" + in_.text(card::optional()) + ")" : c.title),
        escaped(c.place), escaped(c.code));
    if (!c.turn_words.empty() && c.turn != physics::Turn::none)
      out_ += fmt::format("<br>{}", escaped(c.turn_words));
    out_ += "</th>\n";
    c.had ? had(c) : not_had(c);
    out_ += "</tr>\n";
  }

  void not_had(const Card& c) {
    out_ += fmt::format("<td class=\"none\" colspan=\"4\"><b>{}</b>\n", escaped(c.not_had));
    lines(c.against);
    if (!c.would_do.empty()) out_ += fmt::format("<b>{}</b>\n", text(card::would_do()));
    lines(c.would_do);
    out_ += "</td>\n";
  }

  void had(const Card& c) {
    out_ += "<td class=\"set\">";
    for (const CardSetting& s : c.settings) {
      out_ += fmt::format("<b>{}</b>", escaped(s.value));
      if (!s.note.empty()) out_ += fmt::format("<span>{}</span>", escaped(s.note));
    }
    out_ += fmt::format("</td>\n<td><p>{}</p>\n", escaped(c.camera));
    lines(c.look);
    out_ += "</td>\n<td><ul>\n";
    for (const CardHands& h : c.hands)
      line(h.who, h.holds);
    out_ += "</ul></td>\n<td>";
    if (c.steps.empty()) {
      out_ += text(card::nothing_changes());
    } else {
      out_ += "<ul>\n";
      for (const CardStep& s : c.steps)
        line(s.who, s.what);
      out_ += "</ul>";
    }
    out_ += "</td>\n";
  }

  const wording::Language& in_;
  int number_ = 0;
  std::string out_;
};

} // namespace

std::string cards_in_rows_html(const std::vector<Cards>& all, const wording::Language& in) {
  return RowsPage(in).build(all);
}

} // namespace norma::emit
