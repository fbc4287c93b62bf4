#include "words/pattern.hpp"

#include <algorithm>
#include <cassert>

#include "physics/quantity_text.hpp"
#include "words/codes.hpp"
#include "words/teeth.hpp"
#include "words/vocabulary.hpp"

namespace norma::words {

struct Pattern::State {
  std::span<const Token> tokens;
  text::Span end; // where the statement ends
  Reading& reading;
  Problem* problem; // null: nobody asks for the reason
  std::size_t first_value = reading.values.size();
  std::size_t at = 0;

  [[nodiscard]] const Token* token(std::size_t ahead = 0) const {
    return at + ahead < tokens.size() ? &tokens[at + ahead] : nullptr;
  }
  [[nodiscard]] bool is_word(std::string_view w, std::size_t ahead = 0) const {
    const Token* t = token(ahead);
    return t != nullptr && t->kind == TokenKind::word && t->text == w;
  }
  /// Keeps the problem that lies furthest; at the same place wishes add up.
  bool fail(Problem p) {
    Problem& last = *problem;
    const bool first = last.kind == Problem::Kind::none;
    const bool vague = p.kind == Problem::Kind::unexpected || p.kind == Problem::Kind::ended;
    const bool was_vague =
        last.kind == Problem::Kind::unexpected || last.kind == Problem::Kind::ended;
    if (first || p.token > last.token || (p.token == last.token && was_vague && !vague)) {
      last = std::move(p);
    } else if (p.token == last.token && vague && was_vague) {
      for (std::string& w : p.wanted) {
        if (std::find(last.wanted.begin(), last.wanted.end(), w) == last.wanted.end()) {
          last.wanted.push_back(std::move(w));
        }
      }
    }
    return false;
  }
  bool want(std::string_view wanted, std::size_t ahead = 0) {
    if (problem == nullptr) return false;
    Problem p;
    p.token = at + ahead;
    if (!wanted.empty()) p.wanted.emplace_back(wanted);
    if (const Token* t = token(ahead)) {
      p.kind = Problem::Kind::unexpected;
      p.span = t->span;
      p.text = std::string(t->text);
    } else {
      p.kind = Problem::Kind::ended;
      p.span = end;
    }
    return fail(std::move(p));
  }
  bool wrong(Problem::Kind kind, const Token& t, std::string_view detail = {},
             std::string_view wanted = {}) {
    if (problem == nullptr) return false;
    Problem p;
    p.kind = kind;
    p.token = at;
    p.span = t.span;
    p.text = std::string(t.text);
    p.detail = std::string(detail);
    if (!wanted.empty()) p.wanted.emplace_back(wanted);
    return fail(std::move(p));
  }
  /// A place to come back to where what follows does not fit.
  struct Mark {
    std::size_t at, values, pieces;
  };
  [[nodiscard]] Mark mark() const { return {at, reading.values.size(), reading.pieces.size()}; }
  void back_to(Mark m) {
    const auto cut = [](auto& all, std::size_t left) {
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(left), all.end());
    };
    at = m.at;
    cut(reading.values, m.values);
    cut(reading.pieces, m.pieces);
  }
  void keep(const Value& v, std::size_t used) {
    reading.pieces.push_back({{}, reading.values.size() - first_value});
    reading.values.push_back(v);
    at += used;
  }
};

namespace {

std::string_view next_piece(std::string_view& rest) {
  while (!rest.empty() && rest.front() == ' ')
    rest.remove_prefix(1);
  std::size_t n = 0;
  if (!rest.empty() && (rest[0] == '[' || rest[0] == ']')) {
    n = 1;
  } else if (!rest.empty() && rest[0] == '(') {
    n = rest.find(')') + 1;
  } else {
    while (n < rest.size() && rest[n] != ' ' && rest[n] != '[' && rest[n] != ']')
      ++n;
  }
  const std::string_view piece = rest.substr(0, n);
  rest.remove_prefix(n);
  return piece;
}

std::vector<std::string_view> split(std::string_view s, char by) {
  std::vector<std::string_view> out;
  std::size_t at = 0;
  while (at <= s.size()) {
    const std::size_t stop = std::min(s.find(by, at), s.size());
    if (stop > at) out.emplace_back(s.substr(at, stop - at));
    at = stop + 1;
  }
  return out;
}

} // namespace

Pattern::Pattern(std::string_view text) { elements_ = compile(text, false); }

std::vector<Pattern::Element> Pattern::compile(std::string_view& rest, bool inside) {
  static constexpr std::pair<std::string_view, Kind> kinds[] = {{"@number", Kind::number},
                                                                {"@count", Kind::count},
                                                                {"@length", Kind::length},
                                                                {"@angle", Kind::angle},
                                                                {"@stops", Kind::stops},
                                                                {"@time", Kind::time},
                                                                {"@temperature", Kind::temperature},
                                                                {"@size", Kind::size},
                                                                {"@ratio", Kind::ratio},
                                                                {"@f_number", Kind::f_number},
                                                                {"@date", Kind::date},
                                                                {"@tooth", Kind::tooth},
                                                                {"@teeth", Kind::teeth},
                                                                {"@name", Kind::name},
                                                                {"@text", Kind::text},
                                                                {"@code", Kind::code},
                                                                {"@word", Kind::word}};
  std::vector<Element> out;
  while (true) {
    const std::string_view piece = next_piece(rest);
    if (piece.empty() || piece == "]") {
      assert(inside == (piece == "]"));
      static_cast<void>(inside);
      return out;
    }
    Element e;
    if (piece == "[") {
      e.kind = Kind::option;
      e.inner = compile(rest, true);
    } else if (piece.front() == '(') {
      e.kind = Kind::choice;
      for (const std::string_view choice : split(piece.substr(1, piece.size() - 2), '|'))
        e.choices.push_back({choice, split(choice, ' ')});
      std::stable_sort(e.choices.begin(), e.choices.end(), [](const Choice& a, const Choice& b) {
        return a.words.size() > b.words.size();
      });
    } else if (piece.front() == '@') {
      const auto* found = std::find_if(std::begin(kinds), std::end(kinds),
                                       [&](const auto& k) { return k.first == piece; });
      assert(found != std::end(kinds));
      e.kind = found->second;
    } else {
      e.word = piece;
    }
    out.push_back(std::move(e));
  }
}

std::string_view Pattern::describe(Kind kind) {
  switch (kind) {
  case Kind::number: return "a number";
  case Kind::count: return "a whole number";
  case Kind::length: return "a length, such as `35 mm`";
  case Kind::angle: return "an angle, such as `45 deg`";
  case Kind::stops: return "a number of stops, such as `1/2 stop`";
  case Kind::time: return "a time, such as `1/125 s`";
  case Kind::temperature: return "a colour temperature, such as `5500 K`";
  case Kind::size: return "width and height, such as `36 x 24 mm`";
  case Kind::ratio: return "a ratio, such as `1:2`";
  case Kind::f_number: return "an f-number, such as `f/22`";
  case Kind::date: return "a date, such as `2026-09-01`";
  case Kind::tooth: return "a tooth, such as `11`";
  case Kind::teeth: return "teeth, such as `12 to 17`";
  case Kind::name: return "a name";
  case Kind::text: return "a text between quotes";
  case Kind::code: return "a view code, such as `IV07`";
  case Kind::word: return "a word of a view, such as `ratio`";
  case Kind::literal:
  case Kind::choice:
  case Kind::option: break;
  }
  return "";
}

bool Pattern::take_literal(const Element& element, State& state) {
  const Token* t = state.token();
  const bool sign = t != nullptr && t->kind == TokenKind::equals && t->text == element.word;
  if (!sign && !state.is_word(element.word)) return state.want(element.word);
  state.reading.pieces.push_back({element.word, Piece::plain});
  ++state.at;
  return true;
}

bool Pattern::take_choice(const Element& element, State& state) {
  for (const Choice& choice : element.choices) {
    const std::size_t size = choice.words.size();
    std::size_t n = 0;
    while (n < size && state.is_word(choice.words[n], n))
      ++n;
    if (n == size) {
      const text::Span span = text::join(state.token()->span, state.token(n - 1)->span);
      state.keep({Symbol{choice.text}, span}, n);
      return true;
    }
    if (n > 0) state.want(choice.words[n], n);
  }
  for (const Choice& choice : element.choices)
    state.want(choice.text);
  return false;
}

bool Pattern::take_number(Kind kind, State& state) {
  const Token* t = state.token();
  const std::string_view wanted = describe(kind);
  if (t == nullptr || t->kind != TokenKind::number) return state.want(wanted);

  const auto literal = parse_measure(t->text);
  if (const auto* error = std::get_if<LiteralError>(&literal)) {
    return state.wrong(Problem::Kind::out_of_range, *t,
                       *error == LiteralError::zero
                           ? "nothing is divided by zero"
                           : "norma keeps 9 digits before the point and 6 after it");
  }
  Measure m = std::get<Measure>(literal);

  if (kind == Kind::number || kind == Kind::count) {
    if (m.unit != nullptr) {
      return state.wrong(Problem::Kind::wrong_unit, *t, "it has a unit", "a number without unit");
    }
    if (kind == Kind::count && (m.number.denominator != 1 || m.number.numerator < 0)) {
      return state.wrong(Problem::Kind::out_of_range, *t, "a whole number is wanted, 0 or more");
    }
    if (kind == Kind::number && m.number.numerator <= 0) {
      return state.wrong(Problem::Kind::out_of_range, *t, "it is not over zero");
    }
    state.keep({m, t->span}, 1);
    return true;
  }

  const Dimension dimension = kind == Kind::angle         ? Dimension::angle
                              : kind == Kind::stops       ? Dimension::stops
                              : kind == Kind::time        ? Dimension::time
                              : kind == Kind::temperature ? Dimension::temperature
                                                          : Dimension::length;
  if (kind == Kind::size) {
    // `36 x 24 mm`: the unit stands once, behind the second number.
    if (!state.is_word("x", 1)) return state.want("x", 1);
    const Token* second = state.token(2);
    if (second == nullptr || second->kind != TokenKind::number) return state.want("a height", 2);
    const auto height_literal = parse_measure(second->text);
    if (std::holds_alternative<LiteralError>(height_literal)) {
      return state.wrong(Problem::Kind::out_of_range, *second, "it has too many digits");
    }
    Measure height = std::get<Measure>(height_literal);
    if (m.unit == nullptr) m.unit = height.unit;
    const Token* behind = state.token(3);
    if (height.unit == nullptr && behind != nullptr && behind->kind == TokenKind::word) {
      return state.wrong(Problem::Kind::unknown_unit, *behind, "", wanted);
    }
    if (height.unit == nullptr) {
      return state.wrong(Problem::Kind::missing_unit, *second, "", "a length");
    }
    if (m.dimension() != Dimension::length || height.dimension() != Dimension::length) {
      return state.wrong(Problem::Kind::wrong_unit, *second, "", "a length");
    }
    if (m.number.numerator <= 0 || height.number.numerator <= 0) {
      return state.wrong(Problem::Kind::out_of_range, m.number.numerator <= 0 ? *t : *second,
                         "a length is over zero");
    }
    state.keep({Rectangle{m, height}, text::join(t->span, second->span)}, 3);
    return true;
  }
  if (m.unit == nullptr && state.is_word("to", 1) && state.token(2) != nullptr &&
      state.token(2)->kind == TokenKind::number) {
    // `30 to 50 mm`: one unit for both.
    const auto other = parse_measure(state.token(2)->text);
    if (const auto* second = std::get_if<Measure>(&other)) m.unit = second->unit;
  }
  if (m.unit == nullptr) {
    // A word right behind the number was meant as its unit, if it is no word that may stand there.
    const Token* next = state.token(1);
    const bool glued = next != nullptr && next->kind == TokenKind::word &&
                       next->span.begin <= t->span.end + 1 && next->text.size() <= 12 &&
                       next->text != "from" && next->text != "to" && next->text != "on" &&
                       next->text != "more" && next->text != "less";
    if (glued) {
      return state.wrong(Problem::Kind::unknown_unit, *next, t->text, wanted);
    }
    return state.wrong(Problem::Kind::missing_unit, *t, "", wanted);
  }
  if (m.dimension() != dimension) return state.wrong(Problem::Kind::wrong_unit, *t, "", wanted);
  if (m.number.numerator < 0 && dimension != Dimension::stops) {
    return state.wrong(Problem::Kind::out_of_range, *t, "it is below zero");
  }
  if (m.number.numerator == 0 && (dimension == Dimension::length || dimension == Dimension::time)) {
    return state.wrong(Problem::Kind::out_of_range, *t, "it is zero");
  }
  constexpr double half_turn = 180; // deg; every angle of the language is measured one way
  if (dimension == Dimension::angle && m.in_base() > half_turn) {
    return state.wrong(Problem::Kind::out_of_range, *t, "it is over 180 deg");
  }
  // What cameras can be set to, and more.
  if (dimension == Dimension::temperature && (m.in_base() < 1000 || m.in_base() > 40000)) {
    return state.wrong(Problem::Kind::out_of_range, *t, "it lies between 1000 and 40,000 K");
  }
  state.keep({m, t->span}, 1);
  return true;
}

bool Pattern::take_tooth(Kind kind, State& state) {
  const Token* t = state.token();
  const auto plain = [](const Token* token) {
    return token != nullptr && token->kind == TokenKind::number && token->text.size() <= 3 &&
           std::all_of(token->text.begin(), token->text.end(),
                       [](char c) { return c >= '0' && c <= '9'; });
  };
  if (!plain(t)) return state.want(describe(kind));
  const auto first = parse_tooth(t->text);
  if (!first) return state.wrong(Problem::Kind::not_a_tooth, *t);
  if (kind == Kind::tooth || !state.is_word("to", 1)) {
    state.keep({ToothRun{*first, *first}, t->span}, 1);
    return true;
  }
  const Token* u = state.token(2);
  if (!plain(u)) return state.want("a tooth, such as `17`", 2);
  const auto last = parse_tooth(u->text);
  if (!last) {
    state.at += 2;
    return state.wrong(Problem::Kind::not_a_tooth, *u);
  }
  const text::Span span = text::join(t->span, u->span);
  if (!run_of(*first, *last)) {
    const Token both{TokenKind::number, t->text, span};
    return state.wrong(Problem::Kind::across_jaws, both, u->text);
  }
  state.keep({ToothRun{*first, *last}, span}, 3);
  return true;
}

/// The longest word of the language that stands in a view and starts here.
bool Pattern::take_word(State& state) {
  const Token* t = state.token();
  const CompiledWord* best = nullptr;
  for (const CompiledWord* w : starting_with(t == nullptr ? std::string_view() : t->text)) {
    if ((w->word->places & (in_view | in_face)) == 0) continue;
    if (best != nullptr && w->parts.size() <= best->parts.size()) continue;
    std::size_t n = 0;
    while (n < w->parts.size() && state.is_word(w->parts[n], n))
      ++n;
    if (n == w->parts.size()) best = w;
  }
  if (best == nullptr) return state.want(describe(Kind::word));
  const text::Span span = text::join(t->span, state.token(best->parts.size() - 1)->span);
  state.keep({Symbol{best->word->name}, span}, best->parts.size());
  return true;
}

bool Pattern::take(const Element& element, State& state) {
  const Token* t = state.token();
  const auto is = [&](TokenKind kind) { return t != nullptr && t->kind == kind; };
  const auto wanted = [&] { return state.want(describe(element.kind)); };
  switch (element.kind) {
  case Kind::literal: return take_literal(element, state);
  case Kind::choice: return take_choice(element, state);
  case Kind::option: {
    const State::Mark before = state.mark();
    if (!run(element.inner, state)) state.back_to(before);
    return true;
  }
  case Kind::number:
  case Kind::count:
  case Kind::length:
  case Kind::angle:
  case Kind::stops:
  case Kind::time:
  case Kind::temperature:
  case Kind::size: return take_number(element.kind, state);
  case Kind::tooth:
  case Kind::teeth: return take_tooth(element.kind, state);
  case Kind::word: return take_word(state);
  case Kind::ratio: {
    if (!is(TokenKind::ratio)) return wanted();
    const auto literal = parse_ratio(t->text);
    if (std::holds_alternative<LiteralError>(literal)) {
      return state.wrong(Problem::Kind::out_of_range, *t,
                         "both sides of a ratio are over zero and have at most 9 digits");
    }
    state.keep({std::get<RatioLiteral>(literal), t->span}, 1);
    return true;
  }
  case Kind::f_number: {
    if (!is(TokenKind::f_number)) return wanted();
    const auto literal = parse_f_number(t->text);
    if (std::holds_alternative<LiteralError>(literal)) {
      return state.wrong(Problem::Kind::out_of_range, *t, "an f-number is over zero");
    }
    const FNumberLiteral n = std::get<FNumberLiteral>(literal);
    if (physics::exact_f_number(n.number.value()).value() <= 0) {
      return state.wrong(Problem::Kind::not_a_mark, *t);
    }
    state.keep({n, t->span}, 1);
    return true;
  }
  case Kind::date: {
    if (!is(TokenKind::date)) return wanted();
    const auto literal = parse_date(t->text);
    if (std::holds_alternative<LiteralError>(literal)) {
      return state.wrong(Problem::Kind::no_such_date, *t);
    }
    state.keep({std::get<Date>(literal), t->span}, 1);
    return true;
  }
  case Kind::name:
    if (!is(TokenKind::word)) return wanted();
    state.keep({Name{t->text}, t->span}, 1);
    return true;
  case Kind::code: {
    if (!is(TokenKind::word)) return wanted();
    if (find_code(t->text) == nullptr) return state.wrong(Problem::Kind::unknown_code, *t);
    state.keep({Code{t->text}, t->span}, 1);
    return true;
  }
  case Kind::text: {
    if (!is(TokenKind::text)) return wanted();
    if (has_bad_escape(t->text)) return state.wrong(Problem::Kind::bad_escape, *t);
    state.keep({Quoted{t->text.substr(1, t->text.size() - 2)}, t->span}, 1);
    return true;
  }
  }
  return false;
}

bool Pattern::run(const std::vector<Element>& elements, State& state) {
  return std::all_of(elements.begin(), elements.end(),
                     [&](const Element& e) { return take(e, state); });
}

bool Pattern::run_whole(const std::vector<Element>& elements, State& state) {
  if (!run(elements, state)) return false;
  return state.at == state.tokens.size() || state.want({}); // nothing more belongs there
}

bool Pattern::read(std::span<const Token> tokens, Reading& reading) const {
  State state{tokens, {}, reading, nullptr};
  const State::Mark before = state.mark();
  const bool fits = run_whole(elements_, state);
  if (!fits) state.back_to(before);
  return fits;
}

Match Pattern::match(std::span<const Token> tokens, text::Span end) const {
  Match out;
  State state{tokens, end, out, &out.problem};
  out.ok = run_whole(elements_, state);
  return out;
}

void Pattern::collect_symbols(const std::vector<Element>& elements,
                              std::vector<std::string_view>& out) {
  for (const Element& e : elements) {
    for (const Choice& choice : e.choices)
      out.push_back(choice.text);
    collect_symbols(e.inner, out);
  }
}

std::vector<std::string_view> Pattern::symbols() const {
  std::vector<std::string_view> out;
  collect_symbols(elements_, out);
  return out;
}

void Pattern::collect_words(const std::vector<Element>& elements, std::vector<std::string>& out) {
  for (const Element& e : elements) {
    if (e.kind == Kind::literal) out.emplace_back(e.word);
    for (const Choice& choice : e.choices)
      out.insert(out.end(), choice.words.begin(), choice.words.end());
    collect_words(e.inner, out);
    if (e.kind == Kind::teeth) out.emplace_back("to");
    if (e.kind == Kind::size) out.emplace_back("x");
  }
}

std::vector<std::string> Pattern::words() const {
  std::vector<std::string> out;
  collect_words(elements_, out);
  return out;
}

} // namespace norma::words
