#include "live/view_json.hpp"

#include "drawing/svg.hpp"
#include "emit/card_settings.hpp"
#include "emit/card_words.hpp"
#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "emit/not_checked.hpp"
#include "emit/view_drawings.hpp"
#include "facts/facts.hpp"
#include "live/live_words.hpp"
#include "live/state_json.hpp"

namespace norma::live {
namespace {

using emit::Json;
namespace fact = facts::fact;

void draw(Json& out, const plan::ViewPlan& view, const wording::Language& in) {
  const auto drawn = emit::view_drawings(view, emit::Numbers::of_asked, in);
  if (!drawn) {
    const diag::Said missing = emit::missing_for_scene(view);
    out["no_drawing"] =
        in.text(missing.empty() ? said::not_yet() : emit::card::no_drawing(missing));
    return;
  }
  const std::string& title = view.view->title;
  out["finder"] = drawing::as_svg(drawn->finder, in.text(emit::card::finder_of(title)), "f");
  out["finder_caption"] = in.text(drawn->finder_words);
  out["numbers"] = in.text(emit::frame::drawn_numbers());
  out["model"] = in.text(emit::frame::drawn_model(view.facts.value(fact::patient)));
  out["above"] = drawing::as_svg(drawn->above, in.text(emit::card::above_of(title)), "a");
  out["above_caption"] = in.text(emit::card::above());
}

/// What comes of it, in millimetres and stops.
std::vector<std::string> worked_out(const plan::Facts& facts, const std::string& name,
                                    const wording::Language& in) {
  std::vector<std::string> out;
  const auto width = facts.get(fact::field_width);
  const auto distance = facts.get(fact::working_distance);
  if (width && distance) out.push_back(in.text(emit::frame::hint_ratio(*width, *distance)));
  const auto mark = facts.get(fact::aperture);
  const auto near = facts.get(fact::near_depth);
  const auto far = facts.get(fact::far_depth);
  if (mark && near && far) out.push_back(in.text(emit::frame::hint_aperture(*mark, *near, *far)));
  const auto reference = facts.get(fact::exposure_reference);
  if (facts.has(fact::offset) && reference && reference->own != name)
    out.push_back(in.text(emit::list::light_against(*reference, facts.value(fact::offset))));
  const auto say = [&](const diag::Sentence<1>& row, const facts::FactRow& about) {
    if (facts.has(about)) out.push_back(in.text(row(facts.value(about))));
  };
  say(emit::list::iso, fact::iso);
  say(emit::list::shutter, fact::shutter);
  say(emit::list::white_balance, fact::white_balance);
  return out;
}

} // namespace

std::string view_json(const ShownView& shown, std::size_t number, std::uint64_t revision,
                      const wording::Language& in) {
  const report::Report& report = *shown.report;
  const report::Held& held = report.held[shown.held];
  const plan::ViewPlan& view = held.plan.views[shown.view];
  Json out = {
      {"revision", revision}, {"view", number}, {"name", shown.name}, {"title", shown.title}};
  if (!shown.of.empty()) out["of"] = shown.of;
  if (view.view->code.known()) out["code"] = view.view->code.get()->code;
  if (shown.old || shown.unread) out["warning"] = in.text(shown.old ? said::old() : said::unread());
  draw(out, view, in);
  Json settings = Json::array();
  for (const emit::CardSetting& one : emit::card_settings(held.plan, view, said::unsettled(), in)) {
    Json row = {{"what", one.what}, {"value", one.value}};
    if (!one.note.empty()) row["note"] = one.note;
    settings.push_back(std::move(row));
  }
  out["settings_title"] = in.text(emit::card::settings());
  out["settings"] = std::move(settings);
  out["worked_out"] = worked_out(view.facts, shown.name, in);
  const diag::Subject about = held.about.of_view(static_cast<int>(shown.view));
  out["not_checked_title"] = in.text(said::not_checked());
  out["not_checked"] =
      emit::not_checked_lines(report, report.not_checked_of(about), emit::Naming::view, in);
  return in_one_line(out);
}

} // namespace norma::live
