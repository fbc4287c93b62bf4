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
  const model::Face face = main_face(job.view);
  if (!second->empty() && main_face(second_choice_of(job.view)) != face)
    job.facts.set(fact::fallback_of_other_face, std::string(model::to_text(face)), Status::asked);
  if (!holds(second.get(), first.get())) return;
  job.facts.set(fact::fallback_against_first,
                holds(first.get(), second.get()) ? "the same" : "all of that, and more",
                Status::asked);
}

model::View second_choice_of(const model::View& view) {
  model::View second = view;
  second.must_show = view.or_else_show;
  second.or_else_show = {};
  return second;
}

void judge_fallback(Work& first, const Work& second, const model::Faces& asked) {
  if (second.shown.empty()) return; // it was not looked at; why not stands with the first choice
  const Facts& there = second.facts;
  const auto limit = there.get(fact::turned_limit);
  const auto unseen = teeth_of(second.shown, [&](const Shown& s) {
    return !enough_of(s) || (limit && s.obliquity > *limit);
  });
  const auto cut = teeth_of(second.shown, [](const Shown& s) { return s.framed < 1.0; });
  const auto exceeds = [&](const FactDef<Length>& needed, const FactDef<Length>& room) {
    const auto n = there.get(needed);
    const auto r = there.get(room);
    return n && r && *n > *r;
  };
  const bool no_room = exceeds(fact::opening_for_mirror, fact::mouth_opening) ||
                       exceeds(fact::mirror_at_corners, fact::between_corners) ||
                       exceeds(fact::mirror_at_corner, fact::corner_by_mirror);
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance};
  if (!unseen.empty())
    first.facts.derive(fact::fallback_not_seen, words::teeth_text(unseen), from, Status::assumed);
  if (!cut.empty())
    first.facts.derive(fact::fallback_cut, words::teeth_text(cut), from, Status::assumed);
  if (no_room)
    first.facts.set(fact::fallback_without_room, first.facts.text(fact::mirror), Status::assumed);
  if (unseen.empty() && cut.empty() && !no_room)
    first.facts.derive(fact::fallback_seen, model::to_text(asked), from, Status::assumed);
}

} // namespace norma::plan
