// docs/schema/plan.schema.json and the closed lists of a plan file's ids: made from the fields of
// the document and from norma's tables.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "diag/catalogue.hpp"
#include "facts/facts.hpp"
#include "generated.hpp"
#include "planfile/planfile.hpp"
#include "planfile/traits.hpp"
#include "wording/wording.hpp"
#include "words/vocabulary.hpp"

namespace norma::test {
namespace {

using namespace planfile;
using Json = nlohmann::ordered_json;

constexpr IdList lists[] = {IdList::fact, IdList::row,  IdList::finding,
                            IdList::name, IdList::word, IdList::slot};

/// Sorted, each once.
std::vector<std::string> ids_in_tables(IdList list) {
  std::vector<std::string> out;
  switch (list) {
  case IdList::fact:
    for (const facts::FactRow* row : facts::fact::all())
      out.emplace_back(row->name);
    break;
  case IdList::row:
    // What pages say of their own stands in no plan.
    for (const std::string_view key : wording::english().keys()) {
      constexpr std::string_view pages[] = {"list.",   "frame.",    "form.",  "card.",
                                            "change.", "compared.", "server."};
      const bool of_pages = std::any_of(std::begin(pages), std::end(pages),
                                        [&](auto page) { return key.starts_with(page); });
      if (!of_pages) out.emplace_back(key);
    }
    break;
  case IdList::finding:
    for (const diag::Definition* d : diag::catalogue::all())
      out.emplace_back(d->code);
    break;
  case IdList::name:
    for (const diag::Definition* d : diag::catalogue::all())
      out.emplace_back(d->name);
    break;
  case IdList::word:
    for (const words::Word& w : words::vocabulary())
      out.emplace_back(w.name);
    break;
  case IdList::slot:
    for (const words::Word& w : words::vocabulary()) {
      for (const words::Clause& c : w.clauses)
        out.emplace_back(c.slot);
    }
    break;
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::string inc() {
  std::string out = "// The closed lists of ids of a plan file. Made from norma's tables:\n"
                    "// UPDATE_GENERATED=1 build/release/tests/structure/structure_tests\n";
  for (const IdList list : lists) {
    const std::string name = list == IdList::finding ? "finding"
                             : list == IdList::name  ? "name"
                                                     : std::string(to_text(list));
    out += "\nNORMA_IDS(" + name + ")\n";
    for (const std::string& id : ids_in_tables(list))
      out += "NORMA_ID(\"" + id + "\")\n";
    out += "NORMA_END\n";
  }
  return out;
}

Json ref(std::string_view name) { return {{"$ref", "#/$defs/" + std::string(name)}}; }

Json closed(Json properties, std::string_view about = {}) {
  Json required = Json::array();
  for (const auto& [key, what] : properties.items())
    required.push_back(key);
  Json out = {{"type", "object"}};
  if (!about.empty()) out["description"] = about;
  out["properties"] = std::move(properties);
  out["required"] = std::move(required);
  out["additionalProperties"] = false;
  return out;
}

/// Collects what fields are, and the definitions that they name.
class Schema {
 public:
  Json definitions = Json::object();

  template <class T> void operator()(std::string_view key, const T&, std::string_view about) {
    Json what = of<T>();
    if (!about.empty()) what["description"] = about;
    properties_[std::string(key)] = std::move(what);
  }

  template <class T> Json of() {
    if constexpr (Record<T>) {
      return named<T>(T::type_name, [&] { return record<T>(); });
    } else if constexpr (IsMaybe<T>::value) {
      return {{"anyOf", {of<typename T::value_type>(), {{"type", "null"}}}}};
    } else if constexpr (IsList<T>::value) {
      return {{"type", "array"}, {"items", of<typename T::value_type>()}};
    } else if constexpr (std::is_enum_v<T>) {
      return named<T>(Ids<T>::type_name, [] {
        Json out = {{"enum", Json::array()}};
        if (!Ids<T>::type_about.empty()) out["description"] = Ids<T>::type_about;
        for (const std::string_view id : Ids<T>::all)
          out["enum"].push_back(id);
        return out;
      });
    } else if constexpr (IsId<T>::value) {
      return named<T>(std::string(to_text(IsId<T>::which)) + "_id", [] {
        return Json{{"enum", ids_in_tables(IsId<T>::which)}};
      });
    } else {
      return single(static_cast<const T*>(nullptr));
    }
  }

 private:
  template <class T, class Make> Json named(std::string_view name, Make make) {
    static const char of_type = 0;
    const std::string key(name);
    CAPTURE(key);
    REQUIRE_MESSAGE(types_.try_emplace(key, &of_type).first->second == &of_type,
                    "two types have this name");
    if (!definitions.contains(key)) {
      definitions[key] = nullptr; // what it holds may name it again
      definitions[key] = make();
    }
    return ref(name);
  }

  template <class T> Json record() {
    Json outer = std::exchange(properties_, Json::object());
    T value;
    T::fields(*this, value);
    Json out = closed(std::exchange(properties_, std::move(outer)), T::type_about);
    return out;
  }

  static Json single(const bool*) { return {{"type", "boolean"}}; }
  static Json single(const std::int64_t*) { return {{"type", "integer"}}; }
  static Json single(const double*) { return {{"type", "number"}}; }
  static Json single(const std::string*) { return {{"type", "string"}}; }
  static Json single(const Part*) { return {{"type", "number"}, {"minimum", 0}, {"maximum", 1}}; }
  static Json single(const Index*) { return {{"type", "integer"}, {"minimum", 0}}; }
  Json single(const Day*) {
    return named<Day>("day", [] { return Json{{"type", "string"}, {"format", "date"}}; });
  }
  Json single(const Digest*) {
    return named<Digest>("digest", [] {
      return Json{{"description", "SHA-256"}, {"type", "string"}, {"pattern", "^[0-9a-f]{64}$"}};
    });
  }
  Json single(const Tooth*) {
    return named<Tooth>("tooth", [] {
      Json all = Json::array();
      for (int iso = 11; iso <= 85; ++iso) {
        if (Tooth::from_iso(iso)) all.push_back(iso);
      }
      return Json{{"description", "ISO 3950"}, {"enum", std::move(all)}};
    });
  }
  static Json numbers(int count) {
    return {{"type", "array"},
            {"items", {{"type", "number"}}},
            {"minItems", count},
            {"maxItems", count}};
  }
  Json single(const Flat*) {
    return named<Flat>("flat", [] {
      Json out = numbers(2);
      out["description"] =
          "x to the right, y up, on the sensor, from the middle of the picture, mm";
      return out;
    });
  }
  Json single(const Solid*) {
    return named<Solid>("solid", [] {
      Json out = numbers(3);
      out["description"] = "x to the patient's left, y backwards, z up";
      return out;
    });
  }
  Json single(const Extent*) {
    return named<Extent>("extent", [] {
      return closed({{"width", {{"type", "number"}}},
                     {"height", {{"type", "number"}}},
                     {"unit", {{"const", "mm"}}}});
    });
  }
  Json single(const Amount*) {
    return named<Amount>("number", [&] {
      const Json some = {{"type", {"number", "null"}}, {"description", "null: without bound"}};
      Json spread = some;
      spread["description"] = "goes both ways; null: without bound";
      return Json{{"anyOf",
                   {closed({{"number", some}, {"unit", of<Unit>()}}),
                    closed({{"spread", spread}, {"unit", of<Unit>()}})}}};
    });
  }
  Json single(const Value*) {
    return named<Value>("value", [&] {
      Json words = of<std::string>();
      words["description"] = "words of the protocol or the kit";
      Json several = of<std::vector<Value>>();
      several["description"] = "several things";
      return Json{
          {"anyOf",
           {std::move(words), of<std::int64_t>(), of<Amount>(), of<Extent>(),
            closed({{"teeth", of<Teeth>()}}),
            closed({{"key", of<RowId>()}, {"with", of<std::vector<Value>>()}},
                   "a word or phrase of norma's own, and what is put into it"),
            closed({{"symbol", of<std::string>()}}, "one of the words a clause chooses from"),
            closed({{"date", of<Day>()}}), std::move(several)}}};
    });
  }

  Json properties_ = Json::object();
  std::map<std::string, const char*> types_; // each name is of one type
};

std::string schema_text() {
  Schema schema;
  const Json document = schema.of<Document>();
  Json out = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", "What norma plan prints"},
              {"$comment", "Made from src/planfile/document.hpp: UPDATE_GENERATED=1 "
                           "build/release/tests/structure/structure_tests"}};
  out.update(document);
  std::vector<std::string> names;
  for (const auto& [name, what] : schema.definitions.items())
    names.push_back(name);
  std::sort(names.begin(), names.end());
  Json definitions = Json::object();
  for (const std::string& name : names)
    definitions[name] = std::move(schema.definitions[name]);
  out["$defs"] = std::move(definitions);
  return out.dump(2) + "\n";
}

} // namespace

TEST_CASE("the lists of a plan file's ids are those of the tables") {
  hold_file("src/planfile/ids.inc", inc());
}

TEST_CASE("the schema of a plan file says what its fields are") {
  hold_file("docs/schema/plan.schema.json", schema_text());
}

} // namespace norma::test
