// What something is said of, in words.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

diag::Said severity_said(diag::Severity severity);
diag::Said group_said(const model::Group& group);
diag::Said surface_said(physics::Surface surface);
/// Which protocol, in which revision, for whom and which series; `series` null: all views.
diag::Said protocol_said(const plan::Plan& plan, const model::Series* series);
/// With which kit it is planned, and for which day.
diag::Said kit_said(const plan::Plan& plan);

/// A view's name, with the group of patients where the protocol speaks of several; "" for none.
std::string view_label(const report::Report& report, const diag::Subject& about,
                       const wording::Language& in);
/// The labels of all views that are named, each once.
std::vector<std::string> view_labels(const report::Report& report,
                                     const std::vector<diag::Subject>& about,
                                     const wording::Language& in);
/// `view front`, `views front, upper`; of many the first few and how many more.
std::string views_text(const std::vector<std::string>& views, const wording::Language& in);
/// `view front with chair_3`, `series record`; "" where no view, series or kit is named.
std::string about_text(const report::Report& report, const std::vector<diag::Subject>& about,
                       const wording::Language& in);
/// The same of what a finding is about: all of it, or a part. A finding of a protocol that builds
/// on another names it where it points into another file: `view front in quarry_five with chair_3`.
std::string about_text(const report::Report& report, const diag::Diagnostic& found,
                       const std::vector<diag::Subject>& about, const wording::Language& in);

} // namespace norma::emit
