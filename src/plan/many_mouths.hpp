// In how many mouths of the group a view keeps what it promises: a verdict is a share.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>

#include "kit/kit.hpp"
#include "mouths/draw.hpp"

namespace norma::plan {

/// What is unlike among the patients that a protocol is for; what the clinic has measured itself is
/// alike. `kit` may be null.
mouths::Group group_of_patients(const kit::Kit* kit, physics::Dentition dentition);

/// So many are asked for a verdict, always the same ones.
inline constexpr std::size_t mouths_asked = 100;
inline constexpr std::uint64_t mouths_seed = 1;

std::shared_ptr<const mouths::Mouths> mouths_for_verdicts(const mouths::Group& group);
/// The same of patients of whom no clinic has measured anything: drawn once.
const std::shared_ptr<const mouths::Mouths>& usual_mouths(physics::Dentition dentition);

/// A verdict.
struct InMouths {
  int of_hundred = 0; // in so many it holds; 0 and 100 only where it holds in none and in all
  /// What its fate goes with most, over those mouths; nothing where nothing stands out.
  std::optional<mouths::Varies> by;
};
/// What can count: the sizes of teeth and jaws, or where the corners of the mouth are held and how
/// far it opens, too.
enum class Counts { sizes, all };
/// There is one mouth at least.
InMouths in_mouths(std::span<const mouths::Drawn> drawn, Counts counts,
                   const std::function<bool(const mouths::Drawn&)>& holds);
/// Where it holds in the mean mouth and in so many of a hundred, the few others are no finding: one
/// patient in ten, norma's choice.
inline constexpr int nearly_all = 90;

} // namespace norma::plan
