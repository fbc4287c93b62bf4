#include "press/repository.hpp"

#include "revisions/revisions.hpp"

namespace norma::press {

cli::Repository repository() { return {revisions::files, revisions::work_tree, revisions::set}; }

} // namespace norma::press
