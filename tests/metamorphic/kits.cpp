#include "kits.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <optional>
#include <regex>
#include <sstream>
#include <vector>

#include "cli/run.hpp"
#include "kit/sections.hpp"
#include "support/support.hpp"

namespace norma::test::meta {
namespace {

std::vector<std::string> split_lines(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    out.push_back(line);
  return out;
}

/// `  - key: value   # why`, in its pieces.
struct KitLine {
  std::string before; // blanks, `- `, key and colon
  std::string key;
  std::string value;
};
std::optional<KitLine> kit_line(const std::string& line) {
  static const std::regex form("^(\\s*(?:- )?)([a-z][a-z ]*): +([^#\\[]*[^# \\[])(\\s+#.*)?$");
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  return KitLine{m[1].str() + m[2].str() + ": ", m[2], m[3]};
}

const std::vector<std::string>& shipped() {
  static const std::vector<std::string> all = [] {
    std::vector<std::filesystem::path> paths;
    for (const auto& e : std::filesystem::directory_iterator(root() / "protocols/kits"))
      paths.push_back(e.path());
    std::sort(paths.begin(), paths.end());
    std::vector<std::string> out;
    for (const auto& p : paths)
      out.push_back(read_file(p));
    return out;
  }();
  return all;
}

/// Words that the shipped kits write for each key: what one has, another may have.
const std::map<std::string, std::vector<std::string>>& values_by_key() {
  static const std::map<std::string, std::vector<std::string>> all = [] {
    std::map<std::string, std::vector<std::string>> out;
    for (const std::string& kit : shipped()) {
      for (const std::string& line : split_lines(kit)) {
        const auto l = kit_line(line);
        if (!l) continue;
        auto& values = out[l->key];
        if (std::find(values.begin(), values.end(), l->value) == values.end())
          values.push_back(l->value);
      }
    }
    out["side"] = {"left", "right", "top", "bottom"};
    return out;
  }();
  return all;
}

/// A length, a time in seconds, a spread of stops: each number times the same factor.
std::string scaled(const std::string& value, double factor) {
  static const std::regex number("[0-9]+(\\.[0-9]+)?");
  std::string out;
  std::size_t at = 0;
  for (std::sregex_iterator it(value.begin(), value.end(), number), end; it != end; ++it) {
    const auto begin = static_cast<std::size_t>(it->position());
    const double n = std::stod(it->str()) * factor;
    std::string text = fmt::format("{:.1f}", n);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    out += value.substr(at, begin - at) + text;
    at = begin + static_cast<std::size_t>(it->length());
  }
  return out + value.substr(at);
}

std::string changed(const KitLine& l, Dice& dice) {
  static const std::regex measure("^[0-9.]+( x [0-9.]+| \\+- [0-9.]+)? (mm|lx|stop|%)$");
  static const std::regex date("^[0-9]{4}-[0-9]{2}-[0-9]{2}$");
  if (l.key == "name" || l.key == "title" || l.key == "norma kit") return l.value;
  if (std::regex_match(l.value, date))
    return fmt::format("{}-{:02}-{:02}", 2024 + dice.below(3), 1 + dice.below(10),
                       1 + dice.below(28));
  if (std::regex_match(l.value, measure) && dice.chance(0.7))
    return scaled(l.value, dice.between(0.75, 1.3));
  return dice.one_of(values_by_key().at(l.key));
}

std::string own_values(std::string_view section, std::span<const kit::OwnValueKey> rows,
                       Dice& dice) {
  std::string out;
  for (const kit::OwnValueKey& row : rows) {
    if (!dice.chance(0.15)) continue;
    // Near what norma assumes, within the range of the row.
    const double usual = row.which->value;
    const double low = std::max(row.least, usual - 0.15 * std::abs(usual));
    const double high = std::min(row.most, usual + 0.15 * std::abs(usual));
    const double value = dice.between(low, high);
    const std::string_view unit = row.which->unit;
    const bool whole = unit == "months" || unit.empty();
    std::string text =
        whole && usual >= 2 ? fmt::format("{:.0f}", value) : fmt::format("{:.2f}", value);
    if (unit == "mm" || unit == "deg") text += fmt::format(" {}", unit);
    if (unit == "stops") text += " stop";
    out += fmt::format("  {}: {}\n", row.name, text);
  }
  return out.empty() ? "" : fmt::format("{}:\n{}", section, out);
}

std::string attempt(Dice& dice, const std::string& name, double share) {
  std::string out;
  for (const std::string& line : split_lines(dice.one_of(shipped()))) {
    const auto l = kit_line(line);
    if (l && l->key == "name" && l->before.starts_with("name")) {
      out += "name: " + name + "\n";
    } else if (l && dice.chance(share) && line.find("- ") == std::string::npos &&
               dice.chance(0.15)) {
      continue; // a key that is not given
    } else if (l && dice.chance(share)) {
      out += l->before + changed(*l, dice) + "\n";
    } else {
      out += line + "\n";
    }
  }
  if (dice.chance(share)) out += own_values("limits", kit::limit_section().keys, dice);
  if (dice.chance(0.1 + share)) out += own_values("anatomy", kit::anatomy_section().keys, dice);
  return out;
}

} // namespace

std::string draw_kit(Dice& dice, const std::string& name) {
  // Most as they are shipped, or nearly so; some with much changed.
  constexpr double shares[] = {0.3, 0.1, 0.05, 0.02, 0.0, 0.0};
  for (std::size_t i = dice.below(std::size(shares)); i < std::size(shares); ++i) {
    const double share = shares[i];
    const std::string kit = attempt(dice, name, share);
    write_file("drawn.yaml", kit);
    const cli::Outcome o = cli::run({"kit", "--on", "2026-11-25", "drawn.yaml"});
    if (o.code == 0 && o.err.empty()) return kit;
  }
  return attempt(dice, name, 0.0);
}

std::string kit_of_other_side(const std::string& kit) {
  static const std::regex side("(side: )(left|right)\\b");
  std::string out;
  std::size_t at = 0;
  for (std::sregex_iterator it(kit.begin(), kit.end(), side), end; it != end; ++it) {
    const auto begin = static_cast<std::size_t>(it->position());
    out += kit.substr(at, begin - at) + (*it)[1].str() + ((*it)[2] == "left" ? "right" : "left");
    at = begin + static_cast<std::size_t>(it->length());
  }
  return out + kit.substr(at);
}

} // namespace norma::test::meta
