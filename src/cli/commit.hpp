// What the program was built from. A unit of its own, so that a new commit links the two programs
// anew and compiles nothing else.
#pragma once

#include <string_view>

namespace norma::cli {

/// The commit's first digits; "" where the sources were no git repository.
std::string_view commit();

} // namespace norma::cli
