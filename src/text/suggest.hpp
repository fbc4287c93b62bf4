// "Did you mean": the nearest word of a closed list.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace norma::text {

/// Edits (insert, delete, replace, swap two neighbours) that turn `a` into `b`, upper and lower
/// case alike; more than `most` is told as `most + 1`. Words over 64 bytes never match.
std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t most);

/// The candidate with the fewest edits, if there are few for the word's length (one for up to four
/// letters, two up to eight, else three); the first of the best ones in list order.
std::optional<std::string_view> nearest(std::string_view word,
                                        std::span<const std::string_view> candidates);

} // namespace norma::text
