// Which of the checks is the tightest, and on what it hangs.
#include <algorithm>
#include <vector>

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

/// The facts behind others that are less certain than all they rest on: there the uncertainty comes
/// in.
class Origins {
 public:
  explicit Origins(const Facts& facts) : facts_(facts), seen_(fact::all().size(), false) {}

  void follow(const FactRow& row) {
    const Fact* f = facts_.find(row);
    if (f == nullptr || seen_[row.place]) return;
    seen_[row.place] = true;
    Status below = Status::asked;
    const auto inputs = facts_.worked_out_from(*f);
    for (const FactRow* input : inputs) {
      follow(*input);
      if (const Fact* in = facts_.find(*input)) below = std::max(below, in->status);
    }
    const bool origin = inputs.empty() || f->status > below;
    if (origin && (weakest_ == nullptr || f->status > weakest_->status)) weakest_ = f;
  }
  /// The least certain of them, the first of several; null where nothing was followed.
  [[nodiscard]] const Fact* weakest() const { return weakest_; }

 private:
  const Facts& facts_;
  std::vector<bool> seen_;
  const Fact* weakest_ = nullptr;
};

} // namespace

void plan_hangs(Job& job) {
  // Which check is looked at rests on no fact: each is held against its own limit.
  const Facts& facts = job.out.facts;
  const Check* tightest = nullptr;
  double least = 0;
  for (const Check& c : checks) {
    const auto takes = number_of(facts.find(*c.needed));
    const auto there = number_of(facts.find(*c.limit));
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
  const Recording one(job.facts);
  const Fact& needed = *job.facts.find(*tightest->needed);
  const Fact& limit = *job.facts.find(*tightest->limit);
  job.facts.put(fact::tightest, phrase::of_what_there_is(Said(*needed.row, {}), *needed.value,
                                                         Said(*limit.row, {}), *limit.value));
  job.facts.put(fact::tightest_reserve, Share{least});
  Origins origins(facts);
  // Of two that are as uncertain the limit's is told: it is one number, and easier to measure.
  origins.follow(*tightest->limit);
  origins.follow(*tightest->needed);
  const Fact& f = *origins.weakest();
  const Said status(row_of(f.status), {});
  const Said name(*f.row, {});
  job.facts.put(fact::hangs_on, f.row->source.empty() ? phrase::uncertain(name, *f.value, status)
                                                      : phrase::uncertain_from(
                                                            name, *f.value, status, f.row->source));
}

} // namespace norma::plan
