#include "emit/chairs.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "text/utf8.hpp"

namespace norma::emit {
namespace {

std::string name_of(const plan::Plan& plan) {
  return plan.kit == nullptr ? "no kit" : plan.kit->name.value_or("?");
}

bool concerns(const diag::Diagnostic& d, const plan::Plan& plan, const std::string& view) {
  if (!d.accepted.empty()) return false;
  if (!d.kit.empty() && d.kit != name_of(plan)) return false;
  return std::find(d.views.begin(), d.views.end(), view) != d.views.end();
}

/// What the table says of one view with one kit.
std::string cell(const plan::Plan& plan, const plan::ViewPlan& v, const diag::Findings& findings) {
  const std::string view = plan::label(*plan.protocol, *v.view);
  std::size_t errors = 0;
  std::size_t warnings = 0;
  for (const diag::Diagnostic& d : findings.all()) {
    if (!concerns(d, plan, view)) continue;
    errors += d.severity == diag::Severity::error ? 1 : 0;
    warnings += d.severity == diag::Severity::warning ? 1 : 0;
  }
  std::string out = errors > 0 ? "no" : warnings > 0 ? fmt::format("poor ({})", warnings) : "yes";
  if (!v.open.empty()) out += " ?";
  return out;
}

std::string padded(const std::string& text, std::size_t width) {
  const std::size_t has = text::display_width(text);
  return text + std::string(width > has ? width - has : 0, ' ');
}

} // namespace

std::string chairs(const std::vector<const plan::Plan*>& plans, const diag::Findings& findings) {
  if (plans.empty()) return {};
  const plan::Plan& first = *plans.front();
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> head{"view"};
  for (const plan::Plan* p : plans)
    head.push_back(text::printable(name_of(*p)));
  rows.push_back(std::move(head));
  for (std::size_t i = 0; i < first.views.size(); ++i) {
    std::vector<std::string> row{first.views[i].view->name};
    for (const plan::Plan* p : plans)
      row.push_back(cell(*p, p->views[i], findings));
    rows.push_back(std::move(row));
  }
  std::vector<std::size_t> widths(plans.size() + 1, 0);
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i)
      widths[i] = std::max(widths[i], text::display_width(row[i]));
  }
  std::string out = fmt::format(
      "{}{}\n\n", text::printable(first.protocol->title),
      first.protocol->group_label.empty() ? std::string() : ", " + first.protocol->group_label);
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i)
      line += (i > 0 ? "  " : "") + padded(row[i], widths[i]);
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  out += "\nyes: nothing stands against it; poor: warnings, as many as in brackets; no: it cannot "
         "be had; ?: something was not checked.\n";
  for (const plan::Plan* p : plans) {
    std::string list;
    for (const diag::Diagnostic& d : findings.all()) {
      if (d.severity != diag::Severity::error) continue;
      std::vector<std::string> views;
      for (const plan::ViewPlan& v : p->views) {
        const std::string view = plan::label(*p->protocol, *v.view);
        if (concerns(d, *p, view)) views.push_back(view);
      }
      if (views.empty()) continue;
      list += fmt::format("  {}: {} [{}]\n", diag::views_text(views), text::printable(d.message),
                          d.definition->code);
      if (!d.help.empty())
        list += fmt::format("    what would do: {}\n", text::printable(d.help.front()));
    }
    out += fmt::format("\n{}: {}\n{}", text::printable(name_of(*p)),
                       list.empty() ? "every view can be had" : "cannot be had:", list);
  }
  return out;
}

} // namespace norma::emit
