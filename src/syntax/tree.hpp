// The tree of a file: one flat vector of nodes in preorder, no pointers, byte offsets only.
// Together with the file's bytes it loses nothing: what no node covers is blank space.
//
// The folder syntax/ turns bytes into this tree and knows nothing of what words mean, but for the
// few that structure a file. It is the one place of PEGTL.
#pragma once

#include <cstdint>
#include <iterator>
#include <string_view>
#include <vector>

#include "text/source.hpp"

namespace norma::syntax {

enum class NodeKind : std::uint32_t {
  file,
  item,  // a statement: words, values, and perhaps a block
  block, // { ... }
  word,
  text, // "..." with its quotes
  number,
  unit, // directly after its number
  ratio,
  f_number,
  date,
  comma,
  equals,
  plus_minus,
  comment,
  junk, // unreadable, reported; whoever reads the statement takes it as broken
};

struct Node {
  NodeKind kind = NodeKind::file;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  std::uint32_t next = 0; // index of the first node after this one's subtree
};
static_assert(sizeof(Node) == 16);

class Tree;

/// A node seen in its tree. Cheap to copy; holds as long as the tree does.
class NodeView {
 public:
  NodeView(const Tree& tree, std::uint32_t index) : tree_(&tree), index_(index) {}
  [[nodiscard]] NodeKind kind() const;
  [[nodiscard]] text::Span span() const;
  [[nodiscard]] std::uint32_t index() const { return index_; }

  class Iterator {
   public:
    using iterator_category = std::forward_iterator_tag;
    using value_type = NodeView;
    using difference_type = std::ptrdiff_t;
    using pointer = const NodeView*;
    using reference = NodeView;
    Iterator(const Tree& tree, std::uint32_t index) : tree_(&tree), index_(index) {}
    NodeView operator*() const { return {*tree_, index_}; }
    Iterator& operator++();
    friend bool operator==(const Iterator& a, const Iterator& b) { return a.index_ == b.index_; }

   private:
    const Tree* tree_;
    std::uint32_t index_;
  };
  struct Children {
    Iterator first, last;
    [[nodiscard]] Iterator begin() const { return first; }
    [[nodiscard]] Iterator end() const { return last; }
  };
  [[nodiscard]] Children children() const;

 private:
  const Tree* tree_;
  std::uint32_t index_;
};

class Tree {
 public:
  Tree() = default;
  Tree(text::FileId file, std::vector<Node> nodes) : file_(file), nodes_(std::move(nodes)) {}
  [[nodiscard]] text::FileId file() const { return file_; }
  [[nodiscard]] const std::vector<Node>& nodes() const { return nodes_; }
  [[nodiscard]] NodeView root() const { return {*this, 0}; }

 private:
  text::FileId file_ = text::FileId::none;
  std::vector<Node> nodes_;
};

inline NodeKind NodeView::kind() const { return tree_->nodes()[index_].kind; }
inline text::Span NodeView::span() const {
  const Node& n = tree_->nodes()[index_];
  return {tree_->file(), n.begin, n.end};
}
inline NodeView::Iterator& NodeView::Iterator::operator++() {
  index_ = tree_->nodes()[index_].next;
  return *this;
}
inline NodeView::Children NodeView::children() const {
  return {{*tree_, index_ + 1}, {*tree_, tree_->nodes()[index_].next}};
}

} // namespace norma::syntax
