#include "kit/yaml_tree.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <unordered_map>

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
    if (started_) {
      // yaml-cpp also starts a document where a line stands further left than the first one.
      const text::Span here = at(mark);
      const std::string_view from_here = bytes_.substr(here.begin);
      if (from_here.starts_with("---")) stop(diag::make(catalogue::second_document, here));
      stop(diag::make(catalogue::not_yaml, here,
                      "this line belongs to nothing above it; the first key of the file stands at "
                      "the start of its line"));
    }
    started_ = true;
  }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    check_anchor(mark, anchor);
    count(mark);
    Yaml y;
    y.span = at(mark);
    if (!writes_null(y.span.begin)) y.span = missing_value(y.span.begin);
    put(std::move(y));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    // Its anchor came first and ended the reading; this is for the reader's peace of mind.
    stop(diag::make(catalogue::alias_in_yaml, at(mark)));
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    check_anchor(mark, anchor);
    check_tag(mark, tag);
    count(mark);
    Yaml y;
    y.kind = Yaml::Kind::scalar;
    y.text = value;
    const char first = first_byte(mark);
    y.quoted = first == '"' || first == '\'' || first == '|' || first == '>';
    if ((first == '"' || first == '\'') && !closes(mark)) {
      stop(diag::make(catalogue::not_yaml, at(mark), "the quote that opens here is not closed"));
    }
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
  /// Place of a mark, one character wide. A mark counts bytes (a CR, too) from behind the byte
  /// order mark; measured with yaml-cpp 0.7.0.
  [[nodiscard]] text::Span at(const YAML::Mark& mark) const {
    const std::size_t pos = mark.pos < 0 ? 0 : static_cast<std::size_t>(mark.pos);
    return character(std::min(pos + bom_, bytes_.size()));
  }

 private:
  struct Open {
    Yaml node;
    bool has_key = false;
    bool twice = false; // the key that waits for its value was there before
    std::string key;
    text::Span key_span;
    std::unordered_map<std::string, text::Span> keys; // all keys so far
  };

  /// The character of which `pos` is a byte.
  [[nodiscard]] text::Span character(std::size_t pos) const {
    const auto continues = [&](std::size_t i) {
      return (static_cast<unsigned char>(bytes_[i]) & 0xc0u) == 0x80u;
    };
    while (pos > 0 && pos < bytes_.size() && continues(pos))
      --pos;
    std::size_t end = std::min(pos + 1, bytes_.size());
    while (end < bytes_.size() && continues(end))
      ++end;
    return {file_, static_cast<std::uint32_t>(pos), static_cast<std::uint32_t>(end)};
  }

  [[nodiscard]] char first_byte(const YAML::Mark& mark) const {
    const std::size_t begin = at(mark).begin;
    return begin < bytes_.size() ? bytes_[begin] : '\0';
  }

  /// Is the quote at `mark` closed? yaml-cpp takes the end of the file for the closing quote, and
  /// would lose all that follows.
  [[nodiscard]] bool closes(const YAML::Mark& mark) const {
    std::size_t i = at(mark).begin;
    const char quote = bytes_[i++];
    while (i < bytes_.size()) {
      if (bytes_[i] == quote) {
        const bool doubled = quote == '\'' && i + 1 < bytes_.size() && bytes_[i + 1] == quote;
        if (!doubled) return true;
        ++i;
      } else if (bytes_[i] == '\\' && quote == '"') {
        ++i;
      }
      ++i;
    }
    return false;
  }

  /// Does `null` or `~` stand at `offset`? Where nothing does, the mark is that of what follows.
  [[nodiscard]] bool writes_null(std::size_t offset) const {
    const std::string_view rest = bytes_.substr(offset);
    const std::string_view word = rest.substr(0, rest.find_first_of(" \t\r\n,]}"));
    return word == "~" || word == "null" || word == "Null" || word == "NULL";
  }

  /// Where a value is missing: its key, else the last character before `offset` that is no blank.
  [[nodiscard]] text::Span missing_value(std::size_t offset) const {
    if (!open_.empty() && open_.back().has_key) return open_.back().key_span;
    const std::size_t last = bytes_.substr(0, offset).find_last_not_of(" \t\r\n");
    return character(last == std::string_view::npos ? 0 : last);
  }

  void count(const YAML::Mark& mark) {
    if (++nodes_ <= most_nodes) return;
    stop(diag::make(
        catalogue::not_yaml, at(mark),
        fmt::format("more than {} keys and values; such a file is a page of text", most_nodes)));
  }

  [[noreturn]] void stop(diag::Diagnostic d) {
    findings_.add(std::move(d));
    throw Stop{};
  }

  void check_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor != 0) stop(diag::make(catalogue::alias_in_yaml, at(mark)));
  }
  void check_tag(const YAML::Mark& mark, const std::string& tag) {
    // "?" is a plain scalar, "!" a quoted one (or a bare `!`), "" a list or map without tag.
    const bool given = !tag.empty() && tag != "?" && tag != "!";
    if (given || first_byte(mark) == '!') stop(diag::make(catalogue::tag_in_yaml, at(mark)));
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
    count(mark);
    if (open_.size() >= static_cast<std::size_t>(deepest_yaml)) {
      stop(diag::make(catalogue::yaml_too_deep, at(mark)));
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
      const auto [first, is_new] = around.keys.emplace(y.text, y.span);
      if (!is_new) {
        findings_.add(diag::make(catalogue::key_twice, y.span, excerpt(y.text)))
            .with_label(first->second, "given here first")
            .with_help("keep one of the two");
      }
      around.has_key = true;
      around.twice = !is_new;
      around.key = std::move(y.text);
      around.key_span = y.span;
      return;
    }
    around.has_key = false;
    if (around.twice) return;
    around.node.entries.push_back({std::move(around.key), around.key_span, std::move(y)});
  }

  text::FileId file_;
  std::string_view bytes_;
  std::size_t bom_;
  diag::Findings& findings_;
  std::vector<Open> open_;
  Yaml root_;
  std::size_t nodes_ = 0;
  bool started_ = false;
};

/// The library's complaint in plain words.
std::string_view plain(std::string_view complaint) {
  struct Row {
    std::string_view part;
    std::string_view words;
  };
  static constexpr std::string_view quotes = "this sign cannot start a value; put the text between "
                                             "quotes";
  static constexpr std::array rows{
      Row{"end of map flow", "a `}` or a comma is missing"},
      Row{"end of sequence flow", "a `]` or a comma is missing"},
      Row{"end of map",
          "this does not continue the lines above it: check the blanks before it, and "
          "the quotes"},
      Row{"end of sequence",
          "this does not continue the list above it: check the blanks before it"},
      Row{"illegal map value", "this colon ends no key: does the line stand too far right, or is a "
                               "colon missing above it? A text that holds a colon goes between "
                               "quotes"},
      Row{"illegal map key", "a `?` starts no key here; put the text between quotes"},
      Row{"illegal block entry",
          "a list cannot start here; put its first `-` on a line of its own"},
      Row{"illegal flow end", "this bracket closes nothing"},
      Row{"illegal tab", "a tab stands where a line is indented"},
      Row{"unknown token", quotes},
      Row{"bad file", "it is nested too deeply"},
      Row{"illegal EOF", "the file ends too early; is a quote or a bracket left open?"},
      Row{"illegal document indicator", "a quote is left open above this line"},
      Row{"unknown escape character", "between double quotes `\\` starts an escape norma does not "
                                      "know; write `\\\\` for a backslash"},
      Row{"hex number",
          "between double quotes `\\x` and `\\u` need hexadecimal digits behind them"},
      Row{"invalid unicode", "there is no such character"},
      Row{"tag", "a `!` starts a tag, which is not read; put the text between quotes"},
      Row{"anchor", "a `&` starts an anchor, which is not read; put the text between quotes"},
      Row{"alias", "a `*` starts an alias, which is not read; put the text between quotes"},
      Row{"block scalar",
          "`|` and `>` start a block of text: only `+`, `-` and one digit may follow"},
      Row{"YAML", "the line that starts with `%` is not needed; leave it out"},
      Row{"directive", "the line that starts with `%` is not needed; leave it out"},
  };
  for (const Row& row : rows) {
    if (complaint.find(row.part) != std::string_view::npos) return row.words;
  }
  return "it cannot be read from here on";
}

/// The last tab among the blanks that start a line, up to the end of the line that holds `limit`.
std::optional<std::size_t> last_tab_indent(std::string_view bytes, std::size_t limit) {
  bool indent = true;
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (bytes[i] == '\n') {
      if (i >= limit) break;
      indent = true;
    } else if (bytes[i] == '\t' && indent) {
      found = i;
      indent = false;
    } else if (bytes[i] != ' ') {
      indent = false;
    }
  }
  return found;
}

/// The first control character that YAML does not allow; yaml-cpp loses some without a word.
std::optional<std::size_t> first_control(std::string_view bytes) {
  const auto found = std::find_if(bytes.begin(), bytes.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\t' && c != '\n' && c != '\r') || byte == 0x7f;
  });
  if (found == bytes.end()) return std::nullopt;
  return static_cast<std::size_t>(found - bytes.begin());
}

unsigned byte_at(std::string_view bytes, std::size_t i) {
  return static_cast<unsigned char>(bytes[i]);
}

} // namespace

std::string excerpt(std::string_view text) {
  constexpr std::size_t most = 60;
  std::size_t bytes = 0;
  std::size_t characters = 0;
  while (bytes < text.size()) {
    const bool continues = (static_cast<unsigned char>(text[bytes]) & 0xc0u) == 0x80u;
    if (!continues && ++characters > most) return std::string(text.substr(0, bytes)) + "...";
    ++bytes;
  }
  return std::string(text);
}

std::optional<Yaml> read_yaml(text::FileId id, std::string_view bytes, diag::Findings& findings,
                              std::string_view how_it_starts) {
  const text::Span start{id, 0, 0};
  if (bytes.size() > largest_kit) {
    findings.add(diag::make(catalogue::not_yaml, start, "such a file has at most 1 MB"));
    return std::nullopt;
  }
  if (const auto bad = text::first_unsound_byte(bytes)) {
    const auto offset = static_cast<std::uint32_t>(*bad);
    findings.add(diag::make(catalogue::not_text, {id, offset, offset + 1},
                            fmt::format("byte {} of the file is {:02x} (hexadecimal)", offset + 1,
                                        byte_at(bytes, *bad))));
    return std::nullopt;
  }
  if (const auto control = first_control(bytes)) {
    const auto offset = static_cast<std::uint32_t>(*control);
    findings.add(diag::make(catalogue::not_yaml, {id, offset, offset + 1},
                            fmt::format("a control character stands here ({:02x} hexadecimal)",
                                        byte_at(bytes, *control))));
    return std::nullopt;
  }
  TreeBuilder builder(id, bytes, findings);
  try {
    std::istringstream in{std::string(bytes)};
    YAML::Parser parser(in);
    parser.HandleNextDocument(builder);
    Yaml tree = builder.take();
    if (builder.started()) parser.HandleNextDocument(builder); // reports a second one
    if (!builder.started() || tree.kind == Yaml::Kind::null) {
      findings.add(diag::make(catalogue::yaml_empty, start))
          .with_help(std::string(how_it_starts));
      return std::nullopt;
    }
    return tree;
  } catch (const Stop&) {
    return std::nullopt;
  } catch (const YAML::Exception& e) {
    const text::Span here = builder.at(e.mark);
    if (const auto tab = last_tab_indent(bytes, here.begin)) {
      const auto at = static_cast<std::uint32_t>(*tab);
      findings
          .add(diag::make(catalogue::not_yaml, {id, at, at + 1},
                          "a tab stands where a line is indented"))
          .with_help("indent with blanks");
    } else if (e.msg == YAML::ErrorMsg::UNKNOWN_ANCHOR) {
      findings.add(diag::make(catalogue::alias_in_yaml, here));
    } else {
      findings.add(diag::make(catalogue::not_yaml, here, plain(e.msg)));
    }
    return std::nullopt;
  } catch (const std::exception&) {
    findings.add(diag::make(catalogue::not_yaml, start, plain({})));
    return std::nullopt;
  }
}

} // namespace norma::kit
