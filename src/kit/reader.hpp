// Scalars of a kit file, or of a project file, by the language's own literals, and blocks by their
// tables of keys.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diag/catalogue.hpp"
#include "diag/diagnostic.hpp"
#include "kit/key.hpp"
#include "kit/yaml_tree.hpp"
#include "text/suggest.hpp"

namespace norma::kit {

namespace catalogue = diag::catalogue;

// What any value of its kind lies between, both ends included.
inline constexpr std::size_t longest_text = 200;
inline constexpr Length least_side = 1.0 * mm; // of a sensor, a frame
inline constexpr Length greatest_side = 100.0 * mm;
inline constexpr Magnification least_ratio{0.001};
inline constexpr Magnification greatest_ratio{20};
inline constexpr Power least_power{1.0 / 65536.0};
inline constexpr Illuminance brightest = 200000.0 * lux; // full sun and more
inline constexpr ColourTemperature warmest = 1000.0 * kelvin;
inline constexpr ColourTemperature coldest = 40000.0 * kelvin;
inline constexpr Stops greatest_loss = 5.0 * stop;

class Reader {
 public:
  explicit Reader(diag::Findings& findings) : findings_(findings) {}

  /// 1 to 200 characters that can all be printed.
  Sourced<std::string> text(const Yaml& y);
  Sourced<Length> length(const Yaml& y, Length least, Length most);
  /// Over 0 and at most `most`.
  Sourced<Time> time(const Yaml& y, Time most);
  Sourced<Angle> angle(const Yaml& y, Angle least, Angle most);
  /// 0 lx to `brightest`.
  Sourced<Illuminance> illuminance(const Yaml& y);
  /// `warmest` to `coldest`.
  Sourced<ColourTemperature> temperature(const Yaml& y);
  Sourced<words::Date> date(const Yaml& y);
  /// A sensor's two sides, long side first whichever was written first.
  Sourced<Size> size(const Yaml& y);
  Sourced<Magnification> ratio(const Yaml& y);
  /// A mark of the aperture scale, as the exact f-number behind it.
  Sourced<FNumber> f_number(const Yaml& y);
  /// `1/4`: a share of full power.
  Sourced<Power> power(const Yaml& y);
  /// 1 % to 100 %.
  Sourced<Share> percent(const Yaml& y);
  /// 0 to `most`.
  Sourced<Stops> stops(const Yaml& y, Stops most);
  /// A plain number from `least` to `most`.
  Sourced<double> number(const Yaml& y, double least, double most);
  Sourced<int> whole(const Yaml& y, int least, int most);
  /// `0.5 +- 0.2 stop`: the middle, and the spread where one is given.
  std::pair<Sourced<Stops>, Sourced<Stops>> stops_spread(const Yaml& y, Stops most);
  /// The two sides of `a to b` as scalars of their own, with places.
  std::optional<std::pair<Yaml, Yaml>> ends(const Yaml& y);

  /// One of a few words.
  template <class E, std::size_t N>
  Sourced<E> choice(const Yaml& y, const Choice<E> (&choices)[N]) {
    if (!scalar(y)) return Sourced<E>::broken(y.span);
    std::vector<std::string_view> names;
    for (const Choice<E>& c : choices) {
      if (y.text == c.word) return {c.value, y.span};
      names.push_back(c.word);
    }
    return wrong_choice<E>(y, names);
  }

  diag::Diagnostic& wrong(const Yaml& y, std::string_view why);
  diag::Diagnostic& out_of_range(const Yaml& y, std::string_view why);
  /// The value of `key` does not go with another one of its section.
  void contradiction(text::Span at, std::string_view key, std::string_view why);
  /// One value and no list or block; else a finding.
  bool scalar(const Yaml& y);
  diag::Findings& findings() { return findings_; }

 private:
  template <class E>
  Sourced<E> wrong_choice(const Yaml& y, const std::vector<std::string_view>& names) {
    report_choice(y, names);
    return Sourced<E>::broken(y.span);
  }
  void report_choice(const Yaml& y, const std::vector<std::string_view>& names);
  /// `scalar`, and no number in it starts with a zero that YAML readers read in two ways.
  bool numeric(const Yaml& y);
  /// A number without its unit: says which it may have, and what it would look like with it.
  void unit_missing(const Yaml& y, std::string_view why, std::string_view unit);
  /// The literal, or nothing where it is not one (reported with `form`).
  template <class T>
  std::optional<T> literal(const Yaml& y, words::Literal<T> read, std::string_view form);
  /// `unit` is the usual one, offered where none is given.
  std::optional<words::Measure> measure(const Yaml& y, words::Dimension dimension,
                                        std::string_view form, std::string_view unit);
  diag::Findings& findings_;
};

// Values by the form of their row.
Sourced<std::string> read_text(Reader& r, const Yaml& y, const Form& form);
Sourced<Length> read_length(Reader& r, const Yaml& y, const Form& form);
Sourced<Angle> read_angle(Reader& r, const Yaml& y, const Form& form);
Sourced<Time> read_time(Reader& r, const Yaml& y, const Form& form);
Sourced<Illuminance> read_light(Reader& r, const Yaml& y, const Form& form);
Sourced<ColourTemperature> read_temperature(Reader& r, const Yaml& y, const Form& form);
Sourced<words::Date> read_date(Reader& r, const Yaml& y, const Form& form);
Sourced<Size> read_size(Reader& r, const Yaml& y, const Form& form);
Sourced<Magnification> read_ratio(Reader& r, const Yaml& y, const Form& form);
Sourced<FNumber> read_f_number(Reader& r, const Yaml& y, const Form& form);
Sourced<Power> read_power(Reader& r, const Yaml& y, const Form& form);
Sourced<Share> read_percent(Reader& r, const Yaml& y, const Form& form);
Sourced<Stops> read_stops(Reader& r, const Yaml& y, const Form& form);
Sourced<physics::Tooth> read_tooth(Reader& r, const Yaml& y, const Form& form);
Sourced<int> read_whole(Reader& r, const Yaml& y, const Form& form);
template <class Q> Sourced<Q> read_number(Reader& r, const Yaml& y, const Form& form) {
  const auto n = r.number(y, form.least, form.most);
  return n.known() ? Sourced<Q>(Q{n.get()}, n.span()) : Sourced<Q>::broken(y.span);
}
template <class E> Sourced<E> read_choice(Reader& r, const Yaml& y) {
  return r.choice(y, Choices<E>::rows);
}

/// `12 months` as well as `12`: the unit taken off.
Yaml without_unit(const Yaml& y, std::string_view unit);

/// A file of another edition is one finding: what its keys mean is not for this norma to say.
bool other_edition(Reader& r, const Yaml& tree, std::string_view key, std::string_view what,
                   int edition);

/// A key that the table has not.
void report_unknown(Reader& reader, const YamlEntry& entry,
                    const std::vector<std::string_view>& names, std::string_view what);

/// Reads `map` by its table; unknown and missing keys are findings.
template <class T>
void read_section(Reader& reader, const Yaml& map, const Section<T>& section, T& target) {
  if (map.kind != Yaml::Kind::map) {
    reader.wrong(map, "a block of keys is wanted");
    return;
  }
  std::vector<std::string_view> names;
  for (const Key<T>& k : section.keys)
    names.push_back(k.name);
  for (const YamlEntry& entry : map.entries) {
    bool found = false;
    for (const Key<T>& k : section.keys) {
      if (k.name != entry.key) continue;
      k.field.read(reader, entry.value, k.form, target);
      found = true;
    }
    if (!found) report_unknown(reader, entry, names, section.what);
  }
  for (const Key<T>& k : section.keys) {
    if (!k.required) continue;
    bool there = false;
    for (const YamlEntry& entry : map.entries)
      there = there || entry.key == k.name;
    if (!there) {
      reader.findings()
          .add(diag::make(catalogue::missing_key, map.span, section.what, k.name))
          .with_help(std::string(k.help));
    }
  }
}

} // namespace norma::kit
