#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void missing_tooth_shown(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!c.protocol.missing.known()) return;
  const auto& gone = c.protocol.missing.get();
  const auto is_gone = [&](physics::Tooth t) {
    return std::find(gone.begin(), gone.end(), t) != gone.end();
  };
  const auto tell = [&](text::Span place, const std::vector<physics::Tooth>& both,
                        const diag::Term& what, const diag::Term& help) {
    auto& d = out.report(diag::make(catalogue::missing_tooth_shown, place, both, what()));
    d.with_label(c.protocol.missing.span(), note::said_here());
    d.with_help(help());
  };
  const auto look = [&](const text::Sourced<model::Faces>& named, const diag::Term& what) {
    if (!named.known() || v.view->every_tooth_present) return;
    std::vector<physics::Tooth> both;
    for (const model::NamedFace& f : named.get()) {
      if (is_gone(f.tooth)) both.push_back(f.tooth);
    }
    if (!both.empty()) tell(place_of(named, v), both, what, note::missing_tooth_shown_add);
  };
  const auto aim = [&](const text::Sourced<model::Aim>& at, const diag::Term& what) {
    if (!at.known() || at->thing) return;
    std::vector<physics::Tooth> both;
    for (const physics::Tooth t : {at->first, at->second}) {
      if (is_gone(t)) both.push_back(t);
    }
    if (!both.empty()) tell(at.span(), both, what, note::missing_tooth_shown_name);
  };
  look(v.view->must_show, note::missing_tooth_shown_must_show);
  look(v.view->or_else_show, note::missing_tooth_shown_or_else_show);
  look(v.view->must_be_sharp, note::missing_tooth_shown_must_be_sharp);
  aim(v.view->focus, note::missing_tooth_shown_focused);
  aim(v.view->centre, note::missing_tooth_shown_centred);
}

} // namespace norma::rules
