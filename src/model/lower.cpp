#include "model/lower.hpp"

#include <algorithm>
#include <array>

#include "model/declared.hpp"
#include "model/write.hpp"
#include "physics/quantity_text.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

using words::Measure;

/// The statement of a word (and key) among the merged ones; null where it is not said.
const Statement* find(const std::vector<Statement>& statements, std::string_view word,
                      std::string_view key = {}) {
  const auto found = std::find_if(statements.begin(), statements.end(), [&](const Statement& s) {
    return s.word->name == word && s.key == key;
  });
  return found == statements.end() ? nullptr : &*found;
}

/// What `make` gives for the statement of `word`; broken or absent where that is.
template <class T, class Make>
Sourced<T> lowered(const std::vector<Statement>& statements, std::string_view word, Make make,
                   std::string_view key = {}) {
  const Statement* s = find(statements, word, key);
  if (s == nullptr) return {};
  if (s->broken) return Sourced<T>::broken(s->span);
  return {make(*s), s->span};
}

/// The same, where a statement can be about something else, too: absent unless `is` holds.
template <class T, class Is, class Make>
Sourced<T> lowered_when(const std::vector<Statement>& statements, std::string_view word, Is is,
                        Make make) {
  const Statement* s = find(statements, word);
  if (s == nullptr || (!s->broken && !is(*s))) return {};
  return lowered<T>(statements, word, make);
}
template <class T, class Make>
Sourced<T> lowered_if(const std::vector<Statement>& statements, std::string_view word,
                      std::string_view slot, Make make) {
  return lowered_when<T>(
      statements, word, [&](const Statement& s) { return s.has(slot); }, make);
}

bool has(const std::vector<Statement>& statements, std::string_view word, std::string_view slot) {
  const Statement* s = find(statements, word);
  return s != nullptr && !s->broken && s->has(slot);
}

const Measure& measure(const Statement& s, std::string_view slot) {
  return *s.value(slot)->as<Measure>();
}

std::optional<Person> person(const Statement& s) {
  const std::string_view who = s.symbol("held");
  if (who == "patient") return Person::patient;
  if (who == "assistant") return Person::assistant;
  if (who == "operator") return Person::operator_;
  if (who == "itself") return Person::itself;
  return std::nullopt;
}

std::optional<Side> side(std::string_view symbol) {
  if (symbol.ends_with("right")) return Side::right;
  if (symbol.ends_with("left")) return Side::left;
  return std::nullopt;
}

/// All symbols of a statement, joined by commas: `together, usual bite`. In the order of the word's
/// clauses, whichever was written first: what rests on the text reads it in one order.
std::string symbols(const Statement& s, std::string_view but = "held") {
  std::string out;
  for (const words::Clause& clause : s.word->clauses) {
    if (clause.slot == but) continue;
    for (const Part& part : s.parts) {
      if (part.clause != &clause) continue;
      for (const words::Value& v : part.values) {
        if (v.symbol().empty()) continue;
        if (!out.empty()) out += ", ";
        out += v.symbol();
      }
    }
  }
  return out;
}

std::string plain_symbols(const Statement& s) { return symbols(s); }

ApertureRange aperture(const Statement& s) {
  const Part& part = *s.part("range");
  const auto exact = [&](std::size_t i) {
    return physics::exact_f_number(part.values[i].as<words::FNumberLiteral>()->number.value());
  };
  ApertureRange range{exact(0), part.values.size() > 1 ? exact(1) : exact(0)};
  if (range.narrowest < range.widest) std::swap(range.narrowest, range.widest);
  return range;
}

Exposure exposure(const Statement& s) {
  Exposure e;
  if (const words::Value* as = s.value("as")) {
    e.as_view = as->as<words::Name>()->text;
    e.as_view_span = s.place(*as);
  }
  if (const Part* offset = s.part("offset")) {
    const Stops stops = words::stops_of(*offset->values[0].as<Measure>());
    e.offset = offset->values[1].symbol() == "less" ? -stops : stops;
  }
  return e;
}

LampUse lamp(const Statement& s) {
  LampUse use;
  if (s.symbol("kind") == "ring") use.kind = LampWanted::ring;
  if (s.symbol("kind") == "point") use.kind = LampWanted::point;
  if (s.symbol("kind") == "clip on") use.kind = LampWanted::clip_on;
  if (s.symbol("kind") == "built into the lens") use.kind = LampWanted::built_in;
  if (s.symbol("look") == "modelling light") use.look = LampLook::modelling;
  if (s.symbol("look") == "even light") use.look = LampLook::even;
  if (s.symbol("towards") == "front teeth") use.towards = LampTowards::front_teeth;
  if (s.symbol("towards") == "cheek") use.towards = LampTowards::cheek;
  if (s.symbol("towards") == "nose") use.towards = LampTowards::nose;
  return use;
}

Retractor retractor(const Statement& s) {
  Retractor r;
  r.span = s.span;
  r.none = s.has("absent");
  r.mirror_takes_place = s.has("mirror");
  r.material = s.symbol("material");
  r.finish = s.symbol("finish");
  r.end = s.symbol("end");
  r.tension = s.symbol("tension");
  r.pull = s.symbol("pull");
  r.dry = s.symbol("moisture") == "dry";
  r.held_by = person(s);
  return r;
}

Mirror mirror(const Statement& s) {
  Mirror m;
  const std::string_view kind = s.symbol("kind");
  if (kind.starts_with("buccal")) m.use = MirrorUse::buccal;
  if (kind.starts_with("lingual")) m.use = MirrorUse::lingual;
  m.side = side(kind);
  if (s.has("disc")) {
    m.use = MirrorUse::disc;
    m.disc = words::length_of(measure(s, "disc"));
  }
  m.end = s.symbol("end");
  m.turned_over = s.has("again");
  if (s.has("opened")) m.opened = words::angle_of(measure(s, "opened"));
  m.warmed = s.has("warmed");
  m.held_by = person(s);
  return m;
}

CameraPlace camera(const Statement& s) {
  CameraPlace c;
  if (s.has("side")) c.from = side(s.symbol("side"));
  if (s.has("azimuth")) c.azimuth = words::angle_of(measure(s, "azimuth"));
  if (const Part* height = s.part("height")) {
    c.elevation = words::angle_of(*height->values[0].as<Measure>());
    if (height->values[1].symbol() == "below") c.elevation = -c.elevation;
  }
  c.upside_down = s.has("roll");
  return c;
}

OperatorPlace operator_place(const Statement& s) {
  const std::string_view place = s.symbol("place");
  if (place == "behind the head") return OperatorPlace::behind_head;
  if (place == "at the right") return OperatorPlace::at_right;
  if (place == "at the left") return OperatorPlace::at_left;
  return OperatorPlace::in_front;
}

Aim aim(const Statement& s) {
  if (const Part* between = s.part("between")) {
    return {between->values[0].as<words::ToothRun>()->first,
            between->values[1].as<words::ToothRun>()->first, ""};
  }
  if (s.has("thing")) return {{}, {}, std::string(s.symbol("thing"))};
  const physics::Tooth tooth = s.value("tooth")->as<words::ToothRun>()->first;
  return {tooth, tooth, ""};
}

Face face(std::string_view symbol) {
  if (symbol == "occlusal" || symbol == "incisal") return Face::biting;
  if (symbol == "lingual" || symbol == "palatal") return Face::lingual;
  return Face::facial;
}

/// A surface holds until the next one; facial where none is named at all.
Faces faces(const Statement& s) {
  Faces out;
  Face current = Face::facial;
  for (const Part& part : s.parts) {
    if (part.clause->slot != "teeth") continue;
    for (const words::Value& v : part.values) {
      if (!v.symbol().empty()) current = face(v.symbol());
      const auto* run = v.as<words::ToothRun>();
      if (run == nullptr) continue;
      const auto teeth = words::run_of(run->first, run->last);
      for (const physics::Tooth tooth : *teeth)
        out.push_back({current, tooth});
    }
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

/// Teeth that are named without a surface.
std::vector<physics::Tooth> teeth(const Statement& s) {
  std::vector<physics::Tooth> out;
  for (const Part& part : s.parts) {
    for (const words::Value& v : part.values) {
      const auto* run = v.as<words::ToothRun>();
      if (run == nullptr) continue;
      const auto run_teeth = words::run_of(run->first, run->last);
      out.insert(out.end(), run_teeth->begin(), run_teeth->end());
    }
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

/// What is named besides teeth: `whole head`, `facial that tooth`, `gum of 13 to 23`.
std::vector<std::string> things(const Statement& s) {
  std::vector<std::string> out;
  for (const Part& part : s.parts) {
    const std::string_view slot = part.clause->slot;
    if (slot == "thing" || slot == "that" || slot == "gum") out.push_back(part_text(part));
  }
  return out;
}

bool names_teeth(const Statement& s) { return s.has("teeth"); }

HeldThing held_thing(const Statement& s) { return {symbols(s), person(s)}; }

StepSaid step(const Statement& s) {
  const Part& part = *s.part("step");
  const std::string_view who = part.values[0].symbol();
  return {who == "patient"     ? Person::patient
          : who == "assistant" ? Person::assistant
                               : Person::operator_,
          part.values[1].as<words::Quoted>()->text};
}

Picture picture(const Statement& s) {
  Picture p;
  p.as_seen = s.has("direct");
  p.stays_mirrored = s.has("mirrored");
  if (const words::Value* mark = s.value("marked")) p.mark = mark->as<words::Quoted>()->text;
  if (const Part* towards = s.part("towards")) {
    p.landmark = towards->values[0].symbol();
    const std::string_view edge = towards->values[1].symbol();
    p.edge = edge == "top"      ? Edge::top
             : edge == "bottom" ? Edge::bottom
             : edge == "left"   ? Edge::left
                                : Edge::right;
  }
  return p;
}

template <class T, class Make>
std::vector<Sourced<T>> lowered_list(const std::vector<Statement>& statements,
                                     std::string_view word, Make make) {
  std::vector<Sourced<T>> out;
  for (const Statement& s : statements) {
    if (s.word->name != word) continue;
    if (s.broken) {
      out.push_back(Sourced<T>::broken(s.span));
    } else {
      out.emplace_back(make(s), s.span);
    }
  }
  return out;
}

std::vector<Sourced<std::string>> texts(const std::vector<Statement>& statements,
                                        std::string_view word) {
  return lowered_list<std::string>(statements, word, [](const Statement& t) {
    return t.value("text")->as<words::Quoted>()->text;
  });
}

std::vector<std::string> symbol_list(const Statement& s) {
  std::vector<std::string> out;
  for (const Part& part : s.parts) {
    for (const words::Value& v : part.values)
      out.emplace_back(v.symbol());
  }
  return out;
}

words::Date date(const Statement& s) { return *s.value("date")->as<words::Date>(); }

void lower_camera(const std::vector<Statement>& all, View& v) {
  v.ratio = lowered_if<Magnification>(all, "ratio", "ratio", [](const Statement& s) {
    return words::magnification_of(*s.value("ratio")->as<words::RatioLiteral>());
  });
  v.ratio_of_camera = has(all, "ratio", "fixed");
  v.least_distance = lowered_if<Length>(all, "distance", "least", [](const Statement& s) {
    return words::length_of(measure(s, "least"));
  });
  v.aperture = lowered<ApertureRange>(all, "aperture", aperture);
  v.iso = lowered<IsoSpeed>(
      all, "iso", [](const Statement& s) { return IsoSpeed{measure(s, "speed").number.value()}; });
  v.shutter = lowered<Time>(all, "shutter",
                            [](const Statement& s) { return words::time_of(measure(s, "time")); });
  v.exposure = lowered<Exposure>(all, "exposure", exposure);
  v.lamp = lowered<LampUse>(all, "lamp", lamp);
  v.allowed_blur = lowered<Length>(
      all, "allowed blur", [](const Statement& s) { return words::length_of(measure(s, "blur")); });
  v.tolerance_angle = lowered_if<Angle>(all, "tolerance", "angle", [](const Statement& s) {
    return words::angle_of(measure(s, "angle"));
  });
  v.tolerance_distance = lowered_if<Length>(all, "tolerance", "distance", [](const Statement& s) {
    return words::length_of(measure(s, "distance"));
  });
  v.background = lowered_if<std::string>(
      all, "background", "look", [](const Statement& s) { return std::string(s.symbol("look")); });
  v.behind_head = lowered_if<Length>(all, "background", "behind", [](const Statement& s) {
    return words::length_of(measure(s, "behind"));
  });
  v.camera = lowered<CameraPlace>(all, "camera", camera);
  v.camera_held = lowered<std::string>(all, "held", plain_symbols);
  v.centre = lowered<Aim>(all, "centre on", aim);
  v.focus = lowered<Aim>(all, "focus on", aim);
  v.frame = lowered<Size>(all, "frame", [](const Statement& s) {
    const auto* r = s.value("size")->as<words::Rectangle>();
    return Size{words::length_of(r->width), words::length_of(r->height)};
  });
  v.guide = lowered<std::string>(all, "guide", plain_symbols);
}

void lower_instruments(const std::vector<Statement>& all, View& v) {
  v.right_retractor = lowered<Retractor>(all, "retractor", retractor, "right");
  v.left_retractor = lowered<Retractor>(all, "retractor", retractor, "left");
  v.mirror = lowered<Mirror>(all, "mirror", mirror);
  v.paddle = lowered<HeldThing>(all, "contrast paddle", [](const Statement& s) {
    return HeldThing{part_text(*s.part("place")) +
                         (s.has("colour") ? ", " + std::string(s.symbol("colour")) : ""),
                     person(s)};
  });
  v.shade_tab = lowered<HeldThing>(all, "shade tab", held_thing);
  v.ruler = lowered<HeldThing>(all, "ruler", held_thing);
  v.air = lowered<HeldThing>(all, "air", held_thing);
  v.suction = lowered<HeldThing>(all, "suction", held_thing);
  v.drying = lowered<std::string>(all, "taken", plain_symbols);
  v.insert_with = lowered<std::string>(all, "insert with", plain_symbols);
  v.take_out_first = lowered<std::string>(all, "take out first", plain_symbols);
  if (const Statement* taken = find(all, "taken in")) {
    v.taken_in_mirror = !taken->broken;
    v.taken_in = taken->span;
  }
}

void lower_patient(const std::vector<Statement>& all, View& v) {
  v.teeth = lowered<std::string>(all, "teeth", plain_symbols);
  v.dentures = lowered<std::string>(all, "dentures", plain_symbols);
  v.mouth = lowered<std::string>(all, "mouth", plain_symbols);
  v.least_opening = lowered_if<Length>(all, "mouth", "least", [](const Statement& s) {
    return words::length_of(measure(s, "least"));
  });
  v.lips = lowered<std::string>(all, "lips", plain_symbols);
  v.head = lowered<std::string>(all, "head", plain_symbols);
  v.operator_place = lowered<OperatorPlace>(all, "operator", operator_place);
  v.tongue = lowered<std::string>(all, "tongue", plain_symbols);
}

void lower_picture(const std::vector<Statement>& all, View& v) {
  v.tooth_filled_in = find(all, "tooth") != nullptr;
  v.site_filled_in = find(all, "site") != nullptr;
  v.must_show = lowered_when<Faces>(all, "must show", names_teeth, faces);
  v.things_shown = lowered_when<std::vector<std::string>>(
      all, "must show", [](const Statement& s) { return !things(s).empty(); }, things);
  v.every_tooth_present = has(all, "must show", "present");
  v.or_else_show = lowered_when<Faces>(all, "or else show", names_teeth, faces);
  v.may_cut = lowered_when<Faces>(all, "may cut", names_teeth, faces);
  v.must_be_sharp = lowered_when<Faces>(all, "must be sharp", names_teeth, faces);
  v.things_sharp = lowered_when<std::vector<std::string>>(
      all, "must be sharp", [](const Statement& s) { return !things(s).empty(); }, things);
  v.must_not_show = lowered<std::vector<std::string>>(all, "must not show", symbol_list);
  v.turned_away = lowered<Angle>(
      all, "turned away", [](const Statement& s) { return words::angle_of(measure(s, "most")); });
  v.picture = lowered<Picture>(all, "picture", picture);
}

void lower_record(const std::vector<Statement>& all, View& v) {
  v.code = lowered<const words::ViewCode*>(all, "code", [](const Statement& s) {
    return words::find_code(s.value("code")->as<words::Code>()->text);
  });
  v.fixed = lowered<std::vector<std::string>>(all, "fixed", symbol_list);
  v.consent = lowered<std::vector<std::string>>(all, "consent for", symbol_list);
  v.if_not_possible = lowered<std::string>(all, "if not possible", plain_symbols);
  v.or_else_view = lowered<std::string>(all, "or else view", [](const Statement& s) {
    return s.value("view")->as<words::Name>()->text;
  });
  if (v.or_else_view.known()) {
    v.or_else_view = {v.or_else_view.get(), find(all, "or else view")->place("view")};
  }
  v.steps = lowered_list<StepSaid>(all, "step", step);
  v.prompts = texts(all, "say");
  v.cautions = texts(all, "caution");
  v.stop_if = texts(all, "stop if");
  v.take_again_if = texts(all, "take again if");
  v.take_again_at_most = lowered<int>(all, "take again at most", [](const Statement& s) {
    return static_cast<int>(measure(s, "times").number.numerator);
  });
  v.wait_after = lowered<Time>(
      all, "after picture", [](const Statement& s) { return words::time_of(measure(s, "wait")); });
  v.patient_rests = has(all, "after picture", "rests");
}

} // namespace

void lower_view(const std::vector<Statement>& all, View& view) {
  lower_camera(all, view);
  lower_instruments(all, view);
  lower_patient(all, view);
  lower_picture(all, view);
  lower_record(all, view);
}

void lower_protocol(const std::vector<Statement>& all, Protocol& p) {
  p.revision = lowered<int>(all, "revision", [](const Statement& s) {
    return static_cast<int>(measure(s, "number").number.numerator);
  });
  p.adopted = lowered<words::Date>(all, "adopted", date);
  p.review_by = lowered<words::Date>(all, "review by", date);
  p.group = lowered<Group>(all, "for", [](const Statement& s) { return group_of(s); });
  p.missing = lowered<std::vector<physics::Tooth>>(all, "missing", teeth);
  p.sensor = lowered<Size>(all, "sensor", [](const Statement& s) {
    const auto* r = s.value("size")->as<words::Rectangle>();
    Size size{words::length_of(r->width), words::length_of(r->height)};
    if (size.width < size.height) std::swap(size.width, size.height);
    return size;
  });
  p.consent = lowered<std::vector<std::string>>(all, "consent for", symbol_list);
  p.no_assistant = find(all, "assistant") != nullptr;
  p.originals = lowered<std::string>(all, "originals", plain_symbols);
  p.crops = lowered<std::string>(all, "crops", plain_symbols);
  p.file_names = lowered<std::string>(all, "file names", plain_symbols);
}

} // namespace norma::model
