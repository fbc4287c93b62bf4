// What a project file says, key by key.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kit/key.hpp"
#include "text/source.hpp"
#include "text/sourced.hpp"

namespace norma::project {

/// From which finding on a check has failed.
enum class FailOn { advice, warning, error, never };

/// Groups of patients, as protocols name them; `children` are all of them.
enum class Patients { adults, children, mixed_teeth, milk_teeth };
/// As a protocol writes it behind `for`.
std::string_view to_text(Patients group);

using text::Sourced;
using Paths = std::vector<Sourced<std::string>>;

/// What holds for one folder and all below it.
struct Folder {
  text::Span span;
  Sourced<std::string> folder;
  std::optional<Paths> kits; // an empty list: none
  std::vector<Patients> groups;
};

struct Settings {
  std::optional<Paths> kits;
  std::vector<Patients> groups;
  Sourced<FailOn> fail_on;
  std::optional<Paths> leave_out;
  Sourced<std::string> baseline;
  std::vector<Folder> folders;
};

const kit::Section<Settings>& project_section();
const kit::Section<Folder>& folder_section();

} // namespace norma::project
