// The rows of server.def as sentences: `said::unknown_method(name)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::server::said {

#define NORMA_SERVER(name, arguments)                                                              \
  inline constexpr diag::Sentence<arguments> name{"server." #name};
#include "server/server.def"
#undef NORMA_SERVER

} // namespace norma::server::said
