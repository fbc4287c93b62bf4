// JSON as messages have it. The one header of server/ that brings nlohmann-json.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "server/position.hpp"

namespace norma::server {

/// What comes in: keys are found fast, however many a stranger sends. What goes out keeps its
/// order.
using In = nlohmann::json;
using Out = nlohmann::ordered_json;

/// The member of an object; null where it has none, or where it is no object.
inline const In* member(const In* in, const char* key) {
  if (in == nullptr || !in->is_object()) return nullptr;
  const auto found = in->find(key);
  return found == in->end() ? nullptr : &*found;
}
template <class... Keys> const In* member(const In* in, const char* key, Keys... more) {
  return member(member(in, key), more...);
}
inline std::optional<std::string> text_in(const In* in) {
  return in != nullptr && in->is_string() ? std::optional(in->get<std::string>()) : std::nullopt;
}
inline bool is_true(const In* in) { return in != nullptr && in->is_boolean() && in->get<bool>(); }
inline std::optional<std::int64_t> number_in(const In* in) {
  return in != nullptr && in->is_number_integer() ? std::optional(in->get<std::int64_t>())
                                                  : std::nullopt;
}
inline std::optional<Position> position_in(const In* in) {
  const auto line = number_in(member(in, "line"));
  const auto character = number_in(member(in, "character"));
  if (!line || !character || *line < 0 || *character < 0) return std::nullopt;
  const auto kept = [](std::int64_t n) {
    constexpr std::int64_t most = 0x7fffffff; // uinteger
    return static_cast<std::uint32_t>(n < most ? n : most);
  };
  return Position{kept(*line), kept(*character)};
}
inline std::optional<Range> range_in(const In* in) {
  const auto start = position_in(member(in, "start"));
  const auto end = position_in(member(in, "end"));
  if (!start || !end) return std::nullopt;
  return Range{*start, *end};
}

inline Out json_of(Position p) { return {{"line", p.line}, {"character", p.character}}; }
inline Out json_of(Range r) { return {{"start", json_of(r.start)}, {"end", json_of(r.end)}}; }

/// In one line; bytes that are not UTF-8 become U+FFFD.
inline std::string written(const Out& json) {
  return json.dump(-1, ' ', false, Out::error_handler_t::replace);
}

} // namespace norma::server
