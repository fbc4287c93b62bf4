#include "live/shown.hpp"

#include <algorithm>
#include <functional>
#include <set>
#include <unordered_map>

#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "live/live_words.hpp"
#include "live/state_json.hpp"
#include "live/view_json.hpp"
#include "report/unread.hpp"

namespace norma::live {
namespace {

/// Reports that older pictures are drawn from, and the views in them: each holds all that was
/// worked out of its text.
constexpr std::size_t most_reports = 8;
constexpr std::size_t most_views_held = 20000;

std::size_t views_in(const report::Report& report) {
  std::size_t out = 0;
  for (const report::Held& held : report.held)
    out += held.plan.views.size();
  return out;
}

/// Can the text not be parsed?
bool is_broken(const report::Report& report) {
  const auto& all = report.findings.all();
  return report.held.empty() || std::any_of(all.begin(), all.end(), [](const diag::Diagnostic& d) {
           return report::tells_of_unread(d) && d.definition->code.starts_with('S');
         });
}

/// Where two texts differ: from the first byte that is another to the last, as a stretch of the
/// second.
std::optional<std::pair<std::size_t, std::size_t>> difference(std::string_view was,
                                                              std::string_view now) {
  if (was == now) return std::nullopt;
  const std::size_t most = std::min(was.size(), now.size());
  std::size_t front = 0;
  while (front < most && was[front] == now[front])
    ++front;
  std::size_t back = 0;
  while (back < most - front && was[was.size() - 1 - back] == now[now.size() - 1 - back])
    ++back;
  return std::pair{front, now.size() - back};
}

/// The states that the newest of these pictures came with, as many as are held.
std::set<std::uint64_t> newest(const std::vector<const ShownView*>& wanted) {
  std::map<std::uint64_t, std::size_t, std::greater<>> all; // how many views are in each report
  for (const ShownView* one : wanted)
    all.emplace(one->since, views_in(*one->report));
  std::set<std::uint64_t> out;
  std::size_t views = 0;
  for (const auto& [since, count] : all) {
    views += count;
    if (out.size() == most_reports || (!out.empty() && views > most_views_held)) break;
    out.insert(since);
  }
  return out;
}

} // namespace

Shown::Shown(std::string path, const diag::Said& status, const wording::Language& in) : in_(&in) {
  State state;
  state.title = std::move(path);
  state.views = &views_;
  state.status = status;
  state_ = state_json(state, in);
}

std::optional<std::string> Shown::view(std::size_t number) const {
  if (number >= views_.size()) return std::nullopt;
  const std::lock_guard lock(mutex_);
  constexpr std::size_t most_made = 16;
  const auto known = made_.find(number);
  if (known != made_.end()) return known->second;
  if (made_.size() >= most_made) made_.clear();
  return made_[number] = view_json(views_[number], number, revision_, *in_);
}

Keeper::Keeper(std::string path, const wording::Language& in)
    : path_(std::move(path)), in_(in),
      now_(std::make_shared<const Shown>(path_, said::reading(), in)) {}

std::vector<ShownView> Keeper::views_of(const std::shared_ptr<const report::Report>& report,
                                        std::vector<std::size_t>& begins) const {
  std::vector<ShownView> out;
  for (std::size_t h = 0; h < report->held.size(); ++h) {
    const report::Held& held = report->held[h];
    begins.push_back(out.size());
    const report::Unread unread = report::unread_of(*report, held);
    for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
      const model::View& view = *held.plan.views[i].view;
      const diag::Subject about = held.about.of_view(static_cast<int>(i));
      const diag::SubjectNames names = report->names(about);
      ShownView one;
      one.name = view.name;
      one.title = view.title;
      const std::string group = names.group.empty() || !held.protocol->group.known()
                                    ? std::string()
                                    : in_.text(emit::group_said(held.protocol->group.get()));
      const std::string kit(report->kits.size() > 1 ? names.kit : std::string_view());
      one.of = group.empty() ? kit : kit.empty() ? group : in_.text(said::of(group, kit));
      one.report = report;
      one.held = h;
      one.view = i;
      one.since = now_->revision() + 1;
      for (const diag::Diagnostic* d : report->said_of(about)) {
        if (d->accepted.empty() && (!one.worst || *one.worst < d->severity))
          one.worst = d->severity;
      }
      if (!unread.whole_views[i]) {
        one.unread = true;
        one.worst = diag::Severity::error;
      }
      out.push_back(std::move(one));
    }
  }
  return out;
}

/// In the place of views of which something cannot be read, and of those that are gone because the
/// text cannot be parsed, the last that could.
void Keeper::keep_old(std::vector<ShownView>& views, const report::Report& report) const {
  std::unordered_map<std::string, std::size_t> now;
  for (std::size_t i = 0; i < views.size(); ++i)
    now.emplace(views[i].key(), i);
  const bool broken = is_broken(report);
  std::vector<const ShownView*> wanted;
  for (const ShownView& before : now_->views()) {
    const auto found = now.find(before.key());
    const bool needed = found == now.end() ? broken : views[found->second].unread;
    if (needed && !before.unread) wanted.push_back(&before);
  }
  const std::set<std::uint64_t> kept = newest(wanted);
  for (const ShownView* before : wanted) {
    if (kept.count(before->since) == 0) continue;
    const auto found = now.find(before->key());
    if (found == now.end()) {
      views.push_back(*before); // its findings are those of an older text
      views.back().worst.reset();
    } else {
      const auto worst = views[found->second].worst;
      views[found->second] = *before;
      views[found->second].worst = worst;
    }
    ShownView& view = found == now.end() ? views.back() : views[found->second];
    view.old = true;
  }
}

/// The view whose lines are others than before; where that is none, as it was.
void Keeper::note_change(const report::Report& report, const std::vector<ShownView>& views) {
  if (last_ == nullptr) return;
  for (std::size_t f = 0; f < report.sources.size(); ++f) {
    const auto id = static_cast<text::FileId>(f);
    const text::Source& now = report.sources[id];
    for (std::size_t g = 0; g < last_->sources.size(); ++g) {
      const text::Source& was = last_->sources[static_cast<text::FileId>(g)];
      if (was.name() != now.name()) continue;
      const auto stretch = difference(was.bytes(), now.bytes());
      if (!stretch) break;
      const auto touches = [&](text::Span whole) {
        return whole.file == id && whole.begin <= stretch->second && stretch->first <= whole.end;
      };
      std::vector<std::set<std::string_view>> edited; // by the report's `held`
      for (const report::Held& held : report.held) {
        edited.emplace_back();
        for (const model::Edit& e : held.protocol->edits) {
          if (touches(in_report(report, held, e.whole))) edited.back().insert(e.name);
        }
      }
      for (const ShownView& view : views) {
        const report::Held& held = report.held[view.held];
        if (edited[view.held].count(view.name) == 0 &&
            !touches(in_report(report, held, held.plan.views[view.view].view->whole)))
          continue;
        changed_ = view.key();
        ++changes_;
        return;
      }
      break;
    }
  }
}

std::shared_ptr<const Shown> Keeper::put(std::vector<ShownView> views, const report::Report* report,
                                         const std::vector<std::size_t>& begins,
                                         const diag::Said& why) {
  auto shown = std::shared_ptr<Shown>(new Shown);
  shown->in_ = &in_;
  shown->revision_ = now_->revision() + 1;
  shown->views_ = std::move(views);
  State state;
  state.revision = shown->revision_;
  state.title = path_;
  state.views = &shown->views_;
  state.report = report;
  state.begins = &begins;
  state.status = why;
  state.changed = changed_;
  state.changes = changes_;
  shown->state_ = state_json(state, in_);
  now_ = std::move(shown);
  return now_;
}

std::shared_ptr<const Shown> Keeper::next(std::shared_ptr<const report::Report> report) {
  std::vector<std::size_t> begins;
  std::vector<ShownView> views = views_of(report, begins);
  // What was edited is found before older texts come into the list: their places are others.
  note_change(*report, views);
  keep_old(views, *report);
  put(std::move(views), report.get(), begins, {});
  last_ = std::move(report);
  return now_;
}

std::shared_ptr<const Shown> Keeper::lost(const diag::Said& why) {
  std::vector<ShownView> views = now_->views();
  for (ShownView& view : views) {
    view.old = view.old || !view.unread;
    view.worst.reset();
  }
  return put(std::move(views), nullptr, {}, why);
}

} // namespace norma::live
