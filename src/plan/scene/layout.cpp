// How what must show lies in the frame.
#include "placing/layout.hpp"

#include "plan/scene/scene.hpp"

namespace norma::plan {

void lay_out(Job& job, const Placed& view) {
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::elevation, &fact::pupil_distance,
                                         &fact::field_width};
  if (const auto margins = placing::margins_of(view.setting, view.pose)) {
    job.facts.derive(fact::margin_left, margins->left, from, Status::assumed);
    job.facts.derive(fact::margin_right, margins->right, from, Status::assumed);
    job.facts.derive(fact::margin_top, margins->top, from, Status::assumed);
    job.facts.derive(fact::margin_bottom, margins->bottom, from, Status::assumed);
  }
  if (const auto lie = placing::lie_of(view.setting, view.pose)) {
    job.facts.derive(fact::cant, lie->cant, from, Status::assumed);
    job.facts.derive(fact::asymmetry, lie->asymmetry, from, Status::assumed);
    job.facts.derive(fact::bow, lie->bow, from, Status::assumed);
  }
  const auto cut = teeth_of(job.out.shown, placing::cut_by_frame);
  if (!cut.empty()) job.facts.derive(fact::teeth_cut, cut, from, Status::assumed);
}

} // namespace norma::plan
