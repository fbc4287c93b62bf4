#include <algorithm>

#include "diag/terms.hpp"
#include "rules/rules.hpp"

namespace norma::rules {
namespace {

void missing_piece(const plan::ViewPlan& v, const plan::FactRow& row, text::Span place, Sink& out) {
  const plan::Fact* f = v.facts.find(row);
  if (f == nullptr || f->state != plan::State::impossible) return;
  auto& d = out.report(diag::make(catalogue::instrument_missing, place, f->why));
  if (v.view->or_else_view.known())
    d.with_note(
        note::instrument_missing_second_choice(diag::term::view(v.view->or_else_view.get())));
  d.with_help(note::instrument_missing_add());
}

} // namespace

void instrument_missing(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (c.kit == nullptr) return;
  missing_piece(v, fact::mirror, place_of(v.view->mirror, v), out);
  const plan::Fact* right = v.facts.find(fact::right_retractor);
  const plan::Fact* left = v.facts.find(fact::left_retractor);
  const bool same =
      right != nullptr && left != nullptr && right->state == left->state && right->why == left->why;
  const text::Span at_right = place_of(v.view->right_retractor, v);
  const text::Span at_left = place_of(v.view->left_retractor, v);
  // Where both are missing, at the one that is said first: there the view of the other side has it.
  missing_piece(v, fact::right_retractor, same ? std::min(at_right, at_left) : at_right, out);
  if (!same) missing_piece(v, fact::left_retractor, at_left, out);
  missing_piece(v, fact::lamp, place_of(v.view->lamp, v), out);
  missing_piece(v, fact::guide, place_of(v.view->guide, v), out);
  missing_piece(v, fact::frame, place_of(v.view->frame, v), out);
}

} // namespace norma::rules
