#include "planfile/ids.hpp"

#include <algorithm>

namespace norma::planfile {
namespace {

#define NORMA_IDS(list) constexpr std::string_view list##_ids[] = {
#define NORMA_ID(id) id,
#define NORMA_END                                                                                  \
  }                                                                                                \
  ;
#include "planfile/ids.inc"
#undef NORMA_IDS
#undef NORMA_ID
#undef NORMA_END

std::optional<std::uint16_t> place_in(IdList list, std::string_view text) {
  const auto all = ids_of(list);
  const auto at = std::lower_bound(all.begin(), all.end(), text);
  if (at == all.end() || *at != text) return std::nullopt;
  return static_cast<std::uint16_t>(at - all.begin());
}

} // namespace

std::span<const std::string_view> ids_of(IdList list) {
  switch (list) {
  case IdList::fact: return fact_ids;
  case IdList::row: return row_ids;
  case IdList::finding: return finding_ids;
  case IdList::name: return name_ids;
  case IdList::word: return word_ids;
  case IdList::slot: return slot_ids;
  }
  return {};
}

std::string_view to_text(IdList list) {
  switch (list) {
  case IdList::fact: return "fact";
  case IdList::row: return "row";
  case IdList::finding: return "finding_code";
  case IdList::name: return "finding_name";
  case IdList::word: return "word";
  case IdList::slot: return "slot";
  }
  return {};
}

template <IdList list> std::optional<Id<list>> Id<list>::of(std::string_view text) {
  const auto place = place_in(list, text);
  if (!place) return std::nullopt;
  Id out;
  out.place_ = *place;
  return out;
}

template class Id<IdList::fact>;
template class Id<IdList::row>;
template class Id<IdList::finding>;
template class Id<IdList::name>;
template class Id<IdList::word>;
template class Id<IdList::slot>;

} // namespace norma::planfile
