#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {
namespace {

using ViewRule = void (*)(const Context&, const plan::ViewPlan&, Sink&);
using SeriesRule = void (*)(const Context&, const plan::SeriesPlan&, Sink&);
using ProtocolRule = void (*)(const Context&, Sink&);

enum class On { kit, protocol };

/// What a finding is about that does not depend on the kit is about no kit.
diag::Subject subject(const Context& context, On on) {
  return on == On::kit ? context.about : context.about.without_kit();
}

/// What rests on where camera, mirror and teeth are.
constexpr const diag::Definition* of_the_scene[] = {
    &catalogue::wrong_side,
    &catalogue::teeth_closed_on_mirror,
    &catalogue::field_too_small,
    &catalogue::no_aperture_holds,
    &catalogue::tooth_in_shadow,
    &catalogue::picture_turn_missing,
    &catalogue::picture_impossible,
    &catalogue::code_contradicts_view,
    &catalogue::tooth_hidden,
    &catalogue::tooth_turned_away,
    &catalogue::mirror_too_narrow,
    &catalogue::mirror_does_not_fit,
    &catalogue::field_needlessly_large,
    &catalogue::field_too_tight,
    &catalogue::focus_beside_sharp_teeth,
    &catalogue::lamp_on_wrong_side,
    &catalogue::lamp_in_mirror,
    &catalogue::mirror_on_other_side,
    &catalogue::fallback_not_shown,
    &catalogue::sides_differ,
    &catalogue::pull_alike_in_side_view,
    &catalogue::glare_from_metal,
    &catalogue::smaller_mirror_would_do,
    &catalogue::mirror_not_needed,
    &catalogue::title_names_other_side,
    &catalogue::head_turned_along,
    &catalogue::mouth_both_ways,
};

/// Of each view the finding that makes others beside the point; null where there is none.
using Causes = std::vector<const diag::Definition*>;

void over(const Context& context, On on, ViewRule rule, Causes& causes, diag::Findings& out) {
  const diag::Subject about = subject(context, on);
  for (std::size_t i = 0; i < context.plan.views.size(); ++i) {
    Sink sink(out, about.of_view(static_cast<int>(i)), &causes[i]);
    rule(context, context.plan.views[i], sink);
  }
}

void over(const Context& context, On on, SeriesRule rule, Causes& /*of views*/,
          diag::Findings& out) {
  const diag::Subject about = subject(context, on);
  for (std::size_t i = 0; i < context.plan.series.size(); ++i) {
    Sink sink(out, about.of_series(static_cast<int>(i)));
    rule(context, context.plan.series[i], sink);
  }
}

void over(const Context& context, On on, ProtocolRule rule, Causes& /*of views*/,
          diag::Findings& out) {
  Sink sink(out, subject(context, on));
  rule(context, sink);
}

} // namespace

bool Sink::silent(const diag::Definition& finding) const {
  if (cause_ == nullptr || *cause_ == nullptr || *cause_ == &finding) return false;
  return std::find(std::begin(of_the_scene), std::end(of_the_scene), &finding) !=
         std::end(of_the_scene);
}

text::Span place_of_ratio(const plan::ViewPlan& view) {
  const auto& field = view.view->field;
  return field.span().known() ? field.span() : place_of(view.view->ratio, view);
}

bool said_for_other_side(const model::Protocol& protocol, const model::View& view,
                         text::Span place) {
  if (view.crossing != "other side") return false;
  const auto outside = [&](text::Span own) {
    return place.file != own.file || place.begin < own.begin || place.end > own.end;
  };
  return outside(view.whole) &&
         std::all_of(protocol.edits.begin(), protocol.edits.end(), [&](const model::Edit& e) {
           return e.what != model::Edit::What::change_view || e.name != view.name ||
                  outside(e.whole);
         });
}

void apply(const Context& context, diag::Findings& out) {
  Causes causes(context.plan.views.size(), nullptr);
#define NORMA_RULE(scope, on, name) over(context, On::on, name, causes, out);
#include "rules/rules.def"
#undef NORMA_RULE
}

bool clearly_wider(Length blur, Length allowed) { return blur > 1.1 * allowed; }

diag::Said name_of_side(bool right) {
  return right ? note::wrong_side_right() : note::wrong_side_left();
}

bool shows_lower_jaw(const model::View& view) {
  if (view.must_show.known()) {
    const model::Faces& faces = view.must_show.get();
    return std::none_of(faces.begin(), faces.end(),
                        [](const model::NamedFace& f) { return f.tooth.is_upper(); });
  }
  return view.shows(model::Thing::lower_ridge);
}

text::Span entry_span(const model::Series& series, std::string_view view) {
  const auto entry = std::find_if(series.entries.begin(), series.entries.end(),
                                  [&](const model::SeriesEntry& e) { return e.view == view; });
  return entry == series.entries.end() ? series.span : entry->span;
}

diag::Value name_of(const text::Sourced<std::string>& name, const diag::Term& otherwise) {
  return name.known() ? diag::Value(name.get()) : diag::Value(otherwise());
}

void note_fallback(const plan::ViewPlan& view, diag::Diagnostic& d) {
  if (const auto seen = view.facts.get(fact::fallback_seen))
    d.with_note(note::fallback_seen(*seen));
  if (view.facts.get(fact::fallback_without_room)) d.with_note(note::fallback_without_room());
}

diag::Value for_both(const plan::Facts& facts, const plan::FactRow& asked,
                     const plan::FactRow& here) {
  diag::Value of_protocol = facts.value(asked);
  diag::Value of_kit = facts.value(here);
  if (of_kit.empty() || of_protocol == of_kit) return of_protocol;
  return plan::phrase::on_this_camera(std::move(of_protocol), std::move(of_kit));
}

diag::Severity in_mouths_severity(int mouths) {
  return mouths == 0 ? diag::Severity::error : diag::Severity::warning;
}

bool in_some_mouths(const plan::Facts& facts, const Mouths& mouths) {
  const auto holds = facts.get(*mouths.in);
  return holds && *holds < plan::nearly_all;
}

diag::Value teeth_in_mouths(const plan::Facts& facts, const plan::FactRow& teeth,
                            const Mouths& mouths) {
  return plan::phrase::teeth_in_mouths(facts.value(teeth), 100 - *facts.get(*mouths.in));
}

bool note_mouths(const plan::Facts& facts, const Mouths& mouths, bool in_mean,
                 diag::Diagnostic& d) {
  const auto holds = facts.get(*mouths.in);
  if (!holds) return false;
  d.in_mouths = {*holds, !in_mean};
  const auto by = facts.get(*mouths.by);
  if (!in_mean) {
    d.with_note(by ? note::not_in_mean_mouth_by(*by) : note::not_in_mean_mouth());
  } else if (*holds == 0) {
    d.with_note(note::comes_up_in_every_mouth());
  } else {
    d.with_note(by ? note::comes_up_in_mouths_by(100 - *holds, *by)
                   : note::comes_up_in_mouths(100 - *holds));
  }
  return true;
}

bool never_seen(const plan::Facts& facts, const plan::FactDef<diag::Teeth>& of) {
  const auto never = facts.get(fact::never_seen);
  const auto teeth = facts.get(of);
  return never && teeth && std::any_of(teeth->begin(), teeth->end(), [&](physics::Tooth tooth) {
           return std::find(never->begin(), never->end(), tooth) != never->end();
         });
}

diag::Said corners_said(const plan::Facts& facts, diag::Said assumed) {
  const plan::Fact* corner = facts.find(fact::corner_side);
  const bool measured = corner != nullptr && corner->status == plan::Status::measured;
  return measured ? note::tooth_hidden_kits_corner() : assumed;
}

void note_corners(const plan::Facts& facts, diag::Diagnostic& d) {
  if (facts.find(fact::corner_side) == nullptr) return;
  d.with_note(corners_said(facts, note::corners_from_range()));
}

diag::Said fits_in(const plan::Facts& facts, int mouths) {
  if (mouths == 0) return note::field_too_small_in_no_mouth();
  const auto by = facts.get(fact::fits_hangs_on);
  return by ? note::field_too_small_in_mouths_by(mouths, *by)
            : note::field_too_small_in_mouths(mouths);
}

diag::Evidence evidence(const plan::Facts& facts, const plan::FactRow& actual,
                        diag::Relation relation, const plan::FactRow& limit) {
  const plan::Fact* a = facts.find(actual);
  const plan::Fact* l = facts.find(limit);
  const auto number = [](const plan::Fact* f) {
    return f == nullptr ? 0.0 : f->number().value_or(0.0);
  };
  return {diag::Said(actual, {}), actual.kind, number(a), relation, number(l)};
}

} // namespace norma::rules
