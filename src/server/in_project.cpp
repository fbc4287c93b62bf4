#include "server/in_project.hpp"

#include "project/project.hpp"

namespace norma::server {

InProject in_project(const text::Files& files, const std::string& path) {
  const auto above = files.project_above(path);
  if (!above) return {};
  const auto read = project::read_project(files, above->path);
  if (std::holds_alternative<project::NotRead>(read)) return {{}, {}, above->path};
  const auto& project = std::get<project::Project>(read);
  return {project.kits_of(above->way), project.groups_of(above->way), ""};
}

} // namespace norma::server
