#include "syntax/tidy.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "text/utf8.hpp"
#include "words/vocabulary.hpp"

namespace norma::syntax {
namespace {

class Writer {
 public:
  explicit Writer(const text::Source& source) : source_(source) {}

  std::string write(NodeView root) {
    children(root, 0, true);
    end_line();
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::string_view text(NodeView node) const { return source_.text(node.span()); }

  /// New lines between two places of the file.
  [[nodiscard]] std::size_t breaks(std::uint32_t from, std::uint32_t to) const {
    const std::string_view between = source_.bytes().substr(from, to - from);
    return static_cast<std::size_t>(std::count(between.begin(), between.end(), '\n'));
  }

  void end_line() {
    if (line_.empty()) return;
    out_ += line_ + "\n";
    line_.clear();
  }

  void start_line(std::size_t depth, bool blank_before) {
    end_line();
    if (blank_before && !out_.empty()) out_ += '\n';
    line_.assign(depth * indent_step, ' ');
  }

  /// What stands in a file or a block, line by line.
  void children(NodeView parent, std::size_t depth, bool is_file) {
    std::uint32_t last = is_file ? 0 : parent.span().begin + 1;
    bool first = true;
    for (const NodeView node : parent.children()) {
      const std::size_t lines = breaks(last, node.span().begin);
      const bool blank = lines > 1 && !first;
      if (node.kind() == NodeKind::comment) {
        if (lines == 0 && !line_.empty()) {
          line_ += "  " + std::string(comment(node));
        } else {
          start_line(depth, blank);
          line_ += comment(node);
        }
      } else {
        start_line(depth, blank);
        item(node, depth);
      }
      first = false;
      last = node.span().end;
    }
  }

  [[nodiscard]] std::string_view comment(NodeView node) const {
    std::string_view c = text(node);
    while (!c.empty() && (c.back() == ' ' || c.back() == '\t' || c.back() == '\r'))
      c.remove_suffix(1);
    return c;
  }

  void item(NodeView node, std::size_t depth) {
    std::vector<NodeView> values;
    std::optional<NodeView> block;
    for (const NodeView child : node.children()) {
      if (child.kind() == NodeKind::block) {
        block = child;
      } else {
        values.push_back(child);
      }
    }
    std::string head;
    std::size_t at = 0;
    for (const std::size_t count = head_length(values); at < count; ++at)
      head += (head.empty() ? "" : " ") + std::string(text(values[at]));
    // What structures a file reads like a sentence; statements stand in two columns.
    const bool structures = block.has_value() || structures_;
    line_ += head;
    if (at < values.size()) {
      const std::size_t used = text::display_width(head);
      line_ += structures || used >= value_column ? " " : std::string(value_column - used, ' ');
    }
    const std::size_t hang =
        structures ? (depth + 2) * indent_step : depth * indent_step + value_column;
    write_values(values, at, hang);
    if (block) write_block(*block, depth);
  }

  /// How many of the leading words are the statement's own: `also must show`, `retractor left`.
  /// Notes whether they are a word like `series`, which structures a file without a block.
  std::size_t head_length(const std::vector<NodeView>& values) {
    structures_ = false;
    const auto word_at = [&](std::size_t i) {
      return i < values.size() && values[i].kind() == NodeKind::word ? text(values[i])
                                                                     : std::string_view();
    };
    const std::string_view first = word_at(0);
    const std::size_t skip = (first == "also" || first == "no") && !word_at(1).empty() ? 1 : 0;
    std::size_t longest = 0;
    for (const words::CompiledWord& w : words::compiled_vocabulary()) {
      std::size_t n = 0;
      const std::vector<std::string_view>& parts = skip > 0 && first == "no" ? w.absence : w.parts;
      while (n < parts.size() && word_at(skip + n) == parts[n])
        ++n;
      if (n < parts.size()) continue;
      const std::string_view key = word_at(skip + n);
      if (std::find(w.keys.begin(), w.keys.end(), key) != w.keys.end()) ++n;
      if (n < longest) continue;
      // `for` is a statement of a protocol, too.
      structures_ = w.word->level > 0 && (n > longest || structures_);
      longest = n;
    }
    if (longest > 0) return skip + longest;
    return values.empty() || values.front().kind() != NodeKind::word ? 0 : 1;
  }

  void write_values(const std::vector<NodeView>& values, std::size_t at, std::size_t hang) {
    bool starts = true; // nothing stands on this line behind the word yet
    for (; at < values.size(); ++at) {
      const NodeView value = values[at];
      if (value.kind() == NodeKind::comma) {
        line_ += ',';
        continue;
      }
      if (value.kind() == NodeKind::comment) {
        line_ += (starts ? "" : "  ") + std::string(comment(value));
        end_line();
        line_.assign(hang, ' ');
        starts = true;
        continue;
      }
      const std::string_view token = text(value);
      const bool behind_comma = at > 0 && values[at - 1].kind() == NodeKind::comma;
      if (!starts) {
        if (behind_comma && text::display_width(line_) + 1 + run_width(values, at) > widest_line) {
          end_line();
          line_.assign(hang, ' ');
        } else {
          line_ += ' ';
        }
      }
      line_ += token;
      starts = false;
    }
  }

  /// Width of what stands up to the next comma, with it.
  [[nodiscard]] std::size_t run_width(const std::vector<NodeView>& values, std::size_t at) const {
    std::size_t width = 0;
    for (; at < values.size() && values[at].kind() != NodeKind::comma &&
           values[at].kind() != NodeKind::comment;
         ++at)
      width += (width > 0 ? 1 : 0) + text::display_width(text(values[at]));
    return width + (at < values.size() ? 1 : 0);
  }

  void write_block(NodeView block, std::size_t depth) {
    const auto inner = block.children();
    if (inner.begin() == inner.end()) {
      line_ += line_.empty() || line_.back() == ' ' ? "{ }" : " { }";
      return;
    }
    line_ += line_.empty() || line_.back() == ' ' ? "{" : " {";
    children(block, depth + 1, false);
    start_line(depth, false);
    line_ += '}';
  }

  const text::Source& source_;
  std::string out_;
  std::string line_;
  bool structures_ = false;
};

} // namespace

std::string tidied(const Tree& tree, const text::Source& source) {
  return Writer(source).write(tree.root());
}

std::string laid_out(std::string_view head, std::string_view values) {
  std::string out(head);
  if (values.empty()) return out;
  const std::size_t used = text::display_width(head);
  out += used >= value_column ? " " : std::string(value_column - used, ' ');
  return out + std::string(values);
}

} // namespace norma::syntax
