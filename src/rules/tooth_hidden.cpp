#include "rules/rules.hpp"

namespace norma::rules {

void tooth_hidden(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const Mouths mouths{&fact::shown_in_mouths, &fact::shown_hangs_on};
  const bool in_mean = v.facts.has(fact::teeth_hidden);
  if (!in_mean && (!in_some_mouths(v.facts, mouths) || !v.facts.has(fact::hidden_in_some))) return;
  auto& d =
      out.report(diag::make(catalogue::tooth_hidden, place_of(v.view->must_show, v),
                            in_mean ? v.facts.value(fact::teeth_hidden)
                                    : teeth_in_mouths(v.facts, fact::hidden_in_some, mouths),
                            v.facts.value(in_mean ? fact::hidden_by : fact::hidden_in_some_by)));
  if (never_seen(v.facts, fact::teeth_hidden) && !v.facts.has(fact::mirror_angle_that_shows))
    d.severity = diag::Severity::error;
  if (note_mouths(v.facts, mouths, in_mean, d)) {
    note_corners(v.facts, d);
  } else {
    d.with_note(corners_said(v.facts, note::mean_mouth_corners_assumed()));
  }
  note_fallback(v, d);
  if (const auto azimuth = v.facts.get(fact::azimuth_that_shows)) {
    d.with_help(
        v.facts.get(fact::azimuth_not_sharp)
            ? note::tooth_hidden_azimuth_not_sharp(*azimuth, v.facts.value(fact::seen_from_azimuth))
            : note::tooth_hidden_azimuth(*azimuth, v.facts.value(fact::seen_from_azimuth)));
  }
  if (const auto opened = v.facts.get(fact::mirror_angle_that_shows))
    d.with_help(
        note::tooth_hidden_mirror_opened(*opened, v.facts.value(fact::seen_with_mirror_angle)));
  if (const auto seen = v.facts.get(fact::seen_with_firm_pull))
    d.with_help(note::tooth_hidden_firm_pull(*seen));
  if (const auto mirror = v.facts.get(fact::mirror_that_shows)) {
    const diag::Value seen = v.facts.value(fact::seen_in_that_mirror);
    d.with_help(v.facts.get(fact::corner_by_mirror)
                    ? note::tooth_hidden_mirror_in_cheek(*mirror, seen)
                    : note::tooth_hidden_mirror_if_cheek_gives_way(*mirror, seen));
  }
  const bool by_mirror = v.view->taken_in_mirror || v.facts.get(fact::mirror_that_shows);
  d.with_help(by_mirror ? note::name_fewer_teeth() : note::tooth_hidden_in_mirror_or_fewer());
}

} // namespace norma::rules
