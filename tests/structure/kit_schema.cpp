#include "kit_schema.hpp"

#include <fmt/core.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string_view>

#include "kit/sections.hpp"
#include "physics/anatomy/tooth.hpp"
#include "physics/quantity_text.hpp"
#include "project/settings.hpp"
#include "words/literal.hpp"

namespace norma::test {
namespace {

using Json = nlohmann::ordered_json;
using kit::Form;
using Value = Form::Value;
using Shape = Form::Shape;

// Words -------------------------------------------------------------------------------------------

std::string words_in(std::span<const std::string_view> words) {
  std::string out;
  for (const std::string_view w : words)
    out += fmt::format("{}`{}`", out.empty() ? "" : w == words.back() ? " or " : ", ", w);
  return out;
}

std::string between(const Form& f, std::string_view unit) {
  const std::string behind = unit.empty() ? "" : " " + std::string(unit);
  return fmt::format("{:.16g}{} to {:.16g}{}", f.least, behind, f.most, behind);
}

std::string one_value(const Form& f) {
  switch (f.value) {
  case Value::edition: return "`1`";
  case Value::text: return fmt::format("a text, at most {:g} characters", f.most);
  case Value::number: {
    const std::string unit(f.unit);
    return "a number, " + between(f, "") +
           (unit.empty() ? "" : fmt::format(", with or without `{}` behind it", unit));
  }
  case Value::whole: return "a whole number, " + between(f, "");
  case Value::length: return "a length, " + between(f, "mm");
  case Value::time: return fmt::format("a time, at most {:g} s", f.most);
  case Value::angle: return "an angle, " + between(f, "deg");
  case Value::stops: return "stops, " + between(f, "") + ", such as `0.5 +- 0.1 stop`";
  case Value::percent: return "a share, " + between(f, "%");
  case Value::light: return "an illuminance, " + between(f, "lx");
  case Value::colour: return "a colour temperature, " + between(f, "K");
  case Value::date: return "a day, such as `2026-09-01`";
  case Value::size: return "width and height, each " + between(f, "mm") + ", such as `36 x 24 mm`";
  case Value::ratio:
    return fmt::format("a ratio, {} to {}", physics::to_text(Magnification{f.least}),
                       physics::to_text(Magnification{f.most}));
  case Value::f_number: return "a mark of the aperture scale, such as `f/22`";
  case Value::power:
    return fmt::format("a share of full power, {} to {}", physics::to_text(Power{f.least}),
                       physics::to_text(Power{f.most}));
  case Value::tooth: return "a tooth's number in ISO 3950";
  case Value::choice: return words_in(f.words);
  case Value::block: return "a block of keys";
  }
  return "";
}

// Patterns ----------------------------------------------------------------------------------------

constexpr std::string_view blanks = "[ \\t]*";
/// Without sign; a zero in front of another digit is no number in a kit.
constexpr std::string_view whole_number = "(?:0|[1-9][0-9]{0,8})";
const std::string decimal = fmt::format("{}(?:\\.[0-9]{{1,6}})?", whole_number);
const std::string number = fmt::format("(?:{}|{}/[1-9][0-9]{{0,8}})", decimal, whole_number);

std::string units_of(words::Dimension dimension) {
  std::string out;
  for (const words::Unit& u : words::units())
    if (u.dimension == dimension) out += (out.empty() ? "" : "|") + std::string(u.name);
  return "(?:" + out + ")";
}

/// A scalar without what holds it at both ends.
std::string inner(const Form& f) {
  const std::string n = (f.least < 0 ? "[+-]?" : "\\+?") + number;
  const auto with_unit = [&](words::Dimension d) { return n + std::string(blanks) + units_of(d); };
  switch (f.value) {
  case Value::number:
  case Value::power: return f.unit.empty() ? n : fmt::format("{}(?: +{})?", n, f.unit);
  case Value::whole: return fmt::format("\\+?{}(?:\\.0{{1,6}})?", whole_number);
  case Value::tooth: return "(?:[1-4][1-8]|[5-8][1-5])";
  case Value::length: return with_unit(words::Dimension::length);
  case Value::time: return with_unit(words::Dimension::time);
  case Value::angle: return with_unit(words::Dimension::angle);
  case Value::percent: return with_unit(words::Dimension::percent);
  case Value::light: return with_unit(words::Dimension::light);
  case Value::colour: return with_unit(words::Dimension::temperature);
  case Value::stops: {
    const std::string unit = std::string(blanks) + units_of(words::Dimension::stops);
    const std::string off = fmt::format("{}\\+-{}{}", blanks, blanks, n);
    return fmt::format("{}(?:{}(?:{}(?:{})?)?|{}{})", n, unit, off, unit, off, unit);
  }
  case Value::size: {
    const std::string unit = units_of(words::Dimension::length);
    return fmt::format("{}{}(?:{}[ \\t]+)?x{}{}{}{}", n, blanks, unit, blanks, n, blanks, unit);
  }
  case Value::ratio: return decimal + ":" + decimal;
  case Value::f_number: return "f/" + decimal;
  case Value::date:
    return "[0-9]{4}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|"
           "(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|[12][0-9]))";
  case Value::edition:
  case Value::text:
  case Value::choice:
  case Value::block: break;
  }
  return "";
}

// Schema ------------------------------------------------------------------------------------------

Json scalar(const Form& f) {
  const Json text = {{"type", "string"}, {"pattern", pattern_of(f)}};
  if (f.shape == Shape::ends) return text;
  switch (f.value) {
  case Value::edition: return {{"enum", {1, "1"}}};
  case Value::text:
    // A name may look like a number, or like true: it is a text all the same.
    return {{"type", {"string", "number", "boolean"}},
            {"minLength", static_cast<int>(f.least)},
            {"maxLength", static_cast<int>(f.most)},
            {"pattern", "^[^\\u0000-\\u001f\\u007f-\\u009f\\ufeff\\u200b-\\u200f\\u2028-\\u202e"
                        "\\u2060-\\u2069]*$"}};
  case Value::choice: {
    Json words = Json::array();
    for (const std::string_view w : f.words)
      words.push_back(w);
    return {{"enum", words}};
  }
  case Value::number:
  case Value::power:
    return {{"anyOf", {{{"type", "number"}, {"minimum", f.least}, {"maximum", f.most}}, text}}};
  case Value::whole:
    return {{"anyOf",
             {{{"type", "integer"},
               {"minimum", static_cast<int>(f.least)},
               {"maximum", static_cast<int>(f.most)}},
              text}}};
  case Value::tooth: {
    Json teeth = Json::array();
    for (int n = static_cast<int>(f.least); n <= static_cast<int>(f.most); ++n)
      if (physics::Tooth::from_iso(n)) teeth.push_back(n);
    return {{"anyOf", {{{"enum", teeth}}, text}}};
  }
  default: return text;
  }
}

class Schema {
 public:
  std::string build(std::string_view id, std::string_view title, std::string_view description,
                    const std::vector<kit::Row>& rows) {
    Json out = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                {"$id", id},
                {"title", title},
                {"description", description}};
    out.update(block(rows));
    out["$defs"] = defs_;
    return out.dump(2) + "\n";
  }

 private:
  Json block(const std::vector<kit::Row>& rows) {
    Json properties = Json::object();
    Json needed = Json::array();
    for (const kit::Row& row : rows) {
      Json value = shaped(row);
      value["description"] = fmt::format("{} ({})", row.help, written_as(row.form));
      properties[std::string(row.name)] = value;
      if (row.required) needed.push_back(row.name);
    }
    Json out = {{"type", "object"}, {"properties", properties}};
    if (!needed.empty()) out["required"] = needed;
    out["additionalProperties"] = false;
    return out;
  }

  Json shaped(const kit::Row& row) {
    const Form one = row.form.as(Shape::one);
    switch (row.form.shape) {
    case Shape::one:
    case Shape::ends: return row.form.value == Value::block ? reference(row) : scalar(row.form);
    case Shape::list:
      return {{"type", "array"},
              {"items", row.form.value == Value::block ? reference(row) : scalar(one)}};
    case Shape::one_or_list:
      return {{"anyOf",
               {scalar(one), {{"type", "array"}, {"items", scalar(one)}, {"uniqueItems", true}}}}};
    case Shape::pairs:
      return {
          {"type", "array"},
          {"minItems", 1},
          {"maxItems", Form::most_pairs},
          {"items", {{"type", "array"}, {"minItems", 2}, {"maxItems", 2}, {"items", scalar(one)}}}};
    case Shape::by_ratio:
      return {{"type", "object"},
              {"propertyNames", {{"pattern", pattern_of(Form::range(Value::ratio, 0, 0))}}},
              {"additionalProperties", scalar(one)}};
    }
    return {};
  }

  Json reference(const kit::Row& row) {
    const std::string name(row.name);
    if (!defs_.contains(name)) defs_[name] = block(row.form.rows());
    std::string place = name;
    for (std::size_t at = place.find(' '); at != std::string::npos; at = place.find(' '))
      place.replace(at, 1, "%20");
    return {{"$ref", "#/$defs/" + place}};
  }

  Json defs_ = Json::object();
};

} // namespace

std::string written_as(const Form& f) {
  const std::string one = one_value(f);
  switch (f.shape) {
  case Shape::one: return one;
  case Shape::ends:
    return f.value == Value::f_number
               ? "two marks of the aperture scale, such as `f/2.8 to f/32`"
               : fmt::format("two ends, such as `{}`: each {}",
                             f.value == Value::ratio ? "1:10 to 1:1" : "100 to 1600", one);
  case Shape::list:
    return f.value == Value::block ? "a list of blocks"
                                   : "a list, such as `[\"1:10\", \"1:1\"]`: each " + one;
  case Shape::one_or_list: return one + ", or a list of them";
  case Shape::pairs: return fmt::format("a list of 1 to {} pairs: each {}", Form::most_pairs, one);
  case Shape::by_ratio: return "a table, a line each such as `1:2: 255 mm`: " + one;
  }
  return "";
}

std::string table_of(const std::vector<kit::Row>& rows) {
  std::string out = "\n| key | what stands there | written as | |\n|---|---|---|---|\n";
  for (const kit::Row& row : rows)
    out += fmt::format("| `{}` | {} | {} | {} |\n", row.name, row.help, written_as(row.form),
                       row.required ? "must be there" : "");
  return out + "\n";
}

std::string pattern_of(const Form& f) {
  const std::string one = inner(f);
  const std::string all = f.shape == Shape::ends ? fmt::format("{} +to +{}", one, one) : one;
  return fmt::format("^{}{}{}$", blanks, all, blanks);
}

std::string kit_schema() {
  return Schema().build("urn:norma:kit:1", "A kit file: what one chair has, as measured there",
                        "A kit is YAML. Ranges of values with a unit stand in the descriptions: "
                        "norma holds them, and values against each other.",
                        rows_of(kit::kit_section()));
}

std::string project_schema() {
  return Schema().build("urn:norma:project:1",
                        "A project file (norma.yaml): what holds for a tree of protocols",
                        "A project file is YAML. norma also holds what it names against the files "
                        "that there are.",
                        rows_of(project::project_section()));
}

} // namespace norma::test
