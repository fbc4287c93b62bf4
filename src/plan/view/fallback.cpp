// What a view shows where the mouth does not allow what it must show.
#include <algorithm>

#include "placing/layout.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// Face by face, each with its teeth.
List faces_said(const model::Faces& faces) {
  List out;
  for (const auto& [face, term] : TermsOf<model::Face>::all) {
    diag::Teeth teeth;
    for (const model::NamedFace& f : faces) {
      if (f.face == face) teeth.push_back(f.tooth);
    }
    if (!teeth.empty())
      out.items.emplace_back(phrase::faces_of_teeth(Said(*term, {}), std::move(teeth)));
  }
  return out;
}

} // namespace

void plan_fallback(Job& job) {
  const auto& first = job.view.must_show;
  const auto& second = job.view.or_else_show;
  if (!first.known() || first->empty() || !second.known()) return;
  const auto holds = [](const model::Faces& all, const model::Faces& some) {
    return std::all_of(some.begin(), some.end(), [&](const model::NamedFace& f) {
      return std::find(all.begin(), all.end(), f) != all.end();
    });
  };
  const bool other_faces = std::none_of(second->begin(), second->end(), [&](const auto& f) {
    return std::any_of(first->begin(), first->end(),
                       [&](const model::NamedFace& g) { return g.face == f.face; });
  });
  if (!second->empty() && other_faces)
    job.facts.put(fact::fallback_of_other_face, main_face(job.view));
  if (!holds(second.get(), first.get())) return;
  job.facts.put(fact::fallback_against_first,
                holds(first.get(), second.get()) ? FallbackAsks::the_same : FallbackAsks::more);
}

model::View second_choice_of(const model::View& view) {
  model::View second = view;
  second.must_show = view.or_else_show;
  second.or_else_show = {};
  return second;
}

void judge_fallback(Job& first, const Work& second, const model::Faces& asked) {
  const Recording one(first.facts);
  const Facts& there = second.facts;
  first.facts.use(there, second.read);
  const auto no_room_for_it = [&] {
    first.facts.put(fact::fallback_without_room, first.facts.get(fact::mirror).value_or(Said()));
  };
  if (second.shown.empty()) {
    if (first.facts.get_in(there, fact::mirror_no_place)) return no_room_for_it();
    // What keeps it from being looked at, unless it keeps the first choice from it, too.
    for (const OpenQuestion& q : second.open) {
      if (q.what.row != &question::scene_hidden) continue;
      const auto& open = first.out.open;
      const bool told = std::any_of(open.begin(), open.end(), [&](const auto& o) {
        return o.what.row == &question::scene_hidden && o.missing == q.missing;
      });
      if (!told) first.open(question::fallback_seen, q.missing);
    }
    return;
  }
  bool all_looked_at = true;
  for (const OpenQuestion& q : second.open) {
    if (q.what.row != &question::item_shown) continue;
    const auto& open = first.out.open;
    const bool told = std::any_of(open.begin(), open.end(), [&](const auto& o) {
      return o.what == q.what && o.missing == q.missing;
    });
    if (told) continue;
    all_looked_at = false;
    first.open(question::fallback_seen, q.missing);
  }
  const auto limit = first.facts.get_in(there, fact::turned_limit);
  const auto unseen = placing::teeth_of(second.shown, [&](const physics::Shown& s) {
    return !physics::enough_of(s) || (limit && s.obliquity > *limit);
  });
  const auto cut = placing::teeth_of(second.shown, placing::cut_by_frame);
  for (const FactRow* row : std::initializer_list<const FactRow*>{
           &fact::mirror_at_no_opening, &fact::opening_for_mirror, &fact::mouth_opening,
           &fact::mirror_at_corners, &fact::between_corners, &fact::mirror_at_corner,
           &fact::corner_by_mirror})
    first.facts.find_in(there, *row);
  const bool no_room = there.has(fact::mirror_at_no_opening) ||
                       exceeds(there, fact::opening_for_mirror, fact::mouth_opening) ||
                       exceeds(there, fact::mirror_at_corners, fact::between_corners) ||
                       exceeds(there, fact::mirror_at_corner, fact::corner_by_mirror);
  if (!unseen.empty()) first.facts.put(fact::fallback_not_seen, unseen);
  if (!cut.empty()) first.facts.put(fact::fallback_cut, cut);
  if (no_room) no_room_for_it();
  if (all_looked_at && unseen.empty() && cut.empty() && !no_room)
    first.facts.put(fact::fallback_seen, faces_said(asked));
}

} // namespace norma::plan
