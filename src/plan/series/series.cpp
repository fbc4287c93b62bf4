// What a series asks of the patient: what goes in and out, and for how long.
#include <algorithm>
#include <map>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// What is in the mouth in one view: names that stay the same as long as the piece stays in.
std::vector<Said> pieces_in(const ViewPlan& v) {
  std::vector<Said> out;
  const auto add_retractor = [&](const text::Sourced<model::Retractor>& r, model::Side side,
                                 const kit::Retractor* chosen) {
    if (!r.known() || r->none || r->mirror_takes_place) return;
    Said name =
        chosen == nullptr ? phrase::retractor() : name_or(chosen->name, phrase::retractor());
    if (r->end) name = phrase::piece_with_end(std::move(name), term_of(*r->end));
    out.push_back(phrase::piece_on_side(std::move(name), term_of(side)));
  };
  if (const kit::Retractor* both = v.chosen.one_piece()) {
    out.push_back(phrase::piece_on_both_sides(name_or(both->name, phrase::retractor())));
  } else {
    add_retractor(v.view->right_retractor, model::Side::right, v.chosen.right_retractor);
    add_retractor(v.view->left_retractor, model::Side::left, v.chosen.left_retractor);
  }
  if (v.view->mirror.known()) {
    const model::Mirror& m = v.view->mirror.get();
    Said name = v.chosen.mirror == nullptr ? phrase::mirror()
                                           : name_or(v.chosen.mirror->name, phrase::mirror());
    if (m.side) {
      name = phrase::piece_on_side(std::move(name), term_of(*m.side));
    } else if (const auto jaw = shown_jaw(*v.view)) {
      name = *jaw == model::Jaw::upper ? phrase::piece_for_upper_jaw(std::move(name))
                                       : phrase::piece_for_lower_jaw(std::move(name));
    }
    out.push_back(std::move(name));
  }
  return out;
}

struct Course {
  int insertions = 0;
  double minutes = 0;
  diag::List again;       // the first pieces that are put in a second time
  std::string again_view; // there
};

Course run(const Plan& plan, const model::Series& series, Minutes each, Minutes insertion) {
  Course course;
  std::vector<Said> inside;
  std::map<Said, bool> been_out; // pieces that were in; true: and came out again
  std::optional<model::Dentures> dentures;
  for (const model::SeriesEntry& entry : series.entries) {
    const ViewPlan* v = plan.view(entry.view);
    if (v == nullptr) continue; // reported where the series stands
    const auto& said = v->view->dentures;
    const auto now = said.known() ? std::optional(said.get()) : dentures;
    if (now != dentures) { // everything comes out for that anyway
      been_out.clear();
      inside.clear();
    }
    dentures = now;
    std::vector<Said> next = pieces_in(*v);
    for (const Said& piece : next) {
      if (std::find(inside.begin(), inside.end(), piece) != inside.end()) continue;
      ++course.insertions;
      course.minutes += insertion.value();
      const auto before = been_out.find(piece);
      const bool again = before != been_out.end() && before->second;
      if (again && (course.again.items.empty() || course.again_view == entry.view)) {
        course.again.items.emplace_back(piece);
        course.again_view = entry.view;
      }
    }
    for (const Said& piece : inside) {
      if (std::find(next.begin(), next.end(), piece) == next.end()) been_out[piece] = true;
    }
    for (const Said& piece : next)
      been_out.try_emplace(piece, false);
    if (!next.empty()) course.minutes += each.value();
    if (v->view->wait_after.known() && !v->view->patient_rests && !next.empty())
      course.minutes += v->view->wait_after->in(minute);
    // A rest with nothing held: what follows is counted anew only for the time, not the pieces.
    inside = std::move(next);
  }
  return course;
}

} // namespace

void plan_series(Plan& plan) {
  for (const model::Series& series : plan.protocol->series) {
    SeriesPlan out;
    out.series = &series;
    facts::Recorder facts(out.facts);
    const auto limit = [&](const physics::Default& row) { return limit_of(plan.kit, row); };
    const Course course =
        run(plan, series, limit(physics::defaults::minutes_for_view).as<Minutes>(),
            limit(physics::defaults::minutes_for_insertion).as<Minutes>());
    facts.put(fact::insertions, course.insertions);
    facts.give(fact::insertions_limit, limit(physics::defaults::insertions_most));
    {
      const Recording one(facts);
      facts.take(fact::minutes_for_view, limit(physics::defaults::minutes_for_view));
      facts.take(fact::minutes_for_insertion, limit(physics::defaults::minutes_for_insertion));
      facts.get(fact::insertions);
      facts.put(fact::minutes_in_mouth, Minutes{course.minutes});
    }
    facts.give(fact::minutes_limit, limit(physics::defaults::minutes_most));
    if (!course.again.items.empty()) {
      facts.put(fact::goes_in_again, phrase::pieces(course.again));
      facts.put(fact::again_in_view, course.again_view);
    }
    plan.series.push_back(std::move(out));
  }
}

} // namespace norma::plan
