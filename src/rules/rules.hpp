// The rules: each reads facts and complains. One rule, one file; one explicit list (rules.cpp).
// A rule computes nothing: a number that it lacks is a fact to be added in plan/.
#pragma once

#include "diag/catalogue.hpp"
#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "model/protocol.hpp"
#include "plan/facts.hpp"
#include "plan/plan.hpp"
#include "words/literal.hpp"

namespace norma::rules {

namespace catalogue = diag::catalogue;
namespace fact = plan::fact;

/// What a rule may look at.
struct Context {
  const model::Protocol& protocol;
  const kit::Kit* kit; // null without a kit
  const plan::Plan& plan;
  words::Date on;
};

/// A rule over one view.
using Rule = void (*)(const Context& context, const plan::ViewPlan& view, diag::Findings& out);

/// Runs all rules over all views.
void apply(const Context& context, diag::Findings& out);

/// Where a finding about `value` stands: where it was said, else the view's heading.
template <class T> text::Span place_of(const text::Sourced<T>& value, const plan::ViewPlan& view) {
  return value.span().known() ? value.span() : view.view->heading;
}

/// Adds a finding that speaks of the view and, where there is one, of the kit.
diag::Diagnostic& report(diag::Findings& out, const Context& context, const plan::ViewPlan& view,
                         diag::Diagnostic d);

/// `actual` against `limit` as evidence, both facts that have values.
diag::Evidence evidence(const plan::Facts& facts, const plan::FactRow& actual,
                        diag::Relation relation, const plan::FactRow& limit);

// The rules, in the order of their codes.
void field_too_small(const Context&, const plan::ViewPlan&, diag::Findings&);
void ratio_out_of_reach(const Context&, const plan::ViewPlan&, diag::Findings&);
void no_aperture_holds(const Context&, const plan::ViewPlan&, diag::Findings&);
void diffraction_softens(const Context&, const plan::ViewPlan&, diag::Findings&);
void tooth_in_shadow(const Context&, const plan::ViewPlan&, diag::Findings&);
void glare_from_metal(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_loss_unknown(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_loss_stale(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_offset_differs(const Context&, const plan::ViewPlan&, diag::Findings&);
void flash_cannot_deliver(const Context&, const plan::ViewPlan&, diag::Findings&);
void ghost_from_rear_surface(const Context&, const plan::ViewPlan&, diag::Findings&);
void picture_turn_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void picture_impossible(const Context&, const plan::ViewPlan&, diag::Findings&);
void code_contradicts_view(const Context&, const plan::ViewPlan&, diag::Findings&);
void instrument_missing(const Context&, const plan::ViewPlan&, diag::Findings&);
void too_many_hands(const Context&, const plan::ViewPlan&, diag::Findings&);
void distance_too_short(const Context&, const plan::ViewPlan&, diag::Findings&);
void aperture_out_of_reach(const Context&, const plan::ViewPlan&, diag::Findings&);
void tooth_hidden(const Context&, const plan::ViewPlan&, diag::Findings&);
void tooth_turned_away(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_too_narrow(const Context&, const plan::ViewPlan&, diag::Findings&);
void mirror_does_not_fit(const Context&, const plan::ViewPlan&, diag::Findings&);

} // namespace norma::rules
