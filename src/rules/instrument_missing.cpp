#include "diag/terms.hpp"
#include "rules/rules.hpp"

namespace norma::rules {
namespace {

template <class T>
void missing_piece(const plan::ViewPlan& v, const plan::FactRow& row, const text::Sourced<T>& said,
                   Sink& out) {
  const plan::Fact* f = v.facts.find(row);
  if (f == nullptr || f->state != plan::State::impossible) return;
  auto& d = out.report(diag::make(catalogue::instrument_missing, place_of(said, v), f->why));
  if (v.view->or_else_view.known())
    d.with_note(
        note::instrument_missing_second_choice(diag::term::view(v.view->or_else_view.get())));
  d.with_help(note::instrument_missing_add());
}

} // namespace

void instrument_missing(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (c.kit == nullptr) return;
  missing_piece(v, fact::mirror, v.view->mirror, out);
  missing_piece(v, fact::right_retractor, v.view->right_retractor, out);
  const plan::Fact* right = v.facts.find(fact::right_retractor);
  const plan::Fact* left = v.facts.find(fact::left_retractor);
  const bool same =
      right != nullptr && left != nullptr && right->state == left->state && right->why == left->why;
  if (!same) missing_piece(v, fact::left_retractor, v.view->left_retractor, out);
  missing_piece(v, fact::lamp, v.view->lamp, out);
  missing_piece(v, fact::guide, v.view->guide, out);
  missing_piece(v, fact::frame, v.view->frame, out);
}

} // namespace norma::rules
