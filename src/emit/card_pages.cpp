#include "emit/card_pages.hpp"

#include <algorithm>

#include "emit/card_words.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

using drawing::Anchor;
using drawing::Figure;
using drawing::PaperPage;
using drawing::Paragraph;
using drawing::Part;
using drawing::Role;
using drawing::Spot;
using drawing::TextBox;

class Layout {
 public:
  Layout(const Cards& cards, const Card* c, const PaperSize& paper, const wording::Language& in)
      : cards_(cards), c_(c), in_(in), width_(paper.width - 2 * margin) {
    out_.width = paper.width;
    out_.height = paper.height;
    top_ = margin + head + 3;
    bottom_ = paper.height - margin - foot;
  }

  PaperPage build() {
    if (c_ == nullptr) {
      heading(cards_.title, "", "");
      refused(cards_.unread.front());
    } else {
      heading(c_->optional ? c_->title + " (" + text(card::optional()) + ")" : c_->title, c_->place,
              c_->code);
      c_->had ? had() : refused(c_->not_had);
    }
    footer();
    return std::move(out_);
  }

 private:
  // Sizes of letters, mm.
  static constexpr double of_title = 9.2;
  static constexpr double of_place = 5.6;
  static constexpr double of_heading = 3.4;
  static constexpr double of_text = 4.4;
  static constexpr double of_notes = 3.6;
  static constexpr double of_value = 13.2;
  static constexpr double of_long_value = 6.8;
  static constexpr double of_foot = 2.6;

  static constexpr double margin = 8;
  static constexpr double gap = 6;
  static constexpr double head = 14;  // height of the title's line
  static constexpr double foot = 5.5; // of the last line
  static constexpr double row = 80;   // of drawings and settings

  [[nodiscard]] std::string text(const diag::Said& what) const { return in_.text(what); }

  static Paragraph plain(std::string text, double size = of_text, Role role = Role::word) {
    return {{{std::move(text), false}}, size, role, Part::text, 0};
  }
  [[nodiscard]] Paragraph title_of(const diag::Said& what, double before = 0) const {
    return {{{text(what), true}}, of_heading, Role::accent_word, Part::heading, before};
  }
  void list(std::vector<Paragraph>& to, const diag::Said& what,
            const std::vector<std::string>& lines, Part part, double size = of_text) const {
    if (lines.empty()) return;
    to.push_back(title_of(what, to.empty() ? 0 : 2.2));
    for (const std::string& line : lines)
      to.push_back({{{line, false}}, size, Role::word, part, 0.6});
  }
  void box(Spot at, double width, double height, std::vector<Paragraph> paragraphs,
           Anchor anchor = Anchor::start) {
    if (!paragraphs.empty())
      out_.boxes.push_back({at, width, height, std::move(paragraphs), anchor, 0.5});
  }
  void line(Role role, Spot from, Spot to) {
    out_.items.push_back(drawing::shape(role, {{from, to}, false, false}));
  }
  void ground(Role role, Spot at, double width, double height) {
    out_.items.push_back(drawing::shape(role, drawing::box(at, width, height)));
  }

  void heading(const std::string& title, const std::string& place, const std::string& code) {
    out_.name = title;
    constexpr double for_place = 62;
    constexpr double for_code = 22;
    box({margin, margin}, width_ - for_place - for_code - 2 * gap, head - 1,
        {{{{title, true}}, of_title, Role::word, Part::title, 0}});
    const double right = margin + width_;
    const double at = code.empty() ? right : right - for_code - 3;
    if (!place.empty())
      box({at - for_place, margin + 3.2}, for_place, 10, {plain(place, of_place)}, Anchor::end);
    if (!code.empty()) {
      ground(Role::thin_panel, {right - for_code, margin + 2.2}, for_code, 9.4);
      box({right - for_code, margin + 3.2}, for_code, 8, {plain(code, of_place)}, Anchor::middle);
    }
    line(Role::panel, {margin, margin + head}, {right, margin + head});
  }

  void footer() {
    const double y = out_.height - margin - foot + 1;
    line(Role::rule, {margin, y}, {margin + width_, y});
    box({margin, y + 0.6}, width_, foot - 1.6,
        {plain(cards_.about + " " + cards_.caution, of_foot, Role::faint_word)});
  }

  /// A view that cannot be had, or cards that could not be made: why, and what would do.
  void refused(const std::string& how) {
    ground(Role::panel, {margin, top_ + 4}, 0.62 * width_, 24);
    box({margin + 6, top_ + 9}, 0.62 * width_ - 12, 15,
        {{{{how, true}}, 11.5, Role::word, Part::heading, 0}});
    std::vector<Paragraph> why;
    constexpr double size = 5;
    if (c_ == nullptr) {
      for (std::size_t i = 1; i < cards_.unread.size(); ++i)
        why.push_back({{{cards_.unread[i], false}}, size, Role::word, Part::item, 1});
    } else {
      list(why, card::against(), c_->against, Part::item, size);
      list(why, card::would_do(), c_->would_do, Part::item, size);
      list(why, card::instead(), c_->instead, Part::item, size);
    }
    const double y = top_ + 34;
    box({margin, y}, width_, bottom_ - y, std::move(why));
  }

  void had() {
    left_ = 0.415 * width_;
    middle_ = 0.215 * width_;
    right_ = width_ - left_ - middle_ - 2 * gap;
    const double below = finder();
    settings();
    where();
    const double second = std::max(below, top_ + row + 22) + 3;
    steps({margin, second}, left_, bottom_ - second);
    say_and_look({margin + left_ + gap, second}, middle_, bottom_ - second);
    remarks({margin + left_ + middle_ + 2 * gap, second}, right_, bottom_ - second);
  }

  /// Its lower end.
  double finder() {
    if (!c_->finder) {
      box({margin, top_}, left_, 20, {plain(text(card::no_drawing(c_->no_drawing)))});
      return top_ + 20;
    }
    const drawing::Drawing& d = *c_->finder;
    const double scale = std::min(left_ / d.width, row / d.height);
    double y = top_;
    out_.figures.push_back(
        {d, {margin, y}, scale, physics::Turn::none, text(card::finder_of(c_->title))});
    y += scale * d.height + 0.8;
    box({margin, y}, left_, 4, {plain(c_->finder_words, 2.9, Role::faint_word)});
    y += 5;
    if (c_->turn_words.empty()) return y;
    double x = margin;
    const bool turned = c_->turn != physics::Turn::none;
    constexpr double high = 17;
    if (turned) {
      Figure small{drawing::plainer(d), {x, y}, 1, c_->turn, text(card::filed())};
      small.scale = high / small.height();
      x += small.width() + 4;
      out_.figures.push_back(std::move(small));
    }
    box({x, y}, margin + left_ - x, high,
        {title_of(card::filed()),
         {{{turned ? c_->turn_words : text(card::filed_as_shot()), true}},
          4,
          Role::word,
          Part::text,
          0.4}});
    return y + (turned ? high : 11);
  }

  void settings() {
    const Spot at{margin + left_ + gap, top_};
    ground(Role::panel, at, middle_, row + 8);
    std::vector<Paragraph> all{title_of(card::settings())};
    for (const CardSetting& s : c_->settings) {
      constexpr std::size_t long_value = 8; // letters
      all.push_back(plain(s.what, of_notes, Role::faint_word));
      all.back().before = 1.4;
      all.push_back({{{s.value, true}},
                     text::display_width(s.value) > long_value ? of_long_value : of_value,
                     s.stays ? Role::faint_word : Role::word,
                     Part::text,
                     0});
      const std::string note = s.note.empty() && s.stays ? text(card::stays()) : s.note;
      if (!note.empty()) all.push_back(plain(note, of_notes));
    }
    if (!c_->also_set.empty()) {
      all.push_back(plain(c_->also_set, of_notes));
      all.back().before = 1.4;
    }
    box({at.x + 4, at.y + 3}, middle_ - 8, row + 2, std::move(all));
  }

  void where() {
    const double x = margin + left_ + middle_ + 2 * gap;
    constexpr double plan = 50;
    double beside = x;
    if (c_->above) {
      const double scale = plan / c_->above->width;
      out_.figures.push_back(
          {*c_->above, {x, top_}, scale, physics::Turn::none, text(card::above_of(c_->title))});
      box({x, top_ + plan + 0.6}, plan, 7, {plain(text(card::above()), 2.9, Role::faint_word)});
      beside += plan + 3;
    }
    box({beside, top_}, x + right_ - beside, plan + 4,
        {title_of(card::camera()), plain(c_->camera, of_notes)});
    std::vector<Paragraph> hands{title_of(card::holds())};
    for (const CardHands& h : c_->hands) {
      hands.push_back(
          {{{h.who + ": ", true}, {h.holds, false}}, of_text, Role::word, Part::text, 0.6});
    }
    const double y = top_ + plan + 9;
    box({x, y}, right_, top_ + row + 22 - y, std::move(hands));
  }

  void steps(Spot at, double width, double height) {
    std::vector<Paragraph> all{title_of(card::changes())};
    if (c_->steps.empty()) all.push_back(plain(text(card::nothing_changes())));
    for (const CardStep& s : c_->steps)
      all.push_back(
          {{{s.who + ": ", true}, {s.what, false}}, of_text, Role::word, Part::number, 0.8});
    if (!c_->as_before.empty()) {
      all.push_back(plain(c_->as_before));
      all.back().before = 1;
    }
    box(at, width, height, std::move(all));
  }

  void say_and_look(Spot at, double width, double height) {
    if (!c_->say.empty()) {
      constexpr double high = 21;
      ground(Role::tint, at, width, high);
      ground(Role::accent_bar, at, 1.2, high);
      std::vector<Paragraph> say{title_of(card::say())};
      for (const std::string& one : c_->say)
        say.push_back({{{one, true}}, 4.6, Role::word, Part::text, 0.4});
      box({at.x + 3.4, at.y + 1.6}, width - 5, high - 3, std::move(say));
      at.y += high + 3;
      height -= high + 3;
    }
    std::vector<Paragraph> look;
    list(look, card::look(), c_->look, Part::tick);
    box(at, width, height, std::move(look));
  }

  void remarks(Spot at, double width, double height) {
    std::vector<Paragraph> all;
    list(all, card::stop(), c_->stop, Part::item);
    list(all, card::take_care(), c_->care, Part::item);
    list(all, card::again(), c_->again, Part::item);
    list(all, card::instead(), c_->instead, Part::item);
    box(at, width, height, std::move(all));
  }

  const Cards& cards_;
  const Card* c_; // null: nothing could be made
  const wording::Language& in_;
  double width_;
  double top_ = 0;
  double bottom_ = 0;
  double left_ = 0;
  double middle_ = 0;
  double right_ = 0;
  PaperPage out_;
};

/// Views as rows: picture, name, settings, camera, hands, what changes.
class Rows {
 public:
  Rows(const Cards& cards, const PaperSize& paper, const wording::Language& in)
      : cards_(cards), in_(in), paper_(paper) {}

  void add_to(drawing::Paper& to) {
    constexpr std::size_t most = 10;
    const std::size_t count = cards_.cards.size();
    const std::size_t pages = (count + most - 1) / most;
    for (std::size_t page = 0; page < pages; ++page) {
      const std::size_t first = page * count / pages;
      const std::size_t last = (page + 1) * count / pages;
      to.pages.push_back(one_page(first, last));
    }
  }

 private:
  static constexpr double margin = 8;
  static constexpr double head = 11;
  static constexpr double foot = 5.5;
  static constexpr double gap = 3;
  static constexpr double of_text = 3.5;
  // Shares of the width; the steps have the rest.
  static constexpr double of_picture = 0.13;
  static constexpr double of_name = 0.14;
  static constexpr double of_settings = 0.10;
  static constexpr double of_camera = 0.25;
  static constexpr double of_hands = 0.13;

  PaperPage one_page(std::size_t first, std::size_t last) {
    PaperPage out;
    out.width = paper_.width;
    out.height = paper_.height;
    out.name = cards_.title;
    const double width = paper_.width - 2 * margin;
    out.boxes.push_back({{margin, margin},
                         width,
                         head - 2,
                         {{{{cards_.title, true}}, 6.6, Role::word, Part::title, 0}}});
    const double top = margin + head;
    const double bottom = paper_.height - margin - foot;
    const double high = std::min(34.0, (bottom - top) / static_cast<double>(last - first));
    double y = top;
    for (std::size_t i = first; i < last; ++i, y += high) {
      line(out, y);
      one_row(out, cards_.cards[i], {margin, y + 1.2}, width, high - 2.4);
    }
    line(out, y);
    out.boxes.push_back(
        {{margin, paper_.height - margin - foot + 1},
         width,
         foot - 2,
         {{{{cards_.about + " " + cards_.caution, false}}, 2.6, Role::faint_word, Part::text, 0}}});
    return out;
  }

  void line(PaperPage& out, double y) const {
    out.items.push_back(
        drawing::shape(Role::rule, {{{margin, y}, {paper_.width - margin, y}}, false, false}));
  }

  static std::string in_a_row(const std::vector<std::string>& all) {
    std::string out;
    for (const std::string& one : all)
      out += (out.empty() ? "" : "; ") + one;
    return out;
  }

  void one_row(PaperPage& out, const Card& c, Spot at, double width, double high) const {
    const auto box = [&](double share, std::vector<Paragraph> paragraphs) {
      const double wide = share * width - gap;
      if (!paragraphs.empty())
        out.boxes.push_back({at, wide, high, std::move(paragraphs), Anchor::start, 0.4});
      at.x += share * width;
    };
    const auto plain = [&](std::string text, bool bold = false) {
      return Paragraph{{{std::move(text), bold}}, of_text, Role::word, Part::text, 0.4};
    };
    if (c.finder) {
      const double scale =
          std::min((of_picture * width - gap) / c.finder->width, high / c.finder->height);
      out.figures.push_back(
          {*c.finder, at, scale, physics::Turn::none, in_.text(card::finder_of(c.title))});
    }
    at.x += of_picture * width;
    std::vector<Paragraph> name{{{{c.title, true}}, 4.2, Role::word, Part::heading, 0}};
    name.push_back(plain(c.place + (c.code.empty() ? "" : "  " + c.code)));
    if (!c.turn_words.empty() && c.turn != physics::Turn::none) name.push_back(plain(c.turn_words));
    box(of_name, std::move(name));
    if (!c.had) {
      // Run on: a row is low, and wide here.
      Paragraph why = plain(c.not_had + ": ", true);
      why.runs.push_back({in_a_row(c.against), false});
      std::vector<Paragraph> all{std::move(why)};
      if (!c.would_do.empty()) {
        all.push_back(plain(in_.text(card::would_do()) + ": ", true));
        all.back().runs.push_back({in_a_row(c.would_do), false});
      }
      box(1 - of_picture - of_name, std::move(all));
      return;
    }
    std::vector<Paragraph> settings;
    for (const CardSetting& s : c.settings) {
      settings.push_back({{{s.value, true}}, 5.4, Role::word, Part::text, 0});
      if (!s.note.empty()) settings.push_back(plain(s.note));
    }
    box(of_settings, std::move(settings));
    std::vector<Paragraph> camera{plain(c.camera)};
    for (const std::string& one : c.look)
      camera.push_back(plain(one));
    box(of_camera, std::move(camera));
    std::vector<Paragraph> hands;
    for (const CardHands& h : c.hands) {
      hands.push_back(
          {{{h.who + ": ", true}, {h.holds, false}}, of_text, Role::word, Part::text, 0.4});
    }
    box(of_hands, std::move(hands));
    std::vector<Paragraph> steps;
    for (const CardStep& s : c.steps)
      steps.push_back(
          {{{s.who + ": ", true}, {s.what, false}}, of_text, Role::word, Part::text, 0.4});
    if (steps.empty()) steps.push_back(plain(in_.text(card::nothing_changes())));
    box(1 - of_picture - of_name - of_settings - of_camera - of_hands, std::move(steps));
  }

  const Cards& cards_;
  const wording::Language& in_;
  const PaperSize& paper_;
};

/// A document of all of them: `lay_out` adds the pages of those that could be made.
template <class LayOut>
drawing::Paper paper_of(const std::vector<Cards>& all, const PaperSize& paper,
                        const wording::Language& in, const LayOut& lay_out) {
  drawing::Paper out;
  out.language = in.tag();
  if (!all.empty()) out.title = in.text(card::title(all.front().title));
  for (const Cards& cards : all) {
    if (!cards.unread.empty()) out.pages.push_back(Layout(cards, nullptr, paper, in).build());
    lay_out(cards, out);
  }
  return out;
}

} // namespace

drawing::Paper cards_on_paper(const std::vector<Cards>& all, const PaperSize& paper,
                              const wording::Language& in) {
  return paper_of(all, paper, in, [&](const Cards& cards, drawing::Paper& out) {
    for (const Card& c : cards.cards)
      out.pages.push_back(Layout(cards, &c, paper, in).build());
  });
}

drawing::Paper cards_in_rows(const std::vector<Cards>& all, const PaperSize& paper,
                             const wording::Language& in) {
  return paper_of(all, paper, in, [&](const Cards& cards, drawing::Paper& out) {
    Rows(cards, paper, in).add_to(out);
  });
}

} // namespace norma::emit
