#include "rules/rules.hpp"

namespace norma::rules {

void field_too_tight(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto spare = v.facts.get(fact::least_spare);
  const auto wanted = v.facts.get(fact::least_spare_wanted);
  const auto fits = v.facts.get(fact::fits_in_mouths);
  const bool in_some = fits && *fits < plan::nearly_all;
  if (!spare || !wanted || *spare < Length{} || (*spare >= *wanted && !in_some)) return;
  auto& d = out.report(diag::make(
      catalogue::field_too_tight, place_of_ratio(v), v.facts.value(fact::least_spare),
      *spare >= *wanted ? note::field_too_tight_larger() : note::field_too_tight_slip()));
  if (in_some) {
    d.severity = in_mouths_severity(*fits);
    d.in_mouths = {*fits, true};
    d.with_note(fits_in(v.facts, *fits));
  } else {
    d.with_evidence(
        evidence(v.facts, fact::least_spare, diag::Relation::at_least, fact::least_spare_wanted));
    d.with_note(note::field_too_tight_mean_teeth());
  }
  d.with_help(note::field_too_tight_leave_room());
}

} // namespace norma::rules
