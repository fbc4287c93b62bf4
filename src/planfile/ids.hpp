// The closed lists of ids that a plan file may hold. They are made from norma's tables (ids.inc),
// so that who reads a plan file needs none of these tables.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace norma::planfile {

enum class IdList {
  fact,    // rows of facts
  row,     // words, phrases and sentences
  finding, // codes of findings
  name,    // names of findings
  word,    // words of the language
  slot,    // their clauses
};

/// Sorted.
std::span<const std::string_view> ids_of(IdList list);
std::string_view to_text(IdList list);

/// One of a list; the first of it where nothing was set.
template <IdList list> class Id {
 public:
  Id() = default;
  /// Nothing where the list does not have it.
  static std::optional<Id> of(std::string_view text);
  [[nodiscard]] std::string_view text() const { return ids_of(list)[place_]; }
  friend bool operator==(const Id&, const Id&) = default;

 private:
  std::uint16_t place_ = 0;
};

using FactId = Id<IdList::fact>;
using RowId = Id<IdList::row>;
using FindingCode = Id<IdList::finding>;
using FindingName = Id<IdList::name>;
using WordId = Id<IdList::word>;
using SlotId = Id<IdList::slot>;

} // namespace norma::planfile
