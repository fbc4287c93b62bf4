#include "rules/rules.hpp"

#include <algorithm>

#include "words/teeth.hpp"

namespace norma::rules {

void missing_tooth_shown(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!c.protocol.missing.known()) return;
  const auto& gone = c.protocol.missing.get();
  const auto is_gone = [&](physics::Tooth t) {
    return std::find(gone.begin(), gone.end(), t) != gone.end();
  };
  const auto tell = [&](text::Span place, const std::vector<physics::Tooth>& both,
                        std::string_view what, std::string_view help) {
    auto& d = out.report(diag::make(catalogue::missing_tooth_shown, place, words::teeth_text(both), what));
    d.with_label(c.protocol.missing.span(), "said here");
    d.with_help(std::string(help));
  };
  const auto look = [&](const text::Sourced<model::Faces>& named, std::string_view what) {
    if (!named.known() || v.view->every_tooth_present) return;
    std::vector<physics::Tooth> both;
    for (const model::NamedFace& f : named.get()) {
      if (is_gone(f.tooth)) both.push_back(f.tooth);
    }
    if (!both.empty())
      tell(place_of(named, v), both, what, "add `every tooth present`, or leave it out");
  };
  const auto aim = [&](const text::Sourced<model::Aim>& at, std::string_view what) {
    if (!at.known() || !at->thing.empty()) return;
    std::vector<physics::Tooth> both;
    for (const physics::Tooth t : {at->first, at->second}) {
      if (is_gone(t)) both.push_back(t);
    }
    if (!both.empty()) tell(at.span(), both, what, "name a tooth that is there");
  };
  look(v.view->must_show, "must show");
  look(v.view->or_else_show, "must show where the first choice cannot be had");
  look(v.view->must_be_sharp, "must be sharp");
  aim(v.view->focus, "is focused on");
  aim(v.view->centre, "is centred on");
}

} // namespace norma::rules
