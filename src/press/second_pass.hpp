// What cairo cannot write into a PDF.
#pragma once

#include <string>
#include <vector>

namespace norma::press {

/// Adds the language, the title to be shown, what is read aloud in place of each figure (in their
/// order), and an id that hangs on the content alone. Throws std::exception where `pdf` is none.
std::string second_pass(const std::string& pdf, const std::string& title,
                        const std::string& language, const std::vector<std::string>& alts);

} // namespace norma::press
