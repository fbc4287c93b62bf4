#include "session/worker.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "diag/catalogue.hpp"
#include "model/fingerprint.hpp"
#include "model/resolve.hpp"
#include "rules/rules.hpp"
#include "rules/unsettled.hpp"

namespace norma::session {

Worker::Worker(const text::Files& files, const text::Sources& sources, const Request& request,
               const std::vector<std::unique_ptr<kit::Kit>>& kits, plan::WorkCache& cache)
    : request_(request), kits_(kits), cache_(cache), library_(files, sources_, request.root) {
  // Kits keep their places: findings about them hold in every numbering.
  for (std::size_t i = 0; i < sources.size(); ++i)
    sources_.share(sources, static_cast<text::FileId>(i));
}

void Worker::take(std::size_t index) {
  Share share;
  share.index = index;
  const std::string& path = request_.protocols[index];
  const auto opened = library_.open(path);
  if (const auto* error = std::get_if<text::ReadError>(&opened)) {
    share.no_file = NoFile{path, *error};
  } else if (const auto* declared = std::get<const model::Declared*>(opened)) {
    // Nothing is opened after the last: what was declared need not lie beside what is made of it.
    const bool last = index + 1 == request_.protocols.size();
    share.protocols = last ? resolve(library_.close(*declared), share) : resolve(*declared, share);
    diag::Subject about{static_cast<int>(index)};
    share.findings.are_about_file(about.file);
    for (const model::Protocol* protocol : share.protocols) {
      ++about.group;
      if (kits_.empty()) hold(*protocol, about, share);
      for (about.kit = 0; about.kit < static_cast<int>(kits_.size()); ++about.kit)
        hold(*protocol, about, share);
      about.kit = diag::Subject::none;
    }
  }
  share.read = library_.made_of(path);
  shares_.push_back(std::move(share));
}

/// The protocol for each group of patients that was asked for.
template <class DeclaredOnce>
std::vector<const model::Protocol*> Worker::resolve(DeclaredOnce&& declared, Share& share) {
  std::vector<const model::Protocol*> out;
  const auto groups = model::groups_of(declared);
  std::vector<std::optional<model::Group>> wanted;
  std::copy_if(groups.begin(), groups.end(), std::back_inserter(wanted), [&](const auto& group) {
    return request_.group.empty() || (group && model::to_text(*group) == request_.group);
  });
  for (const auto& group : wanted) {
    const bool needed = request_.fingerprints || &group != &wanted.back();
    protocols_.push_back(std::make_unique<model::Protocol>(
        needed ? model::resolve(std::as_const(declared), group, share.findings)
               : model::resolve(std::forward<DeclaredOnce>(declared), group, share.findings)));
    model::Protocol& protocol = *protocols_.back();
    if (request_.fingerprints) {
      model::Fingerprint f = model::fingerprint(declared, group);
      protocol.fingerprint_pictures = std::move(f.pictures);
      protocol.fingerprint_everything = std::move(f.everything);
    }
    if (groups.size() > 1 && group) protocol.group_label = model::to_text(*group);
    out.push_back(&protocol);
  }
  share.no_group = out.empty();
  return out;
}

/// A protocol for one group, held against one kit (or none).
void Worker::hold(const model::Protocol& protocol, diag::Subject about, Share& share) {
  report::Held held;
  held.about = about;
  held.protocol = &protocol;
  if (about.kit != diag::Subject::none) {
    const kit::Kit& kit = *kits_[static_cast<std::size_t>(about.kit)];
    if (kit.readable) held.kit = &kit; // else it was said what is wrong with it
  }
  held.plan = plan::make_plan(protocol, held.kit, {request_.on, request_.scene, &cache_});
  diag::Findings found;
  rules::apply({protocol, held.kit, held.plan, request_.on, about}, found);
  accept(held, found);
  share.findings.append(std::move(found));
  if (share.not_checked.empty()) { // else it grows by itself
    std::size_t questions = 0;
    for (const plan::ViewPlan& view : held.plan.views)
      questions += view.open.size();
    share.not_checked.reserve(questions);
  }
  const diag::Subject asked = held.kit == nullptr ? about.without_kit() : about;
  for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
    for (const plan::OpenQuestion& open : held.plan.views[i].open)
      share.not_checked.push_back({asked.of_view(static_cast<int>(i)), open.what, open.missing});
  }
  share.held.push_back(std::move(held));
}

/// Exceptions act once, after all rules: they mark a finding, never delete it.
void Worker::accept(const report::Held& held, diag::Findings& found) {
  const model::Protocol& protocol = *held.protocol;
  for (const model::Exception& e : protocol.exceptions) {
    Tried& tried = exceptions_[e.span];
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
    if (tried.exception == nullptr || everywhere < tried.about) tried.about = everywhere;
    tried.exception = &e;
    found.accept(e.finding, about, e.because, tried.met);
    if (about.view == diag::Subject::none) continue;
    diag::Said missing =
        rules::missing_for(*diag::catalogue::find(e.finding),
                           held.plan.views[static_cast<std::size_t>(about.view)]);
    if (tried.missing.empty() || (!missing.empty() && missing < tried.missing))
      tried.missing = std::move(missing);
  }
}

} // namespace norma::session
