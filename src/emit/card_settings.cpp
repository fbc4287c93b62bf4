#include "emit/card_settings.hpp"

#include "emit/card_words.hpp"
#include "emit/list_words.hpp"
#include "facts/facts.hpp"
#include "plan/light_set.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;

class LargeSettings {
 public:
  LargeSettings(const plan::Plan& plan, const plan::ViewPlan& view, std::string unknown,
                const wording::Language& in)
      : plan_(plan), view_(view), unknown_(std::move(unknown)), in_(in) {}

  std::vector<CardSetting> build() {
    const plan::Facts& facts = view_.facts;
    const std::string ratio = in_.text(facts.value(fact::ratio));
    const std::string mark = in_.text(facts.value(fact::lens_mark));
    if (!mark.empty()) {
      put(card::lens_mark(), mark, plan::Part::ratio,
          mark == ratio ? "" : in_.text(list::ratio(ratio)));
    } else {
      put(card::ratio(), or_unknown(ratio), plan::Part::ratio);
    }
    put(card::aperture(), or_unknown(in_.text(facts.value(fact::aperture))), plan::Part::aperture);
    light();
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::string or_unknown(std::string value) const {
    return value.empty() ? unknown_ : std::move(value);
  }
  void put(const diag::Said& what, std::string value, plan::Part part, std::string note = {}) {
    out_.push_back({in_.text(what), std::move(value), std::move(note), part});
  }

  void light() {
    using Is = plan::LightSet::Is;
    using plan::Part;
    const plan::LightSet light = plan::light_set(plan_.kit, view_);
    switch (light.is) {
    case Is::by_camera: return put(card::light(), in_.text(card::by_camera()), Part::lamp);
    case Is::steady: return put(card::light(), in_.text(card::steady()), Part::lamp);
    case Is::automatic: return put(card::flash(), in_.text(card::automatic()), Part::flash);
    case Is::power: return put(card::flash(), in_.text(light.power), Part::flash);
    case Is::short_of: {
      const diag::Value stops = diag::Measure{physics::Kind::stops, light.shortfall->base(), true};
      return put(card::flash(), in_.text(card::full_power()), Part::flash,
                 in_.text(card::stops_dark(stops)));
    }
    case Is::none:
    case Is::not_settled: return put(card::flash(), unknown_, Part::flash);
    }
  }

  const plan::Plan& plan_;
  const plan::ViewPlan& view_;
  const std::string unknown_;
  const wording::Language& in_;
  std::vector<CardSetting> out_;
};

} // namespace

std::vector<CardSetting> card_settings(const plan::Plan& plan, const plan::ViewPlan& view,
                                       const diag::Said& unknown, const wording::Language& in) {
  return LargeSettings(plan, view, in.text(unknown), in).build();
}

} // namespace norma::emit
