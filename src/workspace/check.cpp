#include "workspace/check.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "diag/catalogue.hpp"
#include "rules/rules.hpp"
#include "rules/unsettled.hpp"

namespace norma::workspace {
namespace {

class Checker {
 public:
  Checker(const Ask& ask, Store& store, const Cancel& cancel, Checked& out)
      : ask_(ask), store_(store), cancel_(cancel), out_(out) {}

  /// A protocol for one group, held against one kit (or none). False where it was cancelled.
  bool hold(const model::Protocol& protocol, diag::Subject about) {
    report::Held held;
    held.about = about;
    held.protocol = &protocol;
    if (about.kit != diag::Subject::none) {
      const KitRead& read = *ask_.kits[static_cast<std::size_t>(about.kit)];
      if (read.kit->readable) held.kit = read.kit; // else it was said what is wrong with it
    }
    held.plan =
        plan::make_plan(protocol, held.kit, {ask_.on, ask_.scene, &store_.works, cancel_.flag()});
    if (cancel_.cancelled()) return false;
    diag::Findings found;
    rules::apply({protocol, held.kit.get(), held.plan, ask_.on, about}, found);
    accept(held, found);
    out_.findings.append(std::move(found));
    if (out_.not_checked.empty()) { // else it grows by itself
      std::size_t questions = 0;
      for (const plan::ViewPlan& view : held.plan.views)
        questions += view.open.size();
      out_.not_checked.reserve(questions);
    }
    const diag::Subject asked = held.kit == nullptr ? about.without_kit() : about;
    for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
      for (const plan::OpenQuestion& open : held.plan.views[i].open)
        out_.not_checked.push_back({asked.of_view(static_cast<int>(i)), open.what, open.missing});
    }
    if (!ask_.plans) held.plan = {};
    out_.held.push_back(std::move(held));
    return true;
  }

  void list_exceptions() {
    for (auto& [span, tried] : exceptions_)
      out_.exceptions.push_back(std::move(tried));
  }

 private:
  static bool speaks_of(const model::Exception& e, const report::Held& held) {
    return e.kits.empty() ||
           (held.kit != nullptr && held.kit->name.known() &&
            std::find(e.kits.begin(), e.kits.end(), held.kit->name.get()) != e.kits.end());
  }

  /// Exceptions act once, after all rules: they mark a finding, never delete it.
  void accept(const report::Held& held, diag::Findings& found) {
    const model::Protocol& protocol = *held.protocol;
    for (const model::Exception& e : protocol.exceptions) {
      const auto [entry, fresh] = exceptions_.try_emplace(e.span);
      Tried& tried = entry->second;
      const auto index = [](const auto& list, const std::string& name) {
        const auto at = std::find_if(list.begin(), list.end(),
                                     [&](const auto& one) { return one.name == name; });
        return at == list.end() ? diag::Subject::none : static_cast<int>(at - list.begin());
      };
      diag::Subject about = held.about;
      about.view = e.view.empty() ? diag::Subject::none : index(protocol.views, e.view);
      about.series = e.series.empty() ? diag::Subject::none : index(protocol.series, e.series);
      diag::Subject everywhere = about.without_kit();
      everywhere.group = diag::Subject::none;
      const bool over = e.has_run_out(ask_.on);
      if (fresh) {
        tried = {everywhere, e.finding, e.view, e.series, e.kits, over ? e.until : std::nullopt,
                 false,      false,     {},     e.span};
      }
      tried.about = std::min(tried.about, everywhere);
      if (!speaks_of(e, held)) continue;
      tried.kit_given = true;
      if (over)
        tried.met = tried.met || found.has(e.finding, about);
      else
        found.accept(e.finding, about, e.because, tried.met);
      if (about.view == diag::Subject::none) continue;
      diag::Said missing = rules::missing_for(
          *diag::catalogue::find(e.finding), held.plan.views[static_cast<std::size_t>(about.view)]);
      if (tried.missing.empty() || (!missing.empty() && missing < tried.missing))
        tried.missing = std::move(missing);
    }
  }

  const Ask& ask_;
  Store& store_;
  const Cancel& cancel_;
  Checked& out_;
  std::map<text::Span, Tried> exceptions_;
};

} // namespace

std::optional<Checked> checked(std::shared_ptr<const Resolved> resolved, const Ask& ask,
                               Store& store, const Cancel& cancel) {
  Checked out;
  out.kits = ask.kits;
  out.findings = resolved->findings;
  diag::Subject about{0};
  out.findings.are_about_file(about.file);
  Checker checker(ask, store, cancel, out);
  for (const auto& protocol : resolved->protocols) {
    ++about.group;
    about.kit = diag::Subject::none;
    if (ask.kits.empty() && !checker.hold(*protocol, about)) return std::nullopt;
    for (about.kit = 0; about.kit < static_cast<int>(ask.kits.size()); ++about.kit) {
      if (!checker.hold(*protocol, about)) return std::nullopt;
    }
  }
  checker.list_exceptions();
  ++store.worked.checked;
  out.resolved = std::move(resolved);
  return out;
}

} // namespace norma::workspace
