#include "model/lower.hpp"

#include <algorithm>
#include <span>

#include "model/declared.hpp"
#include "model/write.hpp"
#include "physics/quantity_text.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

using words::Measure;

/// What `make` gives for a statement; broken where that is.
template <class T, class Make> Sourced<T> lowered(const Statement& s, Make make) {
  if (s.broken) return Sourced<T>::broken(s.span);
  return {make(s), s.span};
}

/// The same, where a statement can be about something else, too: absent unless it fills `slot`.
template <class T, class Make>
Sourced<T> lowered_if(const Statement& s, std::string_view slot, Make make) {
  if (!s.broken && !s.has(slot)) return {};
  return lowered<T>(s, make);
}

bool says(const Statement& s, std::string_view slot) { return !s.broken && s.has(slot); }

const Measure& measure(const Statement& s, std::string_view slot) {
  return *s.value(slot)->as<Measure>();
}

std::optional<Person> person(const Statement& s) {
  const std::string_view who = s.symbol("held");
  if (who == "patient") return Person::patient;
  if (who == "assistant") return Person::assistant;
  if (who == "operator") return Person::operator_;
  if (who == "needs no hand") return Person::itself;
  return std::nullopt;
}

std::optional<Side> side(std::string_view symbol) {
  if (symbol.ends_with("right")) return Side::right;
  if (symbol.ends_with("left")) return Side::left;
  return std::nullopt;
}

/// What of a list is said in `slot`; nothing where none of it is.
template <class E> std::optional<E> choice(const Statement& s, std::string_view slot) {
  return choice_of<E>(s.symbol(slot));
}

/// All that is said of a list, in whichever slots, in the order of the word's clauses, whichever
/// was written first.
template <class E> std::vector<E> all_choices(const Statement& s) {
  std::vector<E> out;
  for (const words::Clause& clause : s.word->clauses) {
    for (const Part& part : s.parts) {
      if (part.clause != &clause) continue;
      for (const words::Value& v : part.values) {
        if (const auto one = choice_of<E>(v.symbol())) out.push_back(*one);
      }
    }
  }
  return out;
}

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
  if (s.symbol("kind") == "twin") use.kind = LampWanted::twin;
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
  r.by_fingers = s.has("fingers");
  r.material = choice<RetractorMaterial>(s, "material");
  r.finish = choice<RetractorFinish>(s, "finish");
  r.end = choice<End>(s, "end");
  r.tension = choice<Tension>(s, "tension");
  r.pull = choice<Pull>(s, "pull");
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
  m.end = choice<End>(s, "end");
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
    // Between two teeth is the same place whichever is named first.
    const auto [first, second] = std::minmax(between->values[0].as<words::ToothRun>()->first,
                                             between->values[1].as<words::ToothRun>()->first);
    return {first, second};
  }
  if (s.has("thing")) return {{}, {}, choice<AimedAt>(s, "thing")};
  const physics::Tooth tooth = s.value("tooth")->as<words::ToothRun>()->first;
  return {tooth, tooth};
}

Face face(std::string_view symbol) {
  if (symbol == "occlusal" || symbol == "incisal") return Face::biting;
  if (symbol == "lingual" || symbol == "palatal") return Face::lingual;
  return Face::facial;
}

Third third(std::string_view symbol) {
  return symbol == "incisal third"    ? Third::incisal
         : symbol == "cervical third" ? Third::cervical
                                      : Third::middle;
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

void add_teeth(const Part& part, std::vector<physics::Tooth>& out) {
  for (const words::Value& v : part.values) {
    const auto* run = v.as<words::ToothRun>();
    if (run == nullptr) continue;
    const auto teeth = words::run_of(run->first, run->last);
    out.insert(out.end(), teeth->begin(), teeth->end());
  }
}

std::vector<physics::Tooth> teeth_of(const Part& part) {
  std::vector<physics::Tooth> out;
  add_teeth(part, out);
  return out;
}

/// Teeth that are named without a surface.
std::vector<physics::Tooth> teeth(const Statement& s) {
  std::vector<physics::Tooth> out;
  for (const Part& part : s.parts)
    add_teeth(part, out);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

/// What is named besides teeth: `whole head`, `facial that tooth`, `gum of 13 to 23`.
std::vector<ThingShown> things(const Statement& s) {
  std::vector<ThingShown> out;
  for (const Part& part : s.parts) {
    const std::string_view slot = part.clause->slot;
    if (slot == "thing") {
      out.push_back({choice_of<Thing>(part.values[0].symbol()), {}});
    } else if (slot == "that") {
      out.push_back({Thing::that_tooth, face(part.values[0].symbol())});
    } else if (slot == "gum") {
      out.push_back({{}, {}, teeth_of(part)});
    }
  }
  return out;
}

Sourced<std::vector<ThingShown>> things_named(const Statement& s) {
  if (s.broken) return Sourced<std::vector<ThingShown>>::broken(s.span);
  std::vector<ThingShown> named = things(s);
  if (named.empty()) return {};
  return {std::move(named), s.span};
}

Sourced<Faces> faces_named(const Statement& s) { return lowered_if<Faces>(s, "teeth", faces); }

/// A word that says one of a list, in `slot`.
template <class E> Sourced<E> one_of(const Statement& s, std::string_view slot) {
  return lowered_if<E>(s, slot, [&](const Statement& t) { return *choice<E>(t, slot); });
}

/// A word that says some of a list.
template <class E> Sourced<std::vector<E>> some_of(const Statement& s) {
  return lowered<std::vector<E>>(s, all_choices<E>);
}

Sourced<std::string> text_said(const Statement& s) {
  return lowered<std::string>(
      s, [](const Statement& t) { return t.value("text")->as<words::Quoted>()->text(); });
}

Sourced<Length> length_in(const Statement& s, std::string_view slot) {
  return lowered_if<Length>(s, slot,
                            [&](const Statement& t) { return words::length_of(measure(t, slot)); });
}
Sourced<Angle> angle_in(const Statement& s, std::string_view slot) {
  return lowered_if<Angle>(s, slot,
                           [&](const Statement& t) { return words::angle_of(measure(t, slot)); });
}
Sourced<Time> time_in(const Statement& s, std::string_view slot) {
  return lowered<Time>(s, [&](const Statement& t) { return words::time_of(measure(t, slot)); });
}
Sourced<int> whole_in(const Statement& s, std::string_view slot) {
  return lowered<int>(
      s, [&](const Statement& t) { return static_cast<int>(measure(t, slot).number.numerator); });
}
Sourced<Size> size_in(const Statement& s) {
  return lowered<Size>(s, [](const Statement& t) {
    const auto* r = t.value("size")->as<words::Rectangle>();
    return Size{words::length_of(r->width), words::length_of(r->height)};
  });
}

HeldThing held_thing(const Statement& s) { return {all_choices<HeldAt>(s), person(s)}; }

StepSaid step(const Statement& s) {
  const Part& part = *s.part("step");
  const std::string_view who = part.values[0].symbol();
  return {who == "patient"     ? Person::patient
          : who == "assistant" ? Person::assistant
                               : Person::operator_,
          part.values[1].as<words::Quoted>()->text()};
}

Picture picture(const Statement& s) {
  Picture p;
  p.as_seen = s.has("direct");
  p.stays_mirrored = s.has("mirrored");
  if (const words::Value* mark = s.value("marked")) p.mark = mark->as<words::Quoted>()->text();
  if (const Part* towards = s.part("towards")) {
    p.landmark = choice_of<Landmark>(towards->values[0].symbol());
    const std::string_view edge = towards->values[1].symbol();
    p.edge = edge == "top"      ? Edge::top
             : edge == "bottom" ? Edge::bottom
             : edge == "left"   ? Edge::left
                                : Edge::right;
  }
  return p;
}

std::vector<std::string> symbol_list(const Statement& s) {
  std::vector<std::string> out;
  for (const Part& part : s.parts) {
    for (const words::Value& v : part.values)
      out.emplace_back(v.symbol());
  }
  return out;
}

Sourced<std::vector<std::string>> list_said(const Statement& s) {
  return lowered<std::vector<std::string>>(s, symbol_list);
}

Sourced<words::Date> date_said(const Statement& s) {
  return lowered<words::Date>(
      s, [](const Statement& t) { return *t.value("date")->as<words::Date>(); });
}

/// A word and what its statement sets; a word that is no list stands once among merged statements.
template <class To> struct Row {
  std::string_view word;
  void (*set)(const Statement& s, To& to);
};

constexpr Row<View> view_rows[] = {
    // Scale, light and sharpness
    {"ratio",
     [](const Statement& s, View& v) {
       const bool by_field = !s.broken && s.has("ratio") &&
                             s.value("ratio")->as<words::RatioLiteral>() == nullptr;
       if (by_field) {
         v.field = lowered<FieldAsked>(s, [](const Statement& t) {
           const Part& part = *t.part("ratio");
           return FieldAsked{words::length_of(*part.values[0].as<Measure>()),
                             part.values[1].symbol() == "high"};
         });
       } else {
         v.ratio = lowered_if<Magnification>(s, "ratio", [](const Statement& t) {
           return words::magnification_of(*t.value("ratio")->as<words::RatioLiteral>());
         });
       }
       v.ratio_of_camera = says(s, "of camera");
     }},
    {"distance",
     [](const Statement& s, View& v) {
       v.least_distance = length_in(s, "least");
       v.distance = length_in(s, "exactly");
     }},
    {"same",
     [](const Statement& s, View& v) { v.as_last_visit.push_back(one_of<AsLastVisit>(s, "what")); }},
    {"aperture", [](const Statement& s, View& v) { v.aperture = lowered<ApertureRange>(s, aperture); }},
    {"iso",
     [](const Statement& s, View& v) {
       v.iso = lowered<IsoSpeed>(s, [](const Statement& t) {
         return IsoSpeed{measure(t, "speed").number.value()};
       });
     }},
    {"shutter", [](const Statement& s, View& v) { v.shutter = time_in(s, "time"); }},
    {"exposure", [](const Statement& s, View& v) { v.exposure = lowered<Exposure>(s, exposure); }},
    {"white balance",
     [](const Statement& s, View& v) {
       v.white_balance = lowered<WhiteBalanceSet>(s, [](const Statement& t) {
         const auto to = choice<WhiteBalance>(t, "set to");
         if (to) return WhiteBalanceSet{{}, to};
         return WhiteBalanceSet{words::temperature_of(measure(t, "set to")), {}};
       });
     }},
    {"file format", [](const Statement& s, View& v) { v.file_format = one_of<FileFormat>(s, "what"); }},
    {"lamp", [](const Statement& s, View& v) { v.lamp = lowered<LampUse>(s, lamp); }},
    {"allowed blur", [](const Statement& s, View& v) { v.allowed_blur = length_in(s, "blur"); }},
    {"tolerance",
     [](const Statement& s, View& v) {
       v.tolerance_angle = angle_in(s, "angle");
       v.tolerance_distance = length_in(s, "distance");
     }},
    {"background",
     [](const Statement& s, View& v) {
       v.background = one_of<Backdrop>(s, "look");
       v.behind_head = length_in(s, "behind");
     }},
    {"camera", [](const Statement& s, View& v) { v.camera = lowered<CameraPlace>(s, camera); }},
    {"camera held", [](const Statement& s, View& v) { v.camera_held = one_of<CameraHeld>(s, "how"); }},
    {"centre on", [](const Statement& s, View& v) { v.centre = lowered<Aim>(s, aim); }},
    {"focus on", [](const Statement& s, View& v) { v.focus = lowered<Aim>(s, aim); }},
    {"frame", [](const Statement& s, View& v) { v.frame = size_in(s); }},
    {"guide", [](const Statement& s, View& v) { v.guide = one_of<Guide>(s, "how"); }},
    // Instruments
    {"retractor",
     [](const Statement& s, View& v) {
       if (s.key == "right") v.right_retractor = lowered<Retractor>(s, retractor);
       if (s.key == "left") v.left_retractor = lowered<Retractor>(s, retractor);
     }},
    {"mirror", [](const Statement& s, View& v) { v.mirror = lowered<Mirror>(s, mirror); }},
    {"contrast paddle",
     [](const Statement& s, View& v) {
       v.paddle = lowered<HeldThing>(s, [](const Statement& t) {
         HeldThing paddle = held_thing(t); // its colour
         paddle.at.insert(paddle.at.begin(), *choice_of<HeldAt>(part_text(*t.part("place"))));
         return paddle;
       });
     }},
    {"shade tab", [](const Statement& s, View& v) { v.shade_tab = lowered<HeldThing>(s, held_thing); }},
    {"ruler", [](const Statement& s, View& v) { v.ruler = lowered<HeldThing>(s, held_thing); }},
    {"air", [](const Statement& s, View& v) { v.air = lowered<HeldThing>(s, held_thing); }},
    {"suction", [](const Statement& s, View& v) { v.suction = lowered<HeldThing>(s, held_thing); }},
    {"taken", [](const Statement& s, View& v) { v.drying = one_of<Drying>(s, "when"); }},
    {"insert with", [](const Statement& s, View& v) { v.insert_with = one_of<InsertWith>(s, "how"); }},
    {"take out first", [](const Statement& s, View& v) { v.take_out_first = one_of<TakenOut>(s, "what"); }},
    {"photographed",
     [](const Statement& s, View& v) {
       v.taken_in_mirror = !s.broken;
       v.taken_in = s.span;
     }},
    // The patient
    {"teeth", [](const Statement& s, View& v) { v.teeth = lowered<TeethHeld>(s, [](const Statement& t) {
         return TeethHeld{choice<TeethRelation>(t, "relation"), choice<Bite>(t, "bite")};
       }); }},
    {"dentures", [](const Statement& s, View& v) { v.dentures = one_of<Dentures>(s, "place"); }},
    {"mouth",
     [](const Statement& s, View& v) {
       v.mouth = one_of<MouthState>(s, "state");
       v.least_opening = length_in(s, "least");
     }},
    {"lips", [](const Statement& s, View& v) { v.lips = one_of<Lips>(s, "pose"); }},
    {"head", [](const Statement& s, View& v) { v.head = some_of<HeadPose>(s); }},
    {"operator", [](const Statement& s, View& v) { v.operator_place = lowered<OperatorPlace>(s, operator_place); }},
    {"tongue", [](const Statement& s, View& v) { v.tongue = some_of<Tongue>(s); }},
    // The picture
    {"tooth",
     [](const Statement& s, View& v) {
       v.tooth_filled_in = true;
       if (!s.broken) v.tooth_may_be = teeth(s);
     }},
    {"site", [](const Statement& /*said*/, View& v) { v.site_filled_in = true; }},
    {"must show",
     [](const Statement& s, View& v) {
       v.must_show = faces_named(s);
       v.things_shown = things_named(s);
       v.every_tooth_present = says(s, "present");
       v.third_shown |= says(s, "third");
     }},
    {"or else show",
     [](const Statement& s, View& v) {
       v.or_else_show = faces_named(s);
       v.third_shown |= says(s, "third");
     }},
    {"may show in part",
     [](const Statement& s, View& v) {
       v.may_cut = faces_named(s);
       v.third_shown |= says(s, "third");
     }},
    {"must be sharp",
     [](const Statement& s, View& v) {
       v.must_be_sharp = faces_named(s);
       v.things_sharp = things_named(s);
       if (says(s, "third")) v.sharp_third = third(s.symbol("third"));
     }},
    {"must not show", [](const Statement& s, View& v) { v.must_not_show = some_of<Unwanted>(s); }},
    {"teeth turned away", [](const Statement& s, View& v) { v.turned_away = angle_in(s, "most"); }},
    {"picture", [](const Statement& s, View& v) { v.picture = lowered<Picture>(s, picture); }},
    // The record
    {"code",
     [](const Statement& s, View& v) {
       v.code = lowered<const words::ViewCode*>(s, [](const Statement& t) {
         return words::find_code(t.value("code")->as<words::Code>()->text);
       });
     }},
    {"others must keep", [](const Statement& s, View& v) { v.fixed = list_said(s); }},
    {"consent for", [](const Statement& s, View& v) { v.consent = some_of<Purpose>(s); }},
    {"if not possible", [](const Statement& s, View& v) { v.if_not_possible = one_of<NotPossible>(s, "how"); }},
    {"or else view",
     [](const Statement& s, View& v) {
       v.or_else_view = lowered<std::string>(s, [](const Statement& t) {
         return std::string(t.value("view")->as<words::Name>()->text);
       });
       if (v.or_else_view.known()) v.or_else_view = {v.or_else_view.get(), s.place("view")};
     }},
    {"step", [](const Statement& s, View& v) { v.steps.push_back(lowered<StepSaid>(s, step)); }},
    {"say", [](const Statement& s, View& v) { v.prompts.push_back(text_said(s)); }},
    {"caution", [](const Statement& s, View& v) { v.cautions.push_back(text_said(s)); }},
    {"stop if", [](const Statement& s, View& v) { v.stop_if.push_back(text_said(s)); }},
    {"take again if", [](const Statement& s, View& v) { v.take_again_if.push_back(text_said(s)); }},
    {"take again at most", [](const Statement& s, View& v) { v.take_again_at_most = whole_in(s, "times"); }},
    {"after picture",
     [](const Statement& s, View& v) {
       v.wait_after = time_in(s, "wait");
       v.patient_rests = says(s, "rests");
     }},
};

constexpr Row<Protocol> protocol_rows[] = {
    {"revision", [](const Statement& s, Protocol& p) { p.revision = whole_in(s, "number"); }},
    {"adopted", [](const Statement& s, Protocol& p) { p.adopted = date_said(s); }},
    {"review by", [](const Statement& s, Protocol& p) { p.review_by = date_said(s); }},
    {"for", [](const Statement& s, Protocol& p) { p.group = lowered<Group>(s, group_of); }},
    {"missing", [](const Statement& s,
                   Protocol& p) { p.missing = lowered<std::vector<physics::Tooth>>(s, teeth); }},
    {"sensor",
     [](const Statement& s, Protocol& p) {
       p.sensor = size_in(s);
       if (p.sensor.known() && p.sensor->width < p.sensor->height)
         p.sensor = {Size{p.sensor->height, p.sensor->width}, s.span};
     }},
    {"consent for", [](const Statement& s, Protocol& p) { p.consent = some_of<Purpose>(s); }},
    {"assistant", [](const Statement& /*said*/, Protocol& p) { p.no_assistant = true; }},
    {"grey card",
     [](const Statement& s, Protocol& p) {
       p.grey_card = lowered<GreyCard>(s, [](const Statement& t) {
         return GreyCard{*choice<GreyCardWhen>(t, "when"), person(t)};
       });
     }},
    {"originals",
     [](const Statement& s, Protocol& p) { p.originals = one_of<Originals>(s, "how"); }},
    {"crops", [](const Statement& s, Protocol& p) { p.crops = one_of<Crops>(s, "how"); }},
    {"file names", [](const Statement& s, Protocol& p) { p.file_names = some_of<FileNames>(s); }},
};

/// What to do with each word, in the order of the word table; null where it sets nothing.
template <class To> class Setters {
 public:
  explicit Setters(std::span<const Row<To>> rows) : sets_(words::vocabulary().size()) {
    for (std::size_t i = 0; i < sets_.size(); ++i) {
      const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row<To>& row) {
        return row.word == words::vocabulary()[i].name;
      });
      if (found != rows.end()) sets_[i] = found->set;
    }
  }
  void operator()(const std::vector<Statement>& statements, To& to) const {
    const words::Word* first = words::vocabulary().data();
    for (const Statement& s : statements) {
      if (const auto set = sets_[static_cast<std::size_t>(s.word - first)]) set(s, to);
    }
  }

 private:
  std::vector<void (*)(const Statement&, To&)> sets_;
};

} // namespace

void lower_view(const std::vector<Statement>& statements, View& view) {
  static const Setters<View> setters(view_rows);
  setters(statements, view);
}

void lower_protocol(const std::vector<Statement>& statements, Protocol& protocol) {
  static const Setters<Protocol> setters(protocol_rows);
  setters(statements, protocol);
}

} // namespace norma::model
