#include "model/lower.hpp"

#include <algorithm>
#include <array>

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

const Measure& measure(const Statement& s, std::string_view slot) {
  return *s.value(slot)->as<Measure>();
}

std::optional<Person> person(const Statement& s) {
  const std::string_view who = s.symbol("held");
  if (who == "patient") return Person::patient;
  if (who == "assistant") return Person::assistant;
  if (who == "operator") return Person::operator_;
  return std::nullopt;
}

std::optional<Side> side(std::string_view symbol) {
  if (symbol.ends_with("right")) return Side::right;
  if (symbol.ends_with("left")) return Side::left;
  return std::nullopt;
}

/// All symbols of a statement as they read, joined by commas: `together, usual bite`.
std::string symbols(const Statement& s, std::string_view but = "held") {
  std::string out;
  for (const Part& part : s.parts) {
    if (part.clause->slot == but) continue;
    for (const words::Value& v : part.values) {
      if (v.symbol().empty()) continue;
      if (!out.empty()) out += ", ";
      out += v.symbol();
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
  if (const words::Value* as = s.value("as")) e.as_view = as->as<words::Name>()->text;
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
  if (s.symbol("towards") == "front teeth") use.towards = LampTowards::front_teeth;
  if (s.symbol("towards") == "cheek") use.towards = LampTowards::cheek;
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
  if (s.has("opened")) m.opened = words::angle_of(measure(s, "opened"));
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
            between->values[1].as<words::ToothRun>()->first};
  }
  const physics::Tooth tooth = s.value("tooth")->as<words::ToothRun>()->first;
  return {tooth, tooth};
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

std::vector<Sourced<std::string>> texts(const std::vector<Statement>& statements,
                                        std::string_view word) {
  std::vector<Sourced<std::string>> out;
  for (const Statement& s : statements) {
    if (s.word->name != word) continue;
    if (s.broken) {
      out.push_back(Sourced<std::string>::broken(s.span));
    } else {
      out.emplace_back(s.value("text")->as<words::Quoted>()->text, s.span);
    }
  }
  return out;
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

} // namespace

void lower_view(const std::vector<Statement>& all, View& v) {
  v.code = lowered<const words::ViewCode*>(all, "code", [](const Statement& s) {
    return words::find_code(s.value("code")->as<words::Code>()->text);
  });
  v.ratio = lowered<Magnification>(all, "ratio", [](const Statement& s) {
    return words::magnification_of(*s.value("ratio")->as<words::RatioLiteral>());
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
  v.right_retractor = lowered<Retractor>(all, "retractor", retractor, "right");
  v.left_retractor = lowered<Retractor>(all, "retractor", retractor, "left");
  v.mirror = lowered<Mirror>(all, "mirror", mirror);
  v.insert_with = lowered<std::string>(all, "insert with", plain_symbols);
  if (const Statement* taken = find(all, "taken in")) {
    v.taken_in_mirror = !taken->broken;
    v.taken_in = taken->span;
  }
  v.teeth = lowered<std::string>(all, "teeth", plain_symbols);
  v.mouth = lowered<std::string>(all, "mouth", plain_symbols);
  if (const Statement* mouth = find(all, "mouth"); mouth != nullptr && !mouth->broken) {
    if (mouth->has("least")) {
      v.least_opening = {words::length_of(measure(*mouth, "least")), mouth->span};
    }
  }
  v.head = lowered<std::string>(all, "head", plain_symbols);
  v.operator_place = lowered<OperatorPlace>(all, "operator", operator_place);
  v.tongue = lowered<std::string>(all, "tongue", plain_symbols);
  v.air = lowered<Helper>(all, "air", [](const Statement& s) {
    return Helper{std::string(s.symbol("place")), person(s)};
  });
  v.camera = lowered<CameraPlace>(all, "camera", camera);
  v.centre = lowered<Aim>(all, "centre on", aim);
  v.focus = lowered<Aim>(all, "focus on", aim);
  v.must_show = lowered<Faces>(all, "must show", faces);
  v.or_else_show = lowered<Faces>(all, "or else show", faces);
  v.may_cut = lowered<Faces>(all, "may cut", faces);
  v.must_be_sharp = lowered<Faces>(all, "must be sharp", faces);
  v.must_not_show = lowered<std::vector<std::string>>(all, "must not show", symbol_list);
  v.turned_away = lowered<Angle>(
      all, "turned away", [](const Statement& s) { return words::angle_of(measure(s, "most")); });
  v.picture = lowered<Picture>(all, "picture", picture);
  v.if_not_possible = lowered<std::string>(
      all, "if not possible", [](const Statement& s) { return std::string(s.symbol("how")); });
  v.prompts = texts(all, "say");
  v.cautions = texts(all, "caution");
}

void lower_protocol(const std::vector<Statement>& all, Protocol& p) {
  p.revision = lowered<int>(all, "revision", [](const Statement& s) {
    return static_cast<int>(measure(s, "number").number.numerator);
  });
  p.adopted = lowered<words::Date>(all, "adopted", date);
  p.review_by = lowered<words::Date>(all, "review by", date);
  p.group = lowered<Group>(all, "for", [](const Statement& s) {
    return Group{s.symbol("group") == "children", std::string(s.symbol("teeth"))};
  });
  p.sensor = lowered<Size>(all, "sensor", [](const Statement& s) {
    const auto* r = s.value("size")->as<words::Rectangle>();
    Size size{words::length_of(r->width), words::length_of(r->height)};
    if (size.width < size.height) std::swap(size.width, size.height);
    return size;
  });
  p.consent = lowered<std::vector<std::string>>(all, "consent for", symbol_list);
}

// Names of typed values ---------------------------------------------------------------------------

std::string_view to_text(Side s) { return s == Side::right ? "right" : "left"; }

std::string_view to_text(Face f) {
  switch (f) {
  case Face::facial: return "facial";
  case Face::biting: return "occlusal";
  case Face::lingual: return "lingual";
  }
  return "";
}

std::string_view to_text(Person p) {
  switch (p) {
  case Person::patient: return "patient";
  case Person::assistant: return "assistant";
  case Person::operator_: return "operator";
  }
  return "";
}

std::string_view to_text(Edge e) {
  switch (e) {
  case Edge::top: return "top";
  case Edge::bottom: return "bottom";
  case Edge::left: return "left";
  case Edge::right: return "right";
  }
  return "";
}

std::string to_text(const Faces& faces) {
  std::string out;
  for (const Face face : {Face::facial, Face::biting, Face::lingual}) {
    std::vector<physics::Tooth> teeth;
    for (const NamedFace& f : faces) {
      if (f.face == face) teeth.push_back(f.tooth);
    }
    if (teeth.empty()) continue;
    if (!out.empty()) out += ", ";
    out += std::string(to_text(face)) + " " + words::teeth_text(std::move(teeth));
  }
  return out;
}

std::string to_text(const Group& g) {
  return std::string(g.children ? "children" : "adults") + (g.teeth.empty() ? "" : ", " + g.teeth);
}

bool View::teeth_together() const {
  return teeth.known() && (teeth->starts_with("together") || teeth->starts_with("edge to edge"));
}

const View* Protocol::view(std::string_view wanted) const {
  const auto found =
      std::find_if(views.begin(), views.end(), [&](const View& v) { return v.name == wanted; });
  return found == views.end() ? nullptr : &*found;
}

} // namespace norma::model
