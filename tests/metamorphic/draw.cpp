#include "draw.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "physics/quantity_text.hpp"
#include "support/support.hpp"
#include "words/codes.hpp"
#include "words/literal.hpp"

namespace norma::test::meta {
namespace {

using words::Clause;
using words::Word;

std::vector<std::string> split(std::string_view s, char by) {
  std::vector<std::string> out;
  std::size_t at = 0;
  while (at <= s.size()) {
    const std::size_t stop = std::min(s.find(by, at), s.size());
    if (stop > at) out.emplace_back(s.substr(at, stop - at));
    at = stop + 1;
  }
  return out;
}

// Patterns ---------------------------------------------------------------------------------------

/// A pattern of the word table, as its header says that they are written.
struct Element {
  enum class Kind { word, choice, option, value };
  Kind kind = Kind::word;
  std::string text;                 // of a word; the kind of a value
  std::vector<std::string> choices; // longest first
  std::vector<Element> inner;       // of an option
};

std::vector<Element> elements(std::string_view& rest) {
  std::vector<Element> out;
  while (!rest.empty()) {
    const char c = rest.front();
    if (c == ' ') {
      rest.remove_prefix(1);
      continue;
    }
    if (c == ']') {
      rest.remove_prefix(1);
      return out;
    }
    Element e;
    if (c == '[') {
      rest.remove_prefix(1);
      e.kind = Element::Kind::option;
      e.inner = elements(rest);
    } else if (c == '(') {
      const std::size_t end = rest.find(')');
      e.kind = Element::Kind::choice;
      e.text = rest.substr(1, end - 1);
      e.choices = split(e.text, '|');
      std::stable_sort(e.choices.begin(), e.choices.end(), [](const auto& a, const auto& b) {
        return std::count(a.begin(), a.end(), ' ') > std::count(b.begin(), b.end(), ' ');
      });
      rest.remove_prefix(end + 1);
    } else {
      const std::size_t end = std::min(rest.find_first_of(" []"), rest.size());
      e.kind = c == '@' ? Element::Kind::value : Element::Kind::word;
      e.text = rest.substr(c == '@' ? 1 : 0, end - (c == '@' ? 1 : 0));
      rest.remove_prefix(end);
    }
    out.push_back(std::move(e));
  }
  return out;
}
std::vector<Element> pattern(std::string_view text) { return elements(text); }

/// Blank-parted words of a text; what stands between quotes is one.
std::vector<std::string> tokens(std::string_view text) {
  std::vector<std::string> out(1);
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (c == ' ' && !quoted) {
      if (!out.back().empty()) out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

/// What a value of this kind is, as a piece.
Piece::Kind piece_of(std::string_view kind) {
  if (kind == "tooth" || kind == "teeth") return Piece::Kind::teeth;
  if (kind == "name") return Piece::Kind::view;
  if (kind == "code") return Piece::Kind::code;
  if (kind == "text") return Piece::Kind::text;
  return Piece::Kind::other;
}

/// How many of `t` from `at` on the pattern takes, as `out`; npos where it does not fit.
std::size_t taken(const std::vector<Element>& p, const std::vector<std::string>& t, std::size_t at,
                  std::vector<Piece>& out) {
  for (const Element& e : p) {
    if (e.kind == Element::Kind::option) {
      std::vector<Piece> inner;
      const std::size_t there = taken(e.inner, t, at, inner);
      if (there == std::string::npos) continue;
      at = there;
      out.insert(out.end(), inner.begin(), inner.end());
      continue;
    }
    if (at >= t.size()) return std::string::npos;
    if (e.kind == Element::Kind::word) {
      if (t[at++] != e.text) return std::string::npos;
      out.push_back({Piece::Kind::plain, e.text});
    } else if (e.kind == Element::Kind::choice) {
      const auto fits = [&](const std::string& choice) {
        const std::vector<std::string> parts = split(choice, ' ');
        return at + parts.size() <= t.size() &&
               std::equal(parts.begin(), parts.end(), t.begin() + static_cast<std::ptrdiff_t>(at));
      };
      const auto one = std::find_if(e.choices.begin(), e.choices.end(), fits);
      if (one == e.choices.end()) return std::string::npos;
      at += split(*one, ' ').size();
      out.push_back({Piece::Kind::symbol, *one});
    } else {
      const bool number = std::isdigit(static_cast<unsigned char>(t[at].front())) != 0;
      const bool literal = number || t[at].front() == '"' || t[at].starts_with("f/");
      const bool word = e.text == "name" || e.text == "code" || e.text == "word";
      if (literal == word || (t[at].front() == '"') != (e.text == "text")) return std::string::npos;
      const std::size_t from = at++;
      if (e.text == "size") at += 2;
      if (e.text == "teeth" && at + 1 < t.size() && t[at] == "to") at += 2;
      if (number && at < t.size() && words::find_unit(t[at]) != nullptr) ++at;
      std::string text;
      for (std::size_t i = from; i < std::min(at, t.size()); ++i)
        text += (text.empty() ? "" : " ") + t[i];
      out.push_back({piece_of(e.text), text});
    }
  }
  return at;
}

/// Parts of a line at the commas that stand outside of texts.
std::vector<std::string> at_commas(std::string_view line) {
  std::vector<std::string> out(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') quoted = !quoted;
    if (c == ',' && !quoted) {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

/// The parts of a statement of `row`, by the first clause that each of them fits.
std::vector<Part> parts_of(const Word& row, std::string_view text, std::string* key) {
  std::vector<Part> out;
  bool first = true;
  for (const std::string& part : at_commas(text)) {
    std::vector<std::string> t = tokens(part);
    if (first && !row.key.empty() && !t.empty()) {
      if (key != nullptr) *key = t.front();
      t.erase(t.begin());
    }
    first = false;
    for (std::size_t i = 0; i < row.clauses.size() && !t.empty(); ++i) {
      Part made{i, {}};
      if (taken(pattern(row.clauses[i].pattern), t, 0, made.pieces) != t.size()) continue;
      out.push_back(std::move(made));
      break;
    }
  }
  return out;
}

/// The clauses that the row's own example is made of: what usually stands together.
std::set<std::size_t> of_example(const Word& row) {
  std::string_view rest = row.example;
  rest.remove_prefix(std::min(row.name.size() + 1, rest.size()));
  if (const std::size_t brace = rest.find(" {"); brace != std::string_view::npos)
    rest = rest.substr(0, brace);
  std::set<std::size_t> out;
  for (const Part& part : parts_of(row, rest, nullptr))
    out.insert(part.clause);
  return out;
}

// Values -----------------------------------------------------------------------------------------

/// The example's number of this dimension, in its base unit, else `otherwise`.
double usual(const Word& row, words::Dimension dimension, double otherwise) {
  const std::vector<std::string> t = tokens(row.example);
  for (std::size_t i = 0; i < t.size(); ++i) {
    std::string text = t[i];
    if (text.ends_with(",")) text.pop_back();
    std::string unit = i + 1 < t.size() ? t[i + 1] : "";
    if (unit.ends_with(",")) unit.pop_back();
    if (words::find_unit(unit) != nullptr) text += " " + unit;
    const auto literal = words::parse_measure(text);
    const auto* m = std::get_if<words::Measure>(&literal);
    if (m != nullptr && m->dimension() == dimension) return m->in_base();
  }
  return otherwise;
}

/// Three digits at most, and no more than three behind the point.
std::string steady(double value) {
  const double magnitude = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  std::string out = fmt::format("{:.3f}", std::round(value / magnitude) * magnitude);
  out.erase(out.find_last_not_of('0') + 1);
  if (out.ends_with(".")) out.pop_back();
  return out == "0" ? "0.001" : out;
}

std::string shifted_date(Dice& dice) {
  return fmt::format("{}-{:02}-{:02}", 2025 + dice.below(4), 1 + dice.below(12),
                     1 + dice.below(28));
}

const std::vector<std::string>& f_numbers() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> out;
    for (int tenths = 10; tenths <= 640; ++tenths) {
      const double n = tenths / 10.0;
      if (physics::exact_f_number(n).value() <= 0) continue;
      std::string text = fmt::format("{:.1f}", n);
      if (text.ends_with(".0")) text.resize(text.size() - 2);
      out.push_back(text);
    }
    return out;
  }();
  return all;
}

constexpr std::string_view phrases[] = {
    "Wipe it first.",    "a # is no comment here", "{ as said }",
    "once more, please", "\\\"quoted\\\" twice",   "Zähne, bitte",
    "as on the board",   "the left hand waits",    "the upper lip rests",
    "a \\\\ in between", "keep the right arm",     "so that it's, well, dry"};

/// What a view is about: its statements speak of the same teeth, and choose alike.
struct Theme {
  int jaw = 0; // 0 upper, 1 lower, 2 both
  int from = -7;
  int to = 7; // along the arch, + to the patient's left
  bool milk = false;
  std::map<std::string, std::string> chosen;
};

Theme draw_theme(Dice& dice, bool milk) {
  Theme t;
  t.milk = milk;
  t.jaw = static_cast<int>(dice.below(3));
  const int far = milk ? 5 : 8;
  const int wide = 1 + static_cast<int>(dice.below(static_cast<std::size_t>(far)));
  const std::size_t lie = dice.below(3);
  const int near = 1 + static_cast<int>(dice.below(static_cast<std::size_t>(wide)));
  t.from = lie == 1 ? near : -wide;
  t.to = lie == 2 ? -near : wide;
  return t;
}

/// Everything a value may depend on.
class Drawing {
 public:
  explicit Drawing(Dice& dice) : dice_(dice) {}

  Dice& dice() { return dice_; }
  Theme theme;
  std::vector<std::string> views; // those that can be named so far

  std::optional<Statement> statement(const Word& row) {
    Statement s;
    s.row = &row;
    if (!row.key.empty()) {
      const auto keys = split(row.key, '|');
      s.key = dice_.one_of(keys);
    }
    return parts(row, s.parts) ? std::optional(std::move(s)) : std::nullopt;
  }

  bool parts(const Word& row, std::vector<Part>& out) {
    const std::size_t n = row.clauses.size();
    if (n == 0) return true;
    std::set<std::size_t> chosen;
    // Another way to say the same: drawn in the place of the first one.
    const auto other_way = [&](std::size_t i) {
      return i > 0 && row.clauses[i].slot == row.clauses[i - 1].slot;
    };
    std::size_t slots = n;
    for (std::size_t i = 0; i < n; ++i)
      slots -= other_way(i) ? 1 : 0;
    for (std::size_t i = 0; i < n; ++i) {
      if (row.clauses[i].required) chosen.insert(i);
    }
    const std::set<std::size_t> example = of_example(row);
    if (dice_.chance(0.8)) {
      chosen.insert(example.begin(), example.end());
    } else if (chosen.empty()) {
      chosen.insert(dice_.below(n));
    }
    for (std::size_t i = 0; i < n; ++i) {
      if (!other_way(i) && dice_.chance(0.2 / static_cast<double>(slots))) chosen.insert(i);
    }
    for (const std::size_t i : std::set<std::size_t>(chosen)) {
      for (std::size_t j = 0; j < n; ++j) {
        if (row.clauses[j].slot == row.clauses[i].with) chosen.insert(j);
      }
    }
    std::vector<Part> rest;
    for (const std::size_t first : chosen) {
      Dice aside(dice_);
      const bool other = first + 1 < n && other_way(first + 1) && aside.chance(0.25);
      const std::size_t i = first + (other ? 1 : 0);
      const Clause& clause = row.clauses[i];
      const std::size_t times = clause.repeats ? 1 + dice_.below(3) : 1;
      std::set<std::string> seen;
      for (std::size_t k = 0; k < times; ++k) {
        Part part{i, {}};
        if (!walk(row, pattern(clause.pattern), clause.repeats && k > 0, part.pieces)) {
          if (clause.required && k == 0) return false;
          continue;
        }
        std::string text;
        for (const Piece& p : part.pieces)
          text += " " + p.text;
        if (!seen.insert(text).second) continue;
        (clause.leads ? out : rest).push_back(std::move(part));
      }
    }
    // A list stays in the order in which it was drawn: it may carry meaning.
    if (dice_.chance(0.3)) shuffle_parts(row, rest);
    out.insert(out.end(), rest.begin(), rest.end());
    return !out.empty();
  }

  static void shuffle_parts(Dice& dice, const Word& row, std::vector<Part>& parts) {
    std::vector<std::size_t> order;
    for (const Part& p : parts)
      order.push_back(p.clause);
    dice.shuffle(order);
    std::vector<Part> out;
    std::vector<bool> used(parts.size());
    for (const std::size_t clause : order) {
      for (std::size_t i = 0; i < parts.size(); ++i) {
        if (used[i] || parts[i].clause != clause) continue;
        used[i] = true;
        out.push_back(parts[i]);
        break;
      }
    }
    static_cast<void>(row);
    parts = std::move(out);
  }

 private:
  /// A code of the standard. One of its views from one side (EV41) has no code for the other side:
  /// in exchange it stays as it is, and its picture does not.
  const words::ViewCode& code() {
    while (true) {
      const words::ViewCode& one = dice_.one_of(words::view_codes());
      const bool from_side = one.row == "A" || one.row == "P";
      if (!from_side || words::other_side(one) != &one) return one;
    }
  }

  void shuffle_parts(const Word& row, std::vector<Part>& p) { shuffle_parts(dice_, row, p); }

  bool walk(const Word& row, const std::vector<Element>& p, bool anew, std::vector<Piece>& out) {
    for (const Element& e : p) {
      switch (e.kind) {
      case Element::Kind::word: out.push_back({Piece::Kind::plain, e.text}); break;
      case Element::Kind::choice: out.push_back({Piece::Kind::symbol, choice(row, e, anew)}); break;
      case Element::Kind::option:
        if (dice_.chance(0.5) && !walk(row, e.inner, anew, out)) return false;
        break;
      case Element::Kind::value:
        if (!value(row, e.text, out)) return false;
        break;
      }
    }
    return true;
  }

  /// What was chosen before, what the row's example says, or any of them.
  std::string choice(const Word& row, const Element& e, bool anew) {
    std::string& kept = theme.chosen[e.text];
    if (!kept.empty() && !anew && dice_.chance(0.7)) return kept;
    kept = dice_.one_of(e.choices);
    if (anew || dice_.chance(0.5)) return kept;
    for (const std::string& one : e.choices) {
      if ((std::string(row.example) + ",").find(" " + one + ",") != std::string::npos) kept = one;
    }
    return kept;
  }

  int tooth() {
    int along = 0;
    while (along == 0)
      along = theme.from +
              static_cast<int>(dice_.below(static_cast<std::size_t>(theme.to - theme.from + 1)));
    const bool upper = theme.jaw == 0 || (theme.jaw == 2 && dice_.chance(0.5));
    return number_of(along, upper);
  }
  [[nodiscard]] int number_of(int along, bool upper) const {
    const int quadrant = (upper ? (along < 0 ? 1 : 2) : (along < 0 ? 4 : 3)) + (theme.milk ? 4 : 0);
    return quadrant * 10 + std::abs(along);
  }
  std::string teeth() {
    if (dice_.chance(0.25)) return std::to_string(tooth());
    const auto end = [&] {
      int along = 0;
      while (along == 0)
        along = theme.from +
                static_cast<int>(dice_.below(static_cast<std::size_t>(theme.to - theme.from + 1)));
      return along;
    };
    const bool upper = theme.jaw == 0 || (theme.jaw == 2 && dice_.chance(0.5));
    const int first = number_of(dice_.chance(0.6) ? theme.from : end(), upper);
    const int last = number_of(dice_.chance(0.6) ? theme.to : end(), upper);
    return first == last ? std::to_string(first) : fmt::format("{} to {}", first, last);
  }

  /// Around what the row's example says: half of it up to twice as much.
  std::string around(const Word& row, words::Dimension dimension, double otherwise) {
    return steady(usual(row, dimension, otherwise) * std::exp2(dice_.between(-1.0, 1.0)));
  }

  bool value(const Word& row, const std::string& kind, std::vector<Piece>& out) {
    using words::Dimension;
    const auto put = [&](std::string text, Piece::Kind k = Piece::Kind::other) {
      out.push_back({k, std::move(text)});
      return true;
    };
    if (kind == "number") {
      const double n = usual(row, Dimension::none, 100) * std::exp2(dice_.between(-1.0, 3.0));
      return put(steady(n));
    }
    if (kind == "count") return put(std::to_string(1 + dice_.below(4)));
    if (kind == "length") return put(around(row, Dimension::length, 30) + " mm");
    if (kind == "angle") {
      const double deg =
          std::min(175.0, usual(row, Dimension::angle, 45) * std::exp2(dice_.between(-1.0, 1.0)));
      return put(steady(deg) + " deg");
    }
    if (kind == "stops")
      return put(fmt::format("{}/{} stop", 1 + dice_.below(4), 1 + dice_.below(3)));
    if (kind == "time") {
      const double s = usual(row, Dimension::time, 1.0) * std::exp2(dice_.between(-1.0, 1.0));
      return put(s < 0.5 ? fmt::format("1/{} s", std::lround(1.0 / s)) : steady(s) + " s");
    }
    if (kind == "temperature") {
      const double k =
          usual(row, Dimension::temperature, 5500) * std::exp2(dice_.between(-1.0, 1.0));
      return put(steady(k) + " K");
    }
    if (kind == "size") {
      const double scale = dice_.chance(0.5) ? 1.0 : dice_.between(0.5, 1.2);
      return put(fmt::format("{} x {} mm", steady(usual_size(row).first * scale),
                             steady(usual_size(row).second * scale)));
    }
    if (kind == "ratio") {
      constexpr std::string_view ratios[] = {"1:1", "1:1.2", "1:1.5", "1:2",
                                             "1:2", "1:3",   "1:5",   "1:10"};
      return put(std::string(dice_.one_of(ratios)));
    }
    if (kind == "f_number") {
      const auto& all = f_numbers();
      const std::size_t first = dice_.chance(0.8) ? all.size() * 2 / 3 : 0;
      return put("f/" + all[first + dice_.below(all.size() - first)]);
    }
    if (kind == "date") return put(shifted_date(dice_));
    if (kind == "tooth") return put(std::to_string(tooth()), Piece::Kind::teeth);
    if (kind == "teeth") return put(teeth(), Piece::Kind::teeth);
    if (kind == "name") {
      if (views.empty()) return false;
      return put(dice_.one_of(views), Piece::Kind::view);
    }
    if (kind == "text") return put(fmt::format("\"{}\"", dice_.one_of(phrases)), Piece::Kind::text);
    if (kind == "code") return put(std::string(code().code), Piece::Kind::code);
    if (kind == "word") {
      std::vector<std::string> all;
      for (const Word& w : words::vocabulary()) {
        if ((w.places & (words::in_view | words::in_face)) != 0 && w.level == 0)
          all.emplace_back(w.name);
      }
      return put(dice_.one_of(all));
    }
    FAIL("draw.cpp does not know how to draw a value of the kind @" << kind);
    return false;
  }

  static std::pair<double, double> usual_size(const Word& row) {
    const auto t = tokens(row.example);
    for (std::size_t i = 0; i + 2 < t.size(); ++i) {
      if (t[i + 1] == "x") return {std::stod(t[i]), std::stod(t[i + 2])};
    }
    return {36.0, 24.0};
  }

  Dice& dice_;
};

// Protocols --------------------------------------------------------------------------------------

/// How often the shipped protocols say a word in a view: what is drawn is then much like what
/// people write. A word that they do not say is drawn now and then.
double share(const Word& row) {
  static const std::map<std::string, double> shares = [] {
    std::map<std::string, double> said;
    double views = 0;
    for (const auto& e : std::filesystem::directory_iterator(root() / "protocols")) {
      if (e.path().extension() != ".norma") continue;
      for (std::string line : split(read_file(e.path()), '\n')) {
        line.erase(0, line.find_first_not_of(' '));
        views += line.starts_with("view ") || line.starts_with("face view ") ? 1 : 0;
        for (const Word& word : words::vocabulary())
          said[std::string(word.name)] += line.starts_with(std::string(word.name) + " ") ? 1 : 0;
      }
    }
    for (auto& [word, times] : said)
      times = std::clamp(3.0 * times / views, 0.06, 0.93);
    return said;
  }();
  return shares.at(std::string(row.name));
}

/// Words that structure a protocol are laid out here, one by one; all others are drawn.
bool structures(const Word& row) { return row.level > 0 || row.name == "builds on"; }

class Maker {
 public:
  explicit Maker(Dice& dice) : dice_(dice), draw_(dice) {}

  Statement make() {
    Statement out =
        made("protocol", words::in_file,
             {{0, {{Piece::Kind::other, draw_name(dice_)}, {Piece::Kind::text, "\"Drawn\""}}}});
    out.block = true;
    milk_ = dice_.chance(0.15);
    draw_.theme = draw_theme(dice_, milk_);
    for (const Word& row : words::vocabulary()) {
      if ((row.places & words::in_protocol) == 0 || structures(row)) continue;
      const bool group = row.name == "for"; // whom it is for fits the teeth that are drawn
      const double often = row.effect == words::Effect::scale      ? 0.9
                           : row.effect == words::Effect::patients ? 0.15
                                                                   : 0.5;
      if (!group && !dice_.chance(often)) continue;
      if (auto s = group ? for_group() : draw_.statement(row)) out.body.push_back(std::move(*s));
    }
    const std::size_t views = 1 + dice_.below(4);
    for (std::size_t i = 0; i < views; ++i) {
      names_.push_back(draw_name(dice_));
      face_.push_back(dice_.chance(0.15));
    }
    if (dice_.chance(0.6)) out.body.push_back(every("every mouth view", words::in_every));
    if (dice_.chance(0.3)) out.body.push_back(every("every face view", words::in_every_face));
    for (std::size_t i = 0; i < views; ++i)
      out.body.push_back(view(i));
    for (std::size_t i = 1 + dice_.below(2); i > 0; --i)
      out.body.push_back(series());
    return out;
  }

 private:
  std::optional<Statement> for_group() {
    Statement s = made("for", words::in_protocol,
                       {{0, {{Piece::Kind::symbol, milk_ ? "children" : "adults"}}}});
    if (milk_) {
      s.parts.push_back({1, {{Piece::Kind::symbol, "milk teeth"}}});
    } else if (dice_.chance(0.2)) {
      s.parts.front().pieces.front().text = "children";
      s.parts.push_back({1, {{Piece::Kind::symbol, "mixed teeth"}}});
    }
    return s;
  }

  Statement every(std::string_view name, unsigned place) {
    Statement out = made(name, words::in_protocol, {});
    out.block = true;
    draw_.theme = draw_theme(dice_, milk_);
    draw_.views = {names_.front()};
    out.body = body(place, 0.6, {});
    return out;
  }

  std::vector<Statement> body(unsigned place, double times, const std::set<std::string>& above) {
    std::vector<Statement> out;
    for (const Word& row : words::vocabulary()) {
      if ((row.places & place) == 0 || structures(row)) continue;
      const bool inherited = above.count(std::string(row.name)) == 1;
      if (inherited && dice_.chance(0.06)) {
        Statement no;
        no.row = &row;
        no.mention = "no";
        out.push_back(std::move(no));
        continue;
      }
      const std::size_t most = row.repeat == words::Repeat::list ? 2 : 1;
      for (std::size_t i = 0; i < most; ++i) {
        if (!dice_.chance(times * share(row))) continue;
        auto s = draw_.statement(row);
        if (!s) continue;
        if (inherited && words::adds(row) && dice_.chance(0.3)) s->mention = "also";
        out.push_back(*s);
        if (!row.key.empty() && s->key != "both") {
          Statement other = *s;
          other.key = s->key == "left" ? "right" : "left";
          if (dice_.chance(0.7)) out.push_back(draw_like(other, dice_));
        }
      }
    }
    dice_.shuffle(out);
    return out;
  }

  Statement view(std::size_t i) {
    Statement out = made(face_[i] ? "face view" : "view", words::in_protocol,
                         {{0, {{Piece::Kind::view, names_[i]}}}});
    if (dice_.chance(0.8))
      out.parts.front().pieces.push_back({Piece::Kind::text, fmt::format("\"Number {}\"", i + 1)});
    std::vector<std::size_t> alike;
    for (std::size_t j = 0; j < i; ++j) {
      if (face_[j] == face_[i]) alike.push_back(j);
    }
    const bool same = !alike.empty() && dice_.chance(0.4);
    if (same) {
      out.parts.push_back(
          {1, {{Piece::Kind::plain, "same as"}, {Piece::Kind::view, names_[dice_.one_of(alike)]}}});
      if (dice_.chance(0.75)) {
        constexpr std::string_view ways[] = {"other side", "other side", "other jaw", "lower jaw",
                                             "upper jaw"};
        out.parts.push_back({2,
                             {{Piece::Kind::plain, "for the"},
                              {Piece::Kind::symbol, std::string(dice_.one_of(ways))}}});
      }
    }
    draw_.theme = draw_theme(dice_, milk_);
    draw_.views.assign(names_.begin(), names_.begin() + static_cast<std::ptrdiff_t>(i));
    if (draw_.views.empty()) draw_.views = {names_.front()};
    const unsigned place = face_[i] ? words::in_face : words::in_view;
    std::set<std::string> above;
    for (const Word& row : words::vocabulary()) {
      if (same || dice_.chance(0.3)) above.insert(std::string(row.name));
    }
    out.body = body(place, same ? 0.3 : 1.0, above);
    out.block = !same || !out.body.empty();
    if (dice_.chance(0.2)) {
      Statement group = made("for", place, {{0, {{Piece::Kind::symbol, "children"}}}});
      if (dice_.chance(0.7))
        group.parts.push_back(
            {1, {{Piece::Kind::symbol, dice_.chance(0.5) ? "mixed teeth" : "milk teeth"}}});
      group.block = true;
      group.body = body(place, 0.2, above);
      out.body.push_back(std::move(group));
      out.block = true;
    }
    return out;
  }

  /// Rows of a sheet: a name without words before it goes on with the row.
  void lay_out(std::vector<std::string> names, std::vector<Part>& parts) {
    dice_.shuffle(names);
    for (std::size_t i = 0; i < names.size(); ++i) {
      Part part{1, {}};
      if (i == 0) part = {2, {{Piece::Kind::plain, "laid out"}}};
      if (i > 0 && dice_.chance(0.5)) part = {3, {{Piece::Kind::plain, "next row"}}};
      part.pieces.push_back({Piece::Kind::view, names[i]});
      parts.push_back(std::move(part));
    }
  }

  Statement series() {
    std::vector<std::string> listed;
    for (const std::string& name : names_) {
      if (listed.empty() || dice_.chance(0.8)) listed.push_back(name);
    }
    if (dice_.chance(0.3)) dice_.shuffle(listed);
    std::vector<Part> parts;
    for (const std::string& name : listed) {
      Part part{parts.empty() ? 0u : 1u, {}};
      if (parts.empty())
        part.pieces = {{Piece::Kind::other, draw_name(dice_)}, {Piece::Kind::plain, "="}};
      part.pieces.push_back({Piece::Kind::view, name});
      if (dice_.chance(0.2)) part.pieces.push_back({Piece::Kind::symbol, "optional"});
      parts.push_back(std::move(part));
    }
    if (dice_.chance(0.4)) lay_out(std::move(listed), parts);
    return made("series", words::in_protocol, std::move(parts));
  }

  Dice& dice_;
  Drawing draw_;
  bool milk_ = false;
  std::vector<std::string> names_;
  std::vector<bool> face_;
};

void write(const Statement& s, std::size_t depth, Way& way, std::string& out,
           std::vector<Way>* lines) {
  const auto line = [&](std::string_view text) {
    out += std::string(2 * depth, ' ') + std::string(text) + "\n";
    if (lines != nullptr) lines->push_back(way);
  };
  line(line_text(s) + (s.block ? " {" : ""));
  if (!s.block) return;
  for (std::size_t i = 0; i < s.body.size(); ++i) {
    way.push_back(i);
    write(s.body[i], depth + 1, way, out, lines);
    way.pop_back();
  }
  line("}");
}

} // namespace

const Word& row_of(std::string_view name, unsigned place) {
  const Word* row = words::find_word(name, place);
  REQUIRE_MESSAGE(row != nullptr, name);
  return *row;
}

Statement made(std::string_view row, unsigned place, std::vector<Part> parts) {
  Statement s;
  s.row = &row_of(row, place);
  s.parts = std::move(parts);
  return s;
}

std::string line_text(const Statement& s) {
  std::string out = s.mention.empty() ? "" : s.mention + " ";
  out += s.mention == "no" && !s.row->absence.empty() ? s.row->absence : s.row->name;
  if (!s.key.empty()) out += " " + s.key;
  for (std::size_t i = 0; i < s.parts.size(); ++i) {
    if (i > 0) out += ",";
    for (const Piece& p : s.parts[i].pieces)
      out += " " + p.text;
  }
  return out;
}

std::string file_text(const Statement& protocol, std::vector<Way>* lines) {
  std::string out = "norma 1\n";
  if (lines != nullptr) lines->assign(1, {});
  Way way;
  write(protocol, 0, way, out, lines);
  return out;
}

Statement draw_protocol(Dice& dice) { return Maker(dice).make(); }

/// A line of a shipped protocol; nothing for one that is read in another way.
std::optional<Statement> read_line(std::string line, unsigned place) {
  const bool block = line.ends_with("{");
  if (block) line.pop_back();
  const Word* row = nullptr;
  for (const Word& w : words::vocabulary()) {
    const bool here =
        (w.places & place) != 0 && (line + " ").starts_with(std::string(w.name) + " ");
    if (here && (row == nullptr || w.name.size() > row->name.size())) row = &w;
  }
  if (row == nullptr) return std::nullopt;
  Statement s;
  s.row = row;
  s.block = block;
  s.parts = parts_of(*row, line.substr(row->name.size()), &s.key);
  if (s.parts.empty() && !row->clauses.empty()) return std::nullopt;
  return s;
}

unsigned place_in(const Statement& s) {
  if (s.is("protocol")) return words::in_protocol;
  if (s.is("every mouth view")) return words::in_every;
  if (s.is("every face view")) return words::in_every_face;
  return s.is("face view") ? words::in_face : words::in_view;
}

/// One of the shipped protocols, in the one layout: a statement on a line.
std::optional<Statement> read_shipped(const std::string& text) {
  std::vector<Statement> open;
  std::optional<Statement> out;
  for (std::string line : split(text, '\n')) {
    line.erase(0, line.find_first_not_of(' '));
    if (const std::size_t note = line.find("  #"); note != std::string::npos) line.resize(note);
    if (line.empty() || line.starts_with("#") || line == "norma 1") continue;
    if (line == "}") {
      Statement done = std::move(open.back());
      open.pop_back();
      if (open.empty()) return done;
      open.back().body.push_back(std::move(done));
      continue;
    }
    auto s = read_line(line, open.empty() ? words::in_file : place_in(open.back()));
    if (!s || s->is("builds on")) return std::nullopt;
    if (s->block) {
      open.push_back(std::move(*s));
    } else {
      open.back().body.push_back(std::move(*s));
    }
  }
  return std::nullopt;
}

std::vector<Statement> all_shipped() {
  std::vector<std::filesystem::path> paths;
  for (const auto& e : std::filesystem::directory_iterator(root() / "protocols")) {
    if (e.path().extension() == ".norma") paths.push_back(e.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Statement> out;
  for (const auto& path : paths) {
    if (auto s = read_shipped(read_file(path))) out.push_back(std::move(*s));
  }
  REQUIRE(out.size() > 5);
  return out;
}

Statement draw_near_shipped(Dice& dice) {
  static const std::vector<Statement> all = all_shipped();
  Statement out = dice.one_of(all);
  std::map<std::string, std::string> names;
  each(out, [&](const Statement& s) {
    if (s.is_view()) names.emplace(s.name(), draw_name(dice));
  });
  // Names of their own: `right` is a word of the messages, too. Other names are no views.
  each(out, [&](Statement& s) {
    for (Part& part : s.parts) {
      for (Piece& p : part.pieces) {
        if (p.kind != Piece::Kind::view) continue;
        const auto found = names.find(p.text);
        p = found == names.end() ? Piece{Piece::Kind::other, p.text}
                                 : Piece{Piece::Kind::view, found->second};
      }
    }
  });
  const double changed = dice.chance(0.3) ? 0.0 : 0.12;
  each(out, [&](Statement& s) {
    if (s.is("protocol")) return;
    std::vector<Statement> body;
    for (const Statement& one : s.body) {
      if (!one.block && dice.chance(changed / 3)) continue;
      body.push_back(!one.block && dice.chance(changed) ? draw_like(one, dice) : one);
    }
    s.body = std::move(body);
  });
  return out;
}

Statement draw_like(const Statement& s, Dice& dice) {
  Drawing drawing(dice);
  drawing.theme = draw_theme(dice, false);
  for (const Part& p : s.parts) {
    for (const Piece& piece : p.pieces) {
      if (piece.kind == Piece::Kind::view) drawing.views.push_back(piece.text);
    }
  }
  Statement out = s;
  out.parts.clear();
  return drawing.parts(*s.row, out.parts) ? out : s;
}

std::string draw_name(Dice& dice) {
  constexpr std::string_view starts[] = {"ba", "de", "fi", "go", "hu",
                                         "ka", "le", "mi", "no", "pu"};
  constexpr std::string_view ends[] = {"xo", "qua", "zim", "wur", "vek", "jal"};
  return fmt::format("{}{}{}_{}", dice.one_of(starts), dice.one_of(starts), dice.one_of(ends),
                     dice.below(1000));
}

void note_drawn(const Statement& s, std::set<std::string>& drawn) {
  each(s, [&](const Statement& one) {
    const std::string name(one.row->name);
    drawn.insert(name);
    if (!one.key.empty()) drawn.insert(fmt::format("{} [{}]", name, one.key));
    for (const Part& p : one.parts)
      drawn.insert(fmt::format("{}: {}", name, one.row->clauses[p.clause].slot));
  });
}

std::set<std::string> all_to_draw() {
  std::set<std::string> out;
  for (const Word& row : words::vocabulary()) {
    out.insert(std::string(row.name));
    for (const std::string& key : split(row.key, '|'))
      out.insert(fmt::format("{} [{}]", row.name, key));
    for (const Clause& c : row.clauses)
      out.insert(fmt::format("{}: {}", row.name, c.slot));
  }
  return out;
}

} // namespace norma::test::meta
