#include "model/derive.hpp"

#include "words/codes.hpp"

namespace norma::model {
namespace {

physics::Tooth crossed(physics::Tooth tooth, Crossing crossing) {
  return crossing == Crossing::other_side ? tooth.other_side() : tooth.other_jaw();
}

std::string_view crossed(std::string_view symbol, Crossing crossing) {
  return crossing == Crossing::other_side ? words::other_side(symbol) : words::other_jaw(symbol);
}

void cross(words::Value& value, Crossing crossing) {
  if (auto* symbol = std::get_if<words::Symbol>(&value.data)) {
    symbol->text = crossed(symbol->text, crossing);
  } else if (auto* run = std::get_if<words::ToothRun>(&value.data)) {
    run->first = crossed(run->first, crossing);
    run->last = crossed(run->last, crossing);
  } else if (auto* code = std::get_if<words::Code>(&value.data)) {
    const words::ViewCode* row = words::find_code(code->text);
    const words::ViewCode* other = row == nullptr ? nullptr : words::other_side(*row);
    if (other != nullptr) code->text = other->code;
  }
}

} // namespace

std::vector<Statement> derived(const std::vector<Statement>& source, Crossing crossing) {
  std::vector<Statement> out;
  for (const Statement& original : source) {
    const words::Crossing rule =
        crossing == Crossing::other_side ? original.word->other_side : original.word->other_jaw;
    if (rule == words::Crossing::stays) continue;
    Statement s = original;
    s.derived = true;
    if (rule == words::Crossing::maps) {
      s.key = words::key_of(*s.word, crossed(s.key, crossing));
      for (words::Value& value : s.parts.own_values())
        cross(value, crossing);
    }
    out.push_back(std::move(s));
  }
  return out;
}

} // namespace norma::model
