// One view of the page as JSON: drawings, settings, what of it was not checked.
#pragma once

#include <string>

#include "live/shown.hpp"

namespace norma::live {

std::string view_json(const ShownView& view, std::size_t number, std::uint64_t revision,
                      const wording::Language& in);

} // namespace norma::live
