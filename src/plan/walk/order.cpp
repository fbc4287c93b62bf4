#include "plan/walk/order.hpp"

#include <algorithm>
#include <cstdint>
#include <limits>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

constexpr std::size_t most_exact = 12;

int changes_in(const Step& step) {
  const auto counts = [](const Act& act) {
    return changes(act) && act.verb != Verb::hold_camera && act.verb != Verb::centre &&
           act.verb != Verb::focus;
  };
  return static_cast<int>(std::count_if(step.acts.begin(), step.acts.end(), counts)) +
         static_cast<int>(step.set.size());
}

bool in_the_mouth(const Step& step) {
  constexpr Part pieces[] = {Part::both_retractors, Part::right_retractor, Part::left_retractor,
                             Part::mirror};
  return std::any_of(std::begin(pieces), std::end(pieces), [&](Part part) {
    return step.taken[part].there && !by_fingers(step.taken[part]);
  });
}

bool dries(const model::View& v) {
  const bool air = v.air.known() && std::find(v.air->at.begin(), v.air->at.end(),
                                              model::HeldAt::on_the_teeth) != v.air->at.end();
  return air || (v.drying.known() && v.drying.get() == model::Drying::after_drying);
}

/// Must the first of two views, in the order in which they are given, stay before the second?
bool keeps_before(const model::View& first, const model::View& second) {
  const bool wet = first.drying.known() && first.drying.get() == model::Drying::before_drying;
  return (wet && dries(second)) ||
         (first.kind == model::ViewKind::face && second.kind == model::ViewKind::mouth);
}

bool order_is_its_own(const model::View& v) { return !v.steps.empty() || v.dentures.known(); }

/// What one view costs behind another one. Pieces that a view does not name are out, so that all of
/// it hangs on the two alone.
class Costs {
 public:
  using Cost = std::int64_t;
  static constexpr Cost never = std::numeric_limits<Cost>::max() / 4;

  Costs(const Plan& plan, const std::vector<const ViewPlan*>& views) : n_(views.size()) {
    std::vector<Step> alone;
    for (const ViewPlan* v : views)
      alone.push_back(take(plan, {}, *v));
    first_.reserve(n_);
    for (const Step& step : alone)
      first_.push_back(turns_over(step) ? never : cost(step) + (first_.empty() ? 0 : elsewhere));
    next_.assign(n_ * n_, never);
    before_.assign(n_ * n_, false);
    for (std::size_t a = 0; a < n_; ++a) {
      for (std::size_t b = 0; b < n_; ++b) {
        if (a == b) continue;
        const Step step = take(plan, alone[a].after, *views[b]);
        const bool nothing_there = turns_over(step) && !(alone[a].after[Part::mirror].what ==
                                                         step.taken[Part::mirror].what);
        if (!nothing_there) next_[a * n_ + b] = cost(step) + (b == a + 1 ? 0 : elsewhere);
        before_[a * n_ + b] = a < b && keeps_before(*views[a]->view, *views[b]->view);
      }
    }
  }

  /// Fewer insertions; or as many, and changes fewer by a tenth (norma's choice: the order of an
  /// ordinary series is as good as any).
  static bool better(Cost cost, Cost than) {
    const auto insertions = [](Cost c) { return c / insertion; };
    const auto changes = [](Cost c) { return c % insertion / change; };
    if (cost >= never || insertions(cost) != insertions(than))
      return cost < never && insertions(cost) < insertions(than);
    return changes(cost) * 10 <= changes(than) * 9;
  }

  [[nodiscard]] std::size_t size() const { return n_; }
  [[nodiscard]] Cost first(std::size_t a) const { return first_[a]; }
  [[nodiscard]] Cost next(std::size_t a, std::size_t b) const { return next_[a * n_ + b]; }
  [[nodiscard]] bool before(std::size_t a, std::size_t b) const { return before_[a * n_ + b]; }
  [[nodiscard]] Cost of(const std::vector<std::size_t>& order) const {
    Cost out = first(order.front());
    for (std::size_t i = 0; i < order.size(); ++i) {
      for (std::size_t j = i + 1; j < order.size(); ++j) {
        if (before(order[j], order[i])) return never;
      }
      if (i > 0) out += next(order[i - 1], order[i]);
    }
    return std::min(out, never);
  }

 private:
  static bool turns_over(const Step& step) {
    return step.view->view->mirror.known() && step.view->view->mirror->turned_over;
  }
  /// An insertion outweighs any changes; and of orders that cost the same, the one that is most
  /// like the given one is taken.
  static constexpr Cost elsewhere = 1;
  static constexpr Cost change = 100;
  static constexpr Cost insertion = 1'000'000 * change;
  static Cost cost(const Step& step) {
    return insertion * step.insertions + change * changes_in(step);
  }

  std::size_t n_;
  std::vector<Cost> first_;
  std::vector<Cost> next_;
  std::vector<bool> before_;
};

using Order = std::vector<std::size_t>;

/// The best of all orders: of each set of views, the least that it costs to end with one of them.
Order best_of_all(const Costs& costs) {
  const std::size_t n = costs.size();
  const std::size_t sets = std::size_t{1} << n;
  std::vector<Costs::Cost> least(sets * n, Costs::never);
  std::vector<std::size_t> from(sets * n, n);
  const auto has = [](std::size_t set, std::size_t i) { return ((set >> i) & 1U) != 0; };
  for (std::size_t set = 1; set < sets; ++set) {
    for (std::size_t last = 0; last < n; ++last) {
      if (!has(set, last)) continue;
      const std::size_t rest = set & ~(std::size_t{1} << last);
      bool allowed = true;
      for (std::size_t i = 0; i < n && allowed; ++i)
        allowed = has(rest, i) || !costs.before(i, last);
      if (!allowed) continue;
      Costs::Cost& here = least[set * n + last];
      if (rest == 0) here = costs.first(last);
      for (std::size_t i = 0; i < n; ++i) {
        if (!has(rest, i)) continue;
        const Costs::Cost cost = least[rest * n + i] + costs.next(i, last);
        if (cost >= here) continue;
        here = cost;
        from[set * n + last] = i;
      }
    }
  }
  std::size_t set = sets - 1;
  const auto ends = least.begin() + static_cast<std::ptrdiff_t>(set * n);
  auto last = static_cast<std::size_t>(std::min_element(ends, least.end()) - ends);
  if (least[set * n + last] >= Costs::never) return {};
  Order out;
  while (out.size() < n) {
    out.push_back(last);
    const std::size_t rest = set & ~(std::size_t{1} << last);
    last = from[set * n + last];
    set = rest;
  }
  std::reverse(out.begin(), out.end());
  return out;
}

/// From the order as it is, one view moved at a time, as long as it costs less.
Order by_moves(const Costs& costs, Order order) {
  constexpr int most_rounds = 20;
  Costs::Cost now = costs.of(order);
  for (int round = 0; round < most_rounds; ++round) {
    Order best = order;
    for (std::size_t i = 0; i < order.size(); ++i) {
      for (std::size_t j = 0; j < order.size(); ++j) {
        Order other = order;
        const std::size_t moved = other[i];
        other.erase(other.begin() + static_cast<std::ptrdiff_t>(i));
        other.insert(other.begin() + static_cast<std::ptrdiff_t>(j), moved);
        const Costs::Cost cost = costs.of(other);
        if (cost >= now) continue;
        now = cost;
        best = std::move(other);
      }
    }
    if (best == order) break;
    order = std::move(best);
  }
  return order;
}

} // namespace

Effort effort_of(const Plan& plan, const std::vector<const ViewPlan*>& views) {
  const auto minutes = [&](const physics::Default& row) {
    return limit_of(plan.kit, row).as<Minutes>().value();
  };
  Effort out;
  double each = 0;
  Moment now;
  for (const ViewPlan* view : views) {
    Step step = take(plan, now, *view);
    now = std::move(step.after);
    out.insertions += step.insertions;
    out.changes += changes_in(step);
    if (!in_the_mouth(step)) continue;
    each += minutes(physics::defaults::minutes_for_view);
    const model::View& v = *step.view->view;
    if (v.wait_after.known() && !v.patient_rests) each += v.wait_after->in(minute);
  }
  out.minutes = Minutes{each + minutes(physics::defaults::minutes_for_insertion) * out.insertions};
  return out;
}

std::vector<const ViewPlan*> better_order(const Plan& plan,
                                          const std::vector<const ViewPlan*>& views) {
  const bool own = std::any_of(views.begin(), views.end(),
                               [](const ViewPlan* v) { return order_is_its_own(*v->view); });
  if (views.size() < 2 || views.size() > most_reordered || own) return {};
  const Costs costs(plan, views);
  Order given(views.size());
  for (std::size_t i = 0; i < given.size(); ++i)
    given[i] = i;
  const Order found = views.size() <= most_exact ? best_of_all(costs) : by_moves(costs, given);
  if (found.empty() || !Costs::better(costs.of(found), costs.of(given))) return {};
  std::vector<const ViewPlan*> out;
  for (const std::size_t i : found)
    out.push_back(views[i]);
  return out;
}

} // namespace norma::plan
