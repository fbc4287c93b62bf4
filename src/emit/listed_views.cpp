#include "emit/listed_views.hpp"

#include <algorithm>

#include "emit/list_settings.hpp"
#include "facts/facts.hpp"

namespace norma::emit {
namespace {

std::size_t kind_of(const SeriesView& v) { return static_cast<std::size_t>(v.view->view->kind); }

/// Is `is` true of all of that kind?
template <class Is>
bool all_of_kind(const std::vector<SeriesView>& views, model::ViewKind kind, Is is) {
  return std::all_of(views.begin(), views.end(),
                     [&](const SeriesView& v) { return v.view->view->kind != kind || is(v); });
}

bool counts_alike(plan::Verb verb) {
  switch (verb) {
  case plan::Verb::as_last_visit:
  case plan::Verb::keep_out:
  case plan::Verb::take_again_if:
  case plan::Verb::allow_angle:
  case plan::Verb::allow_distance:
  case plan::Verb::allow_angle_and_distance: return true;
  default: return false;
  }
}

diag::Said unsettled_of(const plan::Plan& plan, const plan::ViewPlan& v) {
  const plan::Fact* aperture = v.facts.find(plan::fact::aperture);
  const bool open = aperture != nullptr && aperture->state == plan::State::unknown;
  return plan.kit != nullptr && open ? aperture_said(v.facts) : diag::Said();
}

} // namespace

Findings in_order_of(const report::Report& report, const report::Held& held, Findings findings) {
  const std::vector<text::FileId>& read =
      report.files[static_cast<std::size_t>(held.about.file)].read;
  const auto place = [&](const diag::Diagnostic* d) {
    return std::find(read.begin(), read.end(), d->span.file) - read.begin();
  };
  std::stable_sort(findings.begin(), findings.end(),
                   [&](const auto* a, const auto* b) { return place(a) < place(b); });
  return findings;
}

bool same(const plan::Act& a, const plan::Act& b) {
  return a.who == b.who && a.verb == b.verb && a.objects == b.objects && a.how == b.how;
}

const model::Series* listed_series(const plan::Plan& plan, std::string_view wanted) {
  const model::Series* chosen = nullptr;
  for (const model::Series& s : plan.protocol->series) {
    const bool longer = chosen == nullptr || s.entries.size() > chosen->entries.size();
    if (wanted.empty() ? longer : s.name == wanted) chosen = &s;
  }
  return chosen;
}

ListedViews::ListedViews(const report::Report& report, const report::Held& held,
                         const model::Series* series) {
  const plan::Plan& plan = held.plan;
  for (const SeriesView& v : views_of(plan, series)) {
    ListedView view{v, {}, unsettled_of(plan, *v.view)};
    const int place = static_cast<int>(v.view - plan.views.data());
    for (const diag::Diagnostic* d :
         in_order_of(report, held, report.said_of(held.about.of_view(place)))) {
      if (d->severity == diag::Severity::error && d->accepted.empty()) view.errors.push_back(d);
    }
    if (view.can_be_had()) {
      taken_.push_back(v);
      ++taken_of_[kind_of(v)];
    }
    all_.push_back(std::move(view));
  }
  walk(plan);
  find_for_all();
}

const ListedView* ListedViews::find(const plan::ViewPlan* view) const {
  const auto found = std::find_if(all_.begin(), all_.end(),
                                  [&](const ListedView& v) { return v.is.view == view; });
  return found == all_.end() ? nullptr : &*found;
}

/// A view that cannot be had is passed over. A second choice starts from how its first choice was
/// set up.
void ListedViews::walk(const plan::Plan& plan) {
  for (ListedView& v : all_) {
    if (!v.can_be_had()) continue;
    if (v.is.instead_of == nullptr) {
      v.step = plan::take(plan, last_, *v.is.view);
      last_ = v.step.after;
    } else {
      const Start from = start_of(v);
      const plan::Moment now = from.view == nullptr ? plan::Moment()
                               : from.set_up        ? from.view->step.taken
                                                    : from.view->step.after;
      v.step = plan::take(plan, now, *v.is.view);
    }
  }
}

ListedViews::Start ListedViews::start_of(const ListedView& view) const {
  Start out;
  for (const ListedView& v : all_) {
    if (&v == &view) break;
    if (view.is.instead_of != nullptr && v.is.view == view.is.instead_of) {
      if (v.can_be_had()) return {&v, true};
      return v.is.instead_of == nullptr ? out : start_of(v);
    }
    if (v.can_be_had() && v.is.instead_of == nullptr) out.view = &v;
  }
  return out;
}

const plan::ViewPlan* ListedViews::set_before(const ListedView& view) const {
  const ListedView* before = start_of(view).view;
  return before == nullptr ? nullptr : before->is.view;
}

const ListedView* ListedViews::next_after(const ListedView& second) const {
  // What it stands in for may be a second choice itself.
  const ListedView* first = &second;
  while (first != nullptr && first->is.instead_of != nullptr)
    first = find(first->is.instead_of);
  bool beyond = false;
  for (const ListedView& v : all_) {
    if (v.is.instead_of != nullptr) return nullptr;
    if (beyond && v.can_be_had()) return &v;
    beyond = beyond || &v == first;
  }
  return nullptr;
}

void ListedViews::find_for_all() {
  for (const model::ViewKind kind : {model::ViewKind::mouth, model::ViewKind::face}) {
    if (taken_of(kind) < 2) continue;
    const auto first = std::find_if(taken_.begin(), taken_.end(), [&](const SeriesView& v) {
      return v.view->view->kind == kind;
    });
    for (const plan::Act& act : first->view->acts) {
      const bool all = all_of_kind(taken_, kind, [&](const SeriesView& other) {
        const std::vector<plan::Act>& acts = other.view->acts;
        return std::any_of(acts.begin(), acts.end(),
                           [&](const plan::Act& one) { return same(act, one); });
      });
      if (all && counts_alike(act.verb)) for_all_[static_cast<std::size_t>(kind)].push_back(act);
    }
  }
}

bool ListedViews::is_for_all(model::ViewKind kind, const plan::Act& act) const {
  const std::vector<plan::Act>& all = for_all(kind);
  return std::any_of(all.begin(), all.end(), [&](const plan::Act& one) { return same(one, act); });
}

bool ListedViews::is_for_all(model::ViewKind kind, Texts texts, const std::string& one) const {
  return taken_of(kind) > 1 && all_of_kind(taken_, kind, [&](const SeriesView& v) {
           const auto& all = v.view->view->*texts;
           return std::any_of(all.begin(), all.end(),
                              [&](const auto& t) { return t.known() && t.get() == one; });
         });
}

} // namespace norma::emit
