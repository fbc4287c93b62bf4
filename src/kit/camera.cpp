// Lens and lamps of a kit.
#include <algorithm>

#include "kit/fields.hpp"
#include "kit/sections.hpp"
#include "physics/defaults.hpp"
#include "physics/optics.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {

template <> struct Choices<LampKind> {
  static constexpr Choice<LampKind> rows[] = {
      {"ring", LampKind::ring, "ring around the lens"},
      {"point", LampKind::point, "point light beside the lens"},
      {"clip-on", LampKind::clip_on, "clip-on light beside the lens"},
      {"built in", LampKind::built_in, "built into the lens"},
      {"twin", LampKind::twin, "two heads beside the lens"}};
};
template <> struct Choices<LampHeads> {
  static constexpr Choice<LampHeads> rows[] = {
      {"left and right", LampHeads::left_and_right, "one on the left, one on the right"},
      {"top and bottom", LampHeads::top_and_bottom, "one at the top, one at the bottom"}};
};
template <> struct Choices<LampSide> {
  static constexpr Choice<LampSide> rows[] = {{"left", LampSide::left, "on the left"},
                                              {"right", LampSide::right, "on the right"},
                                              {"top", LampSide::top, "at the top"},
                                              {"bottom", LampSide::bottom, "at the bottom"}};
};
template <> struct Choices<LampMoves> {
  static constexpr Choice<LampMoves> rows[] = {
      {"fixed", LampMoves::fixed, "does not move on the camera"},
      {"by hand", LampMoves::by_hand, "moves by hand"}};
};
template <> struct Choices<LampControl> {
  static constexpr Choice<LampControl> rows[] = {
      {"automatic", LampControl::automatic, "meters the light itself"},
      {"manual", LampControl::manual, "set by hand"}};
};
template <> struct Choices<LampLight> {
  static constexpr Choice<LampLight> rows[] = {{"flash", LampLight::flash, ""},
                                               {"steady", LampLight::steady, "steady light"}};
};

namespace {

void read_marks(Reader& r, const Yaml& y, const Form& /*form*/, Lens& t) {
  if (y.kind != Yaml::Kind::list) {
    r.wrong(y, "a list of ratios is wanted, such as `[1:10, 1:2, 1:1]`");
    return;
  }
  for (const Yaml& item : y.items) {
    const auto m = r.ratio(item);
    if (m.known()) t.marks.push_back(m.get());
  }
}

void read_working_distance(Reader& r, const Yaml& y, const Form& form, Lens& t) {
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
    const auto distance = read_length(r, entry.value, form);
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
        catalogue::key_value_range, table[i].span, physics::to_text(table[i].ratio),
        fmt::format("a larger image is had from nearer, and at {} the lens stands {} away",
                    physics::to_text(table[i - 1].ratio),
                    physics::to_text(table[i - 1].distance))));
    table.clear();
    return;
  }
}

/// In dioptres, as it is engraved; kept as the focal length.
void read_close_up(Reader& r, const Yaml& y, const Form& form, Lens& t) {
  const auto power = r.number(without_unit(y, form.unit), form.least, form.most);
  t.close_up = power.known() ? Sourced<Length>(1000.0 / power.get() * mm, power.span())
                             : Sourced<Length>::broken(y.span);
}

std::string close_up_in_words(const Lens& t) {
  return t.close_up.known() ? physics::fixed(1000.0 / t.close_up.get().in(mm), 2) : "";
}

std::string marks_in_words(const Lens& t) {
  std::string all;
  for (const Magnification m : t.marks)
    all += (all.empty() ? "" : ", ") + physics::to_text(m);
  return all;
}

std::string guide_number_in_words(const Lamp& t) {
  return t.guide_number.known() ? text_of(t.guide_number.get().in(metre)) + " m" : "";
}

bool is_flash(const Lamp& t) { return t.light.value_or(LampLight::flash) == LampLight::flash; }
bool is_ring(const Lamp& t) { return t.kind.known() && t.kind.get() == LampKind::ring; }
bool is_twin(const Lamp& t) { return t.kind.known() && t.kind.get() == LampKind::twin; }
bool is_point(const Lamp& t) { return t.kind.known() && t.kind.get() == LampKind::point; }

constexpr Key<Lens> lens_table[] = {
    {"name", plain_text<&Lens::name>(), not_missed, "what the clinic calls it", says("{}")},
    {"focal length", length<&Lens::focal_length>(1.0 * mm, 2000.0 * mm), required,
     "engraved on the lens", says("focal length {}")},
    {"pupil ratio", number<PupilRatio, &Lens::pupil_ratio>(0.1, 10),
     missed("pupil ratio of the lens", "taken as 1 without it"),
     "size of the opening seen from behind over its size seen from the front",
     says("pupil ratio {}")},
    {"aperture", f_numbers<&Lens::widest, &Lens::smallest>(),
     missed("apertures of the lens", "which ones can be set"),
     "widest to narrowest opening, as the lens or the camera shows it", says("{}")},
    {"marks per stop", whole<&Lens::marks_per_stop>(2, 3), not_missed,
     "2 for half stops, 3 for thirds", says("{} marks per stop")},
    {"ratio", ratios<&Lens::least_ratio, &Lens::greatest_ratio>(),
     missed("ratios of the lens", "whether it reaches a ratio"),
     "smallest to largest image that it can be set to", says("ratio {}")},
    {"marks",
     Field<Lens>(
         ratio<&Lens::least_ratio>().form.as(Form::Shape::list), read_marks, marks_in_words,
         [](const Lens& t) { return t.marks.empty(); }, nullptr),
     not_missed, "ratios engraved on the lens", says("marked {}")},
    {"working distance",
     Field<Lens>(
         Form::range(Form::Value::length, 1, 10000).as(Form::Shape::by_ratio),
         read_working_distance, fields::nothing<Lens>,
         [](const Lens& t) { return t.working_distance.empty(); }, nullptr),
     missed("working distances of the lens", "how far the camera stands"),
     "from the front of the lens to the subject, by ruler, at each ratio", said_apart},
    {"close-up lens",
     Field<Lens>({Form::Value::number, Form::Shape::one, 0.1, 10, "dpt", {}, nullptr},
                 read_close_up, close_up_in_words, fields::absent<&Lens::close_up>, nullptr),
     not_missed, "power in dioptres of a close-up lens screwed in front, as engraved",
     says("behind a close-up lens of {} dpt")},
    {"extension tube", length<&Lens::tube>(0.1 * mm, 500.0 * mm), not_missed,
     "length of the tubes between lens and camera, together", says("on an extension tube of {}")},
    {"teleconverter", number<double, &Lens::converter>(1, 4), not_missed,
     "factor of a converter between lens and camera, as engraved",
     says("with a teleconverter of {}")},
    {"filter", stops<&Lens::filter>(), not_missed, "what a filter on the lens takes from the light",
     says("a filter takes {}")},
};

constexpr Key<ReferenceShot> reference_shot_table[] = {
    {"aperture", f_number<&ReferenceShot::aperture>(), required, "aperture of the shot",
     says("{}")},
    {"iso", number<IsoSpeed, &ReferenceShot::iso>(1, 1000000), required, "ISO of the shot",
     says("ISO {}")},
    {"ratio", ratio<&ReferenceShot::ratio>(), required, "ratio of the shot", says("{}")},
    {"power", power<&ReferenceShot::power>(), required, "flash power that came out right",
     says("power {}").behind("distance")},
    {"distance", length<&ReferenceShot::distance>(1.0 * mm, 10000.0 * mm), required,
     "from the lamp to the card", says("{} from the card")},
    {"mirror loss", stops<&ReferenceShot::mirror_loss>(), not_missed,
     "what the mirror took, where the shot was taken in one", says("in a mirror that takes {}")},
    {"date", date<&ReferenceShot::date>(),
     missed("day of the reference shot of {}", "whether it still holds"), "day of the shot",
     says("taken on {}")},
};
constexpr Section<ReferenceShot> reference_shot_block{"the reference shot", reference_shot_table,
                                                      nullptr};

constexpr Key<Lamp> lamp_table[] = {
    {"name", plain_text<&Lamp::name>(), required, "what the clinic calls it", said_apart},
    {"kind", choice<&Lamp::kind>(), required, "ring, point, clip-on, built in or twin",
     says("{}").joined(": ")},
    {"radius", length<&Lamp::radius>(1.0 * mm, 500.0 * mm),
     missed("radius of {}", "shadows and glare").behind("flash duration").where(is_ring),
     "radius of the circle that the ring's tube makes, by ruler", says("radius {}")},
    {"offset", length<&Lamp::offset>(1.0 * mm, 1000.0 * mm),
     missed("offset of {}", "shadows and glare").behind("flash duration").where(is_point),
     "from the lens axis to the middle of a point lamp", says("{} from the axis")},
    {"heads apart", length<&Lamp::heads_apart>(2.0 * mm, 2000.0 * mm),
     missed("distance between the heads of {}", "light, shadows and glare")
         .behind("flash duration")
         .where(is_twin),
     "from the middle of one head of a twin lamp to that of the other", says("{} apart")},
    {"heads", choice<&Lamp::heads>(), not_missed,
     "where the heads of a twin lamp sit, seen from behind the camera held level", says("{}")},
    {"side", choice<&Lamp::side>(), not_missed,
     "where a point lamp sits, seen from behind the camera held level", says("{}")},
    {"moves", choice<&Lamp::moves>(), not_missed,
     "whether a point lamp can be put on another side by hand, or moves only with the camera",
     says("{}")},
    {"behind front", length<&Lamp::behind_front>(0.0 * mm, 500.0 * mm), not_missed,
     "how far the lamp lies behind the front of the lens", says("{} behind the front of the lens")},
    {"stands out", length<&Lamp::stands_out>(0.0 * mm, 500.0 * mm), not_missed,
     "how far the lamp stands out beyond the front of the lens",
     says("stands out by {}").behind("light")},
    {"burns with", plain_text<&Lamp::burns_with>(), not_missed,
     "name of another lamp of the kit that lights every picture with this one, at the same share "
     "of its power",
     says("burns with {}")},
    {"control", choice<&Lamp::control>(), not_missed,
     "whether it meters the light itself (automatic) or is set by hand (manual)", says("{}")},
    {"light", choice<&Lamp::light>(), not_missed, "flash, or steady: it burns all the time",
     says("{}")},
    {"colour temperature", temperature<&Lamp::colour_temperature>(), not_missed,
     "of its light, by the maker's sheet or a colour meter", says("light of {}")},
    {"flash duration", time<&Lamp::flash_duration>(60.0 * second),
     missed("flash duration of {}", "whether movement blurs the picture")
         .behind("shortest shutter")
         .where(is_flash),
     "how long the flash burns, by the maker's sheet",
     says("flash of {}").behind("shortest shutter")},
    {"guide number",
     length<&Lamp::guide_number>(100.0 * mm, 200000.0 * mm).told(guide_number_in_words), not_missed,
     "at ISO 100 and full power, by the maker's sheet, in metres; of a twin lamp, of one head",
     says("guide number {}")},
    {"reference shot", block<&Lamp::reference, reference_shot_section>(),
     missed("reference shot of {}", "which flash power is right close up"),
     "one measured shot of a grey card", said_apart},
    {"least power", power<&Lamp::least_power>(), not_missed,
     "smallest share of full power it can be set to", says("down to {} of its power")},
    {"shortest shutter", time<&Lamp::shortest_shutter>(60.0 * second),
     missed("shortest shutter of {}", "whether the shutter is open all over for the flash")
         .where(is_flash),
     "shortest time at which the shutter is open all over at once, in the camera's manual",
     says("shutter {} or longer")},
};

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
  if (!is_twin(lamp)) {
    refuse(lamp.heads_apart, "heads apart", "only a twin lamp has two heads");
    refuse(lamp.heads, "heads", "only a twin lamp has two heads");
  }
  if (lamp.kind.get() == LampKind::point || lamp.kind.get() == LampKind::clip_on) {
    refuse(lamp.radius, "radius", "only a ring light has one");
    return;
  }
  if (is_twin(lamp)) {
    refuse(lamp.radius, "radius", "only a ring light has one");
    refuse(lamp.offset, "offset", "write `heads apart`, from head to head");
    refuse(lamp.side, "side", "it has a head on each side: `heads`");
    refuse(lamp.moves, "moves", "it has a head on each side");
    return;
  }
  refuse(lamp.offset, "offset", "this light goes around the lens, or sits in it");
  refuse(lamp.side, "side", "this light goes around the lens, or sits in it");
  refuse(lamp.moves, "moves", "this light goes around the lens, or sits in it");
}

constexpr Section<Lens> lens_block{"the lens", lens_table, check_lens};
constexpr Section<Lamp> lamp_block{"a lamp", lamp_table, check_lamp};

} // namespace

const Section<Lens>& lens_section() { return lens_block; }
const Section<Lamp>& lamp_section() { return lamp_block; }
const Section<ReferenceShot>& reference_shot_section() { return reference_shot_block; }

} // namespace norma::kit
