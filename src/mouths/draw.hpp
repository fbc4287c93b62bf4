// Mouths of a group of patients, drawn by what is published of their spread.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "mouths/sequence.hpp"
#include "physics/anatomy/anatomy.hpp"
#include "placing/setting.hpp"

namespace norma::mouths {

using physics::Default;
using physics::Dentition;
using physics::Origin;

/// What is unlike in one mouth and another.
enum class Varies {
  upper_canines, // width of the arch, tip to tip
  lower_canines,
  upper_molars, // the same at the first molars
  lower_molars,
  tooth_size,
  overjet,
  overbite,
  palate,
  opening,
  corner_aside, // where a pull holds the corner of the mouth
  corner_back
};
inline constexpr std::size_t varied = 11;

/// How far it is spread: one standard deviation of a normal spread, or half of a range in which
/// every value is as likely.
struct Spread {
  Varies what;
  std::string_view id; // for other programs
  double by;           // mm; of `tooth_size`, a share
  bool range = false;
  Origin origin = Origin::assumed;
  std::string_view source;
};
/// One row for each of `Varies`, in their order.
std::span<const Spread> spreads(Dentition dentition);

/// The size of the anatomy that it moves in this group; null where it moves none, or all teeth.
const Default* row_of(Varies what, Dentition dentition);

/// How two of them hang together.
struct Correlation {
  Varies one;
  Varies other;
  double r;
  Origin origin = Origin::assumed;
  std::string_view source;
};
std::span<const Correlation> correlations();

using Matrix = std::array<std::array<double, varied>, varied>;
/// The lower triangle L with L L^T = the correlations; nothing where they contradict each other (no
/// patients could be like that).
std::optional<Matrix> lower_triangle(std::span<const Correlation> correlations);

/// Whose mouths they are.
struct Group {
  Dentition dentition = Dentition::adult;
  physics::AnatomyValues values{};     // the means: norma's, or a clinic's own
  std::array<double, varied> spread{}; // 0: all alike in it
};
/// By the rows of `spreads`.
Group group_of(Dentition dentition, physics::AnatomyValues values = {});

/// One of them.
struct Drawn {
  /// How far off the mean, in standard deviations, or of a range from -1 to 1.
  std::array<double, varied> off{};
  std::shared_ptr<const physics::Anatomy> anatomy;
  Length opening;      // more than the mean
  Length corner_aside; // the same
  Length corner_back;
};

/// The same mouth, its corners held as in the mean one: where a clinic has measured that.
Drawn with_corners_alike(Drawn mouth);

/// Teeth and arch are drawn apart, and some draws fit no curve: neighbours would overlap, or stand
/// far apart. What can be mended by spaces between the front teeth is (up to 8 mm in a jaw); the
/// others are left out, and counted: most have a wide arch.
struct Mouths {
  std::vector<Drawn> drawn; // in the order of the sequence
  std::size_t asked = 0;
  std::size_t spaced = 0; // of those drawn: with spaces that the mean mouth does not have

  [[nodiscard]] std::size_t left_out() const { return asked - drawn.size(); }
};
inline constexpr std::size_t most_mouths = 100'000;
/// `count` no more than `most_mouths`; the same for every number of threads.
Mouths draw(const Group& group, std::size_t count, std::uint64_t seed, unsigned threads = 1);

/// The mouth of one point of the cube. Where its arch cannot be laid, teeth and arch are half as
/// far from the mean, and again: for questions that need a mouth at every point.
Drawn near_to(const Group& group, const Sequence::At& point);

/// The same view of this mouth. Its opening is the patient's own where `opens_wide`, else as the
/// view asks. Nothing as for `placing::of_mouth`.
std::optional<placing::Setting> of_mouth(const placing::Setting& setting, const Drawn& mouth,
                                         bool opens_wide);

} // namespace norma::mouths
