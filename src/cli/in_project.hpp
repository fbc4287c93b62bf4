// Which protocols a command looks at, and with which kits: what the command line says, else what
// the project file says of each of them.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cli/run.hpp"
#include "diag/diagnostic.hpp"
#include "project/project.hpp"
#include "session/session.hpp"

namespace norma::cli {

struct Options;

struct Chosen {
  std::vector<std::string> protocols;
  std::vector<std::string> kits;
  std::vector<session::Own> own; // as of session::Request
  /// None where the protocols lie in none.
  std::shared_ptr<const project::Project> project;
  std::vector<std::string> ways; // of the protocols from the project's folder; "" outside of it
  std::size_t left_out = 0;      // protocols that were found and are left out
};
using ChosenAnswer = std::variant<Chosen, project::NotRead, Outcome>;

/// The protocols that were asked for, or where no file was named, all of the project. They lie in
/// one project at most.
ChosenAnswer chosen_of(const Options& options);

/// The kits that are held against these files, by their project; nothing where they are not the
/// same for all of them, none where there are none.
std::optional<std::vector<std::string>> kits_of_all(const Chosen& chosen);

/// The first of the protocols for which there is no kit, where one is needed.
std::optional<Outcome> without_kit(const Chosen& chosen);

/// What is told of protocols that the project file leaves out; "" where it leaves out none.
std::string left_out_text(const Chosen& chosen);

/// The run could not start for the project file's sake.
Outcome nothing_looked_at(const project::NotRead& broken);
/// How a run ends whose project file cannot be gone by: with its findings.
Outcome project_not_read(const project::NotRead& broken, const Options& options);

/// From which finding on `check` has failed; none: whatever is found.
std::optional<diag::Severity> fails_on(const Options& options, const Chosen& chosen);

} // namespace norma::cli
