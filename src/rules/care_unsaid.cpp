#include "rules/rules.hpp"

namespace norma::rules {

void care_unsaid(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  if (!view.prompts.empty() || !view.cautions.empty() || !view.stop_if.empty()) return;
  const bool beside = view.mirror.known() && (view.mirror->use == model::MirrorUse::buccal ||
                                              view.mirror->use == model::MirrorUse::lingual);
  const auto firm = [](const text::Sourced<model::Retractor>& r) {
    return r.known() && r->tension == model::Tension::firm;
  };
  const bool pulled = firm(view.right_retractor) || firm(view.left_retractor);
  if (!beside && !pulled) return;
  const text::Span place =
      beside ? view.mirror.span()
             : place_of(firm(view.right_retractor) ? view.right_retractor : view.left_retractor, v);
  auto& d =
      out.report(diag::make(catalogue::care_unsaid, place,
                            beside ? note::care_unsaid_mirror() : note::care_unsaid_retractor()));
  d.with_help(note::care_unsaid_example());
}

} // namespace norma::rules
