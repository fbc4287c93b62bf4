#include "rules/rules.hpp"

namespace norma::rules {

void file_format_out_of_reach(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* set = v.facts.find(fact::file_format);
  if (set == nullptr || set->state != plan::State::impossible) return;
  const auto& asked = v.view->file_format;
  out.report(diag::make(catalogue::file_format_out_of_reach, asked.span(),
                        model::term_of(asked.get()), set->why))
      .with_help(note::file_format_out_of_reach_ask());
}

} // namespace norma::rules
