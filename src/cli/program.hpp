// The program around the commands: arguments, standard input, screens, exit code.
#pragma once

#include "cli/run.hpp"

namespace norma::cli {

/// What `main` does. `commit`: what the program was built from. `print` makes a PDF, `repository`
/// reads revisions; where they are none and one is asked for, `norma-press`, which lies beside this
/// program, is run in its place.
int program(int argc, char** argv, std::string_view commit,
            std::function<Printed(const drawing::Paper&)> print = {}, Repository repository = {});

} // namespace norma::cli
