// The third result beside met and not met: nobody can say, because a datum is missing.
#pragma once

#include <string>
#include <vector>

namespace norma::diag {

/// Something that could not be checked, and the datum that is missing.
struct NotChecked {
  std::string file; // of the protocol; "" where it holds for all of the run
  std::string view; // "" where it holds for the whole protocol
  std::string kit;
  std::string what;
  std::string missing;
};

/// One line for each missing datum: what stands open for want of it, in which views.
std::vector<std::string> not_checked_lines(const std::vector<NotChecked>& all);

} // namespace norma::diag
