#include "kit/reader.hpp"

#include <fmt/core.h>

#include <cmath>

#include "physics/quantity_text.hpp"
#include "text/utf8.hpp"

namespace norma::kit {
namespace {

using words::LiteralError;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// `010` is eight to some YAML readers and ten to others. Digits behind a point are none of it.
bool has_leading_zero(std::string_view text) {
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    const bool starts = i == 0 || (!is_digit(text[i - 1]) && text[i - 1] != '.');
    if (starts && text[i] == '0' && is_digit(text[i + 1])) return true;
  }
  return false;
}

/// The two marks of the aperture scale around an f-number that is none.
std::string marks_beside(double engraved) {
  constexpr int last = 42; // f/128
  int above = 0;
  // Compared as engraved: f/22 stands for 22.63, and 22.3 lies above it.
  const auto passed = [&](int thirds) {
    const std::string mark = physics::to_text(physics::f_number_of_thirds(thirds));
    return std::stod(mark.substr(2)) < engraved;
  };
  while (above <= last && passed(above))
    ++above;
  if (above == 0) return "the scale starts at f/1";
  if (above > last) return "the scale ends at f/128";
  return fmt::format("the marks beside it are {} and {}",
                     physics::to_text(physics::f_number_of_thirds(above - 1)),
                     physics::to_text(physics::f_number_of_thirds(above)));
}

} // namespace

diag::Diagnostic& Reader::wrong(const Yaml& y, std::string_view why) {
  const std::string shown = y.kind == Yaml::Kind::scalar ? excerpt(y.text)
                            : y.kind == Yaml::Kind::null ? "nothing"
                            : y.kind == Yaml::Kind::list ? "a list"
                                                         : "a block";
  return findings_.add(diag::make(catalogue::wrong_key_value, y.span, shown, why));
}

diag::Diagnostic& Reader::out_of_range(const Yaml& y, std::string_view why) {
  return findings_.add(diag::make(catalogue::key_value_range, y.span, excerpt(y.text), why));
}

void Reader::contradiction(text::Span at, std::string_view key, std::string_view why) {
  findings_.add(diag::make(catalogue::key_value_range, at, key, why));
}

bool Reader::scalar(const Yaml& y) {
  if (y.kind == Yaml::Kind::scalar) return true;
  wrong(y, "one value is wanted");
  return false;
}

bool Reader::numeric(const Yaml& y) {
  if (!scalar(y)) return false;
  if (!has_leading_zero(y.text)) return true;
  findings_.add(diag::make(catalogue::leading_zero, y.span, excerpt(y.text)));
  return false;
}

void Reader::unit_missing(const Yaml& y, std::string_view why, std::string_view unit) {
  auto& d = wrong(y, why);
  if (!y.quoted) d.with_fix(y.span, fmt::format("{} {}", y.text, unit), false);
}

void Reader::report_choice(const Yaml& y, const std::vector<std::string_view>& names) {
  std::string list;
  for (std::size_t i = 0; i < names.size(); ++i) {
    list += fmt::format("{}`{}`", i == 0 ? "" : i + 1 == names.size() ? " or " : ", ", names[i]);
  }
  auto& d = wrong(y, "expected " + list);
  if (const auto near = text::nearest(y.text, names)) {
    d.with_fix(y.span, std::string(*near), false)
        .with_help(fmt::format("did you mean `{}`?", *near));
  }
}

template <class T>
std::optional<T> Reader::literal(const Yaml& y, words::Literal<T> read, std::string_view form) {
  if (auto* value = std::get_if<T>(&read)) return *value;
  switch (std::get<LiteralError>(read)) {
  case LiteralError::malformed: wrong(y, fmt::format("expected {}", form)); break;
  case LiteralError::too_long:
    out_of_range(y, "norma keeps 9 digits before the point and 6 after it");
    break;
  case LiteralError::zero: out_of_range(y, "it is zero, or divides by zero"); break;
  case LiteralError::no_such_date: out_of_range(y, "there is no such day"); break;
  }
  return std::nullopt;
}

std::optional<words::Measure> Reader::measure(const Yaml& y, words::Dimension dimension,
                                              std::string_view form, std::string_view unit) {
  if (!numeric(y)) return std::nullopt;
  const auto m = literal<words::Measure>(y, words::parse_measure(y.text), form);
  if (!m) return std::nullopt;
  if (m->dimension() != dimension) {
    if (dimension == words::Dimension::none) {
      wrong(y, "a plain number has no unit");
    } else if (m->unit == nullptr) {
      unit_missing(y, fmt::format("{} has a unit; expected {}", words::to_text(dimension), form),
                   unit);
    } else {
      wrong(y, fmt::format("it is {}; expected {}", words::to_text(m->dimension()), form));
    }
    return std::nullopt;
  }
  return m;
}

Sourced<std::string> Reader::text(const Yaml& y) {
  if (!scalar(y)) return Sourced<std::string>::broken(y.span);
  if (y.text.empty()) {
    wrong(y, "it is empty");
    return Sourced<std::string>::broken(y.span);
  }
  if (text::count_characters(y.text) > longest_text) {
    out_of_range(y, "a name has at most 200 characters");
    return Sourced<std::string>::broken(y.span);
  }
  if (text::printable(y.text) != y.text) {
    wrong(y, "it holds characters that cannot be printed");
    return Sourced<std::string>::broken(y.span);
  }
  return {y.text, y.span};
}

Sourced<Length> Reader::length(const Yaml& y, Length least, Length most) {
  const auto m = measure(y, words::Dimension::length, "a length, such as `35 mm`", "mm");
  if (!m) return Sourced<Length>::broken(y.span);
  const Length l = words::length_of(*m);
  if (l < least || l > most) {
    out_of_range(y, fmt::format("it lies between {} and {}", physics::to_text(least),
                                physics::to_text(most)));
    return Sourced<Length>::broken(y.span);
  }
  return {l, y.span};
}

Sourced<Angle> Reader::angle(const Yaml& y, Angle least, Angle most) {
  const auto m = measure(y, words::Dimension::angle, "an angle, such as `60 deg`", "deg");
  if (!m) return Sourced<Angle>::broken(y.span);
  const Angle a = words::angle_of(*m);
  if (a < least || a > most) {
    out_of_range(y, fmt::format("it lies between {} and {}", physics::to_text(least),
                                physics::to_text(most)));
    return Sourced<Angle>::broken(y.span);
  }
  return {a, y.span};
}

Sourced<Illuminance> Reader::illuminance(const Yaml& y) {
  const auto m = measure(y, words::Dimension::light, "an illuminance, such as `500 lx`", "lx");
  if (!m) return Sourced<Illuminance>::broken(y.span);
  const double lx = m->number.value();
  if (lx < 0 || lx * lux > brightest) {
    out_of_range(y, "it lies between 0 and 200,000 lx");
    return Sourced<Illuminance>::broken(y.span);
  }
  return {lx * lux, y.span};
}

Sourced<ColourTemperature> Reader::temperature(const Yaml& y) {
  const auto m =
      measure(y, words::Dimension::temperature, "a colour temperature, such as `5500 K`", "K");
  if (!m) return Sourced<ColourTemperature>::broken(y.span);
  const ColourTemperature t = words::temperature_of(*m);
  if (t < warmest || t > coldest) {
    out_of_range(y, "it lies between 1000 and 40,000 K");
    return Sourced<ColourTemperature>::broken(y.span);
  }
  return {t, y.span};
}

Sourced<Time> Reader::time(const Yaml& y, Time most) {
  const auto m = measure(y, words::Dimension::time, "a time, such as `1/200 s`", "s");
  if (!m) return Sourced<Time>::broken(y.span);
  const Time t = words::time_of(*m);
  if (t <= Time{} || t > most) {
    out_of_range(y, fmt::format("it lies between 0 and {}", physics::to_text(most)));
    return Sourced<Time>::broken(y.span);
  }
  return {t, y.span};
}

Sourced<words::Date> Reader::date(const Yaml& y) {
  if (!scalar(y)) return Sourced<words::Date>::broken(y.span);
  const auto d = literal<words::Date>(y, words::parse_date(y.text), "a day, such as `2026-09-01`");
  return d ? Sourced<words::Date>(*d, y.span) : Sourced<words::Date>::broken(y.span);
}

Sourced<Size> Reader::size(const Yaml& y) {
  if (!numeric(y)) return Sourced<Size>::broken(y.span);
  const auto s = literal<words::SizeLiteral>(y, words::parse_size(y.text),
                                             "width and height, such as `36 x 24 mm`");
  if (!s) return Sourced<Size>::broken(y.span);
  if (s->width.unit == nullptr && s->height.unit == nullptr) {
    unit_missing(y, "width and height have a unit, such as `36 x 24 mm`", "mm");
    return Sourced<Size>::broken(y.span);
  }
  if (s->width.dimension() != words::Dimension::length ||
      s->height.dimension() != words::Dimension::length) {
    wrong(y, "width and height have a unit, such as `36 x 24 mm`");
    return Sourced<Size>::broken(y.span);
  }
  Size size{words::length_of(s->width), words::length_of(s->height)};
  if (size.width < size.height) std::swap(size.width, size.height);
  if (size.height < least_side || size.width > greatest_side) {
    out_of_range(y, "each side of a sensor lies between 1 and 100 mm");
    return Sourced<Size>::broken(y.span);
  }
  return {size, y.span};
}

Sourced<Magnification> Reader::ratio(const Yaml& y) {
  if (!numeric(y)) return Sourced<Magnification>::broken(y.span);
  const auto r =
      literal<words::RatioLiteral>(y, words::parse_ratio(y.text), "a ratio, such as `1:2`");
  if (!r) return Sourced<Magnification>::broken(y.span);
  const Magnification m = words::magnification_of(*r);
  if (m > greatest_ratio || m < least_ratio) {
    out_of_range(y, "a ratio lies between 1:1000 and 20:1");
    return Sourced<Magnification>::broken(y.span);
  }
  return {m, y.span};
}

Sourced<FNumber> Reader::f_number(const Yaml& y) {
  if (!numeric(y)) return Sourced<FNumber>::broken(y.span);
  const auto n = literal<words::FNumberLiteral>(y, words::parse_f_number(y.text),
                                                "an f-number, such as `f/22`");
  if (!n) return Sourced<FNumber>::broken(y.span);
  const FNumber exact = physics::exact_f_number(n->number.value());
  if (exact.value() <= 0) {
    out_of_range(
        y, fmt::format("it is not on the aperture scale; {}", marks_beside(n->number.value())));
    return Sourced<FNumber>::broken(y.span);
  }
  return {exact, y.span};
}

Sourced<Power> Reader::power(const Yaml& y) {
  const auto m = measure(y, words::Dimension::none, "a share of full power, such as `1/4`", "");
  if (!m) return Sourced<Power>::broken(y.span);
  const double p = m->number.value();
  if (p <= 0 || p > 1 || p < least_power.value()) {
    out_of_range(y, "it lies between 1/65536 and 1/1");
    return Sourced<Power>::broken(y.span);
  }
  return {Power{p}, y.span};
}

Sourced<Share> Reader::percent(const Yaml& y) {
  const auto m = measure(y, words::Dimension::percent, "a share in percent, such as `77 %`", "%");
  if (!m) return Sourced<Share>::broken(y.span);
  const double share = m->number.value() / 100.0;
  if (share < 0.01 || share > 1.0) {
    out_of_range(y, "it lies between 1 % and 100 %");
    return Sourced<Share>::broken(y.span);
  }
  return {Share{share}, y.span};
}

Sourced<Stops> Reader::stops(const Yaml& y, Stops most) { return stops_spread(y, most).first; }

std::pair<Sourced<Stops>, Sourced<Stops>> Reader::stops_spread(const Yaml& y, Stops most) {
  const std::pair broken{Sourced<Stops>::broken(y.span), Sourced<Stops>::broken(y.span)};
  if (!numeric(y)) return broken;
  const auto s = literal<words::Spread>(y, words::parse_spread(y.text),
                                        "a number of stops, such as `0.5 +- 0.1 stop`");
  if (!s) return broken;
  const auto is_stops = [](const words::Measure& m) {
    return m.dimension() == words::Dimension::stops;
  };
  if (s->middle.unit == nullptr && !s->spread) {
    unit_missing(y, "light is lost in stops, such as `0.5 +- 0.1 stop`", "stop");
    return broken;
  }
  if (!is_stops(s->middle) || (s->spread && !is_stops(*s->spread))) {
    wrong(y, "light is lost in stops, such as `0.5 +- 0.1 stop`");
    return broken;
  }
  const Stops middle = words::stops_of(s->middle);
  if (middle < Stops{} || middle > most) {
    out_of_range(y, fmt::format("it lies between 0 and {:.0f} stops", most.in(stop)));
    return broken;
  }
  if (!s->spread) return {{middle, y.span}, {}};
  const Stops spread = words::stops_of(*s->spread);
  if (spread < Stops{} || spread > most) {
    out_of_range(y, fmt::format("its spread lies between 0 and {:.0f} stops", most.in(stop)));
    return broken;
  }
  return {{middle, y.span}, {spread, y.span}};
}

Sourced<double> Reader::number(const Yaml& y, double least, double most) {
  const auto m = measure(y, words::Dimension::none, "a number", "");
  if (!m) return Sourced<double>::broken(y.span);
  const double value = m->number.value();
  if (value < least || value > most) {
    out_of_range(y, fmt::format("it lies between {:g} and {:g}", least, most));
    return Sourced<double>::broken(y.span);
  }
  return {value, y.span};
}

Sourced<int> Reader::whole(const Yaml& y, int least, int most) {
  const auto n = number(y, least, most);
  if (!n.known()) return Sourced<int>::broken(y.span);
  if (n.get() != std::floor(n.get())) {
    wrong(y, "a whole number is wanted");
    return Sourced<int>::broken(y.span);
  }
  return {static_cast<int>(n.get()), y.span};
}

std::optional<std::pair<Yaml, Yaml>> Reader::ends(const Yaml& y) {
  if (!scalar(y)) return std::nullopt;
  const std::size_t to = y.text.find(" to ");
  if (to == std::string::npos) {
    wrong(y, "expected two ends with `to` between them");
    return std::nullopt;
  }
  const auto part = [&](std::size_t begin, std::size_t end) {
    while (begin < end && y.text[begin] == ' ')
      ++begin;
    while (end > begin && y.text[end - 1] == ' ')
      --end;
    Yaml half;
    half.kind = Yaml::Kind::scalar;
    half.text = y.text.substr(begin, end - begin);
    half.span = y.span;
    half.quoted = y.quoted;
    // A scalar between quotes starts one byte later; its halves then keep the whole place.
    if (!y.quoted && y.span.end - y.span.begin == y.text.size()) {
      half.span.begin = y.span.begin + static_cast<std::uint32_t>(begin);
      half.span.end = y.span.begin + static_cast<std::uint32_t>(end);
    }
    return half;
  };
  return std::pair{part(0, to), part(to + 4, y.text.size())};
}

bool other_edition(Reader& r, const Yaml& tree, std::string_view key, std::string_view what,
                   int edition) {
  for (const YamlEntry& entry : tree.entries) {
    if (entry.key != key) continue;
    if (entry.value.kind == Yaml::Kind::scalar && entry.value.text == std::to_string(edition))
      return false;
    r.wrong(entry.value, fmt::format("this norma reads {} of edition {}", what, edition));
    return true;
  }
  return false;
}

void report_unknown(Reader& reader, const YamlEntry& entry,
                    const std::vector<std::string_view>& names, std::string_view what) {
  auto& d =
      reader.findings().add(diag::make(catalogue::unknown_key, entry.key_span, excerpt(entry.key)));
  if (const auto near = text::nearest(entry.key, names)) {
    d.with_fix(entry.key_span, std::string(*near), false)
        .with_help(fmt::format("did you mean `{}`?", *near));
    return;
  }
  std::string list;
  for (const std::string_view name : names)
    list += fmt::format("{}`{}`", list.empty() ? "" : ", ", name);
  d.with_help(fmt::format("keys of {}: {}", what, list));
}

// Values by the form of their row -----------------------------------------------------------------

Yaml without_unit(const Yaml& y, std::string_view unit) {
  Yaml bare = y;
  if (y.kind != Yaml::Kind::scalar || unit.empty() || !y.text.ends_with(unit)) return bare;
  const std::string_view before = std::string_view(y.text).substr(0, y.text.size() - unit.size());
  if (before.ends_with(' ')) bare.text = std::string(before.substr(0, before.size() - 1));
  return bare;
}

Sourced<std::string> read_text(Reader& r, const Yaml& y, const Form& /*form*/) { return r.text(y); }
Sourced<Length> read_length(Reader& r, const Yaml& y, const Form& form) {
  return r.length(y, form.least * mm, form.most * mm);
}
Sourced<Angle> read_angle(Reader& r, const Yaml& y, const Form& form) {
  return r.angle(y, form.least * degree, form.most * degree);
}
Sourced<Time> read_time(Reader& r, const Yaml& y, const Form& form) {
  return r.time(y, form.most * second);
}
Sourced<Illuminance> read_light(Reader& r, const Yaml& y, const Form& /*form*/) {
  return r.illuminance(y);
}
Sourced<ColourTemperature> read_temperature(Reader& r, const Yaml& y, const Form& /*form*/) {
  return r.temperature(y);
}
Sourced<words::Date> read_date(Reader& r, const Yaml& y, const Form& /*form*/) { return r.date(y); }
Sourced<Size> read_size(Reader& r, const Yaml& y, const Form& /*form*/) { return r.size(y); }
Sourced<Magnification> read_ratio(Reader& r, const Yaml& y, const Form& /*form*/) {
  return r.ratio(y);
}
Sourced<FNumber> read_f_number(Reader& r, const Yaml& y, const Form& /*form*/) {
  return r.f_number(y);
}
Sourced<Power> read_power(Reader& r, const Yaml& y, const Form& /*form*/) { return r.power(y); }
Sourced<Share> read_percent(Reader& r, const Yaml& y, const Form& /*form*/) { return r.percent(y); }
Sourced<Stops> read_stops(Reader& r, const Yaml& y, const Form& form) {
  return r.stops(y, form.most * stop);
}
Sourced<int> read_whole(Reader& r, const Yaml& y, const Form& form) {
  return r.whole(y, static_cast<int>(form.least), static_cast<int>(form.most));
}
Sourced<physics::Tooth> read_tooth(Reader& r, const Yaml& y, const Form& form) {
  const Sourced<int> number = read_whole(r, y, form);
  if (!number.known()) return Sourced<physics::Tooth>::broken(y.span);
  const auto tooth = physics::Tooth::from_iso(number.get());
  if (tooth) return {*tooth, y.span};
  r.wrong(y, "no tooth has this number in ISO 3950")
      .with_help("permanent teeth are 11 to 48, milk teeth 51 to 85");
  return Sourced<physics::Tooth>::broken(y.span);
}

} // namespace norma::kit
