#include "text/version.hpp"

namespace norma::text {

std::string_view version() { return NORMA_VERSION; }

} // namespace norma::text
