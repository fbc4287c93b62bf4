#include <array>

#include "emit/json.hpp"
#include "emit/off_plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

constexpr std::array<std::string_view, margins::promises> promise_names{
    "clear", "fits", "framed", "sharp", "turned", "in_mirror", "seen", "lit"};

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

Json together_json(const margins::Together& t) {
  const auto share = [&](std::size_t part) {
    constexpr int decimals = 4; // more are not in a share
    return steady(static_cast<double>(part) / static_cast<double>(t.shots), decimals);
  };
  Json first = Json::object();
  for (std::size_t p = 0; p < margins::promises; ++p)
    first[std::string(promise_names[p])] = share(t.first[p]);
  return {{"shots", t.shots},
          {"holds", share(t.hold)},
          {"standard_error", steady(t.error, 4)},
          {"first_broken", std::move(first)}};
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
  out["spreads"] = Json::array();
  for (const report::Spread& spread : view.spreads) {
    const margins::ErrorRow& row = margins::row_of(spread.what);
    out["spreads"].push_back(
        {{"what", row.id},
         {"unit", physics::unit_of(row.kind)},
         {"standard_deviation", spread.size},
         {"by", spread.by == report::Spread::By::tolerance ? "tolerance" : "assumed"}});
  }
  out["together"] = view.together ? together_json(*view.together) : Json();
  return out;
}

} // namespace

std::string off_plan_json(const report::Report& report, const std::vector<report::OffPlan>& all,
                          std::uint64_t seed) {
  Json out = {{"norma", 1}, {"seed", seed}};
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
