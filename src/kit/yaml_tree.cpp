#include "kit/yaml_tree.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>

#include "diag/catalogue.hpp"
#include "text/utf8.hpp"

namespace norma::kit {
namespace {

namespace catalogue = diag::catalogue;

/// Thrown out of the parser once a finding has been made that ends the reading.
struct Stop {};

class TreeBuilder final : public YAML::EventHandler {
 public:
  TreeBuilder(text::FileId file, std::string_view bytes, diag::Findings& findings)
      : file_(file), bytes_(bytes), bom_(text::starts_with_bom(bytes) ? 3 : 0),
        findings_(findings) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (started_) stop(diag::make(catalogue::second_document, at(mark)));
    started_ = true;
  }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    check_anchor(mark, anchor);
    Yaml y;
    y.span = at(mark);
    y.span.end = y.span.begin;
    put(std::move(y));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    // An alias is marked at its anchor: that is a place worth looking at, too.
    stop(diag::make(catalogue::alias_in_kit, at(mark)));
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    check_anchor(mark, anchor);
    check_tag(mark, tag);
    Yaml y;
    y.kind = Yaml::Kind::scalar;
    y.text = value;
    y.span = scalar_span(mark, value);
    put(std::move(y));
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, Yaml::Kind::list);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, Yaml::Kind::map);
  }
  void OnMapEnd() override { close(); }

  [[nodiscard]] bool started() const { return started_; }
  Yaml take() { return std::move(root_); }
  /// Place of a mark; it counts bytes from the first character behind a byte order mark.
  [[nodiscard]] text::Span at(const YAML::Mark& mark) const {
    const std::size_t pos = mark.pos < 0 ? 0 : static_cast<std::size_t>(mark.pos) + bom_;
    const auto begin = static_cast<std::uint32_t>(std::min(pos, bytes_.size()));
    const auto end = static_cast<std::uint32_t>(std::min<std::size_t>(begin + 1u, bytes_.size()));
    return {file_, begin, end};
  }

 private:
  struct Open {
    Yaml node;
    bool has_key = false;
    std::string key;
    text::Span key_span;
  };

  [[noreturn]] void stop(diag::Diagnostic d) {
    findings_.add(std::move(d));
    throw Stop{};
  }

  void check_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor != 0) stop(diag::make(catalogue::alias_in_kit, at(mark)));
  }
  void check_tag(const YAML::Mark& mark, const std::string& tag) {
    // "?" is a plain scalar, "!" a quoted one, "" a list or map without tag.
    if (!tag.empty() && tag != "?" && tag != "!") stop(diag::make(catalogue::tag_in_kit, at(mark)));
  }

  /// From the mark to where the scalar ends in the file, on its own line.
  [[nodiscard]] text::Span scalar_span(const YAML::Mark& mark, const std::string& value) const {
    text::Span span = at(mark);
    const std::string_view rest = bytes_.substr(span.begin);
    const std::size_t line = std::min(rest.find_first_of("\r\n"), rest.size());
    if (rest.empty()) return span;
    std::size_t length = 0;
    if (rest.front() == '"' || rest.front() == '\'') {
      std::size_t i = 1;
      while (i < line && rest[i] != rest.front())
        i += rest[i] == '\\' ? 2 : 1;
      length = std::min(i + 1, line);
    } else {
      length = rest.substr(0, value.size()) == value ? std::min(value.size(), line) : line;
    }
    span.end = span.begin + static_cast<std::uint32_t>(std::max<std::size_t>(length, 1));
    return span;
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
            Yaml::Kind kind) {
    check_anchor(mark, anchor);
    check_tag(mark, tag);
    if (open_.size() >= static_cast<std::size_t>(deepest_yaml)) {
      stop(diag::make(catalogue::kit_too_deep, at(mark)));
    }
    if (!open_.empty() && open_.back().node.kind == Yaml::Kind::map && !open_.back().has_key) {
      stop(diag::make(catalogue::not_yaml, at(mark), "a key is a plain text"));
    }
    Open o;
    o.node.kind = kind;
    o.node.span = at(mark);
    open_.push_back(std::move(o));
  }

  void close() {
    Yaml done = std::move(open_.back().node);
    open_.pop_back();
    put(std::move(done));
  }

  void put(Yaml y) {
    if (open_.empty()) {
      root_ = std::move(y);
      return;
    }
    Open& around = open_.back();
    if (around.node.kind == Yaml::Kind::list) {
      around.node.items.push_back(std::move(y));
      return;
    }
    if (!around.has_key) {
      if (y.kind != Yaml::Kind::scalar) {
        stop(diag::make(catalogue::not_yaml, y.span, "a key is a plain text"));
      }
      const auto twin = std::find_if(around.node.entries.begin(), around.node.entries.end(),
                                     [&](const YamlEntry& e) { return e.key == y.text; });
      if (twin != around.node.entries.end()) {
        findings_.add(diag::make(catalogue::key_twice, y.span, y.text))
            .with_label(twin->key_span, "given here first")
            .with_help("keep one of the two");
      }
      around.has_key = true;
      around.key = std::move(y.text);
      around.key_span = y.span;
      return;
    }
    around.has_key = false;
    const bool known = std::any_of(around.node.entries.begin(), around.node.entries.end(),
                                   [&](const YamlEntry& e) { return e.key == around.key; });
    if (!known) around.node.entries.push_back({around.key, around.key_span, std::move(y)});
  }

  text::FileId file_;
  std::string_view bytes_;
  std::size_t bom_;
  diag::Findings& findings_;
  std::vector<Open> open_;
  Yaml root_;
  bool started_ = false;
};

/// The library's complaint in plain words.
std::string plain(const std::string& complaint) {
  struct Row {
    std::string_view part;
    std::string_view words;
  };
  static constexpr Row rows[] = {
      {"bad indentation", "the blanks before this line do not match the lines around it"},
      {"illegal map value", "a colon stands where no key ends; put the text between quotes"},
      {"end of map", "a `}` or a comma is missing"},
      {"end of sequence", "a `]` or a comma is missing"},
      {"illegal tab", "a tab stands where blanks belong"},
      {"unknown token", "this sign cannot start a value; put the text between quotes"},
      {"bad file", "it is nested too deeply"},
      {"illegal EOF", "the file ends too early; is a quote or a bracket left open?"},
      {"end of the document", "the file ends too early"},
  };
  for (const Row& row : rows) {
    if (complaint.find(row.part) != std::string::npos) return std::string(row.words);
  }
  return complaint;
}

/// The first tab among the blanks that start a line.
std::optional<std::size_t> first_tab_indent(std::string_view bytes) {
  bool indent = true;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (bytes[i] == '\n') {
      indent = true;
    } else if (bytes[i] == '\t' && indent) {
      return i;
    } else if (bytes[i] != ' ') {
      indent = false;
    }
  }
  return std::nullopt;
}

} // namespace

std::optional<Yaml> read_yaml(text::FileId id, const text::Sources& sources,
                              diag::Findings& findings) {
  const std::string_view bytes = sources[id].bytes();
  const text::Span start{id, 0, 0};
  if (bytes.size() > largest_kit) {
    findings.add(diag::make(catalogue::not_yaml, start, "a kit file has at most 1 MB"));
    return std::nullopt;
  }
  if (const auto bad = text::first_unsound_byte(bytes)) {
    const auto offset = static_cast<std::uint32_t>(*bad);
    findings.add(
        diag::make(catalogue::not_text, {id, offset, offset + 1},
                   fmt::format("byte {} of the file is {:02x} (hexadecimal)", offset + 1,
                               static_cast<unsigned>(static_cast<unsigned char>(bytes[*bad])))));
    return std::nullopt;
  }
  TreeBuilder builder(id, bytes, findings);
  try {
    std::istringstream in{std::string(bytes)};
    YAML::Parser parser(in);
    parser.HandleNextDocument(builder);
    if (!builder.started()) {
      findings.add(diag::make(catalogue::kit_empty, start))
          .with_help("a kit starts with `norma kit: 1`; protocols/kits has two to copy");
      return std::nullopt;
    }
    Yaml tree = builder.take();
    parser.HandleNextDocument(builder); // reports a second one
    return tree;
  } catch (const Stop&) {
    return std::nullopt;
  } catch (const YAML::Exception& e) {
    if (const auto tab = first_tab_indent(bytes)) {
      const auto at = static_cast<std::uint32_t>(*tab);
      findings
          .add(diag::make(catalogue::not_yaml, {id, at, at + 1},
                          "a tab stands where a line is indented"))
          .with_help("indent with blanks");
      return std::nullopt;
    }
    findings.add(diag::make(catalogue::not_yaml, builder.at(e.mark), plain(e.msg)));
    return std::nullopt;
  }
}

} // namespace norma::kit
