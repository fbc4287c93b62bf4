#include "rules/rules.hpp"

namespace norma::rules {
namespace {

void tell(text::Span here, std::string_view one,
          text::Span there, std::string_view other, std::string_view help, Sink& out) {
  auto& d = out.report(diag::make(catalogue::mouth_both_ways, here, one, other));
  if (there.known()) d.with_label(there, "said here");
  d.with_help(std::string(help));
}

} // namespace

void mouth_both_ways(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  const bool together = view.teeth.known() && view.teeth_together();
  const bool wide = view.mouth.known() && view.mouth.get() != "closed";
  if (together && (wide || view.least_opening.known())) {
    const text::Span open = wide ? view.mouth.span() : view.least_opening.span();
    tell(open, "the mouth is open", view.teeth.span(), "the teeth are together",
         "leave one of the two out; what is said for every view goes with `no teeth` or `no mouth`",
         out);
  }
  if (!view.lips.known() || view.lips.get() != "closed") return;
  const auto held = [](const text::Sourced<model::Retractor>& r) {
    return r.known() && !r->none && !r->mirror_takes_place;
  };
  if (held(view.right_retractor) || held(view.left_retractor)) {
    const auto& r = held(view.right_retractor) ? view.right_retractor : view.left_retractor;
    tell(view.lips.span(), "the lips are closed", r.span(), "a retractor holds them apart",
         "leave one of the two out; what is said for every view goes with `no lips` or "
         "`no retractor`",
         out);
  }
}

} // namespace norma::rules
