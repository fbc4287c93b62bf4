#include <fmt/core.h>

#include "emit/in_mouths.hpp"
#include "emit/json.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

constexpr std::string_view promise_ids[] = {"placed", "fits",  "framed", "turned",
                                            "seen",   "sharp", "lit"};
static_assert(std::size(promise_ids) == mouths::promises);

/// Kept to 4 decimals: more is not in a share.
double steady(double value) { return std::stod(fmt::format("{:.4f}", value)); }
double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0.0 : steady(static_cast<double>(part) / static_cast<double>(whole));
}

std::string_view id_of(physics::Surface surface) { return physics::to_text(surface); }

Json json_of(const report::ViewInMouths& view, physics::Dentition dentition) {
  Json out = {{"view", view.view->view->name}};
  if (!view.shares) {
    out["missing"] = wording::english().text(view.missing);
    return out;
  }
  const mouths::Shares& s = *view.shares;
  out["mouths"] = s.mouths;
  out["holds"] = share(s.hold, s.mouths);
  out["standard_error"] = steady(s.error);
  Json reasons = Json::object();
  Json broken = Json::object();
  for (std::size_t p = 0; p < mouths::promises; ++p) {
    reasons[std::string(promise_ids[p])] = share(s.first[p], s.mouths);
    broken[std::string(promise_ids[p])] = share(s.broken[p], s.mouths);
  }
  out["first_broken"] = std::move(reasons);
  out["broken"] = std::move(broken);
  out["surfaces"] = Json::array();
  for (const mouths::SurfaceShare& one : s.surfaces)
    out["surfaces"].push_back({{"tooth", one.which.tooth.iso()},
                               {"surface", id_of(one.which.surface)},
                               {"framed", share(one.framed, s.mouths)},
                               {"seen", share(one.seen, s.mouths)},
                               {"lit", share(one.lit, s.mouths)},
                               {"all", share(one.all, s.mouths)},
                               {"seen_in_worst_twentieth", steady(one.worst_twentieth)}});
  out["hangs_on"] = Json::array();
  const auto rows = mouths::spreads(dentition);
  for (const mouths::Hangs& h : view.hangs)
    out["hangs_on"].push_back({{"what", rows[static_cast<std::size_t>(h.what)].id},
                               {"alone", steady(h.by.alone)},
                               {"alone_error", steady(h.by.alone_error)},
                               {"total", steady(h.by.total)},
                               {"total_error", steady(h.by.total_error)}});
  return out;
}

} // namespace

std::string in_mouths_json(const report::Report& report, const std::vector<report::InMouths>& all,
                           const report::Amount& amount) {
  Json out = {{"norma", 1}, {"asked", amount.mouths}, {"seed", amount.seed}};
  out["plans"] = Json::array();
  for (const report::InMouths& of : all) {
    Json plan = {{"about", json_of(report.names(of.held->about))},
                 {"left_out", of.left_out},
                 {"with_spaces", of.spaced}};
    plan["views"] = Json::array();
    for (const report::ViewInMouths& view : of.views)
      plan["views"].push_back(json_of(view, of.dentition));
    out["plans"].push_back(std::move(plan));
  }
  return dumped(out);
}

} // namespace norma::emit
