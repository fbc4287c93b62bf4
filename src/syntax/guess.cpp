#include "syntax/guess.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <optional>

#include "words/meant.hpp"

namespace norma::syntax {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// Marks that word processors put in place of plain ones, and what stands for them here.
struct LookAlike {
  std::string_view mark;
  std::string_view help;
};
constexpr std::string_view straight_quotes = "texts stand between straight quotes: \"...\"";
constexpr std::string_view range = "write `to` between the ends of a range: `12 to 17`";
constexpr LookAlike look_alikes[] = {
    {"\xe2\x80\x9c", straight_quotes},
    {"\xe2\x80\x9d", straight_quotes},
    {"\xe2\x80\x9e", straight_quotes},
    {"\xc2\xab", straight_quotes},
    {"\xc2\xbb", straight_quotes},
    {"\xe2\x80\x98", "texts stand between straight double quotes: \"...\""},
    {"\xe2\x80\x99", "texts stand between straight double quotes: \"...\""},
    {"'", "texts stand between double quotes: \"...\""},
    {"\xe2\x80\x93", range},
    {"\xe2\x80\x94", range},
    {"\xe2\x88\x92", range},
    {"\xc2\xb0", "write `deg` for degrees: `45 deg`"},
    {"\xc3\x97", "write `x` between width and height: `36 x 24 mm`"},
    {"\xc2\xbd", "write one half as `1/2`"},
    {";", "list items are parted by commas, statements by new lines"},
    {"\xc2\xa0", "this is a no-break space; write a plain one"},
};
constexpr std::string_view dashes[] = {"-", "\xe2\x80\x93", "\xe2\x80\x94", "\xe2\x88\x92"};
/// Opening quotes and what closes them.
constexpr std::pair<std::string_view, std::string_view> quotes[] = {
    {"'", "'"},
    {"\xe2\x80\x9c", "\xe2\x80\x9d"},
    {"\xe2\x80\x9e", "\xe2\x80\x9c"},
    {"\xe2\x80\x9d", "\xe2\x80\x9d"},
    {"\xc2\xab", "\xc2\xbb"},
    {"\xe2\x80\x98", "\xe2\x80\x99"},
};

class Guesser {
 public:
  Guesser(std::string_view bytes, std::size_t at, std::size_t size)
      : bytes_(bytes), at_(at), run_(bytes.substr(at, size)) {
    const std::size_t line_end = bytes.find('\n', at);
    rest_ = bytes.substr(at, line_end == std::string_view::npos ? line_end : line_end - at);
  }

  Guess guess() {
    for (const auto way :
         {&Guesser::quoted, &Guesser::f_number, &Guesser::date, &Guesser::dash, &Guesser::glued,
          &Guesser::magnification, &Guesser::sign, &Guesser::trailing}) {
      if ((this->*way)()) return guess_;
    }
    for (const LookAlike& look : look_alikes) {
      if (run_.find(look.mark) != std::string_view::npos) return only(look.help);
    }
    if (is_digit(run_.front())) {
      return only("a number, a date or a ratio must end before the next letter or sign");
    }
    if (static_cast<unsigned char>(run_.front()) >= 0x80) {
      return only("words and names are written with the letters a to z, digits and `_`");
    }
    return only("take it out: no word, number or text starts like this");
  }

 private:
  static Guess only(std::string_view help) {
    Guess g;
    g.help = std::string(help);
    return g;
  }
  bool edit(std::size_t begin, std::size_t end, std::string replacement, std::string help) {
    guess_ = {std::move(help), true, begin, end, std::move(replacement)};
    return true;
  }
  bool edit_run(std::string replacement, std::string_view help) {
    return edit(at_, at_ + run_.size(), std::move(replacement), std::string(help));
  }
  [[nodiscard]] static bool all_digits(std::string_view s) {
    return !s.empty() && std::all_of(s.begin(), s.end(), is_digit);
  }
  /// The last sign before the run that is no blank.
  [[nodiscard]] char before() const {
    std::size_t i = at_;
    while (i > 0 && (bytes_[i - 1] == ' ' || bytes_[i - 1] == '\t'))
      --i;
    return i > 0 ? bytes_[i - 1] : '\n';
  }

  /// A text between quotes of another shape, closed on the same line.
  bool quoted() {
    for (const auto& [open, close] : quotes) {
      if (!run_.starts_with(open)) continue;
      const std::size_t end = rest_.find(close, open.size());
      if (end == std::string_view::npos) return false;
      const std::string inner(rest_.substr(open.size(), end - open.size()));
      if (inner.find('"') != std::string::npos || inner.find('\\') != std::string::npos)
        return false;
      return edit(at_, at_ + end + close.size(), "\"" + inner + "\"",
                  fmt::format("texts stand between straight double quotes: \"{}\"", inner));
    }
    return false;
  }

  /// `F/22`: the parser stopped behind the F.
  bool f_number() {
    if (run_.front() != '/' || at_ == 0 || bytes_[at_ - 1] != 'F') return false;
    return edit(at_ - 1, at_, "f", fmt::format("write a small f: `f{}`", run_));
  }

  /// `2026-9-1`, `1.9.2026`.
  bool date() {
    const char by = run_.find('-') != std::string_view::npos ? '-' : '.';
    const std::size_t first = run_.find(by);
    const std::size_t second = first == std::string_view::npos ? first : run_.find(by, first + 1);
    if (second == std::string_view::npos) return false;
    const std::string_view a = run_.substr(0, first);
    const std::string_view b = run_.substr(first + 1, second - first - 1);
    const std::string_view c = run_.substr(second + 1);
    if (!all_digits(a) || !all_digits(b) || !all_digits(c) || b.size() > 2) return false;
    const auto two = [](std::string_view n) {
      return n.size() == 1 ? "0" + std::string(n) : std::string(n);
    };
    if (a.size() == 4 && c.size() <= 2) {
      const std::string day = fmt::format("{}-{}-{}", a, two(b), two(c));
      return edit_run(day, fmt::format("a day is written with all its digits: `{}`", day));
    }
    if (a.size() <= 2 && c.size() == 4) {
      const std::string day = fmt::format("{}-{}-{}", c, two(b), two(a));
      return edit_run(day, fmt::format("a day is written as year, month, day: `{}`, if the day "
                                       "came first",
                                       day));
    }
    return false;
  }

  /// `15-25`, and `f/22-f/32` whose dash the parser stopped at.
  bool dash() {
    for (const std::string_view mark : dashes) {
      const std::size_t in = run_.find(mark);
      if (in == std::string_view::npos) continue;
      const std::string_view left = run_.substr(0, in);
      const std::string_view right = run_.substr(in + mark.size());
      if (all_digits(left) && all_digits(right)) {
        return edit_run(fmt::format("{} to {}", left, right), range);
      }
      if (in == 0 && is_digit(before())) {
        const bool blank_left = at_ > 0 && bytes_[at_ - 1] == ' ';
        const bool goes_on = !right.empty();
        return edit(at_, at_ + mark.size(),
                    fmt::format("{}to{}", blank_left ? "" : " ", goes_on ? " " : ""),
                    std::string(range));
      }
    }
    return false;
  }

  /// `15to25`, `36x24`: blanks are missing.
  bool glued() {
    for (const std::string_view word : {"to", "x"}) {
      const std::size_t in = run_.find(word);
      if (in == std::string_view::npos) continue;
      const std::string_view left = run_.substr(0, in);
      const std::string_view right = run_.substr(in + word.size());
      if (!all_digits(left) || right.empty() || !is_digit(right.front())) continue;
      const std::string spaced = fmt::format("{} {} {}", left, word, right);
      return edit_run(spaced, fmt::format("blanks are missing: `{}`", spaced));
    }
    return false;
  }

  /// `45°`, `36 × 24`, `together; usual bite`.
  bool sign() {
    const auto ends_with_mark = [&](std::string_view mark) {
      return run_.ends_with(mark) && all_digits(run_.substr(0, run_.size() - mark.size()));
    };
    if (ends_with_mark("\xc2\xb0")) {
      const std::string text = std::string(run_.substr(0, run_.size() - 2)) + " deg";
      return edit_run(text, fmt::format("write `deg` for degrees: `{}`", text));
    }
    if (run_ == "\xc3\x97")
      return edit_run("x", "write `x` between width and height: `36 x 24 mm`");
    if (run_ == ":" && is_digit(before())) return ratio_with_blanks();
    if (run_.front() == ':' && is_letter(before())) return colon();
    if (run_ == ";") {
      return edit_run(",", "list items are parted by commas, statements by new lines");
    }
    return false;
  }

  /// `iso: 200`, and `series all: front`.
  bool colon() {
    const std::size_t line = bytes_.rfind('\n', at_);
    std::string_view head = bytes_.substr(line == std::string_view::npos ? 0 : line + 1,
                                          at_ - (line == std::string_view::npos ? 0 : line + 1));
    head.remove_prefix(std::min(head.find_first_not_of(" \t"), head.size()));
    const bool lists = head.starts_with("series ") || head.starts_with("change series ");
    if (run_ == ":" && lists) {
      return edit(at_, at_ + 1, " =", "a list of views follows `=`: `series all = front, lower`");
    }
    return edit(at_, at_ + 1, run_.size() > 1 ? " " : "",
                "a word and its value stand side by side, without a colon");
  }

  /// `0.5x`, `2x`: how lenses name a ratio.
  bool magnification() {
    if (run_.size() < 2 || (run_.back() != 'x' && run_.back() != 'X')) return false;
    const auto ratio = words::meant_ratio(run_.substr(0, run_.size() - 1));
    if (!ratio) return false;
    return edit_run(*ratio, fmt::format("a ratio is written as size on the sensor to size of the "
                                        "subject: `{}`",
                                        *ratio));
  }

  /// `1 : 2`.
  bool ratio_with_blanks() {
    std::size_t begin = at_;
    while (begin > 0 && bytes_[begin - 1] == ' ')
      --begin;
    std::size_t end = at_ + 1;
    while (end < bytes_.size() && bytes_[end] == ' ')
      ++end;
    if (end >= bytes_.size() || !is_digit(bytes_[end])) return false;
    return edit(begin, end, ":", "a ratio is written without blanks: `1:2`");
  }

  /// A full stop or colon behind a number or word.
  bool trailing() {
    if (run_ != "." && run_ != "!" && run_ != "?") return false;
    if (rest_.size() > 1 && rest_[1] == '"') {
      guess_ = only("a text stands between quotes: the one that opens it is missing");
      return true;
    }
    return edit_run("", "a statement ends with its line, without a full stop");
  }

  std::string_view bytes_;
  std::size_t at_;
  std::string_view run_;
  std::string_view rest_; // of the line
  Guess guess_;
};

} // namespace

Guess guess_of_run(std::string_view bytes, std::size_t at, std::size_t size) {
  return Guesser(bytes, at, size).guess();
}

} // namespace norma::syntax
