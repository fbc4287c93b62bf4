// How what must show lies in the frame.
#include "placing/layout.hpp"

#include "plan/scene/scene.hpp"

namespace norma::plan {

void lay_out(Job& job, const Placed& view) {
  const Recording one(job.facts);
  job.facts.use(view.read);
  if (const auto margins = placing::margins_of(view.setting, view.pose)) {
    job.facts.put(fact::margin_left, margins->left);
    job.facts.put(fact::margin_right, margins->right);
    job.facts.put(fact::margin_top, margins->top);
    job.facts.put(fact::margin_bottom, margins->bottom);
  }
  if (const auto at = placing::at_edges(view.setting, view.pose)) {
    const auto put = [&](const FactDef<diag::Teeth>& row, const diag::Teeth& teeth) {
      if (!teeth.empty()) job.facts.put(row, teeth);
    };
    put(fact::at_left_edge, at->left);
    put(fact::at_right_edge, at->right);
    put(fact::at_top_edge, at->top);
    put(fact::at_bottom_edge, at->bottom);
  }
  if (const auto lie = placing::lie_of(view.setting, view.pose)) {
    job.facts.put(fact::cant, lie->cant);
    job.facts.put(fact::asymmetry, lie->asymmetry);
    job.facts.put(fact::bow, lie->bow);
  }
  const auto cut = teeth_of(job.out.shown, placing::cut_by_frame);
  if (!cut.empty()) job.facts.put(fact::teeth_cut, cut);
}

} // namespace norma::plan
