#include "emit/list_settings.hpp"

#include <algorithm>
#include <cmath>

#include "emit/list_words.hpp"
#include "facts/facts.hpp"
#include "plan/light_set.hpp"

namespace norma::emit {

namespace fact = plan::fact;

namespace {

/// A spread goes both ways, and what falls short has none to tell: no sign.
diag::Value unsigned_stops(Stops stops) {
  return diag::Measure{physics::Kind::stops, stops.base(), true};
}
diag::Value unsigned_value(const plan::Facts& facts, const plan::FactDef<Stops>& def) {
  const auto value = facts.get(def);
  return value ? unsigned_stops(*value) : diag::Value();
}

/// `2 stops`; what is no whole number of them with its decimals.
diag::Value stops_apart(Stops apart) {
  const double whole = std::round(apart.in(stop));
  if (std::abs(apart.in(stop)-whole) > 0.02) return unsigned_stops(apart);
  const int n = static_cast<int>(whole);
  return n == 1 ? list::one_stop() : list::whole_stops(n);
}

/// The aperture, and how far that is from what is set.
diag::Said aperture_from(const plan::Facts& facts, const plan::ViewPlan* before) {
  const auto now = facts.get(fact::aperture);
  const auto was = before == nullptr ? std::nullopt : before->facts.get(fact::aperture);
  if (!now || !was) return aperture_said(facts);
  const Stops apart = 2.0 * std::log2(now->value() / was->value()) * stop;
  return (apart > Stops{} ? list::aperture_closed : list::aperture_opened)(
      facts.value(fact::aperture), stops_apart(abs(apart)));
}

/// Its light against another view; empty where it is matched to none.
diag::Said light_of(const plan::ViewPlan& v) {
  if (!v.facts.has(fact::offset)) return {};
  const diag::Value offset = v.facts.value(fact::offset);
  const auto reference = v.facts.get(fact::exposure_reference);
  if (!reference || reference->own == v.view->name) return {};
  const diag::Value spread = unsigned_value(v.facts, fact::offset_spread);
  return spread.empty() ? list::light_against(*reference, offset)
                        : list::light_against_spread(*reference, offset, spread);
}

/// Is its light another than that of the view it is matched to?
bool corrects(const plan::ViewPlan& v) {
  constexpr Stops told = 0.005 * stop;
  return !light_of(v).empty() && abs(*v.facts.get(fact::offset)) >= told;
}

} // namespace

diag::Said aperture_said(const plan::Facts& facts) {
  if (facts.has(fact::aperture)) return list::aperture(facts.value(fact::aperture));
  const plan::Fact* found = facts.find(fact::aperture);
  if (found == nullptr || found->why.empty()) return list::aperture_not_settled();
  return found->state == plan::State::impossible ? list::aperture_impossible(found->why)
                                                 : list::aperture_not_settled_for(found->why);
}

/// Empty where there is no lamp that flashes, or the camera sees to it.
diag::Said SettingWords::flash_of(const plan::ViewPlan& v) const {
  using Is = plan::LightSet::Is;
  const plan::LightSet light = plan::light_set(plan_.kit, v);
  switch (light.is) {
  case Is::by_camera:
  case Is::none:
  case Is::steady: return {};
  case Is::automatic: return list::flash_automatic();
  case Is::power:
    return light.power_spread ? list::flash_spread(light.power, unsigned_stops(*light.power_spread))
                              : list::flash(light.power);
  case Is::short_of: return list::flash_short(unsigned_stops(*light.shortfall));
  case Is::not_settled: break;
  }
  return light.why.empty() ? list::flash_not_settled() : list::flash_not_settled_for(light.why);
}

diag::Said SettingWords::ratio_of(const plan::Facts& facts) const {
  const std::string ratio = in_.text(facts.value(fact::ratio));
  const std::string mark = in_.text(facts.value(fact::lens_mark));
  return mark.empty() || mark == ratio ? list::ratio(ratio) : list::ratio_mark(ratio, mark);
}

/// A fact's printed form where all views that can be had, second choices too, have the same; else
/// "".
std::string SettingWords::common(const plan::FactRow& row) const {
  std::string value;
  for (const SeriesView& e : taken_) {
    const std::string text = in_.text(e.view->facts.value(row));
    if (text.empty() || (!value.empty() && value != text)) return {};
    value = text;
  }
  return value;
}

diag::List SettingWords::alike_in_all() const {
  diag::List set{{}, true};
  if (taken_.size() < 2) return set;
  const plan::Facts& any = taken_.front().view->facts;
  if (!common(fact::ratio).empty()) {
    const bool marked = !common(fact::lens_mark).empty();
    if (marked || !any.has(fact::lens_mark)) set.items.emplace_back(ratio_of(any));
  }
  const auto say = [&](const diag::Sentence<1>& row, const plan::FactRow& about) {
    if (!common(about).empty()) set.items.emplace_back(row(any.value(about)));
  };
  say(list::iso, fact::iso);
  say(list::shutter, fact::shutter);
  say(list::white_balance, fact::white_balance);
  say(list::file_format, fact::file_format);
  say(list::lamp, fact::lamp);
  return set;
}

diag::List SettingWords::besides(const plan::Step& step) const {
  diag::List set{{}, true};
  const plan::Facts& facts = step.view->facts;
  const auto say = [&](plan::Part part, const diag::Sentence<1>& row, const plan::FactRow& about) {
    const bool changes = std::find(step.set.begin(), step.set.end(), part) != step.set.end();
    if (facts.has(about) && changes) set.items.emplace_back(row(facts.value(about)));
  };
  say(plan::Part::iso, list::iso, fact::iso);
  say(plan::Part::shutter, list::shutter, fact::shutter);
  say(plan::Part::white_balance, list::white_balance, fact::white_balance);
  say(plan::Part::file_format, list::file_format, fact::file_format);
  say(plan::Part::lamp, list::lamp, fact::lamp);
  return set;
}

std::string SettingWords::of(const plan::Step& step, const plan::ViewPlan* before) const {
  const plan::ViewPlan& v = *step.view;
  const plan::Facts& facts = v.facts;
  const auto changes = [&](plan::Part part) {
    return std::find(step.set.begin(), step.set.end(), part) != step.set.end();
  };
  diag::List set{{}, true};
  const auto put = [&](diag::Said one) {
    const diag::Value value(std::move(one));
    const bool there =
        std::find(for_all_.items.begin(), for_all_.items.end(), value) != for_all_.items.end();
    if (!there) set.items.push_back(value);
  };
  const auto say = [&](plan::Part part, const diag::Sentence<1>& row, const plan::FactRow& about) {
    if (facts.has(about) && changes(part)) put(row(facts.value(about)));
  };
  if (facts.has(fact::ratio) && changes(plan::Part::ratio)) put(ratio_of(facts));
  if (!facts.has(fact::aperture) || changes(plan::Part::aperture))
    put(aperture_from(facts, before));
  say(plan::Part::iso, list::iso, fact::iso);
  say(plan::Part::shutter, list::shutter, fact::shutter);
  const bool by_camera = plan::light_set(plan_.kit, v).is == plan::LightSet::Is::by_camera;
  if (by_camera && before == nullptr) put(list::exposure_by_camera());
  say(plan::Part::white_balance, list::white_balance, fact::white_balance);
  say(plan::Part::file_format, list::file_format, fact::file_format);
  const diag::Said flash = flash_of(v);
  if (!flash.empty() && (before == nullptr || !(flash == flash_of(*before)))) put(flash);
  say(plan::Part::lamp, list::lamp, fact::lamp);
  std::string out = set.items.empty() ? "" : in_.text(list::set(set));
  const auto also = [&](const diag::Said& what) {
    out += (out.empty() ? "" : " ") + in_.text(what);
  };
  if (const diag::Said light = light_of(v); !light.empty()) {
    if (before == nullptr || !(light == light_of(*before))) also(light);
  } else if (before != nullptr && corrects(*before)) {
    also(list::light_as_itself());
  }
  return out;
}

} // namespace norma::emit
