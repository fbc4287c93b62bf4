#include "server/completion.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "diag/catalogue.hpp"
#include "server/cursor.hpp"
#include "server/hover.hpp"
#include "words/codes.hpp"
#include "words/pattern.hpp"

namespace norma::server {
namespace {

using words::Token;
using words::TokenKind;
using Tokens = std::span<const Token>;

bool in_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

std::string example_of(const words::Word& word) {
  return fmt::format("```norma\n{}\n```", word.example);
}

/// Does a comment, or a text between quotes, lie around the place?
bool in_comment_or_text(const syntax::Tree& tree, std::size_t offset) {
  return std::any_of(tree.nodes().begin(), tree.nodes().end(), [&](const syntax::Node& node) {
    const bool comment = node.kind == syntax::NodeKind::comment && offset <= node.end;
    const bool text = node.kind == syntax::NodeKind::text && offset < node.end;
    return (comment || text) && node.begin < offset;
  });
}

/// The words of a pattern's wishes: what else is wished for is a kind of literal.
bool is_plain(const words::Pattern& pattern, const std::string& wanted) {
  const auto symbols = pattern.symbols();
  if (std::find(symbols.begin(), symbols.end(), wanted) != symbols.end()) return true;
  const auto all = pattern.words();
  return std::find(all.begin(), all.end(), wanted) != all.end();
}

class Completer {
 public:
  explicit Completer(const std::function<std::vector<Mention>()>& known) : known_(known) {}

  void words(unsigned place, Tokens before) {
    for (const words::CompiledWord& word : words::compiled_vocabulary()) {
      if ((word.word->places & place) == 0 || before.size() >= word.parts.size()) continue;
      const bool fits =
          std::equal(before.begin(), before.end(), word.parts.begin(),
                     [](const Token& t, std::string_view part) { return t.text == part; });
      if (!fits) continue;
      std::string rest;
      for (std::size_t i = before.size(); i < word.parts.size(); ++i)
        rest += (rest.empty() ? "" : " ") + std::string(word.parts[i]);
      add({Completion::Kind::word, std::string(word.word->name), rest, "", told(word)});
    }
  }

  void values(const words::CompiledWord& word, Tokens behind) {
    // The parts before the last comma are said; what they fill is not offered again.
    std::set<std::string_view> said;
    bool first = true;
    std::size_t at = 0;
    for (std::size_t i = 0; i < behind.size(); ++i) {
      if (behind[i].kind != TokenKind::comma) continue;
      for (std::size_t c = 0; c < word.patterns.size(); ++c) {
        const words::Clause& clause = word.word->clauses[c];
        const bool fits = word.patterns[c].match(behind.subspan(at, i - at), {}).ok;
        if (fits && !clause.repeats) said.insert(clause.slot);
        if (fits) break;
      }
      first = false;
      at = i + 1;
    }
    const Tokens part = behind.subspan(at);
    const auto& clauses = word.word->clauses;
    const bool has_leading =
        std::any_of(clauses.begin(), clauses.end(), [](const auto& c) { return c.leads; });
    for (std::size_t c = 0; c < word.patterns.size(); ++c) {
      const words::Clause& clause = clauses[c];
      if ((has_leading && clause.leads != first) || said.count(clause.slot) == 1) continue;
      const words::Problem problem = word.patterns[c].match(part, {}).problem;
      const bool may_go_on =
          problem.kind == words::Problem::Kind::ended && problem.token == part.size();
      if (!may_go_on) continue;
      for (const std::string& wanted : problem.wanted)
        wish(word, clause, word.patterns[c], wanted, part);
    }
  }

  void keys(const words::CompiledWord& word) {
    for (const std::string_view key : word.keys)
      add({Completion::Kind::choice, std::string(key), std::string(key), "",
           example_of(*word.word)});
  }

  std::vector<Completion> take() { return std::move(out_); }

 private:
  void add(Completion one) {
    if (told_.insert({one.kind, one.label}).second) out_.push_back(std::move(one));
  }

  void wish(const words::CompiledWord& word, const words::Clause& clause,
            const words::Pattern& pattern, const std::string& wanted, Tokens part) {
    if (is_plain(pattern, wanted)) {
      add({Completion::Kind::choice, wanted, wanted, "", example_of(*word.word)});
      return;
    }
    // Which kind of literal it is: the next one of the clause's pattern.
    const std::string_view text = clause.pattern;
    if (text.find("@code") != std::string_view::npos) return codes(*word.word);
    if (text.find("@word") != std::string_view::npos)
      return words(words::in_view | words::in_face, {});
    if (wanted == words::Pattern("@name").match({}, {}).problem.wanted.front())
      names(word, clause, part);
  }

  void codes(const words::Word& word) {
    for (const words::ViewCode& code : words::view_codes())
      add({Completion::Kind::code, std::string(code.code), std::string(code.code),
           std::string(code.term), example_of(word)});
  }

  void names(const words::CompiledWord& word, const words::Clause& clause, Tokens part) {
    const std::string_view name = word.word->name;
    if (name == "accept" && part.empty()) return findings(*word.word);
    if (name == "accept" && part.back().text == "with") return; // a kit
    const bool gives =
        clause.leads && part.empty() && (name == "view" || name == "face view" || name == "series");
    if (gives || name == "protocol" || name == "builds on") return;
    const bool series = (name == "change series" && clause.leads && part.empty()) ||
                        (name == "accept" && part.back().text == "series");
    for (const Mention& one : known_()) {
      if (one.gives && one.kind == (series ? Named::series : Named::view))
        add({Completion::Kind::name, one.name, one.name, "", example_of(*word.word)});
    }
  }

  void findings(const words::Word& word) {
    for (const diag::Definition* d : diag::catalogue::all())
      add({Completion::Kind::finding, std::string(d->name), std::string(d->name),
           std::string(d->code), example_of(word)});
  }

  const std::function<std::vector<Mention>()>& known_;
  std::set<std::pair<Completion::Kind, std::string>> told_;
  std::vector<Completion> out_;
};

} // namespace

Completions completions_at(const syntax::Tree& tree, const text::Source& source, std::size_t offset,
                           const std::function<std::vector<Mention>()>& known) {
  Completions out{offset, {}};
  const std::string_view bytes = source.bytes();
  while (out.begin > 0 && in_word(bytes[out.begin - 1]))
    --out.begin;
  if (in_comment_or_text(tree, offset)) return out;
  const Spot spot = spot_at(tree, source, offset);
  std::vector<Token> before;
  if (spot.item) {
    for (const Token& token : tokens_of(*spot.item, source)) {
      if (token.span.begin < out.begin && token.span.end <= offset) before.push_back(token);
    }
  }
  Completer completer(known);
  const bool in_block = (spot.place & (words::in_file | words::in_protocol)) == 0;
  Tokens rest = before;
  if (in_block && !rest.empty() && (rest.front().text == "also" || rest.front().text == "no"))
    rest = rest.subspan(1);
  completer.words(spot.place, rest);
  const Head head = head_of(before, spot.place);
  if (head.word != nullptr && !head.removes) {
    if (head.needs_key && head.used == before.size())
      completer.keys(*head.word);
    else if (!head.needs_key)
      completer.values(*head.word, Tokens(before).subspan(head.used));
  }
  out.list = completer.take();
  return out;
}

} // namespace norma::server
