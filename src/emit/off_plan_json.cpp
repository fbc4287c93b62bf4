#include <array>

#include "emit/json.hpp"
#include "emit/off_plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

constexpr std::array<std::string_view, margins::promises> promise_names{
    "clear", "fits", "framed", "turned", "in_mirror", "seen", "sharp", "lit"};

constexpr std::array<std::string_view, margins::ways> way_names{
    "right",       "left",           "forward",       "back",
    "up",          "down",           "clockwise",     "anticlockwise",
    "nearer",      "farther",        "picture_right", "picture_left",
    "picture_top", "picture_bottom", "more",          "less"};

Json broken_json(const margins::Broken& broken) {
  Json teeth = Json::array();
  for (const margins::Tooth tooth : broken.teeth)
    teeth.push_back(tooth.iso());
  return {{"promise", promise_names[static_cast<std::size_t>(broken.promise)]},
          {"teeth", std::move(teeth)}};
}

Json margin_json(const margins::Margin& m) {
  const margins::ErrorRow& row = margins::row_of(m.what);
  constexpr int decimals = 2;
  Json out = {{"what", row.id},
              {"way", way_names[static_cast<std::size_t>(m.way)]},
              {"unit", physics::unit_of(row.kind)},
              {"holds_to", steady(m.size, decimals)}};
  out["breaks"] = m.breaks ? broken_json(*m.breaks) : Json();
  return out;
}

Json off_view_json(const report::ViewOffPlan& view) {
  Json out = {{"view", view.view->view->name}};
  if (!view.margins) {
    out["missing"] = wording::english().text(view.missing);
    return out;
  }
  out["fails"] = view.margins->fails ? broken_json(*view.margins->fails) : Json();
  out["margins"] = Json::array();
  for (const margins::Margin& m : view.margins->margins)
    out["margins"].push_back(margin_json(m));
  return out;
}

} // namespace

std::string off_plan_json(const report::Report& report, const std::vector<report::OffPlan>& all) {
  Json out = {{"norma", 1}};
  out["plans"] = Json::array();
  for (const report::OffPlan& of : all) {
    Json plan = {{"about", json_of(report.names(of.held->about))}};
    plan["views"] = Json::array();
    for (const report::ViewOffPlan& view : of.views)
      plan["views"].push_back(off_view_json(view));
    out["plans"].push_back(std::move(plan));
  }
  return dumped(out);
}

} // namespace norma::emit
