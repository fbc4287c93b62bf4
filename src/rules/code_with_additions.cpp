#include "rules/rules.hpp"

namespace norma::rules {

void code_with_additions(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->code.known()) return;
  const words::ViewCode& code = *v.view->code.get();
  // Terms with a blank to be filled in are for views of one's own.
  if (code.term.find('[') != std::string_view::npos) return;
  std::string what;
  const auto add = [&](bool there, std::string_view name) {
    if (there) what += (what.empty() ? "" : " and ") + std::string(name);
  };
  add(v.view->ruler.known(), "a ruler");
  add(v.view->shade_tab.known(), "a shade tab");
  add(v.view->paddle.known(), "a contrast paddle");
  add(v.view->frame.known(), "a frame");
  if (what.empty()) return;
  auto& d = out.report(diag::make(catalogue::code_with_additions, place_of(v.view->code, v), code.code, what));
  d.with_note("who sorts pictures by their codes lays this one beside plain ones");
  d.with_help("leave the code out, or take the plain view as well");
}

} // namespace norma::rules
