#include "model/problem.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "diag/catalogue.hpp"
#include "physics/quantity_text.hpp"
#include "text/suggest.hpp"
#include "words/codes.hpp"
#include "words/meant.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;
using words::Problem;
using words::Token;
using words::TokenKind;

/// Do the leading tokens spell `name`?
bool spell(std::span<const Token> tokens, const std::vector<std::string_view>& name) {
  if (tokens.size() < name.size()) return false;
  for (std::size_t i = 0; i < name.size(); ++i) {
    if (tokens[i].kind != TokenKind::word || tokens[i].text != name[i]) return false;
  }
  return true;
}

std::string_view place_text(unsigned places) {
  if ((places & words::in_view) != 0) return "a view";
  if ((places & words::in_face) != 0) return "a view of the face";
  if ((places & words::in_protocol) != 0) return "a protocol";
  return "a file, outside of any block";
}

std::string listed(std::vector<std::string> wanted) {
  std::string out;
  // Two patterns may start with the same word.
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    wanted.erase(
        std::remove(wanted.begin() + static_cast<std::ptrdiff_t>(i) + 1, wanted.end(), wanted[i]),
        wanted.end());
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (i > 0) out += i + 1 == wanted.size() ? " or " : ", ";
    const bool literal = wanted[i].starts_with("a ") || wanted[i].starts_with("an ") ||
                         wanted[i].starts_with("teeth") || wanted[i].starts_with("width");
    out += literal ? wanted[i] : fmt::format("`{}`", wanted[i]);
  }
  return out;
}

/// The mark of the aperture scale below and the one above; the nearer one is the remedy.
void report_mark(const Problem& p, diag::Findings& findings) {
  const auto literal = words::parse_f_number(p.text);
  const auto* n = std::get_if<words::FNumberLiteral>(&literal);
  const double value = n == nullptr ? 22 : n->number.value();
  const int thirds = physics::nearest_thirds(FNumber{value});
  const std::string near = physics::to_text(physics::f_number_of_thirds(thirds));
  const bool above = physics::f_number_of_thirds(thirds).value() > value;
  const std::string other =
      physics::to_text(physics::f_number_of_thirds(thirds + (above ? -1 : 1)));
  const std::string both = above ? other + " and " + near : near + " and " + other;
  findings.add(diag::make(catalogue::not_a_mark, p.span, std::string_view(p.text).substr(2), both))
      .with_fix(p.span, near, false)
      .with_help(fmt::format("did you mean `{}`?", near));
}

/// Adds the remedy to a finding; what else helps, where there is none.
void offer(diag::Diagnostic& d, const std::optional<Remedy>& remedy, std::string otherwise) {
  if (!remedy) {
    if (!otherwise.empty()) d.with_help(std::move(otherwise));
    return;
  }
  d.with_fix(remedy->fix.span, remedy->fix.replacement, remedy->fix.safe).with_help(remedy->help);
}

/// The tooth that a number of one or two digits counts to.
std::optional<int> counted_tooth(std::string_view digits) {
  const bool number = !digits.empty() && digits.size() <= 2 &&
                      digits.find_first_not_of("0123456789") == digits.npos;
  return number ? words::tooth_of_count(std::stoi(std::string(digits))) : std::nullopt;
}

/// `53 to 16`, `15 to 35`: no run of teeth.
void report_run(const Problem& p, diag::Findings& findings) {
  auto& d = findings.add(diag::make(catalogue::range_across_jaws, p.span, p.text, p.detail));
  const auto milk = [](std::string_view tooth) { return !tooth.empty() && tooth.front() >= '5'; };
  if (milk(p.text) == milk(p.detail)) {
    d.with_help("write one run for each jaw: `15 to 25, 45 to 35`");
    return;
  }
  const std::string& milk_tooth = milk(p.text) ? p.text : p.detail;
  const std::string& permanent = milk(p.text) ? p.detail : p.text;
  d.with_help(fmt::format("milk teeth and permanent teeth have runs of their own: one that begins "
                          "or ends with {}, another with {}",
                          milk_tooth, permanent));
}

/// `8`, `36a`: no number of a tooth; counted from 1 to 32 it may be one.
void report_no_tooth(const Problem& p, diag::Findings& findings) {
  auto& d = findings.add(diag::make(catalogue::not_a_tooth, p.span, p.text));
  const auto iso = counted_tooth(p.text);
  if (iso) {
    d.with_fix(p.span, fmt::format("{}", *iso), false)
        .with_help(fmt::format("where teeth are counted from 1 to 32, it is {}", *iso));
  }
  d.with_help("teeth have two digits (ISO 3950): 11 to 18, 21 to 28, 31 to 38, 41 to 48, milk "
              "teeth 51 to 55, 61 to 65, 71 to 75, 81 to 85");
}

/// `taken in mirror`: `taken` is a word, but `taken in` is another one by an old name.
bool report_longer_name(const Problem& p, const Trouble& trouble, diag::Findings& findings) {
  if (!trouble.first || p.token != 0 || trouble.part.empty()) return false;
  const words::Word& row = *trouble.word.word;
  const std::string name = fmt::format("{} {}", row.name, trouble.part.front().text);
  const words::Word* meant = words::also_written_as(name, row.places);
  if (meant == nullptr) return false;
  const std::string whole = fmt::format("{} {}", row.name, words::joined(trouble.part));
  const auto today = words::written_today(whole);
  const text::Span named = text::join(trouble.head, trouble.part.front().span);
  const text::Span span = today ? text::join(trouble.head, trouble.part.back().span) : named;
  const std::string_view replacement = today ? *today : meant->name;
  findings.add(diag::make(catalogue::unknown_word, named, name))
      .with_fix(span, std::string(replacement), false)
      .with_help(fmt::format("did you mean `{}`? For example: `{}`", replacement, meant->example));
  return true;
}

} // namespace

const words::CompiledWord* longest_word(std::span<const Token> tokens, unsigned place) {
  if (tokens.empty() || tokens.front().kind != TokenKind::word) return nullptr;
  const words::CompiledWord* best = nullptr;
  for (const words::CompiledWord* word : words::starting_with(tokens.front().text)) {
    if ((word->word->places & place) == 0 || !spell(tokens, word->parts)) continue;
    if (best == nullptr || word->parts.size() > best->parts.size()) best = word;
  }
  return best;
}

const words::CompiledWord* word_taken_away(std::span<const Token> tokens, unsigned place) {
  const words::CompiledWord* best = nullptr;
  for (const words::CompiledWord& word : words::compiled_vocabulary()) {
    if ((word.word->places & place) == 0 || !spell(tokens, word.absence)) continue;
    if (best == nullptr || word.absence.size() > best->absence.size()) best = &word;
  }
  return best;
}

text::Span words_span(std::span<const Token> tokens, std::size_t count) {
  return text::join(tokens.front().span, tokens[count - 1].span);
}

void report_unknown(std::span<const Token> tokens, unsigned place, std::string_view place_name,
                    bool removes, diag::Findings& findings) {
  if (removes) {
    // `no` and the name of a word that is no noun.
    const words::CompiledWord* named = longest_word(tokens, place);
    if (named != nullptr) {
      const text::Span span = words_span(tokens, named->parts.size());
      findings
          .add(diag::make(catalogue::unknown_word, span, fmt::format("no {}", named->word->name)))
          .with_fix(span, std::string(named->word->absence), false)
          .with_help(fmt::format("did you mean `no {}`?", named->word->absence));
      return;
    }
  }
  if (const words::CompiledWord* elsewhere = longest_word(tokens, ~0u)) {
    findings
        .add(diag::make(catalogue::misplaced_word, words_span(tokens, elsewhere->parts.size()),
                        elsewhere->word->name, place_name))
        .with_help(fmt::format("it stands in {}: `{}`", place_text(elsewhere->word->places),
                               elsewhere->word->example));
    return;
  }
  const std::string statement = words::joined(tokens);
  if (const auto beyond = words::beyond_the_language(statement)) {
    const auto parts =
        static_cast<std::size_t>(std::count(beyond->begin(), beyond->end(), ' ')) + 1;
    auto& d = findings.add(diag::make(catalogue::unknown_word, words_span(tokens, parts), *beyond));
    if ((place & (words::in_file | words::in_protocol)) == 0 &&
        statement.find('"') == statement.npos) {
      const std::string step = fmt::format("step operator \"{}\"", statement);
      d.with_fix(words_span(tokens, tokens.size()), step, false)
          .with_help(
              fmt::format("norma plans nothing of it; it goes onto the checklist as `{}`", step));
    } else {
      d.with_help("norma plans nothing of it; in a view it goes onto the checklist as a `step`");
    }
    return;
  }
  // As many words as a word of the table may have are held against the table; the nearest wins.
  std::size_t count = 0;
  while (count < tokens.size() && count < 4 && tokens[count].kind == TokenKind::word)
    ++count;
  std::vector<std::string_view> names;
  for (const words::Word& w : words::vocabulary()) {
    if ((w.places & place) != 0) names.push_back(w.name);
  }
  for (std::size_t n = count; n > 0; --n) {
    std::string written;
    for (std::size_t i = 0; i < n; ++i)
      written += (i > 0 ? " " : "") + std::string(tokens[i].text);
    const auto meant = [&](std::string_view name) {
      findings.add(diag::make(catalogue::unknown_word, words_span(tokens, n), written))
          .with_fix(words_span(tokens, n), std::string(name), false)
          .with_help(fmt::format("did you mean `{}`? For example: `{}`", name,
                                 words::find_word(name, place)->example));
    };
    const auto start = words::meant_start(written);
    if (start && (place & (words::in_file | words::in_protocol)) == 0) {
      findings.add(diag::make(catalogue::unknown_word, words_span(tokens, n), written))
          .with_fix(words_span(tokens, n), std::string(*start), false)
          .with_help(fmt::format("did you mean `{}`?", *start));
      return;
    }
    if (const words::Word* w = words::also_written_as(written, place)) return meant(w->name);
    const auto near = text::nearest(written, names);
    if (near && static_cast<std::size_t>(std::count(near->begin(), near->end(), ' ')) + 1 == n) {
      return meant(*near);
    }
  }
  std::string list;
  for (const std::string_view name : names)
    list += fmt::format("{}{}", list.empty() ? "" : ", ", name);
  findings.add(diag::make(catalogue::unknown_word, tokens.front().span, tokens.front().text))
      .with_note(fmt::format("words of {}: {}", place_name, list))
      .with_help("`norma explain` with a word tells how it is used");
}

bool report_counted_teeth(const words::Word& word, const text::Source& source, text::Span end,
                          diag::Findings& findings) {
  const bool teeth =
      std::any_of(word.clauses.begin(), word.clauses.end(), [](const words::Clause& c) {
        return c.pattern.find("@teeth") != c.pattern.npos ||
               c.pattern.find("@tooth") != c.pattern.npos;
      });
  if (!teeth) return false;
  const std::string_view line = source.line_at(end.end);
  std::string_view rest =
      line.substr(std::min<std::size_t>(end.end - source.line_begin(end.end), line.size()));
  const std::size_t blanks = std::min(rest.find_first_not_of(" \t"), rest.size());
  rest.remove_prefix(blanks);
  const std::size_t length = rest.find_last_not_of(" \t\r") + 1;
  std::string iso; // `#8 to #10` with each number as the tooth it counts to
  for (std::size_t at = 0; at < length;) {
    const std::size_t stop = std::min(rest.find_first_not_of("0123456789", at + 1), length);
    if (rest[at] != '#') {
      if (at == 0) return false;
      iso += rest[at++];
      continue;
    }
    const auto tooth = counted_tooth(rest.substr(at + 1, stop - at - 1));
    if (!tooth) return false;
    iso += std::to_string(*tooth);
    at = stop;
  }
  if (iso.empty()) return false;
  const auto begin = static_cast<std::uint32_t>(end.end + blanks);
  const text::Span span{end.file, begin, begin + static_cast<std::uint32_t>(length)};
  findings.add(diag::make(catalogue::not_a_tooth, span, rest.substr(0, length)))
      .with_fix(span, iso, false)
      .with_note("`#` begins a comment")
      .with_help(
          fmt::format("where teeth are counted from 1 to 32, it is `{}` in the two digits of "
                      "ISO 3950",
                      iso));
  return true;
}

void report_problem(const Problem& p, const Trouble& trouble, diag::Findings& findings) {
  const words::Word& row = *trouble.word.word;
  const std::string_view word = row.name;
  const std::optional<Remedy> remedy = remedy_for(p, trouble);
  const std::string example = fmt::format("for example: `{}`", row.example);
  switch (p.kind) {
  case Problem::Kind::none: return;
  case Problem::Kind::unexpected: {
    if (report_longer_name(p, trouble, findings)) return;
    const std::string why =
        p.wanted.empty() ? "nothing more belongs here" : "expected " + listed(p.wanted);
    offer(findings.add(diag::make(catalogue::wrong_value, p.span, p.text, why)), remedy, example);
    return;
  }
  case Problem::Kind::ended:
    findings.add(diag::make(catalogue::missing_value, p.span, word, listed(p.wanted)))
        .with_help(example);
    return;
  case Problem::Kind::missing_unit:
    offer(findings.add(diag::make(catalogue::wrong_unit, p.span, p.text, p.wanted.front())), remedy,
          "write its unit behind the number");
    return;
  case Problem::Kind::wrong_unit:
    findings.add(diag::make(catalogue::wrong_unit, p.span, p.text, p.wanted.front()))
        .with_help(example);
    return;
  case Problem::Kind::unknown_unit: {
    auto& d = findings.add(diag::make(catalogue::unknown_unit, p.span, p.text));
    std::string units;
    for (const words::Unit& u : words::units())
      units += fmt::format("{}{}", units.empty() ? "" : ", ", u.name);
    d.with_note(fmt::format("units: {}", units));
    offer(d, remedy, fmt::format("expected {}", p.wanted.front()));
    return;
  }
  case Problem::Kind::out_of_range:
    findings.add(diag::make(catalogue::out_of_range, p.span, p.text, p.detail)).with_help(example);
    return;
  case Problem::Kind::not_a_tooth: report_no_tooth(p, findings); return;
  case Problem::Kind::across_jaws: report_run(p, findings); return;
  case Problem::Kind::not_a_mark: report_mark(p, findings); return;
  case Problem::Kind::no_such_date:
    findings.add(diag::make(catalogue::no_such_date, p.span, p.text))
        .with_help("a day is written as year, month, day: `2026-09-01`");
    return;
  case Problem::Kind::unknown_code: {
    auto& d = findings.add(diag::make(catalogue::unknown_code, p.span, p.text));
    std::vector<std::string_view> codes;
    for (const words::ViewCode& c : words::view_codes())
      codes.push_back(c.code);
    if (const auto near = text::nearest(p.text, codes)) {
      d.with_fix(p.span, std::string(*near), false)
          .with_help(fmt::format("did you mean `{}` ({})?", *near, words::find_code(*near)->term));
    } else {
      d.with_help("codes go from IV01 to IV30 and from EV01 to EV43; an archive knows no code of "
                  "your own, and none that was withdrawn: leave it out");
    }
    return;
  }
  case Problem::Kind::bad_escape:
    findings
        .add(diag::make(catalogue::wrong_value, p.span, p.text.substr(0, 60),
                        "a backslash stands before a quote or a backslash only"))
        .with_help("write `\\\\` for a backslash");
    return;
  }
}

} // namespace norma::model
