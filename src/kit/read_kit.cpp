#include "kit/read_kit.hpp"

#include <fmt/core.h>

#include <set>

#include "kit/fields.hpp"
#include "kit/sections.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {

template <> struct Choices<Pictures> {
  static constexpr Choice<Pictures> rows[] = {{"files", Pictures::files, ""},
                                              {"prints", Pictures::prints, "it makes prints"}};
};

namespace {

/// A kit of another edition is one finding: what its keys mean is not for this norma to say.
bool other_edition(Reader& r, const Yaml& tree) {
  for (const YamlEntry& entry : tree.entries) {
    if (entry.key != "norma kit") continue;
    if (entry.value.kind == Yaml::Kind::scalar && entry.value.text == "1") return false;
    r.wrong(entry.value, "this norma reads kits of edition 1");
    return true;
  }
  return false;
}

// Values in place of norma's own
// -------------------------------------------------------------------

/// As a table of the defaults prints its unit, it may stand behind the value.
Form form_of(const OwnValueKey& key) {
  const std::string_view unit = key.which->unit;
  using Value = Form::Value;
  const Value value = unit == "mm"      ? Value::length
                      : unit == "deg"   ? Value::angle
                      : unit == "stops" ? Value::stops
                                        : Value::number;
  const bool behind = value == Value::number;
  return {value, Form::Shape::one, key.least, key.most, behind ? unit : "", {}, nullptr};
}

/// `12 months` as well as `12`.
Yaml without_unit(const Yaml& y, std::string_view unit) {
  Yaml bare = y;
  if (y.kind != Yaml::Kind::scalar || unit.empty() || !y.text.ends_with(unit)) return bare;
  const std::string_view before = std::string_view(y.text).substr(0, y.text.size() - unit.size());
  if (before.ends_with(' ')) bare.text = std::string(before.substr(0, before.size() - 1));
  return bare;
}

/// A value in its own unit.
Sourced<double> read_own_value(Reader& r, const Yaml& y, const OwnValueKey& key) {
  const auto in = [](const auto& value, auto unit) {
    return value.known() ? Sourced<double>(value.get().in(unit), value.span())
                         : Sourced<double>::broken(value.span());
  };
  const Form form = form_of(key);
  switch (form.value) {
  case Form::Value::length: return in(read_length(r, y, form), mm);
  case Form::Value::angle: return in(read_angle(r, y, form), degree);
  case Form::Value::stops: return in(read_stops(r, y, form), stop);
  default: return r.number(without_unit(y, form.unit), form.least, form.most);
  }
}

void read_own_values(Reader& r, const Yaml& y, std::span<const OwnValueKey> keys,
                     std::vector<OwnValue>& target, std::string_view what) {
  if (y.kind != Yaml::Kind::map) {
    r.wrong(y, "a block of keys is wanted");
    return;
  }
  std::vector<std::string_view> names;
  for (const OwnValueKey& key : keys)
    names.push_back(key.name);
  for (const YamlEntry& entry : y.entries) {
    const auto key = std::find_if(keys.begin(), keys.end(),
                                  [&](const OwnValueKey& k) { return k.name == entry.key; });
    if (key == keys.end()) {
      report_unknown(r, entry, names, what);
    } else {
      target.push_back({key->which, read_own_value(r, entry.value, *key)});
    }
  }
}

/// A block of such values.
template <auto M, auto Keys> constexpr Field<Kit> own_values() {
  return Field<Kit>(
      Form::block(Form::Shape::one,
                  [] {
                    std::vector<Row> rows;
                    for (const OwnValueKey& key : Keys())
                      rows.emplace_back(key.name, form_of(key), false, key.help);
                    return rows;
                  }),
      [](Reader& r, const Yaml& y, const Form&, Kit& t) {
        read_own_values(r, y, Keys(), t.*M,
                        Keys().data() == limit_keys().data() ? "limits" : "anatomy");
      },
      detail::nothing<Kit>, [](const Kit& t) { return (t.*M).empty(); }, nullptr);
}

namespace d = physics::defaults;
constexpr OwnValueKey limit_table[] = {
    {"loss good for", &d::loss_good_for, 1, 120, "months after which a mirror's loss is stale"},
    {"frosting good for", &d::frosting_good_for, 1, 120,
     "months after which frosting is looked at, where cycles are not counted"},
    {"reference shot good for", &d::shot_good_for, 1, 120,
     "months after which a lamp's reference shot is stale"},
    {"room light under flash", &d::ambient_margin, 0, 10,
     "stops by which the room's light stays under the flash"},
    {"patient moves", &d::patient_moves, 0, 100, "across the picture, in a second"},
    {"field used", &d::field_used, 0, 1, "share of the picture that what must show takes at least"},
    {"room to spare", &d::room_to_spare, 0, 50, "around what must show"},
    {"share seen", &d::shown_share, 0, 1, "of a tooth's surface that must be seen"},
    {"share in the mirror", &d::mirror_share, 0, 1,
     "of a tooth's surface that must lie within the mirror"},
    {"share lit", &d::lit_share, 0, 1, "of what is seen that must be lit"},
    {"turned straight ahead", &d::turned_straight, 1, 89,
     "angle at which a surface still counts as shown, view straight ahead"},
    {"turned elsewhere", &d::turned_elsewhere, 1, 89,
     "angle at which a surface still counts as shown, other views"},
    {"seen squarely", &d::squarely, 1, 89, "angle up to which no mirror is needed"},
    {"mirror behind last tooth", &d::mirror_gap, 0, 20, "gap between mirror and last tooth"},
    {"insertions", &d::insertions_most, 1, 100, "times that something goes into the mouth"},
    {"minutes in the mouth", &d::minutes_most, 1, 120, "without a rest, for one series"},
    {"minutes for a view", &d::minutes_for_view, 0, 60, "that one view takes"},
    {"minutes for an insertion", &d::minutes_for_insertion, 0, 60, "that putting in takes"},
};

constexpr OwnValueKey anatomy_table[] = {
    {"upper canines apart", &d::upper_canine_width, 20, 60, "adults, cusp tips"},
    {"lower canines apart", &d::lower_canine_width, 15, 50, "adults, cusp tips"},
    {"upper first molars apart", &d::upper_molar_width, 35, 90,
     "adults, middles of the faces towards the cheek (facial-axis points)"},
    {"lower first molars apart", &d::lower_molar_width, 35, 90,
     "adults, middles of the faces towards the cheek (facial-axis points)"},
    {"mixed upper canines apart", &d::upper_canine_width_mixed, 20, 50, "milk canines, tips"},
    {"mixed lower canines apart", &d::lower_canine_width_mixed, 15, 45, "milk canines, tips"},
    {"mixed upper first molars apart", &d::upper_molar_width_mixed, 25, 70,
     "middles of the biting surfaces"},
    {"mixed lower first molars apart", &d::lower_molar_width_mixed, 25, 70,
     "middles of the biting surfaces"},
    {"milk upper canines apart", &d::upper_canine_width_milk, 20, 50, "tips"},
    {"milk lower canines apart", &d::lower_canine_width_milk, 15, 45, "tips"},
    {"milk upper first molars apart", &d::upper_molar_width_milk, 25, 70,
     "middles of the permanent molars, or of the place where they will come"},
    {"milk lower first molars apart", &d::lower_molar_width_milk, 25, 70,
     "middles of the permanent molars, or of the place where they will come"},
    {"upper spaces", &d::upper_spaces, 0, 12,
     "adults, between front teeth and first premolars, together"},
    {"lower spaces", &d::lower_spaces, 0, 12,
     "adults, between front teeth and first premolars, together"},
    {"milk upper spaces", &d::upper_spaces_milk, 0, 12,
     "between front teeth and first molars, together"},
    {"milk lower spaces", &d::lower_spaces_milk, 0, 12,
     "between front teeth and first molars, together"},
    {"canine tip", &d::canine_tip, 0, 5, "outside of the line through the contacts"},
    {"overjet", &d::overjet, -8, 15,
     "lower incisors behind the upper ones; less than 0 in front of them"},
    {"overbite", &d::overbite, -10, 10,
     "lower incisors above the upper edges; less than 0 in an open bite"},
    {"curve of Spee", &d::curve_of_spee, 0, 8, "its depth, adults"},
    {"mixed curve of Spee", &d::curve_of_spee_mixed, 0, 8, "its depth"},
    {"milk curve of Spee", &d::curve_of_spee_milk, 0, 8, "its depth"},
    {"condyle to incisors", &d::condyle_distance, 60, 140, "to the contact of the lower incisors"},
    {"triangle to biting plane", &d::balkwill_angle, 5, 45,
     "Bonwill's triangle to the biting plane"},
    {"hinge up to", &d::hinge_opening, 5, 40, "opening up to which the jaw only turns"},
    {"condyle slide", &d::condyle_slide, 0, 25, "at 46 mm of opening"},
    {"condyle path", &d::condyle_path, 0, 70, "downwards from the biting plane"},
    {"palate height", &d::palate_height, 5, 30, "over the biting edges, at the first molars"},
    {"mouth floor", &d::floor_depth, 5, 40, "under the biting edges of the lower teeth"},
    {"incisor edge", &d::incisor_edge, 0.5, 5, "its thickness"},
    {"canine edge", &d::canine_edge, 0.5, 6, "thickness at the tip"},
    {"biting table", &d::table_share, 0.2, 1, "of a back tooth, share of its depth"},
    {"face curve", &d::face_sag, 0, 0.4, "across the width of a tooth, share of the width"},
    {"widest at", &d::contact_height, 0.05, 0.95, "share of a crown's height, from the edge"},
    {"deepest at", &d::crest_height, 0.05, 0.95, "share of a crown's height, from the edge"},
};

// Mouths, teeth, people, attachments --------------------------------------------------------------

/// A firmer pull does not hold the corner farther in.
void check_mouths(Reader& r, const Mouths& m) {
  const auto hold = [&](const Sourced<Length>& firmer, const Sourced<Length>& lighter) {
    if (!firmer.known() || !lighter.known() || firmer.get() >= lighter.get()) return;
    r.contradiction(firmer.span(), "corner of the mouth",
                    fmt::format("a lighter pull holds it {} out, this one {}",
                                physics::to_text(lighter.get()), physics::to_text(firmer.get())));
  };
  hold(m.firm.aside, m.light.aside);
  hold(m.firm.aside, m.even.aside);
  hold(m.firm.back, m.light.back);
  hold(m.firm.back, m.even.back);
}

/// Both of its numbers in one part: told at the first of them that is known.
template <auto Corner> std::string corner_in_words(const Mouths& t) {
  const Mouths::Corner& c = t.*Corner;
  std::string all = c.aside.known() ? text_of(c.aside.get()) + " from the midline" : "";
  if (c.back.known())
    all += (all.empty() ? "" : ", ") + text_of(c.back.get()) + " behind the incisors";
  return all;
}
template <auto Corner> std::string back_in_words(const Mouths& t) {
  return (t.*Corner).aside.known() ? "" : corner_in_words<Corner>(t);
}

template <auto Corner> constexpr Field<Mouths> aside() {
  return length<Corner, &Mouths::Corner::aside>(10.0 * mm, 80.0 * mm).told(corner_in_words<Corner>);
}
template <auto Corner> constexpr Field<Mouths> back(Length most) {
  return length<Corner, &Mouths::Corner::back>(0.0 * mm, most).told(back_in_words<Corner>);
}

constexpr Key<Mouths> mouth_table[] = {
    {"light pull aside", aside<&Mouths::light>(), not_missed,
     "corner of the mouth from the midline, light pull", says("light pull: {}")},
    {"light pull back", back<&Mouths::light>(80.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, light pull", says("light pull: {}")},
    {"even pull aside", aside<&Mouths::even>(), not_missed,
     "corner of the mouth from the midline, even pull", says("even pull: {}")},
    {"even pull back", back<&Mouths::even>(80.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, even pull", says("even pull: {}")},
    {"firm pull aside", aside<&Mouths::firm>(), not_missed,
     "corner of the mouth from the midline, firm pull", says("firm pull: {}")},
    {"firm pull back", back<&Mouths::firm>(80.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, firm pull", says("firm pull: {}")},
    {"by mirror aside", aside<&Mouths::by_mirror>(), not_missed,
     "corner of the mouth from the midline, as far as a mirror in the cheek may hold it",
     says("by a mirror in the cheek: {}")},
    {"by mirror back", back<&Mouths::by_mirror>(50.0 * mm), not_missed,
     "corner of the mouth behind the upper incisors, as far as a mirror in the cheek may hold it",
     says("by a mirror in the cheek: {}")},
    {"lips clear", length<&Mouths::lips_clear>(0.0 * mm, 30.0 * mm), not_missed,
     "lips beyond the necks of the front teeth", says("lips clear of the necks by {}")},
    {"opened wide", length<&Mouths::opened_wide>(10.0 * mm, 80.0 * mm), not_missed,
     "between the incisors' edges, mouth opened wide", says("opened wide: {}")},
};
constexpr Section<Mouths> mouth{"mouths", mouth_table, check_mouths};

constexpr Key<Guide> guide_table[] = {
    {"name", plain_text<&Guide::name>(), required, "what the clinic calls it", said_apart},
    {"keeps", length<&Guide::keeps>(1.0 * mm, 2000.0 * mm),
     missed("distance that {} keeps", "whether it fits the lens"),
     "how far it keeps the front of the lens from the teeth",
     says("keeps the lens {} from the teeth")},
};
constexpr Section<Guide> guide{"a guide", guide_table, nullptr};

constexpr Key<Frame> frame_table[] = {
    {"name", plain_text<&Frame::name>(), required, "what the clinic calls it", said_apart},
    {"size", size<&Frame::size>(), not_missed, "width and height of its opening", says("{}")},
};
constexpr Section<Frame> frame{"a frame", frame_table, nullptr};

constexpr Length least_crown = 2.0 * mm;
constexpr Length greatest_crown = 20.0 * mm;
constexpr Key<ToothSizes> tooth_table[] = {
    {"tooth", tooth<&ToothSizes::tooth>(), required,
     "by its number in ISO 3950, such as `12`; it stands for `22`, too", said_apart},
    {"width", length<&ToothSizes::width>(least_crown, greatest_crown), not_missed,
     "width of the crown, along the arch", says("{} wide")},
    {"height", length<&ToothSizes::height>(least_crown, greatest_crown), not_missed,
     "height of the crown", says("{} high")},
    {"depth", length<&ToothSizes::depth>(least_crown, greatest_crown), not_missed,
     "depth of the crown, from face to tongue side", says("{} deep")},
};
constexpr Section<ToothSizes> tooth_sizes{"a tooth", tooth_table, nullptr};

constexpr Key<Kit> people_table[] = {
    {"assistant hands", whole<&Kit::assistant_hands>(0, 4), not_missed,
     "hands of the assistant that can hold something; 0 where there is none",
     says("hands of the assistant: {}")},
    {"patient hands", whole<&Kit::patient_hands>(0, 2), not_missed,
     "hands of the patient that can hold something", says("hands of the patient: {}")},
};
constexpr Section<Kit> people{"people", people_table, nullptr};

// The file ----------------------------------------------------------------------------------------

/// Judged before all other keys, by `other_edition`.
void read_edition(Reader& /*r*/, const Yaml& /*y*/, const Form& /*form*/, Kit& /*kit*/) {}

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
      Form::block(Form::Shape::one, [] { return rows_of(mouth); }),
      [](Reader& r, const Yaml& y, const Form&, Kit& t) {
        read_section(r, y, mouth, t.mouths);
        check_mouths(r, t.mouths);
      },
      detail::nothing<Kit>, no_mouths, nullptr);
}

/// Teeth of one number are given once.
void read_teeth(Reader& r, const Yaml& y, const Form& /*form*/, Kit& t) {
  detail::read_pieces(r, y, tooth_sizes, t.teeth);
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

constexpr Key<Kit> kit_table[] = {
    {"norma kit",
     Field<Kit>(
         Form::range(Form::Value::edition, 1, 1), read_edition, detail::nothing<Kit>,
         [](const Kit&) { return false; }, nullptr),
     required, "write `norma kit: 1` as the first line", said_apart},
    {"name", plain_text<&Kit::name>(), required, "a short name of the chair or kit", said_apart},
    {"title", plain_text<&Kit::title>(), not_missed, "what is printed on lists", said_apart},
    {"sensor", size<&Kit::sensor>(), missed("sensor", "which field a ratio gives"),
     "width and height of the sensor, in the camera's manual", says("sensor {}")},
    {"iso", numbers<IsoSpeed, &Kit::least_iso, &Kit::greatest_iso>(1, 1000000), not_missed,
     "lowest to highest ISO speed of the camera", says("ISO {}")},
    {"lens", block<&Kit::lens, lens_section>(),
     missed("lens", "ratios, distances, apertures and sharpness"), "the lens", said_apart},
    {"lamps", blocks<&Kit::lamps, lamp_section>(), missed("a lamp", "how the teeth are lit"),
     "the lamps, the usual one first", said_apart},
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
    {"limits", own_values<&Kit::limits, limit_keys>(), not_missed,
     "what norma takes for enough, as the clinic sets it", said_apart},
    {"mouths", mouths(),
     missed("mouths", "where the retractors hold the corners; assumed without it"),
     "how this chair's retractors hold mouths", said_apart},
    {"anatomy", own_values<&Kit::anatomy, anatomy_keys>(), not_missed,
     "sizes of this clinic's patients, where they were measured", said_apart},
    {"teeth",
     Field<Kit>(
         blocks<&Kit::teeth, tooth_section>().form, read_teeth, detail::nothing<Kit>,
         [](const Kit& t) { return t.teeth.empty(); }, nullptr),
     not_missed, "sizes of single teeth of this clinic's patients", said_apart},
};
constexpr Section<Kit> whole_kit{"the kit", kit_table, nullptr};

} // namespace

std::span<const OwnValueKey> limit_keys() { return limit_table; }
std::span<const OwnValueKey> anatomy_keys() { return anatomy_table; }
const Section<Kit>& kit_section() { return whole_kit; }
const Section<Kit>& people_section() { return people; }
const Section<Guide>& guide_section() { return guide; }
const Section<Frame>& frame_section() { return frame; }
const Section<ToothSizes>& tooth_section() { return tooth_sizes; }
const Section<Mouths>& mouth_section() { return mouth; }

Kit read_kit(text::FileId id, const text::Sources& sources, diag::Findings& findings) {
  Kit kit;
  kit.file = id;
  const auto tree = read_yaml(id, sources, findings);
  Reader reader(findings);
  kit.readable = tree && !other_edition(reader, *tree);
  if (!kit.readable) return kit;
  read_section(reader, *tree, kit_section(), kit);
  return kit;
}

} // namespace norma::kit
