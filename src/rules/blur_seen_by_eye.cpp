#include "rules/rules.hpp"

namespace norma::rules {

void blur_seen_by_eye(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto& blur = v.view->allowed_blur;
  // Common practice, no source: 0.030 mm on 36 x 24 mm; ten times that shows on any screen.
  constexpr double clearly = 0.3;
  if (!blur.known() || blur->in(mm) <= clearly) return;
  auto& d = out.report(diag::make(catalogue::blur_seen_by_eye, blur.span(), blur.get()));
  d.with_help(note::blur_seen_by_eye_usual());
}

} // namespace norma::rules
