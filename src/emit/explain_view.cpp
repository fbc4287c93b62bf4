#include "emit/explain_view.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "emit/document.hpp"
#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "facts/facts.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

std::string value_of(const plan::Fact& f, const wording::Language& in) {
  switch (f.state) {
  case plan::State::value: return in.text(*f.value);
  case plan::State::impossible:
    return in.text(f.value ? frame::impossible_nearest(f.why, *f.value) : frame::impossible(f.why));
  case plan::State::unknown: return in.text(frame::not_known(f.why));
  case plan::State::broken: return in.text(frame::not_read());
  }
  return {};
}

diag::Said hider_said(const physics::Shown& s) {
  const diag::Value tooth = s.hider_tooth ? diag::Value(*s.hider_tooth) : diag::Value();
  switch (s.hider) {
  case physics::Hider::nothing:
  case physics::Hider::turned_from_lamp: return {}; // which is no hiding
  case physics::Hider::crown: return frame::by_tooth(tooth);
  case physics::Hider::gum: return frame::by_gum(tooth);
  case physics::Hider::lip: return frame::by_lip();
  case physics::Hider::cheek: return frame::by_cheek();
  case physics::Hider::beside_mirror: return frame::beside_mirror();
  case physics::Hider::turned_from_mirror: return frame::behind_mirror();
  }
  return {};
}

/// What is seen of each surface that must show, as a table.
std::string coverage(const plan::ViewPlan& view, const wording::Language& in) {
  if (view.shown.empty()) return "";
  const auto share = [&](double of) {
    return in.text(diag::Measure{physics::Kind::share, of, true});
  };
  const auto whole = [&](Angle angle) {
    const Angle rounded = std::round(angle.in(degree)) * degree;
    return in.text(diag::Measure{physics::Kind::angle, rounded.base(), true});
  };
  using Row = std::array<std::string, 5>;
  std::vector<Row> rows{Row{in.text(frame::tooth()), in.text(frame::in_frame()),
                            in.text(frame::seen()), in.text(frame::turned_by()),
                            in.text(frame::hidden_by())}};
  for (const physics::Shown& s : view.shown) {
    rows.push_back({fmt::format("{} {}", s.tooth.iso(), in.text(surface_said(s.surface))),
                    share(s.framed), share(s.seen), whole(s.obliquity), in.text(hider_said(s))});
  }
  std::string out =
      "\n" + text::printable(in.text(frame::seen_of_each(view.facts.value(plan::fact::patient)))) +
      "\n";
  constexpr std::array<std::size_t, 4> least{12, 10, 10, 11};
  std::array<std::size_t, 4> widths = least;
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(widths[i], text::display_width(row[i]));
  }
  for (const Row& row : rows) {
    std::string line = "  " + padded(row[0], widths[0]);
    for (std::size_t i = 1; i < widths.size(); ++i)
      line += padded_left(row[i], widths[i]);
    line += "  " + row.back();
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

/// `under`: facts that some of them rest on, kept elsewhere.
void append_facts(std::string& out, const plan::Facts& facts, const plan::Facts& under,
                  const wording::Language& in) {
  for (const plan::Fact& f : facts.all()) {
    out +=
        fmt::format("{}: {}\n", in.text(diag::Said(*f.row, {})), text::printable(value_of(f, in)));
    if (f.state != plan::State::value) continue;
    out += fmt::format("    {}", in.text(diag::Said(facts::row_of(f.status), {})));
    if (!f.row->source.empty()) out += fmt::format("; {}", f.row->source);
    out += '\n';
    if (!f.row->formula.empty()) out += fmt::format("    {}\n", f.row->formula);
    std::string inputs;
    for (const plan::FactRow* input : facts.worked_out_from(f)) {
      const std::string value =
          in.text((facts.find(*input) != nullptr ? facts : under).value(*input));
      if (value.empty()) continue;
      inputs += fmt::format("{}{} {}", inputs.empty() ? "" : "; ", in.text(diag::Said(*input, {})),
                            value);
    }
    if (!inputs.empty()) out += "    " + text::printable(in.text(frame::from(inputs))) + "\n";
  }
}

} // namespace

std::string explain_view(const plan::ViewPlan& view, const wording::Language& in) {
  const auto line = [&](const diag::Said& said) { return text::printable(in.text(said)) + "\n"; };
  std::string out = line(frame::view_of(view.view->name, view.view->title)) + "\n";
  append_facts(out, view.facts, view.facts, in);
  append_facts(out, view.company, view.facts, in);
  out += coverage(view, in);
  if (view.facts.get(plan::fact::tightest)) {
    out += "\n" + line(frame::tightest(view.facts.value(plan::fact::tightest),
                                       view.facts.value(plan::fact::tightest_reserve)));
    out += line(frame::hangs_on(view.facts.value(plan::fact::hangs_on)));
  }
  if (!view.open.empty()) out += "\n" + line(frame::not_checked());
  for (const plan::OpenQuestion& q : view.open)
    out += "  " + line(frame::missing(q.what, q.missing));
  return out;
}

} // namespace norma::emit
