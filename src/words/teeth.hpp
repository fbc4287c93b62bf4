// Teeth as they are written: ISO 3950 numbers, and runs of them along one jaw.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "physics/anatomy/tooth.hpp"

namespace norma::words {

/// Teeth in a row along one jaw, from the first to the last as written.
struct ToothRun {
  physics::Tooth first;
  physics::Tooth last;
  friend bool operator==(const ToothRun&, const ToothRun&) = default;
};

/// The tooth with this two-digit number of ISO 3950; nothing where there is none (19, 56, 90).
std::optional<physics::Tooth> parse_tooth(std::string_view digits);

/// All teeth from `first` to `last` along the arch, both included, from the patient's right to the
/// left whichever is written first. Nothing where they stand in different jaws, or one is a milk
/// tooth and the other is not.
std::optional<std::vector<physics::Tooth>> run_of(physics::Tooth first, physics::Tooth last);

/// Place along the arch: ... -2 (12), -1 (11), 1 (21), 2 (22) ...
int along_arch(physics::Tooth tooth);

/// A sorted or unsorted set of teeth as runs of three or more and single teeth, upper ones first.
std::vector<ToothRun> runs_of(std::vector<physics::Tooth> teeth);

/// `12 to 17, 42 to 47`: the shortest way to write a sorted or unsorted set of teeth.
std::string teeth_text(std::vector<physics::Tooth> teeth);

/// The first tooth whose number stands by itself in a text: `the bracket of 13`. Numbers with a
/// unit
/// (`13 mm`, `wait 15 seconds`), of a fraction, a day or an aperture are none.
std::optional<physics::Tooth> tooth_in_prose(std::string_view text);

} // namespace norma::words
