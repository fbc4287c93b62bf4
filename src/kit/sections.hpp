// The tables of keys, block by block.
#pragma once

#include "kit/key.hpp"

namespace norma::kit {

const Section<Kit>& kit_section();
const Section<Lens>& lens_section();
const Section<Lamp>& lamp_section();
const Section<ReferenceShot>& reference_shot_section();
const Section<Retractor>& retractor_section();
const Section<Mirror>& mirror_section();
const Section<Kit>& people_section();
const Section<Mouths>& mouth_section();
const Section<Guide>& guide_section();
const Section<Frame>& frame_section();
const Section<ToothSizes>& tooth_section();

/// A default that a kit may set: the row it stands for, and the values it may have, in its unit.
struct OwnValueKey {
  constexpr OwnValueKey(std::string_view key, const physics::Default* row, double low, double high,
                        std::string_view sentence)
      : name(key), which(row), least(low), most(high), help(sentence) {}

  std::string_view name;
  const physics::Default* which;
  double least;
  double most;
  std::string_view help;
};
struct OwnValueSection {
  constexpr OwnValueSection(std::string_view in_messages, std::span<const OwnValueKey> table)
      : what(in_messages), keys(table) {}

  std::string_view what;
  std::span<const OwnValueKey> keys;
};
const OwnValueSection& limit_section();
const OwnValueSection& anatomy_section();

} // namespace norma::kit
