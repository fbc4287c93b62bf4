#include "emit/marks.hpp"

#include "emit/act_words.hpp"
#include "emit/csv.hpp"
#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "emit/listed_views.hpp"
#include "emit/refused.hpp"
#include "emit/subject_words.hpp"
#include "facts/facts.hpp"
#include "plan/acts/shown.hpp"
#include "report/unread.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;
using plan::Verb;

/// What the picture of a view is held against.
std::vector<std::string> criteria_of(const plan::ViewPlan& v, const wording::Language& in) {
  std::vector<std::string> out;
  const auto add = [&](const diag::Said& what) { out.push_back(in.text(what)); };
  const diag::List shown = plan::must_show_said(*v.view);
  if (!shown.items.empty()) add(frame::marks_shown(shown));
  const diag::List sharp = plan::must_be_sharp_said(*v.view);
  if (!sharp.items.empty()) add(frame::marks_sharp(sharp));
  for (const plan::Act& act : v.acts) {
    switch (act.verb) {
    case Verb::keep_out: add(frame::marks_kept_out(act.objects.front())); break;
    case Verb::centre: out.push_back(act_text(act, in)); break;
    case Verb::allow_angle:
    case Verb::allow_distance:
    case Verb::allow_angle_and_distance: add(frame::marks_within(act_text(act, in))); break;
    default: break;
    }
  }
  if (v.facts.has(fact::ratio_asked)) add(frame::marks_ratio(v.facts.value(fact::ratio_asked)));
  add(frame::marks_light());
  const auto turn = v.facts.get(fact::turn);
  if (turn && *turn != physics::Turn::none) add(frame::marks_turned(v.facts.value(fact::turn)));
  return out;
}

} // namespace

Document marks(const report::Report& report, const report::Held& held, std::string_view series,
               const wording::Language& in) {
  if (auto none = refused(report, held, in)) return *none;
  const plan::Plan& plan = held.plan;
  const std::string& title = title_of(*plan.protocol);
  const model::Series* taken = listed_series(plan, series);
  Document out;
  const auto add = [&](BlockKind kind, const diag::Said& what) {
    out.push_back({kind, in.text(what)});
  };
  const auto write = [&](const diag::Said& what) { return Field{in.text(what), false, true}; };
  add(BlockKind::title, frame::marks_title(title));
  add(BlockKind::paragraph, protocol_said(plan, taken));
  out.push_back({BlockKind::fields,
                 "",
                 {write(frame::marks_by()), write(frame::marks_of()), write(list::date())}});
  add(BlockKind::paragraph, frame::marks_how());
  for (const SeriesView& one : views_of(plan, taken)) {
    const model::View& m = *one.view->view;
    add(BlockKind::subheading,
        m.code.known() ? frame::marks_view(m.title, m.code.get()->code) : diag::Said(m.title));
    for (const std::string& criterion : criteria_of(*one.view, in)) {
      out.push_back({BlockKind::bullet, criterion});
      out.push_back(
          {BlockKind::fields, "", {write(frame::marks_points()), write(frame::marks_reason())}});
    }
  }
  out.push_back(
      {BlockKind::fields, "", {write(frame::marks_all()), write(list::looked_through())}});
  return out;
}

std::string marks_csv(const report::Report& report, const report::Held& held,
                      std::string_view series, const wording::Language& in) {
  std::string out;
  if (!report::unread_of(report, held).whole()) return out;
  const plan::Plan& plan = held.plan;
  for (const SeriesView& one : views_of(plan, listed_series(plan, series))) {
    for (const std::string& criterion : criteria_of(*one.view, in))
      out += csv_row(
          {plan.protocol->name, one.view->view->name, one.view->view->title, criterion, "", ""});
  }
  return out;
}

} // namespace norma::emit
