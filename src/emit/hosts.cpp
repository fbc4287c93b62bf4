#include "emit/hosts.hpp"

#include <fmt/core.h>

#include <filesystem>

#include "emit/told.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

std::string path_in_repository(const report::Report& report, text::FileId file) {
  namespace fs = std::filesystem;
  const fs::path typed = fs::path(report.sources[file].name()).lexically_normal();
  const auto known = report.in_project.find(file);
  if (known == report.in_project.end()) return typed.string();
  // A project with folders is a repository. Else it may be the file's own folder alone: it then
  // knows less than what was typed.
  fs::path below;
  for (const fs::path& part : typed) {
    if (part != "..") below /= part;
  }
  const bool certain = known->second.find('/') != std::string::npos;
  return certain || typed.is_absolute() || below == known->second ? known->second : typed.string();
}

text::FileId file_of(const report::Report& report, const Told& told) {
  if (told.finding->span.known()) return told.finding->span.file;
  if (told.about == nullptr) return text::FileId::none;
  if (told.about->file != diag::Subject::none)
    return report.files[static_cast<std::size_t>(told.about->file)].read.front();
  if (told.about->kit != diag::Subject::none)
    return report.kits[static_cast<std::size_t>(told.about->kit)].file;
  return text::FileId::none;
}

std::string told_text(const report::Report& report, const Told& told) {
  const std::string about = about_text(report, told, wording::english());
  return about + (about.empty() ? "" : ": ") + wording::english().text(told.finding->message);
}

std::string open_text(const report::NotChecked& question) {
  return fmt::format("{} (missing: {})", wording::english().text(question.what),
                     wording::english().text(question.missing));
}

} // namespace norma::emit
