// What the camera writes.
#include <algorithm>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

kit::FileFormat of_camera(model::FileFormat asked) {
  switch (asked) {
  case model::FileFormat::raw: return kit::FileFormat::raw;
  case model::FileFormat::jpeg: return kit::FileFormat::jpeg;
  case model::FileFormat::raw_and_jpeg: break;
  }
  return kit::FileFormat::raw_and_jpeg;
}

} // namespace

void plan_file_format(Job& job) {
  const Recording one(job.facts);
  const auto& asked = job.view.file_format;
  if (asked.broken()) job.facts.put_broken(fact::file_format);
  if (!asked.known()) return;
  const kit::Kit* kit = job.kit();
  if (kit != nullptr && !kit->file_formats.empty()) {
    const auto& has = kit->file_formats;
    if (std::find(has.begin(), has.end(), of_camera(asked.get())) == has.end()) {
      List all;
      for (const kit::FileFormat format : has)
        all.items.emplace_back(term_of(format));
      return job.facts.put_impossible(fact::file_format, phrase::camera_writes(std::move(all)));
    }
  } else {
    job.open(question::file_format_written,
             kit == nullptr ? missing::kit() : missing::file_formats());
  }
  job.facts.put_asked(fact::file_format, asked.get());
}

} // namespace norma::plan
