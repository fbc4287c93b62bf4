#include "project/known.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "text/utf8.hpp"

namespace norma::project {
namespace {

using Json = nlohmann::ordered_json;

/// The fields of one finding into an object, those that say nothing left out.
Json json_of(const Known& known) {
  Json out = Json::object();
  const auto put = [&](const char* key, const std::string& value, bool needed, std::string_view) {
    if (needed || !value.empty()) out[key] = value;
  };
  Known::fields(put, known);
  return out;
}

/// The fields of one finding out of an object; `why` is what is wrong.
struct Taker {
  const Json& object;
  std::string why{};
  std::size_t taken = 0;
  void operator()(const char* key, std::string& value, bool needed, std::string_view /*is*/) {
    const auto found = object.find(key);
    if (found == object.end()) {
      if (needed && why.empty()) why = fmt::format("a finding has no `{}`", key);
    } else if (!found->is_string()) {
      why = fmt::format("`{}` of a finding is no text", key);
    } else {
      ++taken;
      value = found->get<std::string>();
    }
  }
};

bool is_id(std::string_view text) {
  return text.size() == 16 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

std::size_t line_of(std::string_view bytes, std::size_t at) {
  const auto end = bytes.begin() + static_cast<std::ptrdiff_t>(std::min(at, bytes.size()));
  return 1 + static_cast<std::size_t>(std::count(bytes.begin(), end, '\n'));
}

constexpr const char* list_key = "findings";
constexpr int deepest_known = 3;

/// The document as nlohmann-json has it, no deeper and with no more in it than such a file has.
std::variant<Json, KnownError> parsed(std::string_view bytes) {
  if (bytes.size() > largest_known_file)
    return KnownError{0, "a file of known findings has at most 8 MB"};
  std::string why;
  std::size_t values = 0;
  const auto bounded = [&](int depth, Json::parse_event_t, Json&) {
    constexpr std::size_t most_values = most_known * 40;
    if (depth > deepest_known && why.empty()) why = "it is nested deeper than such a file is";
    if (++values > most_values && why.empty()) why = "it holds more than such a file does";
    return why.empty();
  };
  try {
    Json out = Json::parse(bytes, bounded);
    if (why.empty()) return out;
  } catch (const Json::parse_error& error) {
    if (why.empty()) {
      const std::size_t line = line_of(bytes, error.byte > 0 ? error.byte - 1 : 0);
      const bool merge = bytes.find("\n<<<<<<<") != std::string_view::npos;
      return KnownError{line, merge ? "marks of a merge stand in it" : "this is no JSON"};
    }
  } catch (const Json::exception&) {
    why = "this is no JSON";
  }
  return KnownError{0, why};
}

} // namespace

std::string known_text(std::vector<Known> all) {
  std::sort(all.begin(), all.end());
  std::string out = fmt::format("{{\n\"{}\": 1,\n\"{}\": [", known_mark, list_key);
  for (const Known& one : all) {
    out += &one == all.data() ? "\n" : ",\n";
    out += json_of(one).dump(-1, ' ', false, Json::error_handler_t::replace);
  }
  return text::printable_json(out + "\n]\n}\n");
}

std::variant<std::vector<Known>, KnownError> read_known(std::string_view bytes) {
  auto answer = parsed(bytes);
  if (auto* error = std::get_if<KnownError>(&answer)) return std::move(*error);
  const Json& all = std::get<Json>(answer);
  const auto failed = [](std::string why) { return KnownError{0, std::move(why)}; };
  if (!all.is_object() || !all.contains(known_mark))
    return failed(fmt::format("it is no file of known findings: it has no `{}`", known_mark));
  if (all.at(std::string(known_mark)) != 1)
    return failed("this norma reads files of known findings of edition 1");
  const auto list = all.find(list_key);
  if (list == all.end() || !list->is_array() || all.size() != 2)
    return failed(
        fmt::format("beside its edition it has `{}`, a list, and nothing else", list_key));
  if (list->size() > most_known)
    return failed(fmt::format("it has more than {} findings", most_known));
  std::vector<Known> out;
  for (const Json& one : *list) {
    if (!one.is_object()) return failed("what stands in its list is no finding");
    Known known;
    Taker take{one};
    Known::fields(take, known);
    if (take.why.empty() && take.taken != one.size())
      take.why = "a finding has a key that there is not";
    if (take.why.empty() && !is_id(known.id)) take.why = "an `id` has 16 hexadecimal digits";
    if (!take.why.empty()) return failed(take.why);
    out.push_back(std::move(known));
  }
  return out;
}

} // namespace norma::project
