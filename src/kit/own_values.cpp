#include "kit/own_values.hpp"

#include <algorithm>

namespace norma::kit {
namespace {

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

namespace d = physics::defaults;
constexpr OwnValueKey limit_table[] = {
    {"loss good for", &d::loss_good_for, 1, 120, "months after which a mirror's loss is stale"},
    {"frosting good for", &d::frosting_good_for, 1, 120,
     "months after which frosting is looked at, where cycles are not counted"},
    {"reference shot good for", &d::shot_good_for, 1, 120,
     "months after which a lamp's reference shot is stale"},
    {"room light under flash", &d::ambient_margin, 0, 10,
     "stops by which the room's light stays under the flash"},
    {"white balance off", &d::white_balance_off, 0, 200, "the lamp's colour, at most, in 1e6/K"},
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

constexpr OwnValueSection limits_block{"limits", limit_table};
constexpr OwnValueSection anatomy_block{"anatomy", anatomy_table};

} // namespace

const OwnValueSection& limit_section() { return limits_block; }
const OwnValueSection& anatomy_section() { return anatomy_block; }

std::vector<Row> rows_of(const OwnValueSection& section) {
  std::vector<Row> rows;
  for (const OwnValueKey& key : section.keys)
    rows.emplace_back(key.name, form_of(key), false, key.help);
  return rows;
}

void read_own_values(Reader& reader, const Yaml& map, const OwnValueSection& section,
                     std::vector<OwnValue>& target) {
  if (map.kind != Yaml::Kind::map) {
    reader.wrong(map, "a block of keys is wanted");
    return;
  }
  std::vector<std::string_view> names;
  for (const OwnValueKey& key : section.keys)
    names.push_back(key.name);
  for (const YamlEntry& entry : map.entries) {
    const auto key = std::find_if(section.keys.begin(), section.keys.end(),
                                  [&](const OwnValueKey& k) { return k.name == entry.key; });
    if (key == section.keys.end()) {
      report_unknown(reader, entry, names, section.what);
    } else {
      target.push_back({key->which, read_own_value(reader, entry.value, *key)});
    }
  }
}

} // namespace norma::kit
