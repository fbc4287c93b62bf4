// The tables of a project file's keys, and what is made from them.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "generated.hpp"
#include "kit_schema.hpp"
#include "model/protocol.hpp"
#include "project/known.hpp"
#include "project/project.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace {

std::vector<std::string> codes_in(const std::string& text) {
  diag::Findings findings;
  project::read_settings(text::FileId{0}, text, findings);
  std::vector<std::string> codes;
  for (const auto& d : findings.all())
    codes.emplace_back(d.definition->code);
  return codes;
}

/// Something that can stand behind a key, and something that cannot.
struct Values {
  std::string good;
  std::string bad;
};
Values values_of(const kit::Row& row) {
  using Value = kit::Form::Value;
  switch (row.form.value) {
  case Value::edition: return {"1", "2"};
  case Value::text: return {"a name", "{a: block}"};
  case Value::choice: return {std::string(row.form.words.front()), "no such word"};
  case Value::block: return {"\n  - folder: one", "a text"};
  default: break;
  }
  FAIL("no value for ", row.name);
  return {};
}

} // namespace

TEST_CASE("docs/project.md has every key of a project file") {
  hold_between("docs/project.md", "<!-- keys of the file -->", "<!-- end -->",
               table_of(rows_of(project::project_section())));
  hold_between("docs/project.md", "<!-- keys of folders -->", "<!-- end -->",
               table_of(rows_of(project::folder_section())));
}

TEST_CASE("the schema of a project file has every key of its tables") {
  hold_file("docs/schema/project.schema.json", project_schema());
}

TEST_CASE("the schema of known findings has every field of them") {
  using Json = nlohmann::ordered_json;
  Json properties = Json::object();
  Json needed = Json::array();
  const auto field = [&](const char* key, const std::string&, bool required, std::string_view is) {
    properties[key] = {{"type", "string"}, {"description", is}};
    if (required) needed.push_back(key);
  };
  project::Known any;
  project::Known::fields(field, any);
  properties["id"]["pattern"] = "^[0-9a-f]{16}$";
  properties["severity"]["enum"] = {"error", "warning", "advice"};
  const std::string mark(project::known_mark);
  const Json one = {{"type", "object"},
                    {"properties", properties},
                    {"required", needed},
                    {"additionalProperties", false}};
  const Json out = {
      {"$schema", "https://json-schema.org/draft/2020-12/schema"},
      {"$id", "urn:norma:known:1"},
      {"title", "A file of known findings, which norma check --write-baseline writes"},
      {"type", "object"},
      {"properties",
       {{mark, {{"const", 1}, {"description", "edition of this format"}}},
        {"findings", {{"type", "array"}, {"items", one}, {"maxItems", project::most_known}}}}},
      {"required", {mark, "findings"}},
      {"additionalProperties", false}};
  hold_file("docs/schema/known.schema.json", out.dump(2) + "\n");
}

TEST_CASE("each key of a project file is read, and told where its value is none") {
  const auto rows = rows_of(project::project_section());
  for (const kit::Row& row : rows) {
    CAPTURE(row.name);
    const bool first = row.form.value == kit::Form::Value::edition;
    const std::string before = first ? "" : "norma project: 1\n";
    const auto [good, bad] = values_of(row);
    CHECK(codes_in(fmt::format("{}{}: {}\n", before, row.name, good)).empty());
    CHECK(codes_in(fmt::format("{}{}: {}\n", before, row.name, bad)) ==
          std::vector<std::string>{"K008"});
  }
  for (const kit::Row& row : rows_of(project::folder_section())) {
    CAPTURE(row.name);
    const std::string before =
        fmt::format("norma project: 1\nfolders:\n  - {}", row.required ? "" : "folder: one\n    ");
    const auto [good, bad] = values_of(row);
    CHECK(codes_in(fmt::format("{}{}: {}\n", before, row.name, good)).empty());
    CHECK(codes_in(fmt::format("{}{}: {}\n", before, row.name, bad)) ==
          std::vector<std::string>{"K008"});
  }
}

TEST_CASE("groups of patients are called in a project file as in a protocol") {
  std::set<std::string> of_protocols;
  for (const model::Group& group : {model::Group{false, {}}, model::Group{true, {}},
                                    model::Group{true, model::GroupTeeth::mixed_teeth},
                                    model::Group{true, model::GroupTeeth::milk_teeth}})
    of_protocols.insert(model::to_text(group));
  std::set<std::string> of_projects;
  for (const kit::Row& row : rows_of(project::project_section())) {
    if (row.name != "groups") continue;
    for (const std::string_view word : row.form.words)
      of_projects.emplace(word);
  }
  CHECK(of_projects == of_protocols);
}

} // namespace norma::test
