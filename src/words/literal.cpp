#include "words/literal.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <numeric>

namespace norma::words {
namespace {

constexpr std::array unit_table{
    Unit{"mm", Dimension::length, {1, 1}},     Unit{"cm", Dimension::length, {10, 1}},
    Unit{"m", Dimension::length, {1000, 1}},   Unit{"um", Dimension::length, {1, 1000}},
    Unit{"deg", Dimension::angle, {1, 1}},     Unit{"stop", Dimension::stops, {1, 1}},
    Unit{"stops", Dimension::stops, {1, 1}},   Unit{"s", Dimension::time, {1, 1}},
    Unit{"ms", Dimension::time, {1, 1000}},    Unit{"min", Dimension::time, {60, 1}},
    Unit{"%", Dimension::percent, {1, 1}},     Unit{"lx", Dimension::light, {1, 1}},
    Unit{"K", Dimension::temperature, {1, 1}},
};

constexpr std::size_t most_digits = 9;
constexpr std::size_t most_decimals = 6;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

Rational reduced(std::int64_t numerator, std::int64_t denominator) {
  const std::int64_t divisor = std::gcd(numerator, denominator);
  return divisor > 1 ? Rational{numerator / divisor, denominator / divisor}
                     : Rational{numerator, denominator};
}

void skip_blanks(std::string_view& text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
}
std::string_view trimmed(std::string_view text) {
  skip_blanks(text);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
    text.remove_suffix(1);
  return text;
}

/// Digits at the start of `text`, taken off it.
std::string_view take_digits(std::string_view& text) {
  std::size_t n = 0;
  while (n < text.size() && is_digit(text[n]))
    ++n;
  const std::string_view digits = text.substr(0, n);
  text.remove_prefix(n);
  return digits;
}

std::int64_t to_integer(std::string_view digits) {
  std::int64_t value = 0;
  for (const char c : digits)
    value = value * 10 + (c - '0');
  return value;
}

/// A decimal without sign at the start of `text`, taken off it.
Literal<Rational> take_decimal(std::string_view& text) {
  const std::string_view whole = take_digits(text);
  if (whole.empty()) return LiteralError::malformed;
  std::string_view decimals;
  if (text.size() > 1 && text.front() == '.' && is_digit(text[1])) {
    text.remove_prefix(1);
    decimals = take_digits(text);
  }
  if (whole.size() > most_digits || decimals.size() > most_decimals) return LiteralError::too_long;
  std::int64_t scale = 1;
  for (std::size_t i = 0; i < decimals.size(); ++i)
    scale *= 10;
  return reduced(to_integer(whole) * scale + to_integer(decimals), scale);
}

/// `[+-] (int/int | dec)` at the start of `text`, taken off it.
Literal<Rational> take_number(std::string_view& text) {
  bool negative = false;
  if (!text.empty() && (text.front() == '+' || text.front() == '-')) {
    negative = text.front() == '-';
    text.remove_prefix(1);
  }
  const std::string_view start = text;
  auto literal = take_decimal(text);
  // A fraction is made of whole numbers: `1.0/2` is none.
  const bool is_whole =
      start.substr(0, start.size() - text.size()).find('.') == std::string_view::npos;
  auto* number = std::get_if<Rational>(&literal);
  if (number == nullptr) return literal;
  if (text.size() > 1 && text.front() == '/' && is_digit(text[1]) && is_whole) {
    text.remove_prefix(1);
    const std::string_view below = take_digits(text);
    if (below.size() > most_digits) return LiteralError::too_long;
    const std::int64_t divisor = to_integer(below);
    if (divisor == 0) return LiteralError::zero;
    *number = reduced(number->numerator, divisor);
  }
  if (negative) number->numerator = -number->numerator;
  return literal;
}

Literal<Measure> take_measure(std::string_view& text) {
  const auto literal = take_number(text);
  if (const auto* error = std::get_if<LiteralError>(&literal)) return *error;
  Measure m{std::get<Rational>(literal), nullptr};
  std::string_view rest = text;
  skip_blanks(rest);
  std::size_t n = 0;
  while (n < rest.size() && (is_letter(rest[n]) || rest[n] == '%'))
    ++n;
  if (const Unit* unit = find_unit(rest.substr(0, n))) {
    m.unit = unit;
    text = rest.substr(n);
  }
  return m;
}

/// What `take` reads from the whole of `text`; malformed where something is left over.
template <class T, class Take> Literal<T> whole(std::string_view text, Take take) {
  text = trimmed(text);
  Literal<T> literal = take(text);
  if (std::holds_alternative<T>(literal) && !text.empty()) return LiteralError::malformed;
  return literal;
}

bool leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int days_in(int year, int month) {
  static constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : days[static_cast<std::size_t>(month - 1)];
}

} // namespace

std::string to_text(Rational r) {
  std::string out = std::to_string(r.numerator);
  if (r.denominator != 1) out += "/" + std::to_string(r.denominator);
  return out;
}

std::string_view to_text(Dimension d) {
  switch (d) {
  case Dimension::none: return "a plain number";
  case Dimension::length: return "a length";
  case Dimension::angle: return "an angle";
  case Dimension::stops: return "a number of stops";
  case Dimension::time: return "a time";
  case Dimension::percent: return "a share in percent";
  case Dimension::light: return "a number of lux";
  case Dimension::temperature: return "a colour temperature";
  }
  return "";
}

std::string_view base_unit(Dimension d) {
  switch (d) {
  case Dimension::none: return "";
  case Dimension::length: return "mm";
  case Dimension::angle: return "deg";
  case Dimension::stops: return "stop";
  case Dimension::time: return "s";
  case Dimension::percent: return "%";
  case Dimension::light: return "lx";
  case Dimension::temperature: return "K";
  }
  return "";
}

std::span<const Unit> units() { return unit_table; }

const Unit* find_unit(std::string_view name) {
  for (const Unit& u : unit_table) {
    if (u.name == name) return &u;
  }
  return nullptr;
}

double Measure::in_base() const {
  const double plain = number.value();
  return unit == nullptr ? plain : plain * unit->factor.value();
}

std::string to_text(Date d) {
  const auto padded = [](int value, std::size_t width) {
    std::string s = std::to_string(value);
    return std::string(width > s.size() ? width - s.size() : 0, '0') + s;
  };
  return padded(d.year, 4) + "-" + padded(d.month, 2) + "-" + padded(d.day, 2);
}

std::int64_t day_number(Date d) {
  std::int64_t days = 0;
  const int year = d.year;
  const auto before = [](std::int64_t y) { return y * 365 + y / 4 - y / 100 + y / 400; };
  days = before(year - 1) - before(1969);
  for (int m = 1; m < d.month; ++m)
    days += days_in(year, m);
  return days + d.day - 1;
}

int months_between(Date from, Date to) {
  int months = (to.year - from.year) * 12 + (to.month - from.month);
  // A month has passed on the day of the same number, or on the last day of a shorter month.
  const int due = std::min(from.day, days_in(to.year, to.month));
  if (months > 0 && to.day < due) --months;
  if (months <= 0 && to < from) return std::min(months, -1);
  return months;
}

Literal<Rational> parse_number(std::string_view text) {
  return whole<Rational>(text, [](std::string_view& t) { return take_number(t); });
}

Literal<Measure> parse_measure(std::string_view text) {
  return whole<Measure>(text, [](std::string_view& t) { return take_measure(t); });
}

Literal<Spread> parse_spread(std::string_view text) {
  return whole<Spread>(text, [](std::string_view& t) -> Literal<Spread> {
    const auto first = take_measure(t);
    if (const auto* error = std::get_if<LiteralError>(&first)) return *error;
    Spread spread{std::get<Measure>(first), std::nullopt};
    skip_blanks(t);
    if (t.substr(0, 2) != "+-") return spread;
    t.remove_prefix(2);
    skip_blanks(t);
    const auto second = take_measure(t);
    if (const auto* error = std::get_if<LiteralError>(&second)) return *error;
    spread.spread = std::get<Measure>(second);
    if (spread.middle.unit == nullptr) spread.middle.unit = spread.spread->unit;
    if (spread.spread->unit == nullptr) spread.spread->unit = spread.middle.unit;
    return spread;
  });
}

Literal<FNumberLiteral> parse_f_number(std::string_view text) {
  return whole<FNumberLiteral>(text, [](std::string_view& t) -> Literal<FNumberLiteral> {
    if (t.substr(0, 2) != "f/") return LiteralError::malformed;
    t.remove_prefix(2);
    const auto number = take_decimal(t);
    if (const auto* error = std::get_if<LiteralError>(&number)) return *error;
    if (std::get<Rational>(number).numerator == 0) return LiteralError::zero;
    return FNumberLiteral{std::get<Rational>(number)};
  });
}

Literal<RatioLiteral> parse_ratio(std::string_view text) {
  return whole<RatioLiteral>(text, [](std::string_view& t) -> Literal<RatioLiteral> {
    const auto first = take_decimal(t);
    if (const auto* error = std::get_if<LiteralError>(&first)) return *error;
    if (t.empty() || t.front() != ':') return LiteralError::malformed;
    t.remove_prefix(1);
    const auto second = take_decimal(t);
    if (const auto* error = std::get_if<LiteralError>(&second)) return *error;
    const RatioLiteral ratio{std::get<Rational>(first), std::get<Rational>(second)};
    if (ratio.first.numerator == 0 || ratio.second.numerator == 0) return LiteralError::zero;
    return ratio;
  });
}

Literal<Date> parse_date(std::string_view text) {
  text = trimmed(text);
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return LiteralError::malformed;
  for (const std::size_t i : {0u, 1u, 2u, 3u, 5u, 6u, 8u, 9u}) {
    if (!is_digit(text[i])) return LiteralError::malformed;
  }
  const auto part = [&](std::size_t at, std::size_t n) {
    return static_cast<int>(to_integer(text.substr(at, n)));
  };
  const Date d{part(0, 4), part(5, 2), part(8, 2)};
  if (d.year < 1 || d.month < 1 || d.month > 12 || d.day < 1 || d.day > days_in(d.year, d.month)) {
    return LiteralError::no_such_date;
  }
  return d;
}

Literal<SizeLiteral> parse_size(std::string_view text) {
  return whole<SizeLiteral>(text, [](std::string_view& t) -> Literal<SizeLiteral> {
    const auto width = take_measure(t);
    if (const auto* error = std::get_if<LiteralError>(&width)) return *error;
    skip_blanks(t);
    if (t.empty() || t.front() != 'x') return LiteralError::malformed;
    t.remove_prefix(1);
    skip_blanks(t);
    const auto height = take_measure(t);
    if (const auto* error = std::get_if<LiteralError>(&height)) return *error;
    SizeLiteral size{std::get<Measure>(width), std::get<Measure>(height)};
    if (size.width.unit == nullptr) size.width.unit = size.height.unit;
    if (size.width.number.numerator == 0 || size.height.number.numerator == 0) {
      return LiteralError::zero;
    }
    return size;
  });
}

Length length_of(const Measure& m) { return m.in_base() * mm; }
Angle angle_of(const Measure& m) { return m.in_base() * degree; }
Stops stops_of(const Measure& m) { return m.in_base() * stop; }
Time time_of(const Measure& m) { return m.in_base() * second; }
ColourTemperature temperature_of(const Measure& m) { return m.in_base() * kelvin; }
Magnification magnification_of(const RatioLiteral& r) {
  return Magnification{r.first.value() / r.second.value()};
}

} // namespace norma::words
