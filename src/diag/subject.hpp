// What something is said of: a value, not a sentence. Findings, open questions, exceptions and
// plans carry it; names are looked up only when it is printed.
#pragma once

#include <compare>
#include <string_view>

namespace norma::diag {

/// The parts of a run that something is about, each by its place in a list; `none` where it is
/// about all of them. A view or a series is one of the protocol's, for that group of patients.
struct Subject {
  static constexpr int none = -1;
  int file = none;  // of the protocol files that were asked for
  int group = none; // of the groups of patients that the file speaks of
  int kit = none;   // of the kits that were given
  int view = none;
  int series = none;

  /// The same, said of a view, or of a series.
  [[nodiscard]] constexpr Subject of_view(int index) const {
    return {file, group, kit, index, none};
  }
  [[nodiscard]] constexpr Subject of_series(int index) const {
    return {file, group, kit, none, index};
  }
  /// The same, whichever kit is at hand.
  [[nodiscard]] constexpr Subject without_kit() const { return {file, group, none, view, series}; }
  /// Can both be of one protocol with one kit: does neither name what the other names otherwise?
  [[nodiscard]] constexpr bool meets(const Subject& other) const {
    const auto fits = [](int a, int b) { return a == none || b == none || a == b; };
    return fits(file, other.file) && fits(group, other.group) && fits(kit, other.kit);
  }
  /// Is it the same view, the same series, or the same protocol as a whole?
  [[nodiscard]] constexpr bool is_said_of(const Subject& other) const {
    return view == other.view && series == other.series && meets(other);
  }
  friend constexpr auto operator<=>(const Subject&, const Subject&) = default;
};

/// The names behind a subject, for whoever prints it; "" where there is none to say.
struct SubjectNames {
  std::string_view file;     // as it was asked for
  std::string_view protocol; // its name, as the file says it
  std::string_view group;    // where the protocol speaks of several
  std::string_view kit;
  std::string_view view;
  std::string_view series;
};

} // namespace norma::diag
