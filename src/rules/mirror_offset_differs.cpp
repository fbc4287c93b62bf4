#include "rules/rules.hpp"

namespace norma::rules {

void mirror_offset_differs(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto apart = v.facts.get(fact::offset_apart);
  const auto limit = v.facts.get(fact::offset_tolerance);
  if (!apart || !limit || abs(*apart) <= *limit) return;
  auto& d = out.report(diag::make(catalogue::mirror_offset_differs, place_of(v.view->exposure, v),
                                  v.facts.value(fact::stated_offset), v.facts.value(fact::offset)));
  d.with_evidence(
      evidence(v.facts, fact::offset_apart, diag::Relation::at_most, fact::offset_tolerance));
  diag::List parts{{}, true};
  for (const plan::FactRow* part : {static_cast<const plan::FactRow*>(&fact::offset_aperture),
                                    static_cast<const plan::FactRow*>(&fact::offset_iso),
                                    static_cast<const plan::FactRow*>(&fact::offset_bellows),
                                    static_cast<const plan::FactRow*>(&fact::offset_distance),
                                    static_cast<const plan::FactRow*>(&fact::offset_mirror)}) {
    const diag::Value value = v.facts.value(*part);
    if (!value.empty())
      parts.items.emplace_back(note::mirror_offset_differs_part(diag::Said(*part, {}), value));
  }
  d.with_note(note::mirror_offset_differs_parts(std::move(parts)));
  d.with_help(note::mirror_offset_differs_leave_out());
}

} // namespace norma::rules
