// The grey card that is photographed with a series.
#include <algorithm>

#include "plan/plan.hpp"

namespace norma::plan {
namespace {

Act act_of(Who who, Verb verb, std::vector<diag::Value> objects) {
  return {who, verb, std::move(objects), {}, When::before};
}

Who who_brings_card(const Plan& plan, const std::optional<model::Person>& held_by) {
  if (held_by == model::Person::operator_) return Who::operator_;
  return helper_of(*plan.protocol, plan.kit);
}

} // namespace

std::vector<Act> grey_card_acts(const Plan& plan, const std::vector<const ViewPlan*>& views) {
  const auto& said = plan.protocol->grey_card;
  if (!said.known() || views.empty()) return {};
  const model::GreyCard& card = said.get();
  const bool first = card.when == model::GreyCardWhen::before_first;
  const model::View& like = *(first ? views.front() : views.back())->view;
  std::vector<Act> out;
  out.push_back(
      act_of(who_brings_card(plan, card.held_by), Verb::hold_grey_card,
             {like.kind == model::ViewKind::face ? object::the_face() : object::the_teeth()}));
  if (card.held_by == model::Person::patient) out.back().how.push_back(how::patient_holds());
  if (card.held_by == model::Person::itself) out.back().how.push_back(how::holds_itself());
  out.push_back(act_of(Who::operator_, Verb::photograph_grey_card, {like.title}));
  // Where it comes last, whoever makes the files ready sets it from there.
  const bool sets = first && std::any_of(views.begin(), views.end(), [](const ViewPlan* v) {
                      const auto& balance = v->view->white_balance;
                      return balance.known() && balance->to == model::WhiteBalance::from_grey_card;
                    });
  if (sets) out.push_back(act_of(Who::operator_, Verb::set_white_balance_from_card, {}));
  for (Act& act : out)
    act.when = first ? When::before : When::after;
  return out;
}

} // namespace norma::plan
