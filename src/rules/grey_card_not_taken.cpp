#include "rules/rules.hpp"

namespace norma::rules {

void grey_card_not_taken(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto& asked = v.view->white_balance;
  if (!asked.known() || asked->to != model::WhiteBalance::from_grey_card) return;
  if (!c.protocol.grey_card.absent()) return;
  out.report(diag::make(catalogue::grey_card_not_taken, asked.span()))
      .with_help(note::grey_card_not_taken_write());
}

} // namespace norma::rules
