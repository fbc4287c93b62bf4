// The tables of keys, section by section. docs/kit.md is held against them by a test.
#pragma once

#include "kit/reader.hpp"

namespace norma::kit {

std::span<const Key<Kit>> kit_keys();
std::span<const Key<Lens>> lens_keys();
std::span<const Key<Lamp>> lamp_keys();
std::span<const Key<ReferenceShot>> reference_shot_keys();
std::span<const Key<Retractor>> retractor_keys();
std::span<const Key<Mirror>> mirror_keys();
std::span<const Key<Kit>> people_keys();
std::span<const Key<Mouths>> mouth_keys();
std::span<const Key<Guide>> guide_keys();
std::span<const Key<Frame>> frame_keys();
std::span<const Key<ToothSizes>> tooth_keys();

/// A default that a kit may set: the row it stands for, and the values it may have, in its unit.
struct OwnValueKey {
  std::string_view name;
  const physics::Default* which;
  double least;
  double most;
  std::string_view help;
};
std::span<const OwnValueKey> limit_keys();
std::span<const OwnValueKey> anatomy_keys();

/// Values of one section against each other: what a lamp, a mirror of its kind cannot have.
void check_lens(Reader& reader, const Lens& lens);
void check_lamp(Reader& reader, const Lamp& lamp);
void check_retractor(Reader& reader, const Retractor& retractor);
void check_mirror(Reader& reader, const Mirror& mirror);

/// `100 to 1600`, into the kit.
void read_iso_range(Reader& reader, const Yaml& y, Kit& kit);

} // namespace norma::kit
