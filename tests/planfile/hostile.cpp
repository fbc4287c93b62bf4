// Plan files as strangers write them: each is read or refused, with the place that is wrong.
#include <doctest/doctest.h>

#include <cstdint>
#include <variant>

#include "run.hpp"

namespace norma::test {
namespace {

std::string small() {
  static const std::string json =
      planfile::write(document_of({{"p.norma", read_file(root() / "tests/planfile/small.norma")},
                                   {"k.yaml", read_file(root() / "protocols/kits/chair_3.yaml")}},
                                  {"k.yaml"}));
  return json;
}

std::string with(std::string_view from, std::string_view to) {
  std::string json = small();
  const std::size_t at = json.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, "not in the file: ", std::string(from));
  json.replace(at, from.size(), to);
  return json;
}

/// `pointer: why` of a text that is refused.
std::string refused(std::string_view json) {
  const auto read = planfile::read(json);
  const auto* error = std::get_if<planfile::ReadError>(&read);
  return error == nullptr ? "read" : error->pointer + ": " + error->why;
}

/// Xorshift: the same numbers everywhere.
class Dice {
 public:
  std::size_t below(std::size_t n) {
    state_ ^= state_ << 13u;
    state_ ^= state_ >> 7u;
    state_ ^= state_ << 17u;
    return static_cast<std::size_t>(state_ % n);
  }

 private:
  std::uint64_t state_ = 88172645463325252u;
};

} // namespace

TEST_CASE("what is wrong is named with its place") {
  CHECK_EQ(refused(small()), "read");
  CHECK_EQ(refused(with("\"edition\": 2", "\"edition\": 3")),
           "/norma/edition: this norma reads edition 2");
  CHECK_EQ(refused(with("\"edition\": 2", "\"edition\": \"2\"")),
           "/norma/edition: a whole number is wanted here");
  CHECK_EQ(refused(with("\"on\": ", "\"no\": ")), ": the key `on` is missing");
  CHECK_EQ(refused(with("\"complete\": true", "\"complete\": true, \"more\": 1")),
           ": the key `more` does not belong here");
  CHECK_EQ(refused(with("\"complete\": true", "\"complete\": true, \"complete\": true")),
           ": the key `complete` stands twice");
  CHECK_EQ(refused(with("\"role\": \"kit\"", "\"role\": \"tray\"")),
           "/files/0/role: `tray` is no file_role");
  CHECK_EQ(refused(with("\"id\": \"azimuth\"", "\"id\": \"asimuth\"")),
           "/fact_rows/36/id: `asimuth` is no fact");
  CHECK_EQ(refused(with("\"view\": \"front\"", "\"view\": \"fornt\"")),
           "/plans/0/series/0/views/0/view: there is no such view");
  CHECK_EQ(refused(with("\"kit\": 0", "\"kit\": 7")),
           "/plans/0/kit: it leads past the end of its list");
  CHECK_EQ(refused(with("\"kit\": 0", "\"kit\": -1")),
           "/plans/0/kit: a place in a list is wanted here");
}

TEST_CASE("numbers, sizes and depths have bounds") {
  CHECK_EQ(refused(with("\"on_camera\": 0", "\"on_camera\": 1e999")).substr(0, 9), ": no JSON");
  CHECK_EQ(refused(with("\"on_camera\": 0", "\"on_camera\": NaN")).substr(0, 9), ": no JSON");
  CHECK_EQ(refused(with("\"on_camera\": 0", "\"on_camera\": 18446744073709551615")),
           ": a number is too large");
  CHECK_EQ(refused(std::string(100000, '[')), ": things stand in each other too deep");
  std::string deep;
  for (int i = 0; i < 100000; ++i)
    deep += "{\"a\":";
  CHECK_EQ(refused(deep), ": things stand in each other too deep");
  std::string wide = "{";
  for (int i = 0; i < 1000; ++i)
    wide += "\"k" + std::to_string(i) + "\":1,";
  CHECK_EQ(refused(wide + "\"z\":1}"), ": an object has more keys than any has");
  CHECK_EQ(refused(std::string(planfile::most_bytes + 1, ' ')), ": the file is too large");
  std::string many = "[";
  while (many.size() < 2 * planfile::most_values + 10)
    many += "0,";
  CHECK_EQ(refused(many + "0]"), ": there are too many values");
  CHECK_EQ(refused(""), ": no JSON, from byte 1 on");
  CHECK_EQ(refused("{}"), ": the key `norma` is missing");
  CHECK_EQ(refused("[]"), ": an object is wanted here");
  CHECK_EQ(refused("null"), ": an object is wanted here");
}

TEST_CASE("a file that was changed anywhere is read or refused") {
  const std::string whole = small();
  Dice dice;
  int read = 0;
  constexpr int rounds = 1500;
  constexpr std::string_view bits = "0123456789\"{}[]:,.-eE\\nul tfa\xff\x00";
  for (int i = 0; i < rounds; ++i) {
    std::string json = whole;
    const std::size_t changes = 1 + dice.below(3);
    for (std::size_t c = 0; c < changes; ++c) {
      const std::size_t at = dice.below(json.size());
      switch (dice.below(4)) {
      case 0: json[at] = bits[dice.below(bits.size())]; break;
      case 1: json.erase(at, 1 + dice.below(40)); break;
      case 2: json.insert(at, 1 + dice.below(3), bits[dice.below(bits.size())]); break;
      default: json.insert(at, json.substr(dice.below(json.size()), dice.below(200)));
      }
    }
    const auto result = planfile::read(json);
    const auto* document = std::get_if<planfile::Document>(&result);
    if (document == nullptr) continue;
    ++read;
    // What is read can be written, and that be read.
    const std::string again = planfile::write(*document);
    const auto second = planfile::read(again);
    REQUIRE(std::holds_alternative<planfile::Document>(second));
    CHECK(planfile::write(std::get<planfile::Document>(second)) == again);
  }
  CHECK(read > 10); // a letter of a text, a digit
  CHECK(read < rounds);
}

TEST_CASE("a file that was cut is refused") {
  const std::string whole = small();
  for (std::size_t at = 0; at + 1 < whole.size(); at += 1 + whole.size() / 300)
    CHECK(refused(std::string_view(whole).substr(0, at)) != "read");
}

} // namespace norma::test
