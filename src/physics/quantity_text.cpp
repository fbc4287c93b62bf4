#include "physics/quantity_text.hpp"

#include <array>
#include <cmath>
#include <cstdint>

namespace norma::physics {
namespace {

// The aperture scale: engraved marks and the third or half stops above f/1 that they stand for
// (ISO 517). Where a half-stop mark is engraved like a third-stop one (1.2 and 13), the third wins.
struct Mark {
  double engraved;
  double sixths; // of a stop above f/1: thirds are even, halves are multiples of three
};
constexpr std::array marks{
    Mark{1, 0},    Mark{1.1, 2},  Mark{1.2, 4},  Mark{1.4, 6},  Mark{1.6, 8},  Mark{1.7, 9},
    Mark{1.8, 10}, Mark{2, 12},   Mark{2.2, 14}, Mark{2.4, 15}, Mark{2.5, 16}, Mark{2.8, 18},
    Mark{3.2, 20}, Mark{3.3, 21}, Mark{3.5, 22}, Mark{4, 24},   Mark{4.5, 26}, Mark{4.8, 27},
    Mark{5, 28},   Mark{5.6, 30}, Mark{6.3, 32}, Mark{6.7, 33}, Mark{7.1, 34}, Mark{8, 36},
    Mark{9, 38},   Mark{9.5, 39}, Mark{10, 40},  Mark{11, 42},  Mark{13, 44},  Mark{14, 46},
    Mark{16, 48},  Mark{18, 50},  Mark{19, 51},  Mark{20, 52},  Mark{22, 54},  Mark{25, 56},
    Mark{27, 57},  Mark{29, 58},  Mark{32, 60},  Mark{36, 62},  Mark{38, 63},  Mark{40, 64},
    Mark{45, 66},  Mark{51, 68},  Mark{54, 69},  Mark{57, 70},  Mark{64, 72},  Mark{72, 74},
    Mark{76, 75},  Mark{80, 76},  Mark{90, 78},  Mark{102, 80}, Mark{107, 81}, Mark{114, 82},
    Mark{128, 84},
};

double exact(double sixths) { return std::exp2(sixths / 12.0); }

int decimals_of(double step) { return step < 0.005 ? 3 : step < 0.05 ? 2 : step < 0.5 ? 1 : 0; }

std::string without_trailing_zeros(std::string s) {
  if (s.find('.') == std::string::npos) return s;
  while (s.back() == '0')
    s.pop_back();
  if (s.back() == '.') s.pop_back();
  return s;
}

} // namespace

std::string fixed(double value, double step) {
  if (!std::isfinite(value)) return value > 0 ? "infinite" : value < 0 ? "-infinite" : "unknown";
  const int decimals = decimals_of(step);
  const double scale = std::pow(10.0, decimals);
  // A value that arithmetic left a hair below a tie is meant as the tie: without the nudge 0.125
  // would print as 0.12 on one machine and as 0.13 on another.
  const double scaled = std::abs(value) * scale;
  if (scaled > 9e15) return value > 0 ? "infinite" : "-infinite";
  const auto whole = static_cast<std::uint64_t>(std::floor(scaled + 0.5 + 1e-9 * (1.0 + scaled)));
  std::string digits = std::to_string(whole);
  const auto places = static_cast<std::size_t>(decimals);
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - places, ".");
  return (value < 0 && whole != 0 ? "-" : "") + digits;
}

namespace {

Written of_length(Length l) {
  // From 10 cm on nobody at a chair measures tenths.
  constexpr double long_way = 100.0;
  return {fixed(l.in(mm), std::abs(l.in(mm)) < long_way ? 0.1 : 1.0), Unit::mm};
}

Written of_stops(Stops s, bool sign) {
  std::string number = fixed(s.in(stop), 0.01);
  if (sign && number.front() != '-' && number != "0.00") number.insert(0, "+");
  const Unit unit = number == "1.00" ? Unit::stop : Unit::stops;
  return {std::move(number), unit};
}

Written of_time(Time t) {
  const double seconds = t.in(second);
  if (seconds > 0 && seconds < 0.5) return {"1/" + fixed(1.0 / seconds, 1), Unit::seconds};
  return {without_trailing_zeros(fixed(seconds, 0.1)), Unit::seconds};
}

std::string f_number_text(FNumber n) {
  for (const Mark& m : marks) {
    const double ratio = n.value() / exact(m.sixths);
    if (std::abs(ratio - 1.0) < 0.005) return "f/" + without_trailing_zeros(fixed(m.engraved, 0.1));
  }
  return "f/" + without_trailing_zeros(fixed(n.value(), 0.1));
}

std::string ratio_text(Magnification m) {
  if (m.value() <= 0) return "0:1";
  if (m.value() > 1.0) return without_trailing_zeros(fixed(m.value(), 0.01)) + ":1";
  return "1:" + without_trailing_zeros(fixed(1.0 / m.value(), 0.01));
}

Written of_power(Power p) {
  if (p.value() <= 0) return {{}, Unit::off};
  // Flashes are set in full stops and thirds: 1/4 +1/3 is a third of a stop more than a quarter.
  const double thirds = -3.0 * std::log2(p.value());
  const double rounded = std::round(thirds);
  const bool off_the_scale = std::abs(thirds - rounded) > 0.01;
  if (p.value() > 1 && (off_the_scale || rounded < 0))
    return {fixed(p.value(), 0.01), Unit::of_full_power};
  if (off_the_scale) return {"1/" + fixed(1.0 / p.value(), 0.1)};
  const int n = static_cast<int>(rounded);
  const int stops = (n + 2) / 3;
  const int up = stops * 3 - n;
  std::string out = "1/" + std::to_string(1LL << stops);
  if (up == 0) return {std::move(out)};
  return {out + " +" + std::to_string(up) + "/3", Unit::stop};
}

std::string_view sign_of(Unit unit) {
  switch (unit) {
  case Unit::none: return "";
  case Unit::mm: return " mm";
  case Unit::degrees: return " deg";
  case Unit::stop: return " stop";
  case Unit::stops: return " stops";
  case Unit::seconds: return " s";
  case Unit::lux: return " lx";
  case Unit::kelvin: return " K";
  case Unit::mired: return " mired";
  case Unit::percent: return " %";
  case Unit::of_full_power: return " of full power";
  case Unit::off: return "off";
  }
  return "";
}

std::string with_unit(Written w) { return std::move(w.number) + std::string(sign_of(w.unit)); }

} // namespace

Written written(Kind kind, double number, bool sign) {
  switch (kind) {
  case Kind::length: return of_length(Length::from_base(number));
  case Kind::fine_length: return {fixed(Length::from_base(number).in(mm), 0.001), Unit::mm};
  case Kind::angle:
    return {without_trailing_zeros(fixed(Angle::from_base(number).in(degree), 0.1)), Unit::degrees};
  case Kind::stops: return of_stops(Stops::from_base(number), sign);
  case Kind::time: return of_time(Time::from_base(number));
  case Kind::f_number: return {f_number_text(FNumber{number})};
  case Kind::ratio: return {ratio_text(Magnification{number})};
  case Kind::power: return of_power(Power{number});
  case Kind::iso:
  case Kind::count: return {fixed(number, 1)};
  case Kind::illuminance: return {fixed(Illuminance::from_base(number).in(lux), 0.1), Unit::lux};
  case Kind::temperature:
    return {fixed(ColourTemperature::from_base(number).in(kelvin), 1), Unit::kelvin};
  case Kind::mired: return {fixed(in_its_unit(kind, number), 1), Unit::mired};
  case Kind::share: return {fixed(number * 100, 1), Unit::percent};
  case Kind::decimal: return {fixed(number, 0.01)};
  case Kind::tenths: return {without_trailing_zeros(fixed(number, 0.1))};
  }
  return {};
}

Written written(Size s) {
  const auto side = [](Length l) { return without_trailing_zeros(fixed(l.in(mm), 0.1)); };
  return {side(s.width) + " x " + side(s.height), Unit::mm};
}

std::string to_text(Kind kind, double number, bool sign) {
  return with_unit(written(kind, number, sign));
}

std::string to_text(Length l) { return with_unit(of_length(l)); }
std::string to_text_fine(Length l) { return to_text(Kind::fine_length, l.base(), false); }
std::string to_text(Angle a) { return to_text(Kind::angle, a.base(), false); }
std::string to_text(Stops s, bool sign) { return with_unit(of_stops(s, sign)); }
std::string to_text(Time t) { return with_unit(of_time(t)); }
std::string to_text(FNumber n) { return f_number_text(n); }
std::string to_text(Magnification m) { return ratio_text(m); }
std::string to_text(Power p) { return with_unit(of_power(p)); }
std::string to_text(IsoSpeed s) { return fixed(s.value(), 1); }
std::string to_text(Illuminance e) { return to_text(Kind::illuminance, e.base(), false); }
std::string to_text(ColourTemperature t) { return to_text(Kind::temperature, t.base(), false); }
std::string to_text(Size s) { return with_unit(written(s)); }

std::string_view unit_of(Kind kind) {
  switch (kind) {
  case Kind::length:
  case Kind::fine_length: return "mm";
  case Kind::angle: return "deg";
  case Kind::stops: return "stop";
  case Kind::time: return "s";
  case Kind::illuminance: return "lx";
  case Kind::temperature: return "K";
  case Kind::mired: return "mired";
  case Kind::f_number:
  case Kind::ratio:
  case Kind::power:
  case Kind::iso:
  case Kind::count:
  case Kind::share:
  case Kind::decimal:
  case Kind::tenths: return "";
  }
  return "";
}

double in_its_unit(Kind kind, double base) {
  if (kind == Kind::mired) return ReciprocalTemperature::from_base(base).in(norma::mired);
  return kind == Kind::angle ? Angle::from_base(base).in(degree) : base;
}

FNumber exact_f_number(double engraved) {
  for (const Mark& m : marks) {
    if (std::abs(m.engraved - engraved) < 1e-9) return FNumber{exact(m.sixths)};
  }
  return FNumber{0};
}

FNumber f_number_of_thirds(int thirds) { return FNumber{exact(2.0 * thirds)}; }

int nearest_thirds(FNumber n) {
  if (n.value() <= 0) return 0;
  return static_cast<int>(std::lround(6.0 * std::log2(n.value())));
}

} // namespace norma::physics
