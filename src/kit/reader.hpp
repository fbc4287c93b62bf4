// Scalars of a kit file by the language's own literals, and sections by tables of keys.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diag/catalogue.hpp"
#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "kit/yaml_tree.hpp"
#include "text/suggest.hpp"

namespace norma::kit {

namespace catalogue = diag::catalogue;

/// Two ends of `a to b`.
template <class T> struct Range {
  Sourced<T> low;
  Sourced<T> high;
};

class Reader {
 public:
  explicit Reader(diag::Findings& findings) : findings_(findings) {}

  /// 1 to 200 characters that can all be printed.
  Sourced<std::string> text(const Yaml& y);
  Sourced<Length> length(const Yaml& y, Length least, Length most);
  /// Over 0 and at most `most`.
  Sourced<Time> time(const Yaml& y, Time most = 60.0 * second);
  Sourced<Angle> angle(const Yaml& y, Angle least, Angle most);
  /// 0 to 200,000 lx: full sun and more.
  Sourced<Illuminance> illuminance(const Yaml& y);
  Sourced<words::Date> date(const Yaml& y);
  /// A sensor's two sides, 1 to 100 mm each, long side first whichever was written first.
  Sourced<Size> size(const Yaml& y);
  Sourced<Magnification> ratio(const Yaml& y);
  /// A mark of the aperture scale, as the exact f-number behind it.
  Sourced<FNumber> f_number(const Yaml& y);
  /// `1/4`: a share of full power.
  Sourced<Power> power(const Yaml& y);
  /// 1 % to 100 %.
  Sourced<Share> percent(const Yaml& y);
  /// 0 to 5 stops, or to `most`.
  Sourced<Stops> stops(const Yaml& y, Stops most = 5.0 * stop);
  /// A plain number from `least` to `most`.
  Sourced<double> number(const Yaml& y, double least, double most);
  Sourced<int> whole(const Yaml& y, int least, int most);
  /// `0.5 +- 0.2 stop`: the middle, and the spread where one is given.
  std::pair<Sourced<Stops>, Sourced<Stops>> stops_spread(const Yaml& y, Stops most = 5.0 * stop);
  /// The two sides of `a to b` as scalars of their own, with places.
  std::optional<std::pair<Yaml, Yaml>> ends(const Yaml& y);

  /// One of a few words.
  template <class E, std::size_t N>
  Sourced<E> choice(const Yaml& y, const std::pair<std::string_view, E> (&choices)[N]) {
    if (!scalar(y)) return Sourced<E>::broken(y.span);
    std::vector<std::string_view> names;
    for (const auto& [name, value] : choices) {
      if (y.text == name) return {value, y.span};
      names.push_back(name);
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
  /// The literal, or nothing where it is not one (reported with `form`).
  /// `scalar`, and no number in it starts with a zero that YAML readers read in two ways.
  bool numeric(const Yaml& y);
  /// A number without its unit: says which it may have, and what it would look like with it.
  void unit_missing(const Yaml& y, std::string_view why, std::string_view unit);
  template <class T>
  std::optional<T> literal(const Yaml& y, words::Literal<T> read, std::string_view form);
  /// `unit` is the usual one, offered where none is given.
  std::optional<words::Measure> measure(const Yaml& y, words::Dimension dimension,
                                        std::string_view form, std::string_view unit);
  diag::Findings& findings_;
};

/// One row of a section's table.
template <class T> struct Key {
  std::string_view name;
  bool required;
  void (*read)(Reader& reader, const Yaml& value, T& target);
  std::string_view help;
};

/// Reads `map` by its table; unknown and missing keys are findings. `what` names the section in
/// messages ("the lens").
template <class T>
void read_section(Reader& reader, const Yaml& map, std::span<const Key<T>> keys, T& target,
                  std::string_view what) {
  if (map.kind != Yaml::Kind::map) {
    reader.wrong(map, "a block of keys is wanted");
    return;
  }
  std::vector<std::string_view> names;
  for (const Key<T>& k : keys)
    names.push_back(k.name);
  for (const YamlEntry& entry : map.entries) {
    bool found = false;
    for (const Key<T>& k : keys) {
      if (k.name != entry.key) continue;
      k.read(reader, entry.value, target);
      found = true;
    }
    if (found) continue;
    auto& d = reader.findings().add(
        diag::make(catalogue::unknown_key, entry.key_span, excerpt(entry.key)));
    if (const auto near = text::nearest(entry.key, names)) {
      d.with_fix(entry.key_span, std::string(*near), false)
          .with_help(fmt::format("did you mean `{}`?", *near));
    } else {
      std::string list;
      for (const std::string_view name : names) {
        list += fmt::format("{}`{}`", list.empty() ? "" : ", ", name);
      }
      d.with_help(fmt::format("keys of {}: {}", what, list));
    }
  }
  for (const Key<T>& k : keys) {
    if (!k.required) continue;
    bool there = false;
    for (const YamlEntry& entry : map.entries)
      there = there || entry.key == k.name;
    if (!there) {
      reader.findings()
          .add(diag::make(catalogue::missing_key, map.span, what, k.name))
          .with_help(std::string(k.help));
    }
  }
}

} // namespace norma::kit
