#include "rules/rules.hpp"

namespace norma::rules {

void code_contradicts_view(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* f = v.facts.find(fact::code_fits);
  if (f == nullptr || f->state != plan::State::impossible || !v.view->code.known()) return;
  const words::ViewCode& code = *v.view->code.get();
  auto& d = out.report(
      diag::make(catalogue::code_contradicts_view, v.view->code.span(), code.code, f->why));
  d.with_note(note::code_contradicts_view_term(code.code, code.term));
  const auto better = v.facts.get(fact::code_that_fits);
  if (better) {
    d.with_fix(v.view->code.span(), fmt::format("code {}", better->own), false)
        .with_help(note::code_contradicts_view_code_is(*better));
  }
}

} // namespace norma::rules
