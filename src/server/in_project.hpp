// What the project file above a document says of it.
#pragma once

#include <string>
#include <vector>

#include "text/files.hpp"

namespace norma::server {

struct InProject {
  std::vector<std::string> kits;
  std::vector<std::string> patients; // as of workspace::Ask
  std::string broken;                // the project file, where it cannot be gone by
};

/// Nothing where there is none.
InProject in_project(const text::Files& files, const std::string& path);

} // namespace norma::server
