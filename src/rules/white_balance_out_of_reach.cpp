#include "rules/rules.hpp"

namespace norma::rules {

void white_balance_out_of_reach(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const plan::Fact* set = v.facts.find(fact::white_balance);
  if (set == nullptr || set->state != plan::State::impossible) return;
  const auto& asked = v.view->white_balance;
  const diag::Value wanted =
      asked->to ? diag::Value(model::term_of(*asked->to)) : diag::Value(*asked->temperature);
  out.report(diag::make(catalogue::white_balance_out_of_reach, asked.span(), wanted, set->why))
      .with_help(note::white_balance_out_of_reach_ask());
}

} // namespace norma::rules
