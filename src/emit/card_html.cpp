#include <fmt/core.h>

#include "drawing/svg.hpp"
#include "emit/card.hpp"
#include "emit/card_words.hpp"
#include "emit/html.hpp"
#include "emit/page_parts.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

using drawing::escaped;

class Page {
 public:
  explicit Page(const wording::Language& in) : in_(in) {}

  std::string build(const std::vector<Cards>& all) {
    for (const Cards& cards : all)
      set(cards);
    const std::string title =
        all.empty() ? std::string() : in_.text(card::title(all.front().title));
    const std::string style = std::string(card_style) + drawing::svg_style();
    return html_file({title, style, bar() + "<main>\n" + out_ + "</main>\n", card_script}, in_);
  }

 private:
  [[nodiscard]] std::string text(const diag::Said& what) const { return escaped(in_.text(what)); }

  [[nodiscard]] std::string bar() const {
    return fmt::format("<nav aria-label=\"{0}\"><button id=\"before\">{1}</button>"
                       "<p id=\"where\" aria-live=\"polite\"></p>"
                       "<button id=\"next\">{2}</button>"
                       "<button id=\"mode\" aria-pressed=\"true\">{3}</button></nav>\n",
                       text(card::all()), text(card::before()), text(card::next()),
                       text(card::one()));
  }

  void set(const Cards& cards) {
    out_ += fmt::format("<div class=\"sheet\"><h1>{}</h1><p>{} {}</p></div>\n",
                        escaped(in_.text(card::title(cards.title))), escaped(cards.about),
                        escaped(cards.caution));
    if (!cards.unread.empty()) unread(cards);
    for (const Card& c : cards.cards)
      c.had ? page(c, cards) : none(c, cards);
  }

  void unread(const Cards& cards) {
    open(cards.title, "", "", " none");
    out_ +=
        fmt::format("<div class=\"body\"><p class=\"big\">{}</p>\n", escaped(cards.unread.front()));
    list("ul", "", {cards.unread.begin() + 1, cards.unread.end()});
    out_ += "</div>\n";
    close(cards);
  }

  void open(std::string_view title, std::string_view place, std::string_view code,
            std::string_view more) {
    ++number_;
    out_ += fmt::format("<section class=\"card{0}\" id=\"card-{1}\" aria-labelledby=\"title-{1}\" "
                        "data-place=\"{2}\">\n"
                        "<header><h2 id=\"title-{1}\" tabindex=\"-1\">{3}</h2>",
                        more, number_, escaped(place), escaped(title));
    if (!place.empty()) out_ += fmt::format("<p class=\"place\">{}</p>", escaped(place));
    if (!code.empty()) out_ += fmt::format("<p class=\"code\">{}</p>", escaped(code));
    out_ += "</header>\n";
  }
  void close(const Cards& cards) {
    out_ += fmt::format("<footer>{} {}</footer>\n</section>\n", escaped(cards.about),
                        escaped(cards.caution));
  }

  void list(std::string_view tag, std::string_view kind, const std::vector<std::string>& lines) {
    out_ += fmt::format("<{}{}>\n", tag,
                        kind.empty() ? std::string() : fmt::format(" class=\"{}\"", kind));
    for (const std::string& line : lines)
      out_ += fmt::format("<li>{}</li>\n", escaped(line));
    out_ += fmt::format("</{}>\n", tag);
  }
  void heading(const diag::Said& what) { out_ += fmt::format("<h3>{}</h3>\n", text(what)); }
  /// A heading and its lines; nothing where there are none.
  void block(const diag::Said& what, std::string_view kind, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    out_ += fmt::format("<div class=\"{}\">", kind);
    heading(what);
    list("ul", "", lines);
    out_ += "</div>\n";
  }

  void none(const Card& c, const Cards& cards) {
    open(title_of(c), c.place, c.code, " none");
    out_ += fmt::format("<div class=\"body\"><p class=\"big\">{}</p>\n", escaped(c.not_had));
    block(card::against(), "why", c.against);
    block(card::would_do(), "help", c.would_do);
    block(card::instead(), "instead", c.instead);
    out_ += "</div>\n";
    close(cards);
  }

  [[nodiscard]] std::string title_of(const Card& c) const {
    return c.optional ? c.title + " (" + in_.text(card::optional()) + ")" : c.title;
  }

  void page(const Card& c, const Cards& cards) {
    open(title_of(c), c.place, c.code, "");
    finder(c);
    settings(c);
    where(c);
    steps(c);
    out_ += "<div>\n";
    for (const std::string& say : c.say)
      out_ +=
          fmt::format("<div class=\"say\"><h3>{}</h3>{}</div>\n", text(card::say()), escaped(say));
    block(card::look(), "look", c.look);
    out_ += "</div>\n<div>\n";
    block(card::stop(), "warn", c.stop);
    block(card::take_care(), "warn", c.care);
    block(card::again(), "warn", c.again);
    block(card::instead(), "warn", c.instead);
    out_ += "</div>\n";
    close(cards);
  }

  void finder(const Card& c) {
    out_ += "<figure>\n";
    if (c.finder) {
      out_ += drawing::as_svg(*c.finder, in_.text(card::finder_of(c.title)),
                              fmt::format("f{}", number_));
      out_ += fmt::format("<figcaption>{}</figcaption>\n", c.finder_words);
      filed(c);
    } else {
      out_ += fmt::format("<p>{}</p>\n", text(card::no_drawing(c.no_drawing)));
    }
    out_ += "</figure>\n";
  }

  /// The picture as it is kept, small, and how it is turned to become that.
  void filed(const Card& c) {
    if (c.turn_words.empty()) return;
    const bool turned = c.turn != physics::Turn::none;
    out_ += "<div class=\"filed\">";
    if (turned) {
      out_ += drawing::as_svg_turned(*c.finder, c.turn, in_.text(card::filed()),
                                     fmt::format("f{}", number_));
    }
    out_ += fmt::format("<div><h3>{}</h3><p>{}</p></div></div>\n", text(card::filed()),
                        turned ? escaped(c.turn_words) : text(card::filed_as_shot()));
  }

  void settings(const Card& c) {
    constexpr std::size_t long_value = 8; // letters
    out_ += fmt::format("<div class=\"set\"><h3>{}</h3><dl>\n", text(card::settings()));
    for (const CardSetting& s : c.settings) {
      out_ += fmt::format("<dt>{}</dt><dd class=\"{}{}\">{}", escaped(s.what),
                          text::display_width(s.value) > long_value ? "long" : "value",
                          s.stays ? " stays" : "", escaped(s.value));
      const std::string note = s.note.empty() && s.stays ? in_.text(card::stays()) : s.note;
      if (!note.empty()) out_ += fmt::format("<small>{}</small>", escaped(note));
      out_ += "</dd>\n";
    }
    out_ += "</dl>\n";
    if (!c.also_set.empty()) out_ += fmt::format("<p>{}</p>\n", escaped(c.also_set));
    out_ += "</div>\n";
  }

  void where(const Card& c) {
    out_ += "<div class=\"where\">\n";
    if (c.above) {
      out_ += fmt::format(
          "<figure>{}<figcaption>{}</figcaption></figure>\n",
          drawing::as_svg(*c.above, in_.text(card::above_of(c.title)), fmt::format("a{}", number_)),
          text(card::above()));
    }
    out_ += "<div>\n";
    heading(card::camera());
    out_ += fmt::format("<p>{}</p></div>\n<div class=\"hands\">\n", escaped(c.camera));
    heading(card::holds());
    out_ += "<dl>\n";
    for (const CardHands& h : c.hands) {
      out_ += fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(h.who), escaped(h.holds));
    }
    out_ += "</dl></div></div>\n";
  }

  void steps(const Card& c) {
    out_ += "<div class=\"steps\">\n";
    heading(card::changes());
    if (c.steps.empty())
      out_ += fmt::format("<p>{}</p>\n", text(card::nothing_changes()));
    else {
      out_ += "<ol>\n";
      for (const CardStep& s : c.steps)
        out_ += fmt::format("<li><b>{}</b>: {}</li>\n", escaped(s.who), escaped(s.what));
      out_ += "</ol>\n";
    }
    if (!c.as_before.empty()) out_ += fmt::format("<p>{}</p>\n", escaped(c.as_before));
    out_ += "</div>\n";
  }

  const wording::Language& in_;
  int number_ = 0;
  std::string out_;
};

} // namespace

std::string cards_html(const std::vector<Cards>& all, const wording::Language& in) {
  return Page(in).build(all);
}

} // namespace norma::emit
