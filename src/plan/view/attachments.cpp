// What is fixed to the camera: a distance guide, a frame in the focus plane.
#include <algorithm>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

void set_guide(Job& job) {
  if (!job.view.guide.known() || job.view.guide.get() == model::Guide::off) return;
  const Recording one(job.facts);
  const auto& guides = job.kit()->guides;
  if (!guides) return job.facts.put_unknown(fact::guide, missing::guides());
  if (guides->empty()) return job.facts.put_impossible(fact::guide, phrase::distance_guide());
  const kit::Guide& guide = guides->front();
  job.facts.put_of_kit(fact::guide, name_or(guide.name, phrase::guide()));
  if (!guide.keeps.known()) return;
  job.facts.has(fact::guide);
  job.facts.put(fact::guide_keeps, guide.keeps.get());
  if (!job.facts.has(fact::working_distance)) return; // said by the scale
  job.facts.work_out(
      fact::guide_off, [](Length kept, Length distance) { return abs(kept - distance); },
      fact::guide_keeps, fact::working_distance);
  constexpr double share = 0.05;
  job.facts.note(Status::assumed);
  job.facts.put(fact::guide_tolerance, share * *job.facts.get(fact::working_distance));
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
  job.facts.put(fact::frame_asked, asked);
  const bool field = job.facts.has(fact::field_width) && job.facts.has(fact::field_height);
  if (field)
    job.facts.work_out(
        fact::frame_spare,
        [](Size frame, Length width, Length height) {
          return std::min(std::max(width, height) - std::max(frame.width, frame.height),
                          std::min(width, height) - std::min(frame.width, frame.height));
        },
        fact::frame_asked, fact::field_width, fact::field_height);
}

/// The frame of the kit that the view asks for.
void find_frame(Job& job) {
  const Recording one(job.facts);
  const auto asked = job.facts.get(fact::frame_asked);
  if (!asked) return;
  const auto& frames = job.kit()->frames;
  if (!frames) return job.facts.put_unknown(fact::frame, missing::frames());
  for (const kit::Frame& f : *frames) {
    if (f.size.known() && same(f.size.get(), *asked))
      return job.facts.put_of_kit(fact::frame, name_or(f.name, phrase::frame()));
  }
  job.facts.put_impossible(fact::frame, phrase::of_size(phrase::frame(), *asked));
}

} // namespace

void plan_attachments(Job& job) {
  if (job.has_kit()) set_guide(job);
  set_frame(job);
  if (job.has_kit()) find_frame(job);
}

} // namespace norma::plan
