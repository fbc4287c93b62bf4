#include "session/documents.hpp"

#include "model/library.hpp"
#include "model/resolve.hpp"
#include "model/show.hpp"
#include "syntax/parser.hpp"
#include "syntax/tidy.hpp"

namespace norma::session {

std::unique_ptr<DocumentRun> show(const text::Files& files, const std::string& path,
                                  const std::string& root, const std::string& group) {
  auto run = std::make_unique<DocumentRun>();
  model::Library library(files, run->report.sources, root);
  auto opened = library.open(path, run->report.findings);
  if (auto* error = std::get_if<text::ReadError>(&opened)) {
    run->unreadable = std::move(*error);
    return run;
  }
  const model::Declared* declared = std::get<const model::Declared*>(opened);
  if (declared != nullptr) {
    const auto groups = model::groups_of(*declared);
    for (const auto& g : groups) {
      if (g) run->groups.push_back(model::to_text(*g));
    }
    for (const auto& g : groups) {
      const bool wanted = group.empty() || (g && model::to_text(*g) == group);
      if (!wanted) continue;
      static_cast<void>(model::resolve(*declared, g, run->report.findings)); // reports what is wrong
      run->made = model::shown(*declared, g, run->report.sources, run->report.findings);
      break;
    }
  }
  run->report.findings.settle();
  return run;
}

std::unique_ptr<DocumentRun> tidy(const text::Files& files, const std::string& path) {
  auto run = std::make_unique<DocumentRun>();
  text::ReadResult bytes = files.read(path);
  if (auto* error = std::get_if<text::ReadError>(&bytes)) {
    run->unreadable = std::move(*error);
    return run;
  }
  const text::FileId file = run->report.sources.add(path, std::move(std::get<std::string>(bytes)));
  const syntax::Tree tree = syntax::parse(file, run->report.sources, run->report.findings);
  run->report.findings.settle();
  if (run->report.findings.empty()) run->made = syntax::tidied(tree, run->report.sources[file]);
  return run;
}

} // namespace norma::session
