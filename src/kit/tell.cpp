#include "kit/tell.hpp"

#include <fmt/core.h>

#include "kit/fields.hpp"
#include "physics/quantity_text.hpp"

namespace norma::kit {

std::string filled(std::string_view pattern, std::string_view value) {
  const std::size_t at = pattern.find("{}");
  if (at == std::string_view::npos) return std::string(pattern);
  return fmt::format("{}{}{}", pattern.substr(0, at), value, pattern.substr(at + 2));
}

std::string text_of(int n) { return std::to_string(n); }
std::string text_of(double n) { return fmt::format("{}", n); }
std::string text_of(const std::string& s) { return s; }
std::string text_of(PupilRatio p) { return text_of(p.value()); }
std::string text_of(RefractiveIndex n) { return text_of(n.value()); }
std::string text_of(Share s) { return physics::fixed(100 * s.value(), 1) + " %"; }
std::string text_of(words::Date d) { return words::to_text(d); }
std::string text_of(const physics::Tooth& tooth) { return text_of(tooth.iso()); }
std::string text_of(Length l) { return physics::to_text(l); }
std::string text_of(Angle a) { return physics::to_text(a); }
std::string text_of(Stops s) { return physics::to_text(s); }
std::string text_of(Time t) { return physics::to_text(t); }
std::string text_of(FNumber n) { return physics::to_text(n); }
std::string text_of(Magnification m) { return physics::to_text(m); }
std::string text_of(Power p) { return physics::to_text(p); }
std::string text_of(IsoSpeed s) { return physics::to_text(s); }
std::string text_of(Illuminance e) { return physics::to_text(e); }
std::string text_of(ColourTemperature t) { return physics::to_text(t); }
std::string text_of(const Size& s) { return physics::to_text(s); }

} // namespace norma::kit
