// What one file declares: views, series, edits, as written. Nothing is derived yet.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "diag/diagnostic.hpp"
#include "model/protocol.hpp"
#include "model/statement.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::model {

/// What a block says for one group of patients.
struct GroupBlock {
  Group group;
  text::Span heading;
  std::vector<Statement> said;
};

/// A block of statements, and what it says for groups.
struct Block {
  std::vector<Statement> said;
  std::vector<GroupBlock> groups;
  text::Span whole{}; // heading and block of what it belongs to
};

struct DeclaredView {
  std::string name;
  std::string title;
  ViewKind kind = ViewKind::mouth;
  Statement heading;
  Block block;
};

struct DeclaredSeries {
  std::string name;
  Statement statement;
};

/// `change view front because "..." { }`.
struct ViewChange {
  std::string name;
  Statement heading;
  Block block;
};

/// `drop view lower because "..."`.
struct ViewDrop {
  std::string name;
  Statement statement;
};

/// `builds on harbour_five from "five.norma" as of "a680e2ec8236e788"`.
struct Base {
  std::string name;
  std::string path;
  text::Span span;
  text::Span path_span;
  std::string as_of{}; // its fingerprint then; "" where nothing is said
  text::Span as_of_span{};
};

/// A protocol may have this many views, one view this many statements when all is resolved, all of
/// them together this many; and views may be made from each other this deep. More is a finding: a
/// text of a few bytes could else ask for more memory than there is.
inline constexpr std::size_t most_views = 20000;
inline constexpr std::size_t most_in_view = 500;
inline constexpr std::size_t most_resolved = 1000000;
inline constexpr std::size_t deepest_view = 64;

struct Declared {
  text::FileId file = text::FileId::none;
  std::string name;
  std::string title;
  text::Span heading;
  std::vector<Statement> header; // sensor, for, ...
  std::optional<Base> base;
  Block every_mouth;
  Block every_face;
  std::vector<DeclaredView> views;
  std::vector<DeclaredSeries> series;
  std::vector<Exception> exceptions;
  // Edits of the base, in the order of the text.
  std::vector<ViewChange> changes;
  std::vector<ViewDrop> drops;
  std::vector<DeclaredSeries> series_changes;
  std::vector<Edit> edits; // all that were made, those of bases first
  /// The protocols that this one builds on, by the files they stand in, the farthest first.
  std::vector<std::pair<text::FileId, std::string>> bases;
  /// Views of a base that are dropped here or by a base, and where that is said.
  std::vector<std::pair<std::string, text::Span>> dropped;
  /// Names of views whose headings could not be read: nobody says that there are none.
  std::vector<std::string> unread;
  /// Something could not be read (and was reported): what is missing is not reported again.
  bool sound = true;

  [[nodiscard]] const DeclaredView* view(std::string_view wanted) const;
  /// All views by name; holds as long as no view is added or dropped.
  [[nodiscard]] std::unordered_map<std::string_view, const DeclaredView*> by_name() const;
  /// From here on several threads may read it, and take copies of it.
  void share();
  /// Statements of all blocks, as declared.
  [[nodiscard]] std::size_t size() const;
};

/// The protocol of a file, or nothing where it holds none (reported). `sound`: the parser made no
/// finding; where it did, what is missing is not reported a second time.
std::optional<Declared> declare(const syntax::Tree& tree, const text::Source& source, bool sound,
                                diag::Findings& findings);

/// The name in the first part of a heading or in `slot`, "" where there is none.
std::string name_in(const Statement& s, std::string_view slot);
Group group_of(const Statement& s);

} // namespace norma::model
