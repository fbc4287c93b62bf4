#include "session/session.hpp"

#include "diag/catalogue.hpp"
#include "kit/read_kit.hpp"
#include "model/fingerprint.hpp"
#include "model/library.hpp"
#include "model/resolve.hpp"
#include "rules/rules.hpp"

namespace norma::session {

Session::~Session() = default;

std::optional<NoFile> Session::run(const Request& request) {
  for (const std::string& path : request.kits) {
    text::ReadResult bytes = files_.read(path);
    if (auto* error = std::get_if<text::ReadError>(&bytes)) return NoFile{path, std::move(*error)};
    const text::FileId file = sources_.add(path, std::move(std::get<std::string>(bytes)));
    kits_.push_back(std::make_unique<kit::Kit>(kit::read_kit(file, sources_, findings_)));
  }
  model::Library library(files_, sources_, request.root);
  for (const std::string& path : request.protocols) {
    const auto opened = library.open(path, findings_);
    if (const auto* error = std::get_if<text::ReadError>(&opened)) return NoFile{path, *error};
    const model::Declared* declared = std::get<const model::Declared*>(opened);
    if (declared != nullptr) work_out(path, *declared, request);
  }
  find_idle_exceptions();
  if (!results_.empty()) {
    for (const auto& limit : plan::limits)
      not_checked_.push_back({"", "", std::string(limit.what), std::string(limit.missing)});
  }
  findings_.settle();
  return std::nullopt;
}

void Session::work_out(const std::string& path, const model::Declared& declared,
                       const Request& request) {
  const auto groups = model::groups_of(declared);
  bool any = false;
  for (const auto& group : groups) {
    const bool wanted = request.group.empty() || (group && model::to_text(*group) == request.group);
    if (!wanted) continue;
    any = true;
    protocols_.push_back(
        std::make_unique<model::Protocol>(model::resolve(declared, group, findings_)));
    model::Protocol& protocol = *protocols_.back();
    if (request.fingerprints) {
      model::Fingerprint f = model::fingerprint(declared, group);
      protocol.fingerprint_pictures = std::move(f.pictures);
      protocol.fingerprint_everything = std::move(f.everything);
    }
    if (groups.size() > 1 && group) protocol.group_label = model::to_text(*group);
    for (std::size_t k = 0; k < std::max<std::size_t>(1, kits_.size()); ++k)
      hold(path, protocol, k, request);
  }
  if (!any) no_group_ = path;
}

/// A protocol for one group, held against one kit (or none).
void Session::hold(const std::string& path, const model::Protocol& protocol, std::size_t k,
                   const Request& request) {
  Result result;
  result.protocol_path = path;
  result.protocol = &protocol;
  if (!kits_.empty()) {
    result.kit_path = request.kits[k];
    result.kit = kits_[k].get();
  }
  result.plan = plan::make_plan(protocol, result.kit, request.on);
  diag::Findings found;
  rules::apply({protocol, result.kit, result.plan, request.on}, found);
  accept(protocol, found);
  findings_.append(std::move(found));
  const std::string kit_name =
      result.kit == nullptr ? "" : result.kit->name.value_or(result.kit_path);
  for (const plan::ViewPlan& view : result.plan.views) {
    for (const plan::OpenQuestion& open : view.open) {
      not_checked_.push_back(
          {plan::label(protocol, *view.view), kit_name, open.what, open.missing});
    }
  }
  results_.push_back(std::move(result));
}

/// Exceptions act once, after all rules: they mark a finding, never delete it.
void Session::accept(const model::Protocol& protocol, diag::Findings& found) {
  for (const model::Exception& e : protocol.exceptions) {
    const model::View* view = protocol.view(e.view);
    bool& met = exceptions_[{e.span.file, e.span.begin}].met;
    exceptions_[{e.span.file, e.span.begin}].exception = &e;
    if (view == nullptr) continue;
    const std::string label = plan::label(protocol, *view);
    found.accept(e.finding, label, e.because, met);
  }
}

/// An exception that met nothing, in no group and with no kit, is a finding of its own; without a
/// kit nobody can tell.
void Session::find_idle_exceptions() {
  for (const auto& [at, tried] : exceptions_) {
    const model::Exception& e = *tried.exception;
    if (tried.met) continue;
    if (kits_.empty()) {
      not_checked_.push_back({e.view, "", "whether `" + e.finding + "` comes up", "a kit"});
      continue;
    }
    findings_.add(diag::make(diag::catalogue::accept_meets_nothing, e.span, e.finding, e.view))
        .with_help("take the line out");
  }
}

} // namespace norma::session
