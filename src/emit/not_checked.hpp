// What was not checked, in words.
#pragma once

#include <string>
#include <vector>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// What is named beside a question: all of its subject, or its view alone where the page is about
/// one protocol with one kit.
enum class Naming { all, view };

/// One line for each missing datum: what stands open for want of it, in which views.
std::vector<std::string> not_checked_lines(const report::Report& report,
                                           const std::vector<const report::NotChecked*>& asked,
                                           Naming naming, const wording::Language& in);

} // namespace norma::emit
