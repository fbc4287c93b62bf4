#include "words/meant.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "physics/quantity_text.hpp"
#include "words/literal.hpp"
#include "words/teeth.hpp"

namespace norma::words {
namespace {

struct Pair {
  std::string_view written;
  std::string_view meant;
};
// Only offered where the second is among what can stand there.
constexpr Pair values[] = {
    {"l", "left"},
    {"r", "right"},
    {"lt", "left"},
    {"rt", "right"},
    {"nurse", "assistant"},
    {"helper", "assistant"},
    {"hygienist", "assistant"},
    {"photographer", "operator"},
    {"dentist", "operator"},
    {"medium", "even"},
    {"normal", "even"},
    {"equal", "even"},
    {"strong", "firm"},
    {"tight", "firm"},
    {"gentle", "light"},
    {"loose", "light"},
    {"maxillary", "occlusal"},
    {"mandibular", "occlusal"},
    {"upper", "occlusal"},
    {"lower", "occlusal"},
    {"arch", "occlusal"},
    {"cheek", "buccal right"},
    {"round", "disc"},
    {"closed", "together"},
    {"occluded", "together"},
    {"clenched", "together"},
    {"tilted", "tipped"},
    {"back", "tipped back"},
    {"down", "tipped down"},
    {"vestibular", "facial"},
    {"oral", "lingual"},
    {"child", "children"},
    {"kids", "children"},
    {"adult", "adults"},
    {"steel", "metal"},
    {"acrylic", "plastic"},
    {"matt", "frosted"},
    {"matte", "frosted"},
    {"sandblasted", "frosted"},
    {"shiny", "polished"},
    {"transparent", "clear"},
    {"ringflash", "ring"},
    {"ringlight", "ring"},
    {"frontal", "straight ahead"},
    {"incisors", "front teeth"},
    {"molars", "back teeth"},
    {"explain", "write the reason"},
    {"smile", "smiling"},
    {"jpeg", "JPEG"},
    {"jpg", "JPEG"},
    {"both", "raw and JPEG"},
    {"portrait", "upright"},
    {"landscape", "level"},
    {"open", "opened"},
    {"mirror", "in a mirror"},
};

// Words of the first drafts that were misread aloud.
constexpr Pair drafts[] = {
    {"taken in mirror", "photographed in a mirror"},
    {"filled in at the chair", "named at the chair"},
    {"fixed by the camera", "set by the camera"},
    {"held by itself", "needs no hand"},
    {"every tooth present", "whichever teeth are there"},
};

constexpr Pair teeth_by_name[] = {
    {"front teeth", "facial 13 to 23, 43 to 33"}, {"anterior teeth", "facial 13 to 23, 43 to 33"},
    {"upper front teeth", "facial 13 to 23"},     {"upper anterior teeth", "facial 13 to 23"},
    {"upper anteriors", "facial 13 to 23"},       {"lower front teeth", "facial 43 to 33"},
    {"lower anterior teeth", "facial 43 to 33"},  {"lower anteriors", "facial 43 to 33"},
    {"upper incisors", "facial 12 to 22"},        {"lower incisors", "facial 42 to 32"},
    {"central incisors", "facial 11, 21"},        {"upper central incisors", "facial 11, 21"},
    {"upper canines", "facial 13, 23"},           {"lower canines", "facial 43, 33"},
    {"upper teeth", "facial 17 to 27"},           {"lower teeth", "facial 47 to 37"},
    {"all teeth", "facial 17 to 27, 47 to 37"},   {"upper arch", "occlusal 17 to 27"},
    {"lower arch", "occlusal 47 to 37"},
};
// Set on the camera, or afterwards, and no part of a plan.
constexpr std::string_view beyond[] = {"picture style", "metering", "autofocus"};

constexpr Pair unit_names[] = {
    {"sec", "s"},      {"secs", "s"},        {"second", "s"},       {"seconds", "s"},
    {"msec", "ms"},    {"minutes", "min"},   {"minute", "min"},     {"mins", "min"},
    {"degree", "deg"}, {"degrees", "deg"},   {"degs", "deg"},       {"millimeter", "mm"},
    {"mms", "mm"},     {"millimetre", "mm"}, {"millimeters", "mm"}, {"millimetres", "mm"},
    {"cms", "cm"},     {"micron", "um"},     {"microns", "um"},     {"EV", "stop"},
    {"ev", "stop"},    {"lux", "lx"},        {"kelvin", "K"},       {"k", "K"},
    {"percent", "%"},  {"meter", "m"},       {"metre", "m"},        {"meters", "m"},
    {"metres", "m"},
};

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

} // namespace

std::optional<std::string> meant_value(std::string_view written,
                                       std::span<const std::string> wanted) {
  const std::string small = lower(written);
  for (const std::string& w : wanted) {
    if (w == small) return w; // only upper case kept it apart
  }
  for (const Pair& p : values) {
    if (p.written != small) continue;
    // Whole, or its start: `straight` of `straight ahead`, `tipped` of `tipped back`.
    const std::string_view first = p.meant.substr(0, p.meant.find(' '));
    const bool stands = std::any_of(wanted.begin(), wanted.end(), [&](const std::string& w) {
      return w == p.meant || w == first || w.starts_with(std::string(p.meant) + " ");
    });
    if (stands) return std::string(p.meant);
  }
  return std::nullopt;
}

std::optional<std::string_view> written_today(std::string_view once) {
  for (const Pair& p : drafts) {
    if (p.written == once) return p.meant;
  }
  return std::nullopt;
}

std::optional<std::string_view> meant_teeth(std::string_view written) {
  for (const Pair& p : teeth_by_name) {
    if (p.written == written) return p.meant;
  }
  return std::nullopt;
}

std::optional<int> tooth_of_count(int number) {
  if (number < 1 || number > 32) return std::nullopt;
  if (number <= 8) return 19 - number;
  if (number <= 16) return number + 12;
  return number <= 24 ? 55 - number : number + 16;
}

std::optional<std::string_view> beyond_the_language(std::string_view statement) {
  for (const std::string_view word : beyond) {
    if (statement == word || statement.starts_with(std::string(word) + " ")) return word;
  }
  return std::nullopt;
}

std::optional<std::string> meant_unit(std::string_view written) {
  for (const Pair& p : unit_names) {
    if (p.written == written) return std::string(p.meant);
  }
  if (find_unit(lower(written)) != nullptr) return lower(written);
  return std::nullopt;
}

std::optional<std::string> meant_tooth(std::string_view written) {
  const std::string small = lower(written);
  std::string iso;
  if (small.size() == 3 && (small[0] == 'u' || small[0] == 'l') &&
      (small[1] == 'r' || small[1] == 'l')) {
    const bool upper = small[0] == 'u';
    const bool right = small[1] == 'r';
    iso = fmt::format("{}{}", upper ? (right ? 1 : 2) : (right ? 4 : 3), small[2]);
  } else if (small.size() == 3 && small[1] == '.') {
    iso = fmt::format("{}{}", small[0], small[2]);
  }
  return parse_tooth(iso) ? std::optional(iso) : std::nullopt;
}

std::optional<std::string> meant_ratio(std::string_view written) {
  const auto literal = parse_number(written);
  const auto* n = std::get_if<Rational>(&literal);
  if (n == nullptr || n->numerator <= 0) return std::nullopt;
  if (n->denominator == 1) return fmt::format("{}:1", n->numerator);
  if (n->numerator == 1) return fmt::format("1:{}", n->denominator);
  const double against = 1.0 / n->value();
  const double halves = std::round(2.0 * against) / 2.0;
  if (std::abs(against - halves) > 0.02) return std::nullopt; // 0.67 is 1:1.5
  return std::floor(halves) == halves ? fmt::format("1:{:.0f}", halves)
                                      : fmt::format("1:{:.1f}", halves);
}

std::optional<std::string> meant_f_number(std::string_view written) {
  std::string digits = lower(written);
  if (!digits.empty() && digits.front() == 'f') digits.erase(0, 1);
  const auto literal = parse_number(digits);
  const auto* n = std::get_if<Rational>(&literal);
  if (n == nullptr || physics::exact_f_number(n->value()).value() <= 0) return std::nullopt;
  return "f/" + digits;
}

std::optional<std::string> name_from(std::string_view text) {
  std::string out;
  for (const char c : lower(text)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain) {
      out += c;
    } else if (c == ' ' && !out.empty() && out.back() != '_') {
      out += '_';
    }
  }
  while (!out.empty() && out.back() == '_')
    out.pop_back();
  if (out.empty() || out.front() < 'a' || out.front() > 'z') return std::nullopt;
  return out;
}

} // namespace norma::words
