#include "session/worker.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

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
    const std::vector<const model::Protocol*> protocols =
        last ? resolve(library_.close(*declared), share) : resolve(*declared, share);
    for (const model::Protocol* protocol : protocols) {
      for (std::size_t k = 0; k < std::max<std::size_t>(1, kits_.size()); ++k)
        hold(path, *protocol, k, share);
    }
  }
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
void Worker::hold(const std::string& path, const model::Protocol& protocol, std::size_t k,
                  Share& share) {
  Result result;
  result.protocol_path = path;
  result.protocol = &protocol;
  if (!kits_.empty()) {
    result.kit_path = request_.kits[k];
    if (kits_[k]->readable) result.kit = kits_[k].get(); // else it was said what is wrong with it
  }
  result.plan = plan::make_plan(protocol, result.kit, {request_.on, request_.scene, &cache_});
  diag::Findings found;
  rules::apply({protocol, result.kit, result.plan, request_.on}, found);
  accept(result, found);
  share.findings.append(std::move(found));
  const std::string kit_name =
      result.kit == nullptr ? "" : result.kit->name.value_or(result.kit_path);
  if (share.not_checked.empty()) { // else it grows by itself
    std::size_t questions = 0;
    for (const plan::ViewPlan& view : result.plan.views)
      questions += view.open.size();
    share.not_checked.reserve(questions);
  }
  for (const plan::ViewPlan& view : result.plan.views) {
    for (const plan::OpenQuestion& open : view.open) {
      share.not_checked.push_back(
          {path, plan::label(protocol, *view.view), kit_name, open.what, open.missing});
    }
  }
  share.results.push_back(std::move(result));
}

/// Exceptions act once, after all rules: they mark a finding, never delete it.
void Worker::accept(const Result& result, diag::Findings& found) {
  const model::Protocol& protocol = *result.protocol;
  for (const model::Exception& e : protocol.exceptions) {
    const model::View* view = protocol.view(e.view);
    Tried& tried = exceptions_[e.span];
    tried.exception = &e;
    if (view == nullptr) continue;
    const std::string label = plan::label(protocol, *view);
    found.accept(e.finding, label, e.because, tried.met);
    const plan::ViewPlan* plan = result.plan.view(e.view);
    std::string missing = plan == nullptr ? "" : rules::missing_for(e.finding, *plan);
    if (tried.missing.empty() || (!missing.empty() && missing < tried.missing))
      tried.missing = std::move(missing);
  }
}

} // namespace norma::session
