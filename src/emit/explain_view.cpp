#include "emit/explain_view.hpp"

#include <fmt/core.h>

#include "facts/facts.hpp"
#include "text/utf8.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

std::string value_of(const plan::Fact& f) {
  switch (f.state) {
  case plan::State::value: return wording::text(*f.value);
  case plan::State::impossible:
    return "cannot be had: " + wording::text(f.why) +
           (f.value ? fmt::format(" (nearest: {})", wording::text(*f.value)) : "");
  case plan::State::unknown: return "not known, missing: " + wording::text(f.why);
  case plan::State::broken: return "could not be read; see the findings";
  }
  return {};
}

std::string hider_text(const physics::Shown& s) {
  const std::string tooth = s.hider_tooth ? std::to_string(s.hider_tooth->iso()) : "";
  switch (s.hider) {
  case physics::Hider::nothing: return "";
  case physics::Hider::crown: return "tooth " + tooth;
  case physics::Hider::gum: return "gum of " + tooth;
  case physics::Hider::lip: return "a lip";
  case physics::Hider::cheek: return "the cheek";
  case physics::Hider::beside_mirror: return "ends beside the mirror";
  case physics::Hider::turned_from_mirror: return "behind the mirror";
  }
  return "";
}

/// What is seen of each surface that must show, as a table.
std::string coverage(const plan::ViewPlan& view) {
  if (view.shown.empty()) return "";
  std::string out =
      fmt::format("\nWhat the lens sees of each tooth (model of the mouth, {}):\n",
                  text::printable(wording::text(view.facts.value(plan::fact::patient))));
  out += fmt::format("  {:<12}{:>10}{:>10}{:>11}  {}\n", "tooth", "in frame", "seen", "turned by",
                     "hidden in part by");
  for (const physics::Shown& s : view.shown) {
    const std::string line =
        fmt::format("  {:<12}{:>8.0f} %{:>8.0f} %{:>7.0f} deg  {}",
                    fmt::format("{} {}", s.tooth.iso(), physics::to_text(s.surface)),
                    100 * s.framed, 100 * s.seen, s.obliquity.in(degree), hider_text(s));
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

/// `under`: facts that some of them rest on, kept elsewhere.
void append_facts(std::string& out, const plan::Facts& facts, const plan::Facts& under) {
  for (const plan::Fact& f : facts.all()) {
    out += fmt::format("{}: {}\n", wording::text(diag::Said(*f.row, {})),
                       text::printable(value_of(f)));
    if (f.state != plan::State::value) continue;
    out += fmt::format("    {}", wording::text(diag::Said(facts::row_of(f.status), {})));
    if (!f.row->source.empty()) out += fmt::format("; {}", f.row->source);
    out += '\n';
    if (!f.row->formula.empty()) out += fmt::format("    {}\n", f.row->formula);
    std::string inputs;
    for (const plan::FactRow* input : facts.worked_out_from(f)) {
      const std::string value =
          wording::text((facts.find(*input) != nullptr ? facts : under).value(*input));
      if (value.empty()) continue;
      inputs += fmt::format("{}{} {}", inputs.empty() ? "" : "; ",
                            wording::text(diag::Said(*input, {})), value);
    }
    if (!inputs.empty()) out += fmt::format("    from {}\n", text::printable(inputs));
  }
}

} // namespace

std::string explain_view(const plan::ViewPlan& view) {
  std::string out = fmt::format("View {} \"{}\"\n\n", text::printable(view.view->name),
                                text::printable(view.view->title));
  append_facts(out, view.facts, view.facts);
  append_facts(out, view.company, view.facts);
  out += coverage(view);
  if (view.facts.get(plan::fact::tightest)) {
    out += fmt::format("\nTightest: {}; reserve {}.\nIt hangs most on: {}.\n",
                       wording::text(view.facts.value(plan::fact::tightest)),
                       wording::text(view.facts.value(plan::fact::tightest_reserve)),
                       text::printable(wording::text(view.facts.value(plan::fact::hangs_on))));
  }
  if (!view.open.empty()) out += "\nNot checked:\n";
  for (const plan::OpenQuestion& q : view.open) {
    out += fmt::format("  {} (missing: {})\n", text::printable(wording::text(q.what)),
                       text::printable(wording::text(q.missing)));
  }
  return out;
}

} // namespace norma::emit
