// Numbers, units, ratios, f-numbers, dates.
#include <doctest/doctest.h>

#include <set>

#include "words/literal.hpp"

namespace norma::words {
namespace {

template <class T> LiteralError why(const Literal<T>& literal) {
  REQUIRE(std::holds_alternative<LiteralError>(literal));
  return std::get<LiteralError>(literal);
}
Rational number(std::string_view text) {
  const auto n = parse_number(text);
  REQUIRE_MESSAGE(std::holds_alternative<Rational>(n), std::string(text));
  return std::get<Rational>(n);
}

} // namespace

TEST_CASE("numbers are exact: a tenth is a tenth") {
  CHECK(number("0.1") == Rational{1, 10});
  CHECK(number("12") == Rational{12, 1});
  CHECK(number("-0.5") == Rational{-1, 2});
  CHECK(number("+2/6") == Rational{1, 3});
  CHECK(number("999999999") == Rational{999999999, 1});
  CHECK(number("0.000001") == Rational{1, 1000000});
}

TEST_CASE("what is no number is refused") {
  for (const std::string text : {"", "-", ".", "1.", ".5", "1..2", "1e3", "0x10", "1,5", "1 1/2",
                                 "1/2/3", "1.0/2", "nan", "inf"}) {
    CAPTURE(text);
    CHECK(why(parse_number(text)) == LiteralError::malformed);
  }
  CHECK(why(parse_number("1234567890")) == LiteralError::too_long);
  CHECK(why(parse_number("0.1234567")) == LiteralError::too_long);
  CHECK(why(parse_number("1/0")) == LiteralError::zero);
}

TEST_CASE("a measure has a unit of the closed list, with or without a blank before it") {
  const auto measure = [](std::string_view text) {
    const auto m = parse_measure(text);
    REQUIRE_MESSAGE(std::holds_alternative<Measure>(m), std::string(text));
    return std::get<Measure>(m);
  };
  CHECK(length_of(measure("2 cm")).in(mm) == doctest::Approx(20));
  CHECK(length_of(measure("22mm")).in(mm) == doctest::Approx(22));
  CHECK(angle_of(measure("60 deg")).in(degree) == doctest::Approx(60));
  CHECK(time_of(measure("1/125 s")).in(second) == doctest::Approx(0.008));
  CHECK(stops_of(measure("1/2 stop")).in(stop) == doctest::Approx(0.5));
  CHECK(measure("3").dimension() == Dimension::none);
  CHECK(std::holds_alternative<LiteralError>(parse_measure("3 furlongs")));
}

TEST_CASE("units: each name once, each factor over 0") {
  std::set<std::string_view> names;
  for (const Unit& u : units()) {
    CHECK(names.insert(u.name).second);
    CHECK(u.factor.numerator > 0);
    CHECK(u.factor.denominator > 0);
    CHECK(find_unit(u.name) == &u);
  }
  CHECK(find_unit("parsec") == nullptr);
}

TEST_CASE("ratios, f-numbers and their zeros") {
  const auto ratio = parse_ratio("1:1.5");
  REQUIRE(std::holds_alternative<RatioLiteral>(ratio));
  CHECK(magnification_of(std::get<RatioLiteral>(ratio)).value() == doctest::Approx(1 / 1.5));
  CHECK(why(parse_ratio("1:0")) == LiteralError::zero);
  CHECK(why(parse_ratio("0:1")) == LiteralError::zero);
  CHECK(why(parse_ratio("1:2x")) == LiteralError::malformed);
  CHECK(why(parse_f_number("f/0")) == LiteralError::zero);
  CHECK(why(parse_f_number("22")) == LiteralError::malformed);
  CHECK(std::get<FNumberLiteral>(parse_f_number("f/5.6")).number == Rational{28, 5});
}

TEST_CASE("days exist or are refused; the calendar is the Gregorian one") {
  CHECK(std::holds_alternative<Date>(parse_date("2024-02-29")));
  CHECK(why(parse_date("2023-02-29")) == LiteralError::no_such_date);
  CHECK(why(parse_date("1900-02-29")) == LiteralError::no_such_date); // a century, not by 400
  CHECK(std::holds_alternative<Date>(parse_date("2000-02-29")));
  CHECK(why(parse_date("2026-13-01")) == LiteralError::no_such_date);
  CHECK(why(parse_date("2026-9-1")) == LiteralError::malformed);
  // POSIX time's day numbers.
  CHECK(day_number({1970, 1, 1}) == 0);
  CHECK(day_number({2000, 3, 1}) == 11017);
  CHECK(day_number({2026, 11, 25}) == 20782);
}

TEST_CASE("whole months between two days") {
  CHECK(months_between({2025, 11, 25}, {2026, 11, 25}) == 12);
  CHECK(months_between({2025, 11, 26}, {2026, 11, 25}) == 11);
  CHECK(months_between({2026, 11, 25}, {2026, 11, 24}) < 0);
}

TEST_CASE("a size and a spread: one unit for both numbers") {
  const auto size = parse_size("36 x 24 mm");
  REQUIRE(std::holds_alternative<SizeLiteral>(size));
  CHECK(length_of(std::get<SizeLiteral>(size).width).in(mm) == doctest::Approx(36));
  CHECK(length_of(std::get<SizeLiteral>(size).height).in(mm) == doctest::Approx(24));
  const auto spread = parse_spread("0.5 +- 0.2 stop");
  REQUIRE(std::holds_alternative<Spread>(spread));
  CHECK(stops_of(*std::get<Spread>(spread).spread).in(stop) == doctest::Approx(0.2));
  CHECK(!std::get<Spread>(parse_spread("0.5 stop")).spread);
}

} // namespace norma::words
