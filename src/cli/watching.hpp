// A command that is run again and again, at each save of what it reads.
#pragma once

#include "cli/commands.hpp"

namespace norma::cli {

/// Runs `command` once, and again whenever the protocols, what they build on or the kits are saved,
/// until `options.stop` is true. What it says is told at once; a run that could not be whole leaves
/// the file of -o as it was. A quarter of a second lies between two runs at least.
Outcome watched(const Options& options, Outcome (*command)(const Options&));

/// Under --watch: is what came of the run no document, so that the last one is kept? Adds to
/// `outcome` that it is.
bool keeps_last(const Options& options, bool whole, Outcome& outcome);

} // namespace norma::cli
