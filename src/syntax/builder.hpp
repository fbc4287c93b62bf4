// What the parser's actions write to: nodes, open items and blocks, findings.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "syntax/tree.hpp"

namespace norma::syntax {

/// Length of the unit at `at` (nothing touching its end), 0 where none stands there.
std::size_t unit_length(const char* at, const char* end);
/// Bytes from the `{` at `at` to behind the `}` that closes it; braces in texts and comments do
/// not count.
std::size_t block_length(const char* at, const char* end);

class Builder {
 public:
  Builder(text::FileId file, std::string_view bytes, diag::Findings& findings);

  void leaf(NodeKind kind, const char* begin, const char* end) {
    nodes_.push_back(
        {kind, offset(begin), offset(end), static_cast<std::uint32_t>(nodes_.size() + 1)});
  }
  void begin_item(const char* at);
  void end_item(const char* at);
  void open_block(const char* at);
  void close_block(const char* at);
  /// The block ends at `at` without a brace.
  void miss_close(const char* at);

  void junk(const char* begin, const char* end);
  void comma_number(const char* begin, const char* end);
  void unclosed_text(const char* begin, const char* end);
  void bad_head(const char* at, const char* end);
  void stray_close(const char* begin, const char* end);
  void skipped_block(const char* begin, const char* end);
  void no_break(const char* at);
  void nothing_after_comma(const char* at);

  [[nodiscard]] bool at_depth_limit() const;
  [[nodiscard]] bool closes_block(const char* at, const char* end) const;

  std::vector<Node> finish();

 private:
  struct Open {
    std::uint32_t node;
    int level;     // of the structure word it starts with, or of what holds it; 0 for none
    bool headless; // no word stands first: reported, and nothing inside it is
    bool bad;      // already reported
  };
  [[nodiscard]] std::uint32_t offset(const char* at) const {
    return static_cast<std::uint32_t>(at - base_);
  }
  [[nodiscard]] text::Span span(const char* begin, const char* end) const {
    return {file_, offset(begin), offset(end)};
  }
  [[nodiscard]] bool in_bad_item() const { return !open_.empty() && open_.back().bad; }
  /// The words and texts an item starts with, as written.
  [[nodiscard]] text::Span heading(std::uint32_t item) const;

  text::FileId file_;
  const char* base_;
  std::string_view bytes_;
  diag::Findings& findings_;
  std::vector<Node> nodes_;
  std::vector<Open> open_;
  int depth_ = 0;
  std::uint32_t missed_close_ = 0xffffffffu; // where a block last ended without its brace
  bool ran_out_ = false;                     // a block that was too deep ran to the end of the file
};

} // namespace norma::syntax
