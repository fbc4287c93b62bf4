#include <algorithm>
#include <map>
#include <set>

#include "model/write.hpp"
#include "review/parts.hpp"

namespace norma::review {
namespace {

using Key = std::pair<const words::Word*, std::string_view>;
using ByWord = std::map<Key, std::vector<const model::Statement*>>;

ByWord by_word(const std::vector<model::Statement>& statements) {
  ByWord out;
  for (const model::Statement& s : statements)
    out[{s.word, s.key}].push_back(&s);
  return out;
}

/// The forms of all clauses of a slot, by their slot; a list word's statements one by one.
using Forms = std::map<std::string_view, std::vector<std::string>>;

Forms forms_of(const std::vector<const model::Statement*>& statements,
               const model::NameForm& name) {
  Forms out;
  for (const model::Statement* s : statements) {
    for (model::ClauseForm& c : model::clause_forms(*s, name))
      out[c.clause->slot].push_back(std::move(c.form));
  }
  return out;
}

/// The parts of these slots as they are written.
std::string written(const std::vector<const model::Statement*>& statements,
                    const std::set<std::string_view>& slots) {
  std::string out;
  for (const model::Statement* s : statements) {
    for (const model::Part& part : s->parts) {
      if (slots.count(part.clause->slot) == 0) continue;
      if (!out.empty()) out += ", ";
      out += model::part_text(part);
    }
  }
  return out;
}

/// Of list words: the statements that only one side has.
std::vector<const model::Statement*> alone(const std::vector<const model::Statement*>& all,
                                           const std::vector<const model::Statement*>& others,
                                           const model::NameForm& name,
                                           const model::NameForm& others_name) {
  std::vector<std::vector<model::ClauseForm>> there;
  for (const model::Statement* s : others)
    there.push_back(model::clause_forms(*s, others_name));
  std::vector<const model::Statement*> out;
  for (const model::Statement* s : all) {
    const auto found = std::find(there.begin(), there.end(), model::clause_forms(*s, name));
    if (found == there.end()) {
      out.push_back(s);
    } else {
      there.erase(found);
    }
  }
  return out;
}

/// Told of the protocol by itself.
constexpr std::string_view revision_word = "revision";

} // namespace

std::vector<Asked> asked_otherwise(const std::vector<model::Statement>& before,
                                   const std::vector<model::Statement>& after,
                                   const model::NameForm& name, bool face) {
  const ByWord old_words = by_word(before);
  const ByWord new_words = by_word(after);
  std::set<Key> keys;
  for (const auto& [key, said] : old_words)
    keys.insert(key);
  for (const auto& [key, said] : new_words)
    keys.insert(key);
  static const std::vector<const model::Statement*> nothing;
  const auto said_of = [](const ByWord& words, const Key& key) -> const auto& {
    const auto found = words.find(key);
    return found == words.end() ? nothing : found->second;
  };
  std::vector<Asked> out;
  for (const Key& key : keys) {
    if (key.first->name == revision_word) continue;
    const auto* old_said = &said_of(old_words, key);
    const auto* new_said = &said_of(new_words, key);
    std::vector<const model::Statement*> old_alone;
    std::vector<const model::Statement*> new_alone;
    Forms old_forms = forms_of(*old_said, name);
    Forms new_forms = forms_of(*new_said, {});
    if (old_forms == new_forms && old_said->empty() == new_said->empty()) continue;
    if (key.first->repeat == words::Repeat::list) {
      old_alone = alone(*old_said, *new_said, name, {});
      new_alone = alone(*new_said, *old_said, {}, name);
      if (!old_alone.empty() || !new_alone.empty()) { // else in another order
        old_said = &old_alone;
        new_said = &new_alone;
        old_forms = forms_of(*old_said, name);
        new_forms = forms_of(*new_said, {});
      }
    }
    // Clauses that differ, by what a change of them means.
    struct Other {
      words::Effect effect;
      std::set<std::string_view> slots;
    };
    std::map<Kind, Other> others;
    for (const words::Clause& c : key.first->clauses) {
      const auto a = old_forms.find(c.slot);
      const auto b = new_forms.find(c.slot);
      const bool same = a == old_forms.end() ? b == new_forms.end()
                                             : b != new_forms.end() && a->second == b->second;
      if (same) continue;
      const words::Effect effect = words::effect_of(*key.first, c, face);
      others.try_emplace(kind_of(effect), Other{effect, {}}).first->second.slots.insert(c.slot);
    }
    if (others.empty()) { // the word alone came or went
      const words::Effect effect = words::effect_of(*key.first, face);
      others.emplace(kind_of(effect), Other{effect, {}});
    }
    for (const auto& [kind, other] : others)
      out.push_back({key.first, key.second, other.effect, kind, written(*old_said, other.slots),
                     written(*new_said, other.slots)});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Asked& a, const Asked& b) { return a.kind < b.kind; });
  return out;
}

} // namespace norma::review
