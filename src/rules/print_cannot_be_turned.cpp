#include "rules/rules.hpp"

namespace norma::rules {

void print_cannot_be_turned(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (c.kit == nullptr || !c.kit->pictures.known()) return;
  if (c.kit->pictures.get() != kit::Pictures::prints) return;
  if (v.facts.text(fact::mirrored) != "mirrored" || !v.view->picture.known()) return;
  if (!v.view->picture->as_seen) return;
  auto& d = out.report(diag::make(catalogue::print_cannot_be_turned, place_of(v.view->picture, v)));
  d.with_label(c.kit->pictures.span(), note::kits_camera());
  d.with_help(note::print_cannot_be_turned_write());
}

} // namespace norma::rules
