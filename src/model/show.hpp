// A resolved protocol as plain text of the language: nothing is inherited or derived any more, and
// each line says where it came from. Or without that, so that two of them can be compared as text.
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

/// The same without places and fingerprints: it says nothing of the files it is made of. Where what
/// it builds on could not be read, it is the protocol as it is written, without comments.
std::string shown_plainly(const Declared& declared, const std::optional<Group>& group,
                          diag::Findings& findings);
/// Was what it builds on laid below it?
bool is_on_its_base(const Declared& declared);
/// A file that could not be read whole: its own text.
std::string unread_plainly(const text::Source& source);

} // namespace norma::model
