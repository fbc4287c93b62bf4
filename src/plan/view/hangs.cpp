// Which of the checks is the tightest, and on what it hangs.
#include <algorithm>
#include <set>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

struct Check {
  const FactRow* needed;
  const FactRow* limit;
};

/// Needed against what there is; both in the same unit, less is better.
constexpr Check checks[] = {
    {&fact::needed_width, &fact::field_width},
    {&fact::needed_height, &fact::field_height},
    {&fact::aperture_needed, &fact::narrowest_allowed},
    {&fact::ratio, &fact::lens_greatest},
    {&fact::diffraction_blur, &fact::allowed_blur},
    {&fact::opening_for_mirror, &fact::mouth_opening},
    {&fact::mirror_at_corners, &fact::between_corners},
    {&fact::mirror_at_corner, &fact::corner_by_mirror},
    {&fact::most_turned, &fact::turned_limit},
    {&fact::movement_blur, &fact::allowed_blur},
    {&fact::patient_hands_needed, &fact::patient_hands},
    {&fact::assistant_hands_needed, &fact::assistant_hands},
};

std::optional<double> number_of(const Fact* f) { return f == nullptr ? std::nullopt : f->number(); }

/// The facts behind a fact that are less certain than all they rest on: there the uncertainty comes
/// in.
void collect_origins(const Facts& facts, const FactRow& row, std::set<const FactRow*>& seen,
                     std::vector<const Fact*>& origins) {
  if (!seen.insert(&row).second) return;
  const Fact* f = facts.find(row);
  if (f == nullptr) return;
  Status below = Status::asked;
  for (const FactRow* input : f->inputs) {
    collect_origins(facts, *input, seen, origins);
    if (const Fact* in = facts.find(*input)) below = std::max(below, in->status);
  }
  if (f->inputs.empty() || f->status > below) origins.push_back(f);
}

} // namespace

void plan_hangs(Job& job) {
  const Check* tightest = nullptr;
  double least = 0;
  for (const Check& c : checks) {
    const Fact* needed = job.facts.find(*c.needed);
    const Fact* limit = job.facts.find(*c.limit);
    const auto takes = number_of(needed);
    const auto there = number_of(limit);
    if (!takes || !there || *there <= 0) continue;
    if (c.needed->kind == physics::Kind::count && *takes == 0) continue;
    const double reserve = 1.0 - *takes / *there;
    // Hands and ratios are as many as they are: what just does is no narrow escape.
    const bool whole = c.needed->kind == physics::Kind::count || c.needed == &fact::ratio;
    if (whole && reserve >= 0) continue;
    if (tightest != nullptr && reserve >= least) continue;
    tightest = &c;
    least = reserve;
  }
  if (tightest == nullptr) return;
  const Fact& needed = *job.facts.find(*tightest->needed);
  const Fact& limit = *job.facts.find(*tightest->limit);
  job.facts.set(fact::tightest,
                phrase::of_what_there_is(Said(*needed.row, {}), *needed.value, Said(*limit.row, {}),
                                         *limit.value),
                std::max(needed.status, limit.status), {tightest->needed, tightest->limit});
  job.facts.derive(fact::tightest_reserve, Share{least}, {tightest->needed, tightest->limit});
  std::set<const FactRow*> seen;
  std::vector<const Fact*> origins;
  collect_origins(job.facts, *tightest->needed, seen, origins);
  collect_origins(job.facts, *tightest->limit, seen, origins);
  const auto weakest =
      std::max_element(origins.begin(), origins.end(),
                       [](const Fact* a, const Fact* b) { return a->status < b->status; });
  if (weakest == origins.end()) return;
  const Fact& f = **weakest;
  const Said status(row_of(f.status), {});
  const Said name(*f.row, {});
  job.facts.set(fact::hangs_on,
                f.row->source.empty()
                    ? phrase::uncertain(name, *f.value, status)
                    : phrase::uncertain_from(name, *f.value, status, f.row->source),
                f.status);
}

} // namespace norma::plan
