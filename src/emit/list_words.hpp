// The rows of list.def as sentences: `list::iso_for_all(iso)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::emit::list {

#define NORMA_LIST(name, arguments) inline constexpr diag::Sentence<arguments> name{"list." #name};
#include "emit/list.def"
#undef NORMA_LIST

} // namespace norma::emit::list
