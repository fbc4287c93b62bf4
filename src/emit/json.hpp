// JSON as norma writes it. The one header of emit/ that brings nlohmann-json: few files include it.
#pragma once

#include <fmt/core.h>

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <utility>

#include "diag/subject.hpp"
#include "project/known.hpp"
#include "text/utf8.hpp"

namespace norma::emit {

using Json = nlohmann::ordered_json;

/// Indented by two, a new line at the end. Bytes that are not UTF-8 become U+FFFD; nothing in it
/// can act on a terminal.
inline std::string dumped(const Json& j) {
  return text::printable_json(j.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

/// A number as data, kept to so many decimals that its digits do not depend on the machine.
inline double steady(double value, int decimals) {
  return std::stod(fmt::format("{:.{}f}", value, decimals));
}

/// A known finding; only what it says.
inline Json json_of(const project::Known& known) {
  Json out = Json::object();
  const auto put = [&](const char* key, const std::string& value, bool needed, std::string_view) {
    if (needed || !value.empty()) out[key] = value;
  };
  project::Known::fields(put, known);
  return out;
}

/// The names behind a subject; only those that there are.
inline Json json_of(const diag::SubjectNames& names) {
  Json out = Json::object();
  const std::pair<const char*, std::string_view> all[] = {
      {"file", names.file}, {"protocol", names.protocol}, {"group", names.group},
      {"view", names.view}, {"series", names.series},     {"kit", names.kit}};
  for (const auto& [key, name] : all) {
    if (!name.empty()) out[key] = name;
  }
  return out;
}

} // namespace norma::emit
