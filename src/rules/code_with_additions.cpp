#include "rules/rules.hpp"

namespace norma::rules {

void code_with_additions(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->code.known()) return;
  const words::ViewCode& code = *v.view->code.get();
  // Terms with a blank to be filled in are for views of one's own.
  if (code.term.find('[') != std::string_view::npos) return;
  diag::Said what;
  const auto add = [&](bool there, const diag::Term& thing) {
    if (there) what = what.empty() ? thing() : note::code_with_additions_and(what, thing());
  };
  add(v.view->ruler.known(), note::code_with_additions_ruler);
  add(v.view->shade_tab.known(), note::code_with_additions_shade_tab);
  add(v.view->paddle.known(), note::code_with_additions_paddle);
  add(v.view->frame.known(), note::code_with_additions_frame);
  if (what.empty()) return;
  auto& d = out.report(
      diag::make(catalogue::code_with_additions, place_of(v.view->code, v), code.code, what));
  d.with_note(note::code_with_additions_sorted());
  d.with_help(note::code_with_additions_leave_out());
}

} // namespace norma::rules
