// What a series asks of the patient: what goes in and out, and for how long.
#include <algorithm>
#include <map>

#include "plan/job.hpp"
#include "plan/walk/order.hpp"

namespace norma::plan {
namespace {

/// What is in the mouth in one view: names that stay the same as long as the piece stays in.
std::vector<Said> pieces_in(const ViewPlan& v) {
  std::vector<Said> out;
  const auto add_retractor = [&](const text::Sourced<model::Retractor>& r, model::Side side,
                                 const kit::Retractor* chosen) {
    if (!r.known() || r->none || r->mirror_takes_place || r->by_fingers) return;
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

struct Again {
  diag::List pieces; // the first that are put in a second time
  std::string view;  // there
};

Again again_in(const Plan& plan, const model::Series& series) {
  Again out;
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
      const auto before = been_out.find(piece);
      const bool again = before != been_out.end() && before->second;
      if (again && (out.pieces.items.empty() || out.view == entry.view)) {
        out.pieces.items.emplace_back(piece);
        out.view = entry.view;
      }
    }
    for (const Said& piece : inside) {
      if (std::find(next.begin(), next.end(), piece) == next.end()) been_out[piece] = true;
    }
    for (const Said& piece : next)
      been_out.try_emplace(piece, false);
    inside = std::move(next);
  }
  return out;
}

} // namespace

void plan_series(Plan& plan) {
  for (const model::Series& series : plan.protocol->series) {
    SeriesPlan out;
    out.series = &series;
    facts::Recorder facts(out.facts);
    const auto limit = [&](const physics::Default& row) { return limit_of(plan.kit, row); };
    std::vector<const ViewPlan*> views;
    for (const model::SeriesEntry& entry : series.entries) {
      if (const ViewPlan* v = plan.view(entry.view)) views.push_back(v);
    }
    const Effort effort = effort_of(plan, views);
    facts.put(fact::insertions, effort.insertions);
    facts.give(fact::insertions_limit, limit(physics::defaults::insertions_most));
    {
      const Recording one(facts);
      facts.take(fact::minutes_for_view, limit(physics::defaults::minutes_for_view));
      facts.take(fact::minutes_for_insertion, limit(physics::defaults::minutes_for_insertion));
      facts.get(fact::insertions);
      facts.put(fact::minutes_in_mouth, effort.minutes);
    }
    facts.give(fact::minutes_limit, limit(physics::defaults::minutes_most));
    if (const Again again = again_in(plan, series); !again.pieces.items.empty()) {
      facts.put(fact::goes_in_again, phrase::pieces(again.pieces));
      facts.put(fact::again_in_view, again.view);
    }
    plan.series.push_back(std::move(out));
  }
}

} // namespace norma::plan
