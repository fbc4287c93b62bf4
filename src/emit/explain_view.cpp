#include "emit/explain_view.hpp"

#include <fmt/core.h>

#include "text/utf8.hpp"

namespace norma::emit {
namespace {

std::string value_of(const plan::Fact& f) {
  switch (f.state) {
  case plan::State::value: return f.row->is_text ? f.text : plan::print(*f.row, f.number);
  case plan::State::impossible:
    return "cannot be had: " + f.why +
           (f.has_nearest ? fmt::format(" (nearest: {})", plan::print(*f.row, f.number)) : "");
  case plan::State::unknown: return "not known, missing: " + f.why;
  case plan::State::broken: return "could not be read; see the findings";
  }
  return {};
}

} // namespace

std::string explain_view(const plan::ViewPlan& view) {
  std::string out = fmt::format("View {} \"{}\"\n\n", text::printable(view.view->name),
                                text::printable(view.view->title));
  for (const plan::Fact& f : view.facts.all()) {
    out += fmt::format("{}: {}\n", f.row->label, text::printable(value_of(f)));
    if (f.state != plan::State::value) continue;
    out += fmt::format("    {}", plan::to_text(f.status));
    if (!f.row->source.empty()) out += fmt::format("; {}", f.row->source);
    out += '\n';
    if (!f.row->formula.empty()) out += fmt::format("    {}\n", f.row->formula);
    std::string inputs;
    for (const plan::FactRow* input : f.inputs) {
      const std::string value = view.facts.text(*input);
      if (value.empty()) continue;
      inputs += fmt::format("{}{} {}", inputs.empty() ? "" : "; ", input->label, value);
    }
    if (!inputs.empty()) out += fmt::format("    from {}\n", text::printable(inputs));
  }
  if (!view.open.empty()) out += "\nNot checked:\n";
  for (const plan::OpenQuestion& q : view.open) {
    out += fmt::format("  {} (missing: {})\n", q.what, text::printable(q.missing));
  }
  return out;
}

} // namespace norma::emit
