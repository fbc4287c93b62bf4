#include "report/unread.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_map>

namespace norma::report {
namespace {

/// A place in a protocol as a place in the report.
text::Span in_report(const File& from, text::Span span) {
  const auto at = std::find(from.numbers.begin(), from.numbers.end(), span.file);
  span.file = at == from.numbers.end()
                  ? text::FileId::none
                  : from.read[static_cast<std::size_t>(at - from.numbers.begin())];
  return span;
}

bool within(text::Span inner, text::Span outer) {
  return inner.file == outer.file && inner.begin >= outer.begin && inner.end <= outer.end;
}

std::vector<bool> whole_views(const model::Protocol& p, const File& from, const Unread& unread) {
  std::vector<bool> whole(p.views.size(), !unread.more);
  if (unread.findings.empty()) return whole;
  std::unordered_map<std::string_view, std::size_t> places;
  for (std::size_t i = 0; i < p.views.size(); ++i)
    places.emplace(p.views[i].name, i);
  for (const diag::Diagnostic* d : unread.findings) {
    bool of_views = false;
    const auto spoil = [&](std::size_t i) {
      whole[i] = false;
      of_views = true;
    };
    for (const diag::Subject& subject : d->about) {
      if (subject.view != diag::Subject::none) spoil(static_cast<std::size_t>(subject.view));
    }
    for (std::size_t i = 0; i < p.views.size() && d->span.known(); ++i) {
      if (within(d->span, in_report(from, p.views[i].whole))) spoil(i);
    }
    for (const model::Edit& e : p.edits) {
      const auto at = places.find(e.name);
      if (e.what == model::Edit::What::change_view && at != places.end() && d->span.known() &&
          within(d->span, in_report(from, e.whole)))
        spoil(at->second);
    }
    if (!of_views) return std::vector<bool>(p.views.size(), false);
  }
  // Ways from view to view end: they are checked.
  std::vector<bool> out = whole;
  for (std::size_t i = 0; i < p.views.size(); ++i) {
    const model::View* at = &p.views[i];
    for (std::size_t steps = 0; steps < p.views.size() && out[i] && !at->made_from.empty();
         ++steps) {
      const auto next = places.find(at->made_from);
      if (next == places.end()) break;
      out[i] = whole[next->second];
      at = &p.views[next->second];
    }
  }
  return out;
}

} // namespace

bool tells_of_unread(const diag::Diagnostic& d) {
  constexpr std::string_view of_reading = "SRMK";
  return d.severity == diag::Severity::error && d.accepted.empty() &&
         of_reading.find(d.definition->code.front()) != std::string_view::npos;
}

std::size_t errors_not_listed(const diag::Findings& findings) {
  const auto listed =
      std::count_if(findings.all().begin(), findings.all().end(), [](const diag::Diagnostic& d) {
        return d.severity == diag::Severity::error && d.accepted.empty();
      });
  return findings.count(diag::Severity::error) - static_cast<std::size_t>(listed);
}

Unread unread_of(const Report& report, const Held& held) {
  Unread out;
  for (const diag::Diagnostic* d : report.findings_for(held)) {
    if (tells_of_unread(*d)) out.findings.push_back(d);
  }
  out.more = errors_not_listed(report.findings) > 0;
  const File& from = report.files[static_cast<std::size_t>(held.about.file)];
  out.whole_views = whole_views(*held.protocol, from, out);
  return out;
}

} // namespace norma::report
