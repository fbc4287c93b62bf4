#include "server/formatting.hpp"

#include <algorithm>

#include "syntax/tidy.hpp"

namespace norma::server {
namespace {

/// The lines that differ, as one stretch.
Patch difference(std::string_view before, std::string_view after) {
  if (before == after) return {};
  const std::size_t least = std::min(before.size(), after.size());
  std::size_t front = 0;
  while (front < least && before[front] == after[front])
    ++front;
  while (front > 0 && before[front - 1] != '\n')
    --front;
  std::size_t back = 0;
  while (back < least - front && before[before.size() - 1 - back] == after[after.size() - 1 - back])
    ++back;
  while (back > 0 && before[before.size() - back - 1] != '\n')
    --back;
  return {front, before.size() - back,
          std::string(after.substr(front, after.size() - back - front))};
}

} // namespace

std::optional<Patch> tidied(const Document& document, const workspace::Snapshot& files) {
  const auto answer = files.parsed(document.path);
  const auto* parsed = std::get_if<std::shared_ptr<const workspace::Parsed>>(&answer);
  if (parsed == nullptr || !(*parsed)->findings.empty()) return std::nullopt;
  return difference(document.text->bytes,
                    syntax::tidied((*parsed)->tree, *(*parsed)->version->source));
}

} // namespace norma::server
