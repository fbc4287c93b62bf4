#include "plan/acts/shown.hpp"
#include "rules/rules.hpp"

namespace norma::rules {

namespace {

/// What must be sharp; that tooth by its name.
diag::Value what_must_be_sharp(const plan::ViewPlan& v) {
  const auto& faces = v.view->must_be_sharp;
  diag::List teeth;
  if (faces.known()) teeth = plan::faces_said(faces.get());
  if (v.facts.get(fact::deepest_of))
    teeth.items.emplace_back(model::term_of(model::Thing::that_tooth));
  return teeth.items.size() == 1 ? teeth.items.front() : diag::Value(teeth);
}

diag::Said holds_in(const plan::Facts& facts, int mouths) {
  if (mouths == 0) return note::no_aperture_holds_in_no_mouth();
  const auto by = facts.get(fact::sharp_hangs_on);
  return by ? note::no_aperture_holds_in_mouths_by(mouths, *by)
            : note::no_aperture_holds_in_mouths(mouths);
}

/// The mean mouth is held, and not each.
void report_some(const plan::ViewPlan& v, int held, Sink& out) {
  const auto& faces = v.view->must_be_sharp;
  auto& d = out.report(
      diag::make(catalogue::no_aperture_holds,
                 faces.known() ? place_of(faces, v) : place_of(v.view->things_sharp, v),
                 plan::phrase::in_mouths_no_aperture(100 - held), what_must_be_sharp(v)));
  d.severity = in_mouths_severity(held);
  d.in_mouths = {held, true};
  d.with_note(holds_in(v.facts, held));
  d.with_help(note::no_aperture_holds_in_more());
}

} // namespace

void no_aperture_holds(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto not_held = v.facts.get(fact::not_held);
  const auto in_mouths = v.facts.get(fact::sharp_in_mouths);
  if (!not_held) {
    if (in_mouths && *in_mouths < plan::nearly_all) report_some(v, *in_mouths, out);
    return;
  }
  const auto& faces = v.view->must_be_sharp;
  const auto deepest = v.facts.get(fact::deepest_of);
  // Where another focus does, it is the focus that is at fault.
  const bool by_focus = not_held->row == &plan::phrase::focused_no_aperture_holds;
  auto& d =
      out.report(diag::make(catalogue::no_aperture_holds,
                            faces.known() ? place_of(faces, v) : place_of(v.view->things_sharp, v),
                            by_focus ? plan::phrase::focused_no_aperture(v.facts.value(fact::focus))
                                     : plan::phrase::no_aperture(),
                            what_must_be_sharp(v)));
  d.with_evidence(
      evidence(v.facts, fact::narrowest_allowed, diag::Relation::at_least, fact::aperture_needed));
  d.with_note(note::no_aperture_holds_reach(
      v.facts.value(fact::focus), v.facts.value(fact::near_needed), v.facts.value(fact::far_needed),
      v.facts.value(fact::narrowest_allowed), v.facts.value(fact::ratio),
      v.facts.value(fact::near_depth), v.facts.value(fact::far_depth)));
  if (in_mouths) {
    d.severity = in_mouths_severity(*in_mouths);
    d.in_mouths = {*in_mouths, false};
    d.with_note(holds_in(v.facts, *in_mouths));
  }
  if (const auto others = v.facts.get(fact::not_sharp_for)) {
    const auto held = v.facts.get(fact::sharp_for);
    if (held || others->size() > 1)
      d.with_note(held ? note::no_aperture_holds_tooth(*held, *others, *deepest)
                       : note::no_aperture_holds_no_tooth(*others, *deepest));
  }
  const auto needed = v.facts.get(fact::aperture_needed);
  const auto narrowest = v.facts.get(fact::lens_narrowest);
  if (const auto focus = v.facts.get(fact::better_focus)) {
    const FNumber there = *v.facts.get(fact::aperture_at_better_focus);
    if (by_focus) {
      d.with_help(focus->row == &plan::phrase::on_middle_of_depth
                      ? note::no_aperture_holds_middle_of_depth()
                      : note::no_aperture_holds_focus_instead(*focus));
    } else if (!narrowest || there <= *narrowest) {
      d.with_help(note::no_aperture_holds_focus_and_aperture(
          *focus,
          for_both(v.facts, fact::aperture_at_better_focus_asked, fact::aperture_at_better_focus)));
    }
  }
  if (needed && narrowest && *needed > *narrowest) {
    const auto focus = v.facts.get(fact::better_focus);
    const auto there = v.facts.get(fact::aperture_at_better_focus);
    d.with_note(focus && *there > *narrowest
                    ? note::no_aperture_holds_lens_ends_focused(*needed, *focus, *there, *narrowest)
                    : note::no_aperture_holds_lens_ends(*needed, *narrowest));
  } else if (needed) {
    d.with_help(note::no_aperture_holds_aperture_would(
        for_both(v.facts, fact::aperture_needed_asked, fact::aperture_needed)));
  }
  if (v.facts.get(fact::ratio_for_depth))
    d.with_help(note::no_aperture_holds_ratio_would(
        for_both(v.facts, fact::ratio_for_depth_asked, fact::ratio_for_depth)));
  if (const auto held = v.facts.get(fact::teeth_held)) {
    d.with_help(
        note::no_aperture_holds_what_is_held(v.facts.value(fact::narrowest_allowed), *held));
  }
}

} // namespace norma::rules
