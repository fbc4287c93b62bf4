// A protocol's declarations to the typed protocol, for one group of patients.
#pragma once

#include <vector>

#include "diag/diagnostic.hpp"
#include "model/declared.hpp"
#include "model/protocol.hpp"

namespace norma::model {

/// The groups a protocol speaks of: first the one it is for, then those its blocks name. At least
/// one entry; it is empty where nobody says whom the protocol is for.
std::vector<std::optional<Group>> groups_of(const Declared& declared);

/// The protocol as it is for `group`.
Protocol resolve(const Declared& declared, const std::optional<Group>& group,
                 diag::Findings& findings);
/// The same, where what was declared is needed no more: a view's statements go as soon as the view
/// is made, so that both need not lie in memory whole.
Protocol resolve(Declared&& declared, const std::optional<Group>& group, diag::Findings& findings);

} // namespace norma::model
