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
/// How a statement of a view starts that people begin like this: `field`.
std::optional<std::string_view> meant_start(std::string_view written);
/// Teeth that have a name of their own in the trade: `upper front teeth` are `facial 13 to 23`.
std::optional<std::string_view> meant_teeth(std::string_view written);
/// The ISO 3950 number of a tooth that is numbered from 1 to 32, from the last upper one of the
/// patient's right round to the last lower one.
std::optional<int> tooth_of_count(int number);
/// What norma has no word for, at the start of `statement`: `picture style`; nothing where there is
/// none.
std::optional<std::string_view> beyond_the_language(std::string_view statement);
/// The ratio of `1/2`, `0.5`, `2`: `1:2`, `1:2`, `2:1`.
std::optional<std::string> meant_ratio(std::string_view written);
/// The f-number of `22`, `f22`, `F22`: `f/22`, if it is on the aperture scale.
std::optional<std::string> meant_f_number(std::string_view written);
/// A name made of a text: `Left side` becomes `left_side`; nothing where no letter starts it.
std::optional<std::string> name_from(std::string_view text);

} // namespace norma::words
