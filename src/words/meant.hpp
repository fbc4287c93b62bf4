// What a writer may have meant: other words for values, units and teeth, as people write them.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace norma::words {

/// The value among `wanted` that `written` is another word for (`nurse`: `assistant`); nothing
/// where there is none.
std::optional<std::string> meant_value(std::string_view written,
                                       std::span<const std::string> wanted);
/// What is written today for what was once: `held by itself` is `needs no hand`.
std::optional<std::string_view> written_today(std::string_view once);
/// The unit that `written` is another name of (`sec`: `s`).
std::optional<std::string> meant_unit(std::string_view written);
/// The ISO 3950 number of a tooth in another notation: `UR5`, `ur5`, `1.5`.
std::optional<std::string> meant_tooth(std::string_view written);
/// The ratio of `1/2`, `0.5`, `2`: `1:2`, `1:2`, `2:1`.
std::optional<std::string> meant_ratio(std::string_view written);
/// The f-number of `22`, `f22`, `F22`: `f/22`, if it is on the aperture scale.
std::optional<std::string> meant_f_number(std::string_view written);
/// A name made of a text: `Left side` becomes `left_side`; nothing where no letter starts it.
std::optional<std::string> name_from(std::string_view text);

} // namespace norma::words
