// What is fixed to the camera: a distance guide, a frame in the focus plane.
#include <algorithm>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

void set_guide(Job& job) {
  if (!job.view.guide.known() || job.view.guide.get() == model::Guide::off) return;
  if (!job.kit->guides) {
    job.facts.set_unknown(fact::guide, missing::guides());
    return;
  }
  if (job.kit->guides->empty()) {
    job.facts.set_impossible<Said>(fact::guide, phrase::distance_guide(), {}, {});
    return;
  }
  const kit::Guide& guide = job.kit->guides->front();
  job.facts.set(fact::guide, name_or(guide.name, phrase::guide()), Status::measured);
  if (!guide.keeps.known()) return;
  job.facts.set(fact::guide_keeps, guide.keeps.get(), Status::measured, {&fact::guide});
  const auto distance = job.facts.get(fact::working_distance);
  if (!distance) return; // said by the scale
  job.facts.derive(fact::guide_off, abs(guide.keeps.get() - *distance),
                   {&fact::guide_keeps, &fact::working_distance});
  constexpr double share = 0.05;
  job.facts.set(fact::guide_tolerance, share * *distance, Status::assumed,
                {&fact::working_distance});
}

/// Sizes within half a millimetre are the same frame, whichever way it is held.
bool same(Size a, Size b) {
  const auto sorted = [](Size s) {
    return Size{std::max(s.width, s.height), std::min(s.width, s.height)};
  };
  constexpr Length near = 0.5 * mm;
  return abs(sorted(a).width - sorted(b).width) <= near &&
         abs(sorted(a).height - sorted(b).height) <= near;
}

void set_frame(Job& job) {
  if (!job.view.frame.known()) return;
  const Size asked = job.view.frame.get();
  job.facts.set(fact::frame_asked, asked, Status::asked);
  const auto width = job.facts.get(fact::field_width);
  const auto height = job.facts.get(fact::field_height);
  if (width && height) {
    job.facts.derive(fact::frame_spare,
                     std::min(std::max(*width, *height) - std::max(asked.width, asked.height),
                              std::min(*width, *height) - std::min(asked.width, asked.height)),
                     {&fact::frame_asked, &fact::field_width, &fact::field_height});
  }
  if (job.kit == nullptr) return;
  if (!job.kit->frames) {
    job.facts.set_unknown(fact::frame, missing::frames());
    return;
  }
  for (const kit::Frame& f : *job.kit->frames) {
    if (!f.size.known() || !same(f.size.get(), asked)) continue;
    job.facts.set(fact::frame, name_or(f.name, phrase::frame()), Status::measured);
    return;
  }
  job.facts.set_impossible<Said>(fact::frame, phrase::of_size(phrase::frame(), asked), {}, {});
}

} // namespace

void plan_attachments(Job& job) {
  if (job.kit != nullptr) set_guide(job);
  set_frame(job);
}

} // namespace norma::plan
