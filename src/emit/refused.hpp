// What stands in place of a page where protocol or kit could not be read whole.
#pragma once

#include <optional>
#include <string>

#include "emit/document.hpp"
#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// The protocol's title, or else its name.
const std::string& title_of(const model::Protocol& protocol);
/// DO NOT USE, and what could not be read; nothing where all could.
std::optional<Document> refused(const report::Report& report, const report::Held& held,
                                const wording::Language& in);

} // namespace norma::emit
