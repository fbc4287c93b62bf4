// The commands' repository is libgit2's.
#pragma once

#include "cli/run.hpp"

namespace norma::press {

cli::Repository repository();

} // namespace norma::press
