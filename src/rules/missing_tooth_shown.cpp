#include "rules/rules.hpp"

#include <algorithm>

#include "words/teeth.hpp"

namespace norma::rules {

void missing_tooth_shown(const Context& c, const plan::ViewPlan& v, diag::Findings& out) {
  if (!c.protocol.missing.known() || v.view->every_tooth_present) return;
  const auto& gone = c.protocol.missing.get();
  const auto look = [&](const text::Sourced<model::Faces>& named) {
    if (!named.known()) return;
    std::vector<physics::Tooth> both;
    for (const model::NamedFace& f : named.get()) {
      if (std::find(gone.begin(), gone.end(), f.tooth) != gone.end()) both.push_back(f.tooth);
    }
    if (both.empty()) return;
    auto& d = report_of_view(
        out, c, v,
        diag::make(catalogue::missing_tooth_shown, place_of(named, v), words::teeth_text(both)));
    d.with_label(c.protocol.missing.span(), "said here");
    d.with_help("add `every tooth present`, or leave it out");
  };
  look(v.view->must_show);
  look(v.view->must_be_sharp);
}

} // namespace norma::rules
