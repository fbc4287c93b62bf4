// Lists in files that are made from the program's tables. UPDATE_GENERATED=1 rewrites them.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace norma::test {

/// Holds what stands between the lines `begin` and `end` of a file (below the top of the checkout)
/// against `content`; both markers must be there once.
void hold_between(const std::filesystem::path& file, std::string_view begin, std::string_view end,
                  const std::string& content);
/// The same for a whole file.
void hold_file(const std::filesystem::path& file, const std::string& content);

} // namespace norma::test
