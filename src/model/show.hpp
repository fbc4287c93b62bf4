// A resolved protocol as plain text of the language: nothing is inherited or derived any more, and
// each line says where it came from.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "diag/diagnostic.hpp"
#include "model/declared.hpp"
#include "text/source.hpp"

namespace norma::model {

/// The text of a file that the protocol is made of.
using SourceOf = std::function<const text::Source&(text::FileId)>;

/// Text that can be read again and asks for the same: it has the same fingerprint.
std::string shown(const Declared& declared, const std::optional<Group>& group,
                  const SourceOf& source_of, diag::Findings& findings);

} // namespace norma::model
