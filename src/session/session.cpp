#include "session/session.hpp"

#include "kit/read_kit.hpp"
#include "model/resolve.hpp"
#include "rules/rules.hpp"
#include "syntax/parser.hpp"

namespace norma::session {

Session::~Session() = default;

std::optional<NoFile> Session::run(const Request& request) {
  const auto read = [&](const std::string& path) -> std::variant<text::FileId, NoFile> {
    text::ReadResult bytes = files_.read(path);
    if (auto* error = std::get_if<text::ReadError>(&bytes)) return NoFile{path, std::move(*error)};
    return sources_.add(path, std::move(std::get<std::string>(bytes)));
  };

  for (const std::string& path : request.kits) {
    const auto file = read(path);
    if (const auto* missing = std::get_if<NoFile>(&file)) return *missing;
    kits_.push_back(std::make_unique<kit::Kit>(
        kit::read_kit(std::get<text::FileId>(file), sources_, findings_)));
  }
  for (const std::string& path : request.protocols) {
    const auto file = read(path);
    if (const auto* missing = std::get_if<NoFile>(&file)) return *missing;
    diag::Findings in_text;
    const syntax::Tree tree = syntax::parse(std::get<text::FileId>(file), sources_, in_text);
    const bool sound = in_text.empty();
    findings_.append(std::move(in_text));
    auto protocol = model::resolve(tree, sources_, sound, findings_);
    protocols_.push_back(protocol ? std::make_unique<model::Protocol>(std::move(*protocol))
                                  : nullptr);
  }
  for (std::size_t p = 0; p < protocols_.size(); ++p) {
    if (!protocols_[p]) continue;
    for (std::size_t k = 0; k < std::max<std::size_t>(1, kits_.size()); ++k) {
      Result result;
      result.protocol_path = request.protocols[p];
      result.protocol = protocols_[p].get();
      if (!kits_.empty()) {
        result.kit_path = request.kits[k];
        result.kit = kits_[k].get();
      }
      result.plan = plan::make_plan(*result.protocol, result.kit, request.on);
      rules::apply({*result.protocol, result.kit, result.plan, request.on}, findings_);
      const std::string kit_name =
          result.kit == nullptr ? "" : result.kit->name.value_or(result.kit_path);
      for (const plan::ViewPlan& view : result.plan.views) {
        for (const plan::OpenQuestion& open : view.open) {
          not_checked_.push_back({view.view->name, kit_name, open.what, open.missing});
        }
      }
      results_.push_back(std::move(result));
    }
  }
  if (!results_.empty()) {
    for (const auto& limit : plan::limits)
      not_checked_.push_back({"", "", std::string(limit.what), std::string(limit.missing)});
  }
  findings_.settle();
  return std::nullopt;
}

} // namespace norma::session
