// What of a protocol and its kit could not be read, and what is therefore not to be trusted.
#pragma once

#include <cstddef>
#include <vector>

#include "report/report.hpp"

namespace norma::report {

/// Does it say that something could not be read: an error of text, names, meaning or kit?
bool tells_of_unread(const diag::Diagnostic& d);

/// Errors that are counted, but not listed: of them nobody can tell what they are about.
std::size_t errors_not_listed(const diag::Findings& findings);

/// How far a protocol held against a kit was read.
struct Unread {
  std::vector<const diag::Diagnostic*> findings; // in the order of the report
  bool more = false;                             // errors are not listed, and may be of these
  std::vector<bool> whole_views;                 // one for each view of the protocol

  [[nodiscard]] bool whole() const { return findings.empty() && !more; }
};

/// What stands in a view's own block counts for it and for those that are made from it, all else
/// for every view.
Unread unread_of(const Report& report, const Held& held);

} // namespace norma::report
