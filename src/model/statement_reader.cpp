// Reads an item of the tree as a statement, by the patterns of the word table.
#include <algorithm>

#include "diag/catalogue.hpp"
#include "model/problem.hpp"
#include "model/statement.hpp"

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

} // namespace

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
    report_problem(p, {word_, part_, end_, first_, statement_.head}, findings_);
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

} // namespace

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
  const bool removes = mention == Mention::no;
  const words::CompiledWord* word =
      removes ? word_taken_away(tokens, place) : longest_word(tokens, place);
  if (word == nullptr) {
    report_unknown(tokens, place, place_name, removes, findings_);
    return std::nullopt;
  }
  const std::size_t length = removes ? word->absence.size() : word->parts.size();
  Statement s;
  s.word = word->word;
  s.mention = mention;
  s.head = text::join(first, words_span(tokens, length));
  s.span = text::join(s.head, tokens.back().span);
  s.broken = found.junk;
  if (mention == Mention::also && !words::adds(*word->word)) {
    findings_.add(diag::make(catalogue::also_not_a_list, s.head, s.word->name))
        .with_help(fmt::format("leave `also` out: `{}` then takes the place of what is inherited",
                               s.word->name));
    s.broken = true;
  }

  std::size_t used = length;
  const text::Span end{s.span.file, s.span.end, s.span.end};
  if (removes) {
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
  if (!s.broken && report_counted_teeth(*s.word, source_, end, findings_)) s.broken = true;
  if (!s.broken)
    ClauseReader(*word, s, reading_, parts_, findings_).read(tokens.subspan(used), end);
  if (found.block && !word->word->block && !holds_junk(*found.block)) {
    findings_.add(diag::make(catalogue::block_out_of_place, found.block->span(),
                             fmt::format("`{}` takes no block", word->word->name)));
  }
  return s;
}

} // namespace norma::model
