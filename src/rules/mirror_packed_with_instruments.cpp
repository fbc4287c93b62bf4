#include "rules/rules.hpp"

namespace norma::rules {

void mirror_packed_with_instruments(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const kit::Mirror* mirror = v.chosen.mirror;
  if (mirror == nullptr || !mirror->packed.known()) return;
  if (mirror->packed.get() != kit::Packed::with_instruments) return;
  auto& d = out.report(diag::make(catalogue::mirror_packed_with_instruments,
                                  place_of(v.view->mirror, v), v.facts.value(fact::mirror)));
  d.with_label(mirror->packed.span(), note::kits_mirror());
  d.with_note(note::mirror_packed_with_instruments_scratch());
  d.with_help(note::mirror_packed_with_instruments_alone());
}

} // namespace norma::rules
