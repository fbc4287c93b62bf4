// What a view shows where the mouth does not allow what it must show.
#include <algorithm>

#include "plan/scene.hpp"
#include "words/teeth.hpp"

namespace norma::plan {

void plan_fallback(Job& job) {
  const auto& first = job.view.must_show;
  const auto& second = job.view.or_else_show;
  if (!first.known() || first->empty() || !second.known()) return;
  const auto holds = [](const model::Faces& all, const model::Faces& some) {
    return std::all_of(some.begin(), some.end(), [&](const model::NamedFace& f) {
      return std::find(all.begin(), all.end(), f) != all.end();
    });
  };
  if (!holds(second.get(), first.get())) return;
  job.facts.set(fact::fallback_against_first,
                holds(first.get(), second.get()) ? "the same" : "all of that, and more",
                Status::asked);
}

void try_fallback(Job& job, Setting setting) {
  const auto& fallback = job.view.or_else_show;
  if (!fallback.known() || fallback->empty()) return;
  setting.wanted = wanted_of(job, fallback.get());
  const Angle limit = *job.facts.get(fact::turned_limit);
  const std::vector<Shown> shown = look_at(setting);
  const auto unseen = teeth_of(shown, [&](const Shown& s) {
    return !enough_of(s) || s.framed < 1.0 || s.obliquity > limit;
  });
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance};
  if (!unseen.empty()) {
    job.facts.derive(fact::fallback_not_seen, words::teeth_text(unseen), from, Status::assumed);
  } else if (shown.size() == setting.wanted.size()) { // each of them stands there
    job.facts.derive(fact::fallback_seen, model::to_text(fallback.get()), from, Status::assumed);
  }
}

} // namespace norma::plan
