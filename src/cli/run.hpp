// The command line as a function, so that tests run just what users run.
//
// The folder cli/ holds main and one file for each command.
#pragma once

#include <string>
#include <vector>

namespace norma::cli {

/// What a run has to say, and how it ended: 0 fine; 1 findings at or above the level of --fail-on;
/// 2 could not run.
struct Outcome {
  int code = 0;
  std::string out;
  std::string err;
};

/// Runs `norma` with these arguments (without the program's name), relative to the current folder.
Outcome run(const std::vector<std::string>& arguments);

} // namespace norma::cli
