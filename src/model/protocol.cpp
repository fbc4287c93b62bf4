#include "model/protocol.hpp"

#include <algorithm>

#include "words/teeth.hpp"

namespace norma::model {

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
  case Person::itself: return "itself";
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
  std::string out = g.children ? "children" : "adults";
  if (g.teeth) out.append(", ").append(to_text(*g.teeth));
  return out;
}

bool View::teeth_together() const {
  return teeth.known() && (teeth->relation == TeethRelation::together ||
                           teeth->relation == TeethRelation::edge_to_edge);
}

bool View::speaks_of_that_tooth() const {
  const auto named = [](const Sourced<std::vector<ThingShown>>& things) {
    return things.known() && std::any_of(things->begin(), things->end(), [](const ThingShown& t) {
             return t.thing == Thing::that_tooth;
           });
  };
  const auto aimed = [](const Sourced<Aim>& aim) {
    return aim.known() && aim->thing == AimedAt::that_tooth;
  };
  return named(things_shown) || named(things_sharp) || aimed(centre) || aimed(focus);
}

bool View::shows(Thing thing) const {
  return things_shown.known() && std::any_of(things_shown->begin(), things_shown->end(),
                                             [&](const ThingShown& t) { return t.thing == thing; });
}

const View* Protocol::view(std::string_view wanted) const {
  const auto found =
      std::find_if(views.begin(), views.end(), [&](const View& v) { return v.name == wanted; });
  return found == views.end() ? nullptr : &*found;
}

} // namespace norma::model
