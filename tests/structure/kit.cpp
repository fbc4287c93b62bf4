// The tables of a kit's keys, and what is made from them.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "cli/run.hpp"
#include "generated.hpp"
#include "kit/fields.hpp"
#include "kit/read_kit.hpp"
#include "kit/sections.hpp"
#include "kit_schema.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace {

using kit::Form;
using Value = Form::Value;
using Shape = Form::Shape;

bool is_block(const kit::Row& row) { return row.form.value == Value::block; }

/// Values of norma's own that a kit may set have a table of another kind.
bool is_own_values(const kit::Row& row) { return row.name == "limits" || row.name == "anatomy"; }

void hold_keys(const std::vector<kit::Row>& rows, std::string_view section) {
  std::string table = "\n| key | what stands there | written as | |\n|---|---|---|---|\n";
  for (const kit::Row& row : rows) {
    table += fmt::format("| `{}` | {} | {} | {} |\n", row.name, row.help, written_as(row.form),
                         row.required ? "must be there" : "");
  }
  hold_between("docs/kit.md", fmt::format("<!-- keys of {} -->", section), "<!-- end -->",
               table + "\n");
  for (const kit::Row& row : rows)
    if (is_block(row) && !is_own_values(row)) hold_keys(row.form.rows(), row.name);
}

void hold_own_values(const std::vector<kit::Row>& rows, std::span<const kit::OwnValueKey> keys,
                     std::string_view section) {
  std::string table = "\n| key | what it means | written as | norma's own |\n|---|---|---|---|\n";
  REQUIRE(rows.size() == keys.size());
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const physics::Default& own = *keys[i].which;
    table +=
        fmt::format("| `{}` | {} | {} | {}{}{} |\n", keys[i].name, keys[i].help,
                    written_as(rows[i].form), own.value, own.unit.empty() ? "" : " ", own.unit);
  }
  hold_between("docs/kit.md", fmt::format("<!-- keys of {} -->", section), "<!-- end -->",
               table + "\n");
}

/// A value that can stand behind a key.
std::string good_value(const Form& f) {
  switch (f.value) {
  case Value::edition: return "1";
  case Value::text: return "a name";
  case Value::number: return fmt::format("{:.16g}", f.most);
  case Value::whole: return fmt::format("{:.16g}", f.most);
  case Value::length: return fmt::format("{:.16g} mm", f.most);
  case Value::time: return fmt::format("{:.16g} s", f.most);
  case Value::angle: return fmt::format("{:.16g} deg", f.most);
  case Value::stops: return fmt::format("{:.16g} stops", f.most);
  case Value::percent: return fmt::format("{:.16g} %", f.most);
  case Value::light: return fmt::format("{:.16g} lx", f.most);
  case Value::date: return "2026-09-01";
  case Value::size: return "36 x 24 mm";
  case Value::ratio: return f.shape == Shape::ends ? "1:1000 to 20:1" : "1:2";
  case Value::f_number: return f.shape == Shape::ends ? "f/2.8 to f/22" : "f/22";
  case Value::power: return "1/1";
  case Value::tooth: return "12";
  case Value::choice: return std::string(f.words.front());
  case Value::block: break;
  }
  return "";
}

std::string good_shape(const Form& f) {
  const std::string one = good_value(f);
  switch (f.shape) {
  case Shape::one: return one;
  case Shape::ends: return f.value == Value::number ? one + " to " + one : one;
  case Shape::list:
  case Shape::one_or_list: return "[\"" + one + "\"]";
  case Shape::pairs: return fmt::format("[[{}, {}]]", one, one);
  case Shape::by_ratio: return fmt::format("{{\"1:2\": {}}}", one);
  }
  return "";
}

/// The text of a kit with every key of its tables, each on a line of its own; `write` gives the
/// value of one, or nothing to leave it out. Its argument is the way to it, "lamps/kind".
using Write = std::function<std::string(const std::string& way, const kit::Row& row)>;
std::string kit_text(const std::vector<kit::Row>& rows, const Write& write,
                     const std::string& way = "", const std::string& indent = "") {
  std::string out;
  for (const kit::Row& row : rows) {
    const std::string here = way + std::string(row.name);
    const std::string value = write(here, row);
    if (value.empty()) continue;
    out += fmt::format("{}{}:", indent, row.name);
    if (!is_block(row)) {
      out += " " + value + "\n";
      continue;
    }
    std::string below = kit_text(row.form.rows(), write, here + "/", indent + "    ");
    if (row.form.shape == Shape::list) below[indent.size() + 2] = '-';
    out += "\n" + below;
  }
  return out;
}

std::string any_value(const std::string& /*way*/, const kit::Row& row) {
  return is_block(row) ? "block" : good_shape(row.form);
}

std::vector<std::string> ways(const std::vector<kit::Row>& rows, bool with_blocks) {
  std::vector<std::string> all;
  kit_text(rows, [&](const std::string& way, const kit::Row& row) {
    if (with_blocks || !is_block(row)) all.push_back(way);
    return any_value(way, row);
  });
  return all;
}

/// Parts that each end with a bar.
std::vector<std::string> parted(std::string_view all) {
  std::vector<std::string> parts;
  for (std::size_t bar = all.find('|'); bar != std::string_view::npos; bar = all.find('|')) {
    parts.emplace_back(all.substr(0, bar));
    all.remove_prefix(bar + 1);
  }
  return parts;
}

std::vector<std::string> codes_in(const std::string& text) {
  text::Sources sources;
  diag::Findings findings;
  kit::read_kit(sources.add("k.yaml", text), sources, findings);
  std::vector<std::string> codes;
  for (const auto& d : findings.all())
    codes.emplace_back(d.definition->code);
  return codes;
}

} // namespace

TEST_CASE("docs/kit.md has every key of a kit") {
  const std::vector<kit::Row> rows = rows_of(kit::kit_section());
  hold_keys(rows, "the file");
  for (const kit::Row& row : rows) {
    if (row.name == "limits") hold_own_values(row.form.rows(), kit::limit_section().keys, row.name);
    if (row.name == "anatomy")
      hold_own_values(row.form.rows(), kit::anatomy_section().keys, row.name);
  }
}

TEST_CASE("the schema of a kit has every key of its tables") {
  hold_file("docs/schema/kit.schema.json", kit_schema());
}

TEST_CASE("the greatest value that a row allows is read") {
  // Values that do not go with each other are another matter (K009).
  const auto codes = codes_in(kit_text(rows_of(kit::kit_section()), any_value));
  for (const std::string& code : codes)
    CHECK(code == "K009");
  const std::vector<kit::Row> rows = rows_of(kit::kit_section());
  for (const std::string& way : ways(rows, false)) {
    CAPTURE(way);
    // What is required on the way to it, and it.
    const std::string text = kit_text(rows, [&](const std::string& here, const kit::Row& row) {
      const bool on_the_way = way.starts_with(here + "/");
      const bool wanted = here == way || on_the_way || row.required;
      return wanted ? any_value(here, row) : std::string();
    });
    CAPTURE(text);
    std::set<std::string> refused;
    for (const std::string& code : codes_in(text))
      refused.insert(code);
    // A ring has none of these; a lamp alone burns with no other; no lens of 2 m focal length comes
    // that close.
    const bool alone = way != "lamps/offset" && way != "lamps/side" && way != "lamps/moves" &&
                       way != "lamps/heads apart" && way != "lamps/heads" &&
                       way != "lamps/burns with" && way != "lens/working distance";
    CHECK(refused == (alone ? std::set<std::string>{} : std::set<std::string>{"K009"}));
  }
}

TEST_CASE("the schema's patterns and the reader agree on what is no value at all") {
  const std::vector<std::string> texts =
      parted("1|0|11|12|19|-1|+1|1.5|2.0|1.|.5|010|0.5|1/2|1/0|1.0/2|1e3|.inf|0x10|1_0|35 mm|"
             "35mm|+35 mm|3.5 cm|0.035 m|35 um|35 km|35|035 mm|35 deg|35deg|35 mm 2|0.5 stop|"
             "0.5 stops|0.5 +- 0.1 stop|0.5 stop +- 0.1|0.5 stop +- 0.1 stop|0.5 +- 0.1|0.5 +-|"
             "77 %|77%|500 lx|1/125 s|8 ms|1 min|12 months|12 month|12  months|12 min|0.4 min|"
             "2026-09-01|2026-13-01|2026-9-1|2026-09-01T00:00|36 x 24 mm|36x24mm|36 mm x 24 mm|"
             "36 mmx 24 mm|36 mm x 24|36 x 24|36 x mm|1:2|2:1|1:1.5|1: 2|1:|01:2|f/22|f/5.6|"
             "F/22|f/|f 22|f/2.8 to f/32|f/2.8 to 32|1:10 to 1:1|1:10  to  1:1|100 to 1600|"
             "100 to|100to1600|100 - 1600|to|yes|~|nothing of all this|");
  const std::vector<kit::Row> rows = rows_of(kit::kit_section());
  std::size_t read = 0;
  std::size_t refused = 0;
  for (const std::string& way : ways(rows, false)) {
    Form form = Form::range(Value::text, 0, 0);
    kit_text(rows, [&](const std::string& here, const kit::Row& row) {
      if (here == way) form = row.form;
      return any_value(here, row);
    });
    const bool has_pattern = form.value != Value::text && form.value != Value::choice &&
                             form.value != Value::edition &&
                             (form.shape == Shape::one || form.shape == Shape::ends);
    if (!has_pattern) continue;
    const std::regex pattern(pattern_of(form));
    for (const std::string& text : texts) {
      CAPTURE(way);
      CAPTURE(text);
      const auto codes = codes_in(kit_text(rows, [&](const std::string& here, const kit::Row& row) {
        if (here == way) return "\"" + text + "\"";
        const bool wanted = way.starts_with(here + "/") || row.required;
        return wanted ? any_value(here, row) : std::string();
      }));
      const bool no_value = std::any_of(codes.begin(), codes.end(), [](const std::string& c) {
        return c == "K008" || c == "K012";
      });
      if (no_value) {
        ++refused;
        CHECK_FALSE(std::regex_match(text, pattern));
      } else if (codes.empty()) {
        ++read;
        CHECK(std::regex_match(text, pattern));
      }
    }
  }
  CHECK(read > 400);
  CHECK(refused > 5000);
}

TEST_CASE("norma kit says each key of a kit, or that it is missing") {
  const std::vector<kit::Row> rows = rows_of(kit::kit_section());
  const Folder folder;
  const Inside inside(folder.path());
  const auto said = [](const std::string& text) {
    write_file("k.yaml", text);
    return cli::run({"kit", "--on", "2026-11-25", "k.yaml"}).out;
  };
  // Words that say what norma takes anyhow go without saying.
  const Write write = [](const std::string& way, const kit::Row& row) -> std::string {
    if (way == "lamps/light") return "steady";
    if (way == "pictures") return "prints";
    if (way == "retractors/sides") return "both";
    return any_value(way, row);
  };
  const std::string with_all = said(kit_text(rows, write));
  for (const std::string& way : ways(rows, true)) {
    if (way == "norma kit") continue;
    CAPTURE(way);
    const std::string without =
        said(kit_text(rows, [&](const std::string& here, const kit::Row& row) {
          return here == way ? std::string() : write(here, row);
        }));
    CHECK(without != with_all);
  }
}

TEST_CASE("each key that is told behind another one is told") {
  const auto hold = [](const auto& section) {
    const std::size_t all = section.keys.size();
    CHECK(told_order(section.keys, [](const auto& k) { return k.said.after; }).size() == all);
    CHECK(told_order(section.keys, [](const auto& k) { return k.absence.after; }).size() == all);
  };
  hold(kit::kit_section());
  hold(kit::lens_section());
  hold(kit::lamp_section());
  hold(kit::reference_shot_section());
  hold(kit::retractor_section());
  hold(kit::mirror_section());
}

TEST_CASE(
    "every size that a mouth is built from can be set in a kit, norma's own among its values") {
  for (const physics::Default* row : physics::defaults::anatomy) {
    CAPTURE(row->name);
    const auto keys = kit::anatomy_section().keys;
    CHECK(std::count_if(keys.begin(), keys.end(),
                        [&](const kit::OwnValueKey& k) { return k.which == row; }) == 1);
  }
  CHECK(kit::anatomy_section().keys.size() == physics::defaults::anatomy.size());
  for (const auto keys : {kit::limit_section().keys, kit::anatomy_section().keys}) {
    for (const kit::OwnValueKey& k : keys) {
      CAPTURE(k.name);
      CHECK(k.least <= k.which->value);
      CHECK(k.which->value <= k.most);
      CHECK(k.name.find(':') == std::string_view::npos); // it would have to be quoted
    }
  }
}

} // namespace norma::test
