// Lens and lamps of a kit.
#include <algorithm>

#include "kit/sections.hpp"
#include "physics/defaults.hpp"
#include "physics/optics.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {
namespace {

constexpr std::pair<std::string_view, LampKind> lamp_kinds[] = {{"ring", LampKind::ring},
                                                                {"point", LampKind::point},
                                                                {"clip-on", LampKind::clip_on},
                                                                {"built in", LampKind::built_in}};
constexpr std::pair<std::string_view, LampSide> lamp_sides[] = {{"left", LampSide::left},
                                                                {"right", LampSide::right},
                                                                {"top", LampSide::top},
                                                                {"bottom", LampSide::bottom}};
constexpr std::pair<std::string_view, LampMoves> lamp_moves[] = {{"fixed", LampMoves::fixed},
                                                                 {"by hand", LampMoves::by_hand}};

constexpr std::pair<std::string_view, LampControl> controls[] = {
    {"automatic", LampControl::automatic}, {"manual", LampControl::manual}};
constexpr std::pair<std::string_view, LampLight> lights[] = {{"flash", LampLight::flash},
                                                             {"steady", LampLight::steady}};

void read_aperture(Reader& r, const Yaml& y, Lens& t) {
  const auto ends = r.ends(y);
  if (!ends) {
    t.widest = t.smallest = Sourced<FNumber>::broken(y.span);
    return;
  }
  t.widest = r.f_number(ends->first);
  t.smallest = r.f_number(ends->second);
  if (t.widest.known() && t.smallest.known() && t.smallest.get() < t.widest.get()) {
    std::swap(t.widest, t.smallest);
  }
}

void read_ratio_range(Reader& r, const Yaml& y, Lens& t) {
  const auto ends = r.ends(y);
  if (!ends) {
    t.least_ratio = t.greatest_ratio = Sourced<Magnification>::broken(y.span);
    return;
  }
  t.least_ratio = r.ratio(ends->first);
  t.greatest_ratio = r.ratio(ends->second);
  if (t.least_ratio.known() && t.greatest_ratio.known() &&
      t.greatest_ratio.get() < t.least_ratio.get()) {
    std::swap(t.least_ratio, t.greatest_ratio);
  }
}

void read_marks(Reader& r, const Yaml& y, Lens& t) {
  if (y.kind != Yaml::Kind::list) {
    r.wrong(y, "a list of ratios is wanted, such as `[1:10, 1:2, 1:1]`");
    return;
  }
  for (const Yaml& item : y.items) {
    const auto m = r.ratio(item);
    if (m.known()) t.marks.push_back(m.get());
  }
}

void read_working_distance(Reader& r, const Yaml& y, Lens& t) {
  if (y.kind != Yaml::Kind::map) {
    r.wrong(y, "a table is wanted, each line like `1:2: 205 mm`");
    return;
  }
  for (const YamlEntry& entry : y.entries) {
    Yaml key;
    key.kind = Yaml::Kind::scalar;
    key.text = entry.key;
    key.span = entry.key_span;
    const auto ratio = r.ratio(key);
    const auto distance = r.length(entry.value, 1.0 * mm, 10000.0 * mm);
    if (ratio.known() && distance.known()) {
      t.working_distance.push_back({ratio.get(), distance.get(), entry.key_span});
    }
  }
  auto& table = t.working_distance;
  std::stable_sort(table.begin(), table.end(),
                   [](const DistanceRow& a, const DistanceRow& b) { return a.ratio < b.ratio; });
  for (std::size_t i = 1; i < table.size(); ++i) {
    if (table[i].ratio.value() > table[i - 1].ratio.value() &&
        table[i].distance < table[i - 1].distance) {
      continue;
    }
    r.findings().add(diag::make(
        catalogue::kit_value_range, table[i].span, physics::to_text(table[i].ratio),
        fmt::format("a larger image is had from nearer, and at {} the lens stands {} away",
                    physics::to_text(table[i - 1].ratio),
                    physics::to_text(table[i - 1].distance))));
    table.clear();
    return;
  }
}

void read_reference(Reader& r, const Yaml& y, Lamp& t) {
  ReferenceShot shot;
  shot.span = y.span;
  read_section(r, y, reference_shot_keys(), shot, "the reference shot");
  t.reference = std::move(shot);
}

Sourced<IsoSpeed> read_iso(Reader& r, const Yaml& y) {
  const auto n = r.number(y, 1, 1000000);
  return n.known() ? Sourced<IsoSpeed>(IsoSpeed{n.get()}, n.span())
                   : Sourced<IsoSpeed>::broken(y.span);
}

constexpr Key<Lens> lens_table[] = {
    {"name", false, [](Reader& r, const Yaml& y, Lens& t) { t.name = r.text(y); },
     "what the clinic calls it"},
    {"focal length", true,
     [](Reader& r, const Yaml& y, Lens& t) { t.focal_length = r.length(y, 1.0 * mm, 2000.0 * mm); },
     "engraved on the lens"},
    {"pupil ratio", false,
     [](Reader& r, const Yaml& y, Lens& t) {
       const auto p = r.number(y, 0.1, 10);
       t.pupil_ratio = p.known() ? Sourced<PupilRatio>(PupilRatio{p.get()}, p.span())
                                 : Sourced<PupilRatio>::broken(y.span);
     },
     "opening seen from behind over opening seen from the front"},
    {"aperture", false, read_aperture, "widest to narrowest, such as `f/2.8 to f/32`"},
    {"marks per stop", false,
     [](Reader& r, const Yaml& y, Lens& t) { t.marks_per_stop = r.whole(y, 2, 3); },
     "2 for half stops, 3 for thirds"},
    {"ratio", false, read_ratio_range, "smallest to largest image, such as `1:10 to 1:1`"},
    {"marks", false, read_marks, "ratios engraved on the lens, such as `[1:10, 1:2, 1:1]`"},
    {"working distance", false, read_working_distance,
     "front of the lens to the subject, by ruler"},
};

constexpr Key<Lamp> lamp_table[] = {
    {"name", true, [](Reader& r, const Yaml& y, Lamp& t) { t.name = r.text(y); },
     "what the clinic calls it"},
    {"kind", true, [](Reader& r, const Yaml& y, Lamp& t) { t.kind = r.choice(y, lamp_kinds); },
     "ring, point, clip-on or built in"},
    {"radius", false,
     [](Reader& r, const Yaml& y, Lamp& t) { t.radius = r.length(y, 1.0 * mm, 500.0 * mm); },
     "of the ring's tube"},
    {"offset", false,
     [](Reader& r, const Yaml& y, Lamp& t) { t.offset = r.length(y, 1.0 * mm, 1000.0 * mm); },
     "from the lens axis to the middle of a point lamp"},
    {"side", false, [](Reader& r, const Yaml& y, Lamp& t) { t.side = r.choice(y, lamp_sides); },
     "left, right, top or bottom, seen from behind the camera held level"},
    {"moves", false, [](Reader& r, const Yaml& y, Lamp& t) { t.moves = r.choice(y, lamp_moves); },
     "by hand, or fixed: only with the camera"},
    {"behind front", false,
     [](Reader& r, const Yaml& y, Lamp& t) { t.behind_front = r.length(y, 0.0 * mm, 500.0 * mm); },
     "how far the lamp lies behind the front of the lens"},
    {"stands out", false,
     [](Reader& r, const Yaml& y, Lamp& t) { t.stands_out = r.length(y, 0.0 * mm, 500.0 * mm); },
     "how far the lamp stands out beyond the front of the lens"},
    {"control", false, [](Reader& r, const Yaml& y, Lamp& t) { t.control = r.choice(y, controls); },
     "automatic (it meters the light itself) or manual"},
    {"light", false, [](Reader& r, const Yaml& y, Lamp& t) { t.light = r.choice(y, lights); },
     "flash, or steady: it burns all the time"},
    {"flash duration", false,
     [](Reader& r, const Yaml& y, Lamp& t) { t.flash_duration = r.time(y); },
     "how long the flash burns, by the maker's sheet"},
    {"guide number", false,
     [](Reader& r, const Yaml& y, Lamp& t) {
       t.guide_number = r.length(y, 100.0 * mm, 200000.0 * mm);
     },
     "at ISO 100 and full power, in metres"},
    {"reference shot", false, read_reference, "one measured shot of a grey card"},
    {"least power", false, [](Reader& r, const Yaml& y, Lamp& t) { t.least_power = r.power(y); },
     "smallest share of full power it can be set to"},
    {"shortest shutter", false,
     [](Reader& r, const Yaml& y, Lamp& t) { t.shortest_shutter = r.time(y); },
     "shortest time it works with"},
};

constexpr Key<ReferenceShot> reference_shot_table[] = {
    {"aperture", true,
     [](Reader& r, const Yaml& y, ReferenceShot& t) { t.aperture = r.f_number(y); },
     "aperture of the shot"},
    {"iso", true, [](Reader& r, const Yaml& y, ReferenceShot& t) { t.iso = read_iso(r, y); },
     "ISO of the shot"},
    {"ratio", true, [](Reader& r, const Yaml& y, ReferenceShot& t) { t.ratio = r.ratio(y); },
     "ratio of the shot"},
    {"power", true, [](Reader& r, const Yaml& y, ReferenceShot& t) { t.power = r.power(y); },
     "flash power that came out right"},
    {"distance", true,
     [](Reader& r, const Yaml& y, ReferenceShot& t) {
       t.distance = r.length(y, 1.0 * mm, 10000.0 * mm);
     },
     "from the lamp to the card"},
    {"mirror loss", false,
     [](Reader& r, const Yaml& y, ReferenceShot& t) { t.mirror_loss = r.stops(y); },
     "where the shot was taken in a mirror"},
    {"date", false, [](Reader& r, const Yaml& y, ReferenceShot& t) { t.date = r.date(y); },
     "day of the shot"},
};

} // namespace

std::span<const Key<Lens>> lens_keys() { return lens_table; }
std::span<const Key<Lamp>> lamp_keys() { return lamp_table; }
std::span<const Key<ReferenceShot>> reference_shot_keys() { return reference_shot_table; }

void read_iso_range(Reader& reader, const Yaml& y, Kit& kit) {
  const auto ends = reader.ends(y);
  if (!ends) {
    kit.least_iso = kit.greatest_iso = Sourced<IsoSpeed>::broken(y.span);
    return;
  }
  kit.least_iso = read_iso(reader, ends->first);
  kit.greatest_iso = read_iso(reader, ends->second);
  if (kit.least_iso.known() && kit.greatest_iso.known() &&
      kit.greatest_iso.get() < kit.least_iso.get()) {
    std::swap(kit.least_iso, kit.greatest_iso);
  }
}

/// The entrance pupil lies behind the front of a lens, not in front of it.
void check_focal_length(Reader& reader, const Lens& lens) {
  if (!lens.focal_length.known()) return;
  const PupilRatio pupil = lens.pupil_ratio.known() ? lens.pupil_ratio.get()
                                                    : PupilRatio{physics::defaults::pupil.value};
  constexpr double slack = 0.9;
  for (const DistanceRow& row : lens.working_distance) {
    const Length to_pupil = physics::pupil_distance(lens.focal_length.get(), row.ratio, pupil);
    if (to_pupil >= slack * row.distance) continue;
    reader.contradiction(
        row.span, physics::to_text(row.ratio),
        fmt::format("with this focal length the lens's pupil is {} from the subject at that ratio, "
                    "and its front would be {} away",
                    physics::to_text(to_pupil), physics::to_text(row.distance)));
    return;
  }
}

void check_lens(Reader& reader, const Lens& lens) {
  check_focal_length(reader, lens);
  if (!lens.least_ratio.known() || !lens.greatest_ratio.known()) return;
  constexpr double slack = 1.0 + 1e-9;
  for (const DistanceRow& row : lens.working_distance) {
    const bool within = row.ratio.value() * slack >= lens.least_ratio.get().value() &&
                        row.ratio.value() <= lens.greatest_ratio.get().value() * slack;
    if (within) continue;
    reader.contradiction(row.span, physics::to_text(row.ratio),
                         fmt::format("the lens goes from {} to {}",
                                     physics::to_text(lens.least_ratio.get()),
                                     physics::to_text(lens.greatest_ratio.get())));
  }
}

void check_lamp(Reader& reader, const Lamp& lamp) {
  if (lamp.light.known() && lamp.light.get() == LampLight::steady) {
    if (!lamp.flash_duration.absent())
      reader.contradiction(lamp.flash_duration.span(), "flash duration", "this light is steady");
    if (!lamp.guide_number.absent())
      reader.contradiction(lamp.guide_number.span(), "guide number", "only a flash has one");
  }
  if (!lamp.behind_front.absent() && !lamp.stands_out.absent()) {
    reader.contradiction(
        lamp.stands_out.span(), "stands out",
        "the lamp lies behind the front of the lens (`behind front`) or beyond it");
  }
  if (!lamp.kind.known()) return;
  const auto refuse = [&](const auto& value, std::string_view key, std::string_view why) {
    if (!value.absent()) reader.contradiction(value.span(), key, why);
  };
  if (lamp.kind.get() == LampKind::point || lamp.kind.get() == LampKind::clip_on) {
    refuse(lamp.radius, "radius", "only a ring light has one");
    return;
  }
  refuse(lamp.offset, "offset", "this light goes around the lens, or sits in it");
  refuse(lamp.side, "side", "this light goes around the lens, or sits in it");
  refuse(lamp.moves, "moves", "this light goes around the lens, or sits in it");
}

} // namespace norma::kit
