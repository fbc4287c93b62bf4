#include "kit/read_kit.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "kit/fields.hpp"
#include "kit/own_values.hpp"
#include "kit/sections.hpp"

namespace norma::kit {

template <> struct Choices<Pictures> {
  static constexpr Choice<Pictures> rows[] = {{"files", Pictures::files, ""},
                                              {"prints", Pictures::prints, "it makes prints"}};
};

template <> struct Choices<ExposureBy> {
  static constexpr Choice<ExposureBy> rows[] = {
      {"automatic", ExposureBy::camera, "sets the exposure by itself"},
      {"manual", ExposureBy::hand, "the exposure is set by hand"}};
};
template <> struct Choices<WhiteBalance> {
  static constexpr Choice<WhiteBalance> rows[] = {
      {"automatic", WhiteBalance::automatic, "automatic"},
      {"flash", WhiteBalance::flash, "flash"},
      {"daylight", WhiteBalance::daylight, "daylight"},
      {"grey card", WhiteBalance::grey_card, "grey card"},
      {"kelvin", WhiteBalance::kelvin, "kelvin"}};
};

template <> struct Choices<FileFormat> {
  static constexpr Choice<FileFormat> rows[] = {
      {"raw", FileFormat::raw, "raw"},
      {"JPEG", FileFormat::jpeg, "JPEG"},
      {"raw and JPEG", FileFormat::raw_and_jpeg, "raw and JPEG at once"}};
};

namespace {

/// A camera that goes from one colour temperature to another can be set to a number.
void check_camera(Reader& reader, const Kit& kit) {
  if (kit.white_balance.empty() || kit.warmest.absent()) return;
  const bool by_number = std::find(kit.white_balance.begin(), kit.white_balance.end(),
                                   WhiteBalance::kelvin) != kit.white_balance.end();
  if (!by_number)
    reader.contradiction(kit.warmest.span(), "colour temperature",
                         "`white balance` has no `kelvin` in it");
}

/// Judged before all other keys, by `other_edition`.
void read_edition(Reader& /*r*/, const Yaml& /*y*/, const Form& /*form*/, Kit& /*kit*/) {}

/// A block of values in place of norma's own.
template <auto M, auto Keys> constexpr Field<Kit> own_values() {
  return Field<Kit>(
      Form::block(Form::Shape::one, [] { return rows_of(Keys()); }),
      [](Reader& r, const Yaml& y, const Form&, Kit& t) { read_own_values(r, y, Keys(), t.*M); },
      fields::nothing<Kit>, [](const Kit& t) { return (t.*M).empty(); }, nullptr);
}

/// Nothing of use: one number of a corner alone says not where it stands.
bool no_mouths(const Kit& t) {
  const Mouths& m = t.mouths;
  const auto whole_corner = [](const Mouths::Corner& c) {
    return c.aside.known() && c.back.known();
  };
  return !whole_corner(m.light) && !whole_corner(m.even) && !whole_corner(m.firm) &&
         !whole_corner(m.by_mirror) && !m.lips_clear.known() && !m.opened_wide.known();
}

constexpr Field<Kit> mouths() {
  return Field<Kit>(
      Form::block(Form::Shape::one, [] { return rows_of(mouth_section()); }),
      [](Reader& r, const Yaml& y, const Form&, Kit& t) {
        t.mouths = fields::read_piece(r, y, mouth_section());
      },
      fields::nothing<Kit>, no_mouths, nullptr);
}

/// Teeth of one number are given once.
void read_teeth(Reader& r, const Yaml& y, const Form& /*form*/, Kit& t) {
  fields::read_pieces(r, y, tooth_section(), t.teeth);
  std::set<physics::Tooth> seen;
  for (ToothSizes& sizes : t.teeth) {
    if (!sizes.tooth.known()) continue;
    const physics::Tooth tooth = sizes.tooth.get();
    const bool fresh = seen.insert(tooth).second && seen.insert(tooth.other_side()).second;
    if (fresh) continue;
    const text::Span at = sizes.tooth.span();
    r.contradiction(at, "tooth",
                    fmt::format("its sizes stand above already: {} and {} are alike", tooth.iso(),
                                tooth.other_side().iso()));
    sizes.tooth = Sourced<physics::Tooth>::broken(at);
  }
}

/// A lamp burns with another one that there is.
void read_lamps(Reader& r, const Yaml& y, const Form& /*form*/, Kit& t) {
  fields::read_pieces(r, y, lamp_section(), t.lamps);
  for (const Lamp& lamp : t.lamps) {
    if (lamp.burns_with.known() && t.joined_to(lamp) == nullptr)
      r.contradiction(lamp.burns_with.span(), "burns with", "there is no other lamp of that name");
  }
}

constexpr Key<Kit> kit_table[] = {
    {"norma kit",
     Field<Kit>(
         Form::range(Form::Value::edition, kit_edition, kit_edition), read_edition,
         fields::nothing<Kit>, [](const Kit&) { return false; }, nullptr),
     required, "write `norma kit: 1` as the first line", said_apart},
    {"name", plain_text<&Kit::name>(), required, "a short name of the chair or kit", said_apart},
    {"title", plain_text<&Kit::title>(), not_missed, "what is printed on lists", said_apart},
    {"sensor", size<&Kit::sensor>(), missed("sensor", "which field a ratio gives"),
     "width and height of the sensor, in the camera's manual", says("sensor {}")},
    {"iso", numbers<IsoSpeed, &Kit::least_iso, &Kit::greatest_iso>(1, 1000000), not_missed,
     "lowest to highest ISO speed of the camera", says("ISO {}")},
    {"digital zoom", number<double, &Kit::digital_zoom>(1, 10), not_missed,
     "factor by which the camera, or a crop, cuts the picture out of the sensor's",
     says("digital zoom of {}")},
    {"exposure", choice<&Kit::exposure>(), not_missed,
     "whether the camera sets ISO and shutter by itself (automatic), or they are set by hand "
     "(manual)",
     says("{}")},
    {"white balance", choices<&Kit::white_balance>(), not_missed,
     "what the camera can be set to, in its menu; `kelvin`: a number", says("white balance {}")},
    {"colour temperature", temperatures<&Kit::warmest, &Kit::coldest>(), not_missed,
     "lowest to highest number that the white balance can be set to",
     says("colour temperature {}")},
    {"file formats", choices<&Kit::file_formats>(), not_missed,
     "what the camera can write, in its menu", says("writes {}")},
    {"lens", block<&Kit::lens, lens_section>(),
     missed("lens", "ratios, distances, apertures and sharpness"), "the lens", said_apart},
    {"lamps",
     Field<Kit>(
         blocks<&Kit::lamps, lamp_section>().form, read_lamps, fields::nothing<Kit>,
         [](const Kit& t) { return t.lamps.empty(); },
         blocks<&Kit::lamps, lamp_section>().missing_below),
     missed("a lamp", "how the teeth are lit"), "the lamps, the usual one first", said_apart},
    {"retractors", blocks<&Kit::retractors, retractor_section>(),
     missed("retractors", "who holds the cheeks"), "the retractors", said_apart},
    {"mirrors", blocks<&Kit::mirrors, mirror_section>(),
     missed("mirrors", "views that are taken in one"), "the mirrors", said_apart},
    {"guides", blocks<&Kit::guides, guide_section>(), not_missed,
     "distance guides of a fixed-focus camera", said_apart},
    {"frames", blocks<&Kit::frames, frame_section>(), not_missed,
     "open frames fixed in the focus plane", said_apart},
    {"people", block_of_same<people_section, Kit>(), not_missed, "hands that can hold things",
     said_apart},
    {"room light", light<&Kit::room_light>(),
     missed("room light", "whether the room's light shows in the pictures").behind("sensor"),
     "light at the teeth without the flash, by a meter", says("room light {}")},
    {"pictures", choice<&Kit::pictures>(), not_missed,
     "files, or prints that come out of the camera", says("{}")},
    {"processing", time<&Kit::processing>(600.0 * second), not_missed,
     "time a print takes before the next picture", says("a print takes {}")},
    {"limits", own_values<&Kit::limits, limit_section>(), not_missed,
     "what norma takes for enough, as the clinic sets it", said_apart},
    {"mouths", mouths(),
     missed("mouths", "where the retractors hold the corners; assumed without it"),
     "how this chair's retractors hold mouths", said_apart},
    {"anatomy", own_values<&Kit::anatomy, anatomy_section>(), not_missed,
     "sizes of this clinic's patients, where they were measured", said_apart},
    {"teeth",
     Field<Kit>(
         blocks<&Kit::teeth, tooth_section>().form, read_teeth, fields::nothing<Kit>,
         [](const Kit& t) { return t.teeth.empty(); }, nullptr),
     not_missed, "sizes of single teeth of this clinic's patients", said_apart},
};
constexpr Section<Kit> kit_block{"the kit", kit_table, check_camera};

} // namespace

const Section<Kit>& kit_section() { return kit_block; }

Kit read_kit(text::FileId id, std::string_view bytes, diag::Findings& findings) {
  Kit kit;
  kit.file = id;
  const auto tree = read_yaml(id, bytes, findings,
                              "a kit starts with `norma kit: 1`; protocols/kits has some to copy");
  Reader reader(findings);
  kit.readable = tree && !other_edition(reader, *tree, "norma kit", "kits", kit_edition);
  if (!kit.readable) return kit;
  read_section(reader, *tree, kit_section(), kit);
  kit_section().check(reader, kit);
  return kit;
}

} // namespace norma::kit
