#include "model/statement.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"
#include "model/remedy.hpp"
#include "physics/quantity_text.hpp"
#include "text/suggest.hpp"
#include "words/codes.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;
using syntax::NodeKind;
using words::Problem;
using words::Token;
using words::TokenKind;

/// Something in it was unreadable, and was reported there.
bool holds_junk(syntax::NodeView node) {
  if (node.kind() == NodeKind::junk) return true;
  for (const syntax::NodeView child : node.children()) {
    if (holds_junk(child)) return true; // at most as deep as blocks may stand
  }
  return false;
}

/// How many leading tokens spell the name of `word`; 0 where they don't.
std::size_t name_length(const words::CompiledWord& word, std::span<const Token> tokens) {
  if (tokens.size() < word.parts.size()) return 0;
  for (std::size_t i = 0; i < word.parts.size(); ++i) {
    if (tokens[i].kind != TokenKind::word || tokens[i].text != word.parts[i]) return 0;
  }
  return word.parts.size();
}

const words::CompiledWord* longest_word(std::span<const Token> tokens, unsigned place) {
  if (tokens.empty() || tokens.front().kind != TokenKind::word) return nullptr;
  const words::CompiledWord* best = nullptr;
  for (const words::CompiledWord* word : words::starting_with(tokens.front().text)) {
    if ((word->word->places & place) == 0 || name_length(*word, tokens) == 0) continue;
    if (best == nullptr || word->parts.size() > best->parts.size()) best = word;
  }
  return best;
}

std::string_view place_text(unsigned places) {
  if ((places & words::in_view) != 0) return "a view";
  if ((places & words::in_face) != 0) return "a view of the face";
  if ((places & words::in_protocol) != 0) return "a protocol";
  return "a file, outside of any block";
}

text::Span words_span(std::span<const Token> tokens, std::size_t count) {
  return text::join(tokens.front().span, tokens[count - 1].span);
}

/// Says that no word of the language stands here, and which one may have been meant.
void report_unknown(std::span<const Token> tokens, unsigned place, std::string_view place_name,
                    diag::Findings& findings) {
  if (const words::CompiledWord* elsewhere = longest_word(tokens, ~0u)) {
    findings
        .add(diag::make(catalogue::misplaced_word, words_span(tokens, elsewhere->parts.size()),
                        elsewhere->word->name, place_name))
        .with_help(fmt::format("it stands in {}: `{}`", place_text(elsewhere->word->places),
                               elsewhere->word->example));
    return;
  }
  // As many words as a word of the table may have are held against the table; the nearest wins.
  std::size_t count = 0;
  while (count < tokens.size() && count < 3 && tokens[count].kind == TokenKind::word)
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
    for (const words::Word& w : words::vocabulary()) {
      if ((w.places & place) == 0) continue;
      std::string_view synonyms = w.synonyms;
      while (!synonyms.empty()) {
        const std::size_t stop = std::min(synonyms.find(','), synonyms.size());
        if (synonyms.substr(0, stop) == written) return meant(w.name);
        synonyms.remove_prefix(std::min(stop + 2, synonyms.size()));
      }
    }
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

void report_problem(const Problem& p, const Trouble& trouble, diag::Findings& findings) {
  const words::Word& row = *trouble.word.word;
  const std::string_view word = row.name;
  const std::optional<Remedy> remedy = remedy_for(p, trouble);
  const std::string example = fmt::format("for example: `{}`", row.example);
  switch (p.kind) {
  case Problem::Kind::none: return;
  case Problem::Kind::unexpected: {
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
  case Problem::Kind::not_a_tooth:
    findings.add(diag::make(catalogue::not_a_tooth, p.span, p.text))
        .with_help("teeth have two digits (ISO 3950): 11 to 18, 21 to 28, 31 to 38, 41 to 48, milk "
                   "teeth 51 to 55, 61 to 65, 71 to 75, 81 to 85");
    return;
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

} // namespace

Statement Statement::moved(std::uint32_t by) const {
  Statement s = *this;
  s.head = shifted(head, by);
  s.span = shifted(span, by);
  s.shift += by;
  return s;
}

void Statement::append(const Statement& other) {
  std::vector<Part> both(parts.begin(), parts.end());
  both.insert(both.end(), other.parts.begin(), other.parts.end());
  std::size_t values = 0;
  for (std::size_t i = 0; i < both.size(); ++i) {
    if (i < parts.size())
      values += both[i].values.size();
    else
      both[i].span = shifted(both[i].span, other.shift - shift);
  }
  parts = Parts(both);
  for (words::Value& value : parts.own_values().subspan(values))
    value.span = shifted(value.span, other.shift - shift);
}

const Part* Statement::part(std::string_view slot) const {
  const auto found = std::find_if(parts.begin(), parts.end(),
                                  [&](const Part& p) { return p.clause->slot == slot; });
  return found == parts.end() ? nullptr : &*found;
}

const words::Value* Statement::value(std::string_view slot) const {
  const Part* p = part(slot);
  return p == nullptr || p->values.empty() ? nullptr : &p->values.front();
}

std::string_view Statement::symbol(std::string_view slot) const {
  const words::Value* v = value(slot);
  return v == nullptr ? std::string_view() : v->symbol();
}

std::optional<syntax::NodeView> block_of(syntax::NodeView item) {
  for (const syntax::NodeView node : item.children()) {
    if (node.kind() == NodeKind::block) return node;
  }
  return std::nullopt;
}

namespace {

/// The parts between commas, each fitted to one clause of the word.
class ClauseReader {
 public:
  ClauseReader(const words::CompiledWord& word, Statement& statement, words::Reading& reading,
               std::vector<Part>& parts, diag::Findings& findings)
      : word_(word), statement_(statement), reading_(reading), parts_(parts), findings_(findings) {}

  void read(std::span<const Token> tokens, text::Span end) {
    // Each value and each piece takes a token at least: with room for as many, they stay in place.
    reading_.clear();
    reading_.values.reserve(tokens.size());
    reading_.pieces.reserve(tokens.size());
    parts_.clear();
    read_parts(tokens, end);
    statement_.parts = Parts(parts_);
  }

 private:
  void read_parts(std::span<const Token> tokens, text::Span end) {
    std::size_t at = 0;
    bool first = true;
    while (at <= tokens.size() && !statement_.broken) {
      std::size_t stop = at;
      while (stop < tokens.size() && tokens[stop].kind != TokenKind::comma)
        ++stop;
      const text::Span here = stop < tokens.size() ? tokens[stop].span : end;
      if (stop == at && stop < tokens.size()) {
        part_ = tokens.subspan(at, 1);
        fail({Problem::Kind::unexpected, 0, here, ",", wanted_starts(first), ""});
        return;
      }
      if (stop > at) read_part(tokens.subspan(at, stop - at), here, first);
      first = false;
      at = stop + 1;
    }
    if (!statement_.broken) check_required(end);
  }

  void fail(const Problem& p) {
    report_problem(p, {word_, part_, end_, first_}, findings_);
    statement_.broken = true;
  }

  std::vector<std::string> wanted_starts(bool first) const {
    Problem p;
    for (std::size_t i = 0; i < word_.patterns.size(); ++i) {
      if (word_.word->clauses[i].leads != first && has_leading()) continue;
      const auto m = word_.patterns[i].match({}, {});
      p.wanted.insert(p.wanted.end(), m.problem.wanted.begin(), m.problem.wanted.end());
    }
    return p.wanted;
  }
  [[nodiscard]] bool has_leading() const {
    return std::any_of(word_.word->clauses.begin(), word_.word->clauses.end(),
                       [](const words::Clause& c) { return c.leads; });
  }

  void read_part(std::span<const Token> tokens, text::Span end, bool first) {
    part_ = tokens;
    end_ = end;
    first_ = first;
    for (std::size_t i = 0; i < word_.patterns.size(); ++i) {
      if (!may_stand(i)) continue;
      const std::size_t values = reading_.values.size();
      const std::size_t pieces = reading_.pieces.size();
      if (!word_.patterns[i].read(tokens, reading_)) continue;
      const words::Clause& clause = word_.word->clauses[i];
      const text::Span span = text::join(tokens.front().span, tokens.back().span);
      if (const Part* said = part(clause.slot); said != nullptr && !clause.repeats) {
        findings_
            .add(diag::make(catalogue::said_twice, span,
                            fmt::format("{} ... {}", word_.word->name, tokens.front().text)))
            .with_label(said->span, "said here first");
        statement_.broken = true;
        return;
      }
      parts_.push_back({&clause, std::span(reading_.values).subspan(values),
                        std::span(reading_.pieces).subspan(pieces), span});
      return;
    }
    fail(furthest_problem());
  }

  /// May a part that fits clause `i` stand here?
  [[nodiscard]] bool may_stand(std::size_t i) const {
    return !has_leading() || word_.word->clauses[i].leads == first_;
  }

  /// Why no clause fits: of the reasons the one that lies furthest.
  [[nodiscard]] Problem furthest_problem() const {
    Problem furthest;
    for (std::size_t i = 0; i < word_.patterns.size(); ++i) {
      if (may_stand(i)) take_further(furthest, word_.patterns[i].match(part_, end_).problem);
    }
    if (furthest.kind != Problem::Kind::none) return furthest;
    return {Problem::Kind::unexpected,       0,  part_.front().span,
            std::string(part_.front().text), {}, ""};
  }

  static void take_further(Problem& best, Problem p) {
    const auto vague = [](const Problem& q) {
      return q.kind == Problem::Kind::unexpected || q.kind == Problem::Kind::ended;
    };
    if (best.kind == Problem::Kind::none || p.token > best.token ||
        (p.token == best.token && vague(best) && !vague(p))) {
      best = std::move(p);
    } else if (p.token == best.token && vague(best) && vague(p)) {
      for (std::string& w : p.wanted) {
        if (std::find(best.wanted.begin(), best.wanted.end(), w) == best.wanted.end()) {
          best.wanted.push_back(std::move(w));
        }
      }
    }
  }

  void check_required(text::Span end) {
    if (!parts_.empty()) {
      for (const words::Clause& clause : word_.word->clauses) {
        const bool wanted = clause.required || needed_beside(clause.slot);
        if (!wanted || part(clause.slot) != nullptr) continue;
        fail({Problem::Kind::ended, 0, end, "", wanted_of(clause), ""});
        return;
      }
      return;
    }
    if (word_.patterns.empty()) return;
    fail({Problem::Kind::ended, 0, end, "", wanted_starts(true), ""});
  }
  /// The part that was read for `slot`; null where there is none.
  [[nodiscard]] const Part* part(std::string_view slot) const {
    const auto found = std::find_if(parts_.begin(), parts_.end(),
                                    [&](const Part& p) { return p.clause->slot == slot; });
    return found == parts_.end() ? nullptr : &*found;
  }
  /// Does a part that was said ask for one in `slot`?
  [[nodiscard]] bool needed_beside(std::string_view slot) const {
    return std::any_of(parts_.begin(), parts_.end(),
                       [&](const Part& p) { return p.clause->with == slot; });
  }
  std::vector<std::string> wanted_of(const words::Clause& clause) const {
    for (std::size_t i = 0; i < word_.patterns.size(); ++i) {
      if (&word_.word->clauses[i] == &clause) return word_.patterns[i].match({}, {}).problem.wanted;
    }
    return {};
  }

  const words::CompiledWord& word_;
  Statement& statement_;
  words::Reading& reading_;
  std::vector<Part>& parts_; // read so far
  diag::Findings& findings_;
  // The part that is being read.
  std::span<const Token> part_;
  text::Span end_;
  bool first_ = true;
};

/// `also` or `no` before a word of a view.
Mention mention_of(std::span<const Token> tokens, unsigned place) {
  if ((place & (words::in_file | words::in_protocol)) != 0 || tokens.size() < 2) {
    return Mention::says;
  }
  const std::string_view first = tokens.front().text;
  return first == "also" ? Mention::also : first == "no" ? Mention::no : Mention::says;
}

/// Does a key of the word stand there?
bool is_key(const words::CompiledWord& word, const Token& token) {
  return std::find(word.keys.begin(), word.keys.end(), token.text) != word.keys.end();
}

/// `no mirror`, `no retractor left`: the word, perhaps its key, and nothing more.
void read_removed(const words::CompiledWord& word, std::span<const Token> tokens, std::size_t used,
                  Statement& s, diag::Findings& findings) {
  if (used < tokens.size() && is_key(word, tokens[used])) {
    s.key = words::key_of(*s.word, tokens[used].text);
    s.head.end = tokens[used].span.end;
    ++used;
  }
  if (used < tokens.size() && !s.broken) {
    report_problem({Problem::Kind::unexpected,
                    used,
                    tokens[used].span,
                    std::string(tokens[used].text),
                    {},
                    ""},
                   {word, tokens, s.span, true}, findings);
    s.broken = true;
  }
}

std::optional<TokenKind> token_kind(NodeKind kind) {
  switch (kind) {
  case NodeKind::word: return TokenKind::word;
  case NodeKind::text: return TokenKind::text;
  case NodeKind::number: return TokenKind::number;
  case NodeKind::ratio: return TokenKind::ratio;
  case NodeKind::f_number: return TokenKind::f_number;
  case NodeKind::date: return TokenKind::date;
  case NodeKind::comma: return TokenKind::comma;
  case NodeKind::equals: return TokenKind::equals;
  case NodeKind::plus_minus: return TokenKind::plus_minus;
  case NodeKind::unit:
  case NodeKind::junk:
  case NodeKind::comment:
  case NodeKind::block:
  case NodeKind::item:
  case NodeKind::file: break;
  }
  return std::nullopt;
}

} // namespace

/// The values of an item as tokens; a number takes its unit along.
StatementReader::Found StatementReader::take_tokens(syntax::NodeView item) {
  Found found;
  tokens_.clear();
  for (const syntax::NodeView node : item.children()) {
    const text::Span span = node.span();
    if (const auto kind = token_kind(node.kind())) {
      tokens_.push_back({*kind, source_.text(span), span});
    } else if (node.kind() == NodeKind::unit) {
      Token& number = tokens_.back();
      number.span.end = span.end;
      number.text = source_.text(number.span);
    } else if (node.kind() == NodeKind::junk) {
      found.junk = true;
    } else if (node.kind() == NodeKind::block && !found.block) {
      found.block = node;
    }
  }
  return found;
}

std::optional<Statement> StatementReader::read(syntax::NodeView item, unsigned place,
                                               std::string_view place_name) {
  const Found found = take_tokens(item);
  if (tokens_.empty() || tokens_.front().kind != TokenKind::word) return std::nullopt;
  const text::Span first = tokens_.front().span;
  const Mention mention = mention_of(tokens_, place);
  const std::span<const Token> tokens =
      std::span(tokens_).subspan(mention == Mention::says ? 0 : 1);
  const words::CompiledWord* word = longest_word(tokens, place);
  if (word == nullptr) {
    report_unknown(tokens, place, place_name, findings_);
    return std::nullopt;
  }
  Statement s;
  s.word = word->word;
  s.mention = mention;
  s.head = text::join(first, words_span(tokens, word->parts.size()));
  s.span = text::join(s.head, tokens.back().span);
  s.broken = found.junk;
  if (mention == Mention::also && !words::adds(*word->word)) {
    findings_.add(diag::make(catalogue::also_not_a_list, s.head, s.word->name))
        .with_help(fmt::format("leave `also` out: `{}` then takes the place of what is inherited",
                               s.word->name));
    s.broken = true;
  }

  std::size_t used = word->parts.size();
  const text::Span end{s.span.file, s.span.end, s.span.end};
  if (mention == Mention::no) {
    read_removed(*word, tokens, used, s, findings_);
    return s;
  }
  if (!word->keys.empty() && !s.broken) {
    const bool has_key =
        used < tokens.size() && tokens[used].kind == TokenKind::word && is_key(*word, tokens[used]);
    if (!has_key) {
      const bool ended = used >= tokens.size();
      Problem p{ended ? Problem::Kind::ended : Problem::Kind::unexpected,
                used,
                ended ? end : tokens[used].span,
                ended ? std::string() : std::string(tokens[used].text),
                {word->keys.begin(), word->keys.end()},
                ""};
      report_problem(p, {*word, tokens, end, true}, findings_);
      s.broken = true;
    } else {
      s.key = words::key_of(*s.word, tokens[used].text);
      s.head.end = tokens[used].span.end;
      ++used;
    }
  }
  if (!s.broken)
    ClauseReader(*word, s, reading_, parts_, findings_).read(tokens.subspan(used), end);
  if (found.block && !word->word->block && !holds_junk(*found.block)) {
    findings_.add(diag::make(catalogue::block_out_of_place, found.block->span(),
                             fmt::format("`{}` takes no block", word->word->name)));
  }
  return s;
}

} // namespace norma::model
