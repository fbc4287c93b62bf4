#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "planfile/planfile.hpp"
#include "planfile/traits.hpp"

namespace norma::planfile {
namespace {

// JSON to a tree ----------------------------------------------------------------------------------

/// No object of the format has as many keys: more are not looked at.
constexpr std::size_t most_keys = 40;

struct Node {
  enum class Kind : std::uint8_t { null, boolean, integer, number, text, list, object };
  Kind kind = Kind::null;
  std::int64_t integer = 0; // of a boolean, too
  double number = 0;
  std::string text;
  std::vector<std::string> keys; // of an object, in the order of `items`
  std::vector<Node> items;
};

/// Takes what the parser of nlohmann-json reads; stops it at the first thing that is too much.
class Builder : public nlohmann::json_sax<nlohmann::json> {
 public:
  Node root;
  std::string why; // "" where nothing is wrong

  bool null() override { return put({}); }
  bool boolean(bool b) override {
    Node n;
    n.kind = Node::Kind::boolean;
    n.integer = b ? 1 : 0;
    return put(std::move(n));
  }
  bool number_integer(std::int64_t i) override { return put_integer(i); }
  bool number_unsigned(std::uint64_t u) override {
    constexpr std::uint64_t most = std::uint64_t{1} << 53u; // whole numbers that a double holds
    return u > most ? fail("a number is too large") : put_integer(static_cast<std::int64_t>(u));
  }
  bool number_float(double d, const std::string& /*as written*/) override {
    if (!std::isfinite(d)) return fail("a number is too large");
    Node n;
    n.kind = Node::Kind::number;
    n.number = d;
    return put(std::move(n));
  }
  bool string(std::string& text) override {
    Node n;
    n.kind = Node::Kind::text;
    n.text = std::move(text);
    return put(std::move(n));
  }
  bool binary(nlohmann::json::binary_t& /*none in JSON*/) override { return false; }
  bool start_object(std::size_t /*unknown*/) override { return open(Node::Kind::object); }
  bool start_array(std::size_t /*unknown*/) override { return open(Node::Kind::list); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(std::string& text) override {
    std::vector<std::string>& keys = open_.back()->keys;
    if (keys.size() == most_keys) return fail("an object has more keys than any has");
    if (std::find(keys.begin(), keys.end(), text) != keys.end())
      return fail(fmt::format("the key `{}` stands twice", text));
    keys.push_back(std::move(text));
    return true;
  }
  bool parse_error(std::size_t position, const std::string& /*token*/,
                   const nlohmann::json::exception& /*in its own words*/) override {
    return fail(fmt::format("no JSON, from byte {} on", position));
  }

 private:
  bool fail(std::string what) {
    if (why.empty()) why = std::move(what);
    return false;
  }
  bool put_integer(std::int64_t i) {
    Node n;
    n.kind = Node::Kind::integer;
    n.integer = i;
    n.number = static_cast<double>(i);
    return put(std::move(n));
  }
  Node* place(Node n) {
    if (++count_ > most_values) {
      fail("there are too many values");
      return nullptr;
    }
    if (open_.empty()) {
      root = std::move(n);
      return &root;
    }
    return &open_.back()->items.emplace_back(std::move(n));
  }
  bool put(Node n) { return place(std::move(n)) != nullptr; }
  bool open(Node::Kind kind) {
    if (open_.size() == deepest) return fail("things stand in each other too deep");
    Node n;
    n.kind = kind;
    Node* at = place(std::move(n));
    if (at == nullptr) return false;
    open_.push_back(at); // it stays where it is until it is closed
    return true;
  }
  bool close() {
    open_.pop_back();
    return true;
  }
  std::vector<Node*> open_;
  std::size_t count_ = 0;
};

// The tree to a document --------------------------------------------------------------------------

class Reader {
 public:
  /// The first thing that is wrong.
  std::optional<ReadError> error;

  explicit Reader(const Node& root) : at_(&root) {}

  template <class T> void operator()(std::string_view key, T& value, std::string_view /*what*/) {
    if (error) return;
    seen_.push_back(key);
    const auto found = std::find(at_->keys.begin(), at_->keys.end(), key);
    if (found == at_->keys.end()) return fail(fmt::format("the key `{}` is missing", key));
    const Node& item = at_->items[static_cast<std::size_t>(found - at_->keys.begin())];
    within(item, key, [&] { get(value); });
  }

  template <class T> void get(T& value) {
    if constexpr (Record<T>) {
      if (!is(Node::Kind::object, "an object")) return;
      std::vector<std::string_view> outer;
      outer.swap(seen_);
      T::fields(*this, value);
      only(seen_);
      seen_ = std::move(outer);
    } else if constexpr (IsMaybe<T>::value) {
      if (at_->kind != Node::Kind::null) get(value.emplace());
    } else if constexpr (IsList<T>::value) {
      if (!is(Node::Kind::list, "a list")) return;
      // One after the other: a long list of what does not fit takes no room.
      for (std::size_t i = 0; i < at_->items.size() && !error; ++i)
        within(at_->items[i], i, [&] { get(value.emplace_back()); });
    } else if constexpr (std::is_enum_v<T>) {
      if (!is(Node::Kind::text, "a word")) return;
      const auto& all = Ids<T>::all;
      const auto found = std::find(std::begin(all), std::end(all), at_->text);
      if (found == std::end(all)) return unknown(Ids<T>::type_name);
      value = static_cast<T>(found - std::begin(all));
    } else if constexpr (IsId<T>::value) {
      if (!is(Node::Kind::text, "an id")) return;
      const auto found = T::of(at_->text);
      if (!found) return unknown(to_text(IsId<T>::which));
      value = *found;
    } else {
      get_single(value);
    }
  }

 private:
  /// What is wrong stands at `at_`.
  void fail(std::string why) {
    if (error) return;
    std::string pointer;
    for (const Step& step : path_) {
      pointer += '/';
      if (step.key.empty()) {
        pointer += std::to_string(step.index);
        continue;
      }
      pointer += step.key; // of the format, or it is not gone into: nothing to escape
    }
    error = ReadError{std::move(pointer), std::move(why)};
  }
  void unknown(std::string_view list) {
    constexpr std::size_t shown = 60;
    fail(fmt::format("`{}` is no {}", at_->text.substr(0, shown), list));
  }
  bool is(Node::Kind kind, std::string_view wanted) {
    if (at_->kind != kind) fail(fmt::format("{} is wanted here", wanted));
    return !error;
  }
  /// Has the object no other keys than these?
  void only(const std::vector<std::string_view>& keys) {
    for (const std::string& key : at_->keys) {
      if (error || std::find(keys.begin(), keys.end(), key) != keys.end()) continue;
      constexpr std::size_t shown = 60;
      fail(fmt::format("the key `{}` does not belong here", key.substr(0, shown)));
    }
  }

  struct Step {
    std::string_view key; // "" for a place in a list
    std::size_t index = 0;
  };
  template <class Get> void within(const Node& item, Step step, Get get) {
    const Node* outer = std::exchange(at_, &item);
    path_.push_back(step);
    get();
    path_.pop_back();
    at_ = outer;
  }
  template <class Get> void within(const Node& item, std::string_view key, Get get) {
    within(item, Step{key, 0}, get);
  }
  template <class Get> void within(const Node& item, std::size_t index, Get get) {
    within(item, Step{{}, index}, get);
  }
  /// The value of a key of an object that is no record.
  template <class T> void member(std::string_view key, T& value) {
    std::vector<std::string_view> outer;
    outer.swap(seen_);
    (*this)(key, value, {});
    seen_ = std::move(outer);
  }

  void get_single(bool& b) {
    if (is(Node::Kind::boolean, "true or false")) b = at_->integer != 0;
  }
  void get_single(std::int64_t& i) {
    if (is(Node::Kind::integer, "a whole number")) i = at_->integer;
  }
  void get_single(double& d) {
    if (at_->kind != Node::Kind::integer && at_->kind != Node::Kind::number)
      return fail("a number is wanted here");
    d = at_->number;
  }
  void get_single(std::string& s) {
    if (is(Node::Kind::text, "a text")) s = at_->text;
  }
  void get_single(Part& p) {
    get(p.of_one);
    if (!error && (p.of_one < 0 || p.of_one > 1)) fail("a share lies between 0 and 1");
  }
  void get_single(Index& i) {
    get(i.at);
    if (!error && i.at < 0) fail("a place in a list is wanted here");
  }
  void get_single(Tooth& tooth) {
    std::int64_t iso = 0;
    get(iso);
    if (error) return;
    constexpr std::int64_t last = 85;
    const auto found =
        iso < 0 || iso > last ? std::nullopt : Tooth::from_iso(static_cast<int>(iso));
    if (!found) return fail("a tooth's number by ISO 3950 is wanted here");
    tooth = *found;
  }
  void get_single(Day& day) {
    get(day.iso);
    const std::string& s = day.iso;
    bool good = s.size() == 10;
    for (std::size_t i = 0; good && i < s.size(); ++i)
      good = i == 4 || i == 7 ? s[i] == '-' : s[i] >= '0' && s[i] <= '9';
    if (!error && !good) fail("a day is wanted here, as 2026-11-25");
  }
  void get_single(Digest& digest) {
    get(digest.hex);
    constexpr std::size_t length = 64;
    const bool good = digest.hex.size() == length &&
                      digest.hex.find_first_not_of("0123456789abcdef") == std::string::npos;
    if (!error && !good) fail("64 hexadecimal digits are wanted here");
  }
  void get_single(Flat& p) { get_numbers({&p.x, &p.y}); }
  void get_single(Solid& p) { get_numbers({&p.x, &p.y, &p.z}); }
  void get_numbers(std::initializer_list<double*> numbers) {
    if (!is(Node::Kind::list, "a list of numbers")) return;
    if (at_->items.size() != numbers.size())
      return fail(fmt::format("{} numbers are wanted here", numbers.size()));
    std::size_t i = 0;
    for (double* number : numbers) {
      if (error) return;
      within(at_->items[i], i, [&] { get(*number); });
      ++i;
    }
  }
  void get_single(Extent& e) {
    if (!is(Node::Kind::object, "width and height")) return;
    only({"width", "height", "unit"});
    member("width", e.width);
    member("height", e.height);
    Unit unit{};
    member("unit", unit);
    if (!error && unit != Unit::mm) fail("width and height are in mm");
  }
  void get_single(Amount& n) {
    if (!is(Node::Kind::object, "a number with its unit")) return;
    n.spread = has("spread");
    const std::string_view key = n.spread ? "spread" : "number";
    only({key, "unit"});
    member(key, n.number);
    member("unit", n.unit);
  }
  void get_single(Row& row) {
    only({"key", "with"});
    member("key", row.key);
    member("with", row.with);
  }
  void get_single(Value& value) {
    switch (at_->kind) {
    case Node::Kind::text: value.is = at_->text; return;
    case Node::Kind::integer: value.is = at_->integer; return;
    case Node::Kind::list: get(value.is.emplace<std::vector<Value>>()); return;
    case Node::Kind::object: break;
    default: return fail("a value is wanted here");
    }
    if (has("key")) return get(value.is.emplace<Row>());
    if (has("number") || has("spread")) return get(value.is.emplace<Amount>());
    if (has("width")) return get(value.is.emplace<Extent>());
    for (const std::string_view key : {"teeth", "symbol", "date"}) {
      if (!has(key)) continue;
      only({key});
      if (key == "teeth") return member(key, value.is.emplace<Teeth>());
      if (key == "symbol") return member(key, value.is.emplace<Symbol>().word);
      return member(key, value.is.emplace<Day>());
    }
    fail("a value is wanted here");
  }
  [[nodiscard]] bool has(std::string_view key) const {
    return std::find(at_->keys.begin(), at_->keys.end(), key) != at_->keys.end();
  }

  const Node* at_;
  std::vector<Step> path_;
  std::vector<std::string_view> seen_; // keys of the record that is read
};

// What leads from one part to another -------------------------------------------------------------

class Links {
 public:
  explicit Links(const Document& document) : document_(document) {}

  std::optional<ReadError> check() {
    if (document_.norma.edition != edition)
      return ReadError{"/norma/edition", fmt::format("this norma reads edition {}", edition)};
    const std::size_t files = document_.files.size();
    const std::size_t kits = document_.kits.size();
    for (std::size_t i = 0; i < kits; ++i)
      in(fmt::format("/kits/{}/file", i), document_.kits[i].file, files);
    for (std::size_t i = 0; i < document_.findings.size() && !error_; ++i)
      check_finding(fmt::format("/findings/{}", i), document_.findings[i]);
    for (std::size_t i = 0; i < document_.plans.size() && !error_; ++i)
      check_plan(fmt::format("/plans/{}", i), document_.plans[i]);
    return error_;
  }

 private:
  void fail(std::string pointer, std::string why) {
    if (!error_) error_ = ReadError{std::move(pointer), std::move(why)};
  }
  void in(std::string pointer, const Index& index, std::size_t size) {
    if (static_cast<std::uint64_t>(index.at) >= size)
      fail(std::move(pointer), "it leads past the end of its list");
  }
  void check_finding(const std::string& at, const Finding& f) {
    const std::size_t files = document_.files.size();
    if (f.place) in(at + "/place/file", f.place->file, files);
    for (std::size_t i = 0; i < f.about.size(); ++i) {
      if (f.about[i].file) in(fmt::format("{}/about/{}/file", at, i), *f.about[i].file, files);
      if (f.about[i].kit)
        in(fmt::format("{}/about/{}/kit", at, i), *f.about[i].kit, document_.kits.size());
    }
  }
  void check_plan(const std::string& at, const Plan& plan) {
    in(at + "/file", plan.file, document_.files.size());
    for (std::size_t i = 0; i < plan.bases.size(); ++i)
      in(fmt::format("{}/bases/{}", at, i), plan.bases[i], document_.files.size());
    if (plan.kit) in(at + "/kit", *plan.kit, document_.kits.size());
    for (std::size_t i = 0; i < plan.findings.size(); ++i)
      in(fmt::format("{}/findings/{}", at, i), plan.findings[i], document_.findings.size());
    std::vector<std::string_view> names;
    for (const View& v : plan.views)
      names.push_back(v.name);
    std::sort(names.begin(), names.end());
    const auto twin = std::adjacent_find(names.begin(), names.end());
    if (twin != names.end()) fail(at + "/views", "two views have the same name");
    for (std::size_t i = 0; i < plan.series.size(); ++i) {
      const auto& entries = plan.series[i].views;
      for (std::size_t j = 0; j < entries.size(); ++j) {
        const auto there = [&](std::string_view name, std::string_view key) {
          if (!std::binary_search(names.begin(), names.end(), name))
            fail(fmt::format("{}/series/{}/views/{}/{}", at, i, j, key), "there is no such view");
        };
        there(entries[j].view, "view");
        if (entries[j].instead_of) there(*entries[j].instead_of, "instead_of");
      }
    }
  }

  const Document& document_;
  std::optional<ReadError> error_;
};

} // namespace

std::variant<Document, ReadError> read(std::string_view json) {
  if (json.size() > most_bytes) return ReadError{"", "the file is too large"};
  Builder tree;
  if (!nlohmann::json::sax_parse(json, &tree))
    return ReadError{"", tree.why.empty() ? "no JSON" : std::move(tree.why)};
  Reader reader(tree.root);
  Document document;
  reader.get(document);
  if (reader.error) return std::move(*reader.error);
  if (auto error = Links(document).check()) return std::move(*error);
  return document;
}

} // namespace norma::planfile
