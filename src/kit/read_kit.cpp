#include "kit/read_kit.hpp"

#include <fmt/core.h>

#include <set>

#include "kit/sections.hpp"

namespace norma::kit {

namespace {

/// A list of blocks, each read by its table; `check` then holds its values against each other.
template <class T>
void read_list(Reader& r, const Yaml& y, std::span<const Key<T>> keys,
               void (*check)(Reader& reader, const T& piece), std::vector<T>& target,
               std::string_view what) {
  if (y.kind != Yaml::Kind::list) {
    r.wrong(y, "a list is wanted: each piece starts with `-`");
    return;
  }
  for (const Yaml& item : y.items) {
    T piece;
    piece.span = item.span;
    read_section(r, item, keys, piece, what);
    check(r, piece);
    target.push_back(std::move(piece));
  }
}

template <class T> void nothing_to_check(Reader& /*r*/, const T& /*piece*/) {}

/// Judged before all other keys, by `other_edition`.
void read_edition(Reader& /*r*/, const Yaml& /*y*/, Kit& /*kit*/) {}

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

void read_lens(Reader& r, const Yaml& y, Kit& t) {
  Lens lens;
  lens.span = y.span;
  read_section(r, y, lens_keys(), lens, "the lens");
  check_lens(r, lens);
  t.lens = std::move(lens);
}

constexpr std::pair<std::string_view, Pictures> picture_kinds[] = {{"files", Pictures::files},
                                                                   {"prints", Pictures::prints}};

/// A value in its own unit.
Sourced<double> read_own_value(Reader& r, const Yaml& y, const OwnValueKey& key) {
  const std::string_view unit = key.which->unit;
  if (unit == "mm") {
    const auto l = r.length(y, key.least * mm, key.most * mm);
    return l.known() ? Sourced<double>(l.get().in(mm), l.span()) : Sourced<double>::broken(y.span);
  }
  if (unit == "deg") {
    const auto a = r.angle(y, key.least * degree, key.most * degree);
    return a.known() ? Sourced<double>(a.get().in(degree), a.span())
                     : Sourced<double>::broken(y.span);
  }
  if (unit == "stops") {
    const auto s = r.stops(y, key.most * stop);
    return s.known() ? Sourced<double>(s.get().in(stop), s.span())
                     : Sourced<double>::broken(y.span);
  }
  // `12 months` as well as `12`: the unit as the tables print it.
  Yaml bare = y;
  if (y.kind == Yaml::Kind::scalar && !unit.empty() && y.text.ends_with(unit)) {
    const std::string_view before = std::string_view(y.text).substr(0, y.text.size() - unit.size());
    if (before.ends_with(' ')) bare.text = std::string(before.substr(0, before.size() - 1));
  }
  return r.number(bare, key.least, key.most);
}

void read_own_values(Reader& r, const Yaml& y, std::span<const OwnValueKey> rows, Kit& t,
                     std::vector<OwnValue>& target, std::string_view section) {
  std::vector<Key<Kit>> keys;
  // Names only: each value is read below by its own row.
  for (const OwnValueKey& key : rows)
    keys.push_back({key.name, false, [](Reader&, const Yaml&, Kit&) {}, key.help});
  read_section<Kit>(r, y, keys, t, section);
  if (y.kind != Yaml::Kind::map) return;
  for (const YamlEntry& entry : y.entries) {
    for (const OwnValueKey& key : rows) {
      if (key.name == entry.key) target.push_back({key.which, read_own_value(r, entry.value, key)});
    }
  }
}

void read_limits(Reader& r, const Yaml& y, Kit& t) {
  read_own_values(r, y, limit_keys(), t, t.limits, "limits");
}

void read_anatomy(Reader& r, const Yaml& y, Kit& t) {
  read_own_values(r, y, anatomy_keys(), t, t.anatomy, "anatomy");
}

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

Sourced<physics::Tooth> read_tooth(Reader& r, const Yaml& y) {
  const Sourced<int> number = r.whole(y, 11, 85);
  if (!number.known()) return Sourced<physics::Tooth>::broken(y.span);
  const auto tooth = physics::Tooth::from_iso(number.get());
  if (tooth) return {*tooth, y.span};
  r.wrong(y, "no tooth has this number in ISO 3950")
      .with_help("permanent teeth are 11 to 48, milk teeth 51 to 85");
  return Sourced<physics::Tooth>::broken(y.span);
}

void read_teeth(Reader& r, const Yaml& y, Kit& t) {
  read_list(r, y, tooth_keys(), nothing_to_check<ToothSizes>, t.teeth, "a tooth");
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
    {"norma kit", true, read_edition, "write `norma kit: 1` as the first line"},
    {"name", true, [](Reader& r, const Yaml& y, Kit& t) { t.name = r.text(y); },
     "a short name of the chair or kit"},
    {"title", false, [](Reader& r, const Yaml& y, Kit& t) { t.title = r.text(y); },
     "what is printed on lists"},
    {"sensor", false, [](Reader& r, const Yaml& y, Kit& t) { t.sensor = r.size(y); },
     "width and height of the sensor, such as `36 x 24 mm`"},
    {"iso", false, read_iso_range, "ISO speeds of the camera, such as `100 to 1600`"},
    {"lens", false, read_lens, "the lens"},
    {"lamps", false,
     [](Reader& r, const Yaml& y, Kit& t) {
       read_list(r, y, lamp_keys(), check_lamp, t.lamps, "a lamp");
     },
     "the lamps, the usual one first"},
    {"retractors", false,
     [](Reader& r, const Yaml& y, Kit& t) {
       read_list(r, y, retractor_keys(), check_retractor, t.retractors, "a retractor");
     },
     "the retractors"},
    {"mirrors", false,
     [](Reader& r, const Yaml& y, Kit& t) {
       read_list(r, y, mirror_keys(), check_mirror, t.mirrors, "a mirror");
     },
     "the mirrors"},
    {"guides", false,
     [](Reader& r, const Yaml& y, Kit& t) {
       read_list(r, y, guide_keys(), nothing_to_check<Guide>, t.guides.emplace(), "a guide");
     },
     "distance guides of a fixed-focus camera"},
    {"frames", false,
     [](Reader& r, const Yaml& y, Kit& t) {
       read_list(r, y, frame_keys(), nothing_to_check<Frame>, t.frames.emplace(), "a frame");
     },
     "open frames fixed in the focus plane"},
    {"people", false,
     [](Reader& r, const Yaml& y, Kit& t) { read_section(r, y, people_keys(), t, "people"); },
     "hands that can hold things"},
    {"room light", false, [](Reader& r, const Yaml& y, Kit& t) { t.room_light = r.illuminance(y); },
     "light at the teeth without the flash, by a meter"},
    {"pictures", false,
     [](Reader& r, const Yaml& y, Kit& t) { t.pictures = r.choice(y, picture_kinds); },
     "files, or prints that come out of the camera"},
    {"processing", false,
     [](Reader& r, const Yaml& y, Kit& t) { t.processing = r.time(y, 600.0 * second); },
     "time a print takes before the next picture"},
    {"limits", false, read_limits, "what norma takes for enough, as the clinic sets it"},
    {"mouths", false,
     [](Reader& r, const Yaml& y, Kit& t) {
       read_section(r, y, mouth_keys(), t.mouths, "mouths");
       check_mouths(r, t.mouths);
     },
     "how this chair's retractors hold mouths"},
    {"anatomy", false, read_anatomy, "sizes of this clinic's patients, where they were measured"},
    {"teeth", false, read_teeth, "sizes of single teeth of this clinic's patients"},
};

constexpr Key<Guide> guide_table[] = {
    {"name", true, [](Reader& r, const Yaml& y, Guide& t) { t.name = r.text(y); },
     "what the clinic calls it"},
    {"keeps", false,
     [](Reader& r, const Yaml& y, Guide& t) { t.keeps = r.length(y, 1.0 * mm, 2000.0 * mm); },
     "how far it keeps the front of the lens from the teeth"},
};

constexpr Key<Frame> frame_table[] = {
    {"name", true, [](Reader& r, const Yaml& y, Frame& t) { t.name = r.text(y); },
     "what the clinic calls it"},
    {"size", false, [](Reader& r, const Yaml& y, Frame& t) { t.size = r.size(y); },
     "of its opening, such as `18 x 12 mm`"},
};

constexpr Length least_crown = 2.0 * mm;
constexpr Length greatest_crown = 20.0 * mm;
constexpr Key<ToothSizes> tooth_table[] = {
    {"tooth", true, [](Reader& r, const Yaml& y, ToothSizes& t) { t.tooth = read_tooth(r, y); },
     "by its number in ISO 3950, such as `12`; it stands for `22`, too"},
    {"width", false,
     [](Reader& r, const Yaml& y, ToothSizes& t) {
       t.width = r.length(y, least_crown, greatest_crown);
     },
     "of the crown, along the arch"},
    {"height", false,
     [](Reader& r, const Yaml& y, ToothSizes& t) {
       t.height = r.length(y, least_crown, greatest_crown);
     },
     "of the crown"},
    {"depth", false,
     [](Reader& r, const Yaml& y, ToothSizes& t) {
       t.depth = r.length(y, least_crown, greatest_crown);
     },
     "of the crown, from face to tongue side"},
};

constexpr Key<Kit> people_table[] = {
    {"assistant hands", false,
     [](Reader& r, const Yaml& y, Kit& t) { t.assistant_hands = r.whole(y, 0, 4); },
     "0 where there is no assistant"},
    {"patient hands", false,
     [](Reader& r, const Yaml& y, Kit& t) { t.patient_hands = r.whole(y, 0, 2); },
     "hands of the patient that can hold something"},
};

constexpr Key<Mouths> mouth_table[] = {
    {"light pull aside", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.light.aside = r.length(y, 10.0 * mm, 80.0 * mm); },
     "corner of the mouth from the midline, light pull"},
    {"light pull back", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.light.back = r.length(y, 0.0 * mm, 80.0 * mm); },
     "corner of the mouth behind the upper incisors, light pull"},
    {"even pull aside", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.even.aside = r.length(y, 10.0 * mm, 80.0 * mm); },
     "corner of the mouth from the midline, even pull"},
    {"even pull back", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.even.back = r.length(y, 0.0 * mm, 80.0 * mm); },
     "corner of the mouth behind the upper incisors, even pull"},
    {"firm pull aside", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.firm.aside = r.length(y, 10.0 * mm, 80.0 * mm); },
     "corner of the mouth from the midline, firm pull"},
    {"firm pull back", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.firm.back = r.length(y, 0.0 * mm, 80.0 * mm); },
     "corner of the mouth behind the upper incisors, firm pull"},
    {"by mirror aside", false,
     [](Reader& r, const Yaml& y, Mouths& t) {
       t.by_mirror.aside = r.length(y, 10.0 * mm, 80.0 * mm);
     },
     "corner of the mouth from the midline, as far as a mirror in the cheek may hold it"},
    {"by mirror back", false,
     [](Reader& r, const Yaml& y, Mouths& t) {
       t.by_mirror.back = r.length(y, 0.0 * mm, 50.0 * mm);
     },
     "the same, behind the upper incisors"},
    {"lips clear", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.lips_clear = r.length(y, 0.0 * mm, 30.0 * mm); },
     "lips beyond the necks of the front teeth"},
    {"opened wide", false,
     [](Reader& r, const Yaml& y, Mouths& t) { t.opened_wide = r.length(y, 10.0 * mm, 80.0 * mm); },
     "between the incisors' edges, mouth opened wide"},
};

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

} // namespace

std::span<const OwnValueKey> limit_keys() { return limit_table; }
std::span<const OwnValueKey> anatomy_keys() { return anatomy_table; }
std::span<const Key<Kit>> kit_keys() { return kit_table; }
std::span<const Key<Kit>> people_keys() { return people_table; }
std::span<const Key<Guide>> guide_keys() { return guide_table; }
std::span<const Key<Frame>> frame_keys() { return frame_table; }
std::span<const Key<ToothSizes>> tooth_keys() { return tooth_table; }
std::span<const Key<Mouths>> mouth_keys() { return mouth_table; }

Kit read_kit(text::FileId id, const text::Sources& sources, diag::Findings& findings) {
  Kit kit;
  kit.file = id;
  const auto tree = read_yaml(id, sources, findings);
  Reader reader(findings);
  kit.readable = tree && !other_edition(reader, *tree);
  if (!kit.readable) return kit;
  read_section(reader, *tree, kit_keys(), kit, "the kit");
  return kit;
}

} // namespace norma::kit
