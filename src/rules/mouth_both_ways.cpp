#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {
namespace {

void tell(text::Span here, const diag::Term& one, text::Span there, const diag::Term& other,
          const diag::Term& help, Sink& out) {
  auto& d = out.report(diag::make(catalogue::mouth_both_ways, here, one(), other()));
  if (there.known()) d.with_label(there, note::said_here());
  d.with_help(help());
}

bool held(const text::Sourced<model::Retractor>& r) {
  return r.known() && !r->none && !r->mirror_takes_place;
}

/// How they are is said, nothing holds them away, and they must not show.
void lips_both_ways(const model::View& view, Sink& out) {
  if (!view.lips.known() || !view.must_not_show.known()) return;
  if (held(view.right_retractor) || held(view.left_retractor)) return;
  const auto& unwanted = view.must_not_show.get();
  if (std::find(unwanted.begin(), unwanted.end(), model::Unwanted::lips) == unwanted.end()) return;
  tell(view.lips.span(), note::mouth_both_ways_lips_there, view.must_not_show.span(),
       note::mouth_both_ways_lips_unwanted, note::mouth_both_ways_hold_lips_away, out);
}

} // namespace

void mouth_both_ways(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  const bool together = view.teeth.known() && view.teeth_together();
  const bool wide = view.mouth.known() && view.mouth.get() != model::MouthState::closed;
  if (together && (wide || view.least_opening.known())) {
    const text::Span open = wide ? view.mouth.span() : view.least_opening.span();
    tell(open, note::mouth_both_ways_open, view.teeth.span(), note::mouth_both_ways_together,
         note::mouth_both_ways_leave_teeth_or_mouth, out);
  }
  lips_both_ways(view, out);
  if (!view.lips.known() || view.lips.get() != model::Lips::closed) return;
  if (held(view.right_retractor) || held(view.left_retractor)) {
    const auto& r = held(view.right_retractor) ? view.right_retractor : view.left_retractor;
    tell(view.lips.span(), note::mouth_both_ways_lips_closed, r.span(),
         note::mouth_both_ways_held_apart, note::mouth_both_ways_leave_lips_or_retractor, out);
  }
}

} // namespace norma::rules
