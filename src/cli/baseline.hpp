// Known findings: today's held against the file that the project names.
#pragma once

#include <optional>
#include <string>

#include "cli/commands.hpp"
#include "project/known.hpp"

namespace norma::cli {

/// Why a run that is to know findings cannot start; nothing where it can, or is not to.
std::optional<Outcome> without_baseline(const Options& options, const Chosen& chosen);

struct Baseline {
  project::HeldAgainst held;
  std::string said; // what was written, for standard error
};

/// Marks what is known in `report`, and with --write-baseline writes the file before. Or why it
/// cannot be read or written.
std::variant<Baseline, Outcome> hold_against_known(report::Report& report, const Options& options,
                                                   const Chosen& chosen);

/// What is known and what is gone, in words.
std::string baseline_text(const Baseline& baseline, std::size_t known, const Options& options);

} // namespace norma::cli
