#include "server/hover.hpp"

#include <fmt/core.h>

#include "diag/sentence.hpp"
#include "model/statement.hpp"
#include "physics/anatomy/crown.hpp"
#include "plan/plan.hpp"
#include "server/server_words.hpp"
#include "words/codes.hpp"
#include "words/teeth.hpp"

namespace norma::server {
namespace {

diag::Said kind_of(physics::Tooth tooth) {
  switch (tooth.position()) {
  case 1: return said::tooth_central();
  case 2: return said::tooth_lateral();
  case 3: return said::tooth_canine();
  case 4: return tooth.is_primary() ? said::tooth_first_molar() : said::tooth_first_premolar();
  case 5: return tooth.is_primary() ? said::tooth_second_molar() : said::tooth_second_premolar();
  case 6: return said::tooth_first_molar();
  case 7: return said::tooth_second_molar();
  default: return said::tooth_third_molar();
  }
}

std::string told(physics::Tooth tooth, const kit::Kit* kit, const wording::Language& in) {
  const physics::CrownSize size = physics::crown_size(tooth, plan::sizes_of_patients(kit));
  const diag::Said name = said::tooth(
      tooth.iso(), tooth.is_primary() ? said::tooth_milk(kind_of(tooth)) : kind_of(tooth),
      tooth.is_upper() ? said::tooth_upper() : said::tooth_lower(),
      tooth.is_right() ? said::tooth_right() : said::tooth_left());
  return in.text(name) + "\n\n" + in.text(said::tooth_size(size.width, size.height, size.depth));
}

/// The tooth that is written at a place, where it is one.
std::optional<physics::Tooth> tooth_at(const model::Statement& statement,
                                       const words::Token& token) {
  for (const model::Part& part : statement.parts) {
    for (const words::Value& value : part.values) {
      const auto* run = value.as<words::ToothRun>();
      const text::Span span = statement.place(value);
      if (run == nullptr || token.span.begin < span.begin || token.span.end > span.end) continue;
      if (token.span.begin == span.begin) return run->first;
      if (token.span.end == span.end) return run->last;
    }
  }
  return std::nullopt;
}

const words::Token* token_at(const std::vector<words::Token>& tokens, std::size_t offset) {
  for (const words::Token& token : tokens) {
    if (token.span.begin <= offset && offset < token.span.end) return &token;
  }
  return nullptr;
}

} // namespace

std::string told(const words::CompiledWord& compiled) {
  const words::Word& word = *compiled.word;
  std::string out = fmt::format("**{}**: {}\n", word.name, word.help);
  if (!word.clauses.empty()) out += "\n";
  for (const words::Clause& clause : word.clauses) {
    out += fmt::format("- `{}`", words::pattern_text(clause.pattern));
    for (const std::string& note : words::clause_notes(word, clause))
      out += fmt::format(" ({})", note);
    out += "\n";
  }
  return out + fmt::format("\n```norma\n{}\n```", word.example);
}

std::optional<Hover> hover_at(const syntax::Tree& tree, const text::Source& source,
                              std::size_t offset, const kit::Kit* kit,
                              const wording::Language& language) {
  const Spot spot = spot_at(tree, source, offset);
  if (!spot.item) return std::nullopt;
  const auto tokens = tokens_of(*spot.item, source);
  const words::Token* token = token_at(tokens, offset);
  if (token == nullptr) return std::nullopt;
  const Head head = head_of(tokens, spot.place);
  if (head.word == nullptr) return std::nullopt;
  const auto index = static_cast<std::size_t>(token - tokens.data());
  if (index < head.used) {
    const text::Span span = text::join(tokens.front().span, tokens[head.used - 1].span);
    return Hover{told(*head.word), span};
  }
  if (token->kind == words::TokenKind::number) {
    diag::Findings ignored;
    model::StatementReader reader(source, ignored);
    const auto statement = reader.read(*spot.item, spot.place, "");
    if (!statement || statement->broken) return std::nullopt;
    const auto tooth = tooth_at(*statement, *token);
    if (!tooth) return std::nullopt;
    return Hover{told(*tooth, kit, language), token->span};
  }
  if (const words::ViewCode* code = words::find_code(token->text))
    return Hover{fmt::format("**{}**: `{}`", code->code, code->term), token->span};
  return std::nullopt;
}

} // namespace norma::server
