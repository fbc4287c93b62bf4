// The statements of each view of a protocol for one group of patients: layers merged, derived views
// made. Late: a change of a view changes all that is made from it.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "diag/diagnostic.hpp"
#include "model/declared.hpp"

namespace norma::model {

class Views {
 public:
  /// `group` picks the blocks for groups that count; none: no such block does.
  Views(const Declared& declared, std::optional<Group> group, diag::Findings& findings)
      : declared_(declared), views_(declared.by_name()), group_(std::move(group)),
        findings_(findings) {
    for (const DeclaredView& v : declared.views) {
      if (v.heading.has("same")) sources_.insert(name_in(v.heading, "same"));
    }
  }

  /// The merged and derived statements of a view; null where it leads nowhere (reported). They hold
  /// until the next call: only what other views are made from is kept.
  const std::vector<Statement>* statements_of(const std::string& name);

 private:
  std::optional<std::vector<Statement>> bounded(const DeclaredView& view,
                                                std::vector<Statement> statements);
  bool too_deep(const DeclaredView& view, std::size_t depth);
  std::vector<Statement> layered(const Block& block, std::vector<Statement> below) const;
  std::optional<std::vector<Statement>> resolve(const DeclaredView& view);
  void check_jaw(const DeclaredView& view, std::string_view crossing, std::string_view source,
                 const std::vector<Statement>& crossed);

  const Declared& declared_;
  std::unordered_map<std::string_view, const DeclaredView*> views_;
  std::optional<Group> group_;
  diag::Findings& findings_;
  std::unordered_map<std::string, std::optional<std::vector<Statement>>> resolved_;
  std::unordered_set<std::string> sources_; // views that others are made from
  std::optional<std::vector<Statement>> last_;
  std::vector<std::string> path_;
  std::unordered_map<std::string, std::size_t> depth_; // how many views stand behind one
  std::size_t total_ = 0;                              // statements of all resolved views
};

/// Says that there is no view of this name, and which may have been meant.
void report_unknown_view(const Declared& declared, text::Span span, std::string_view name,
                         diag::Findings& findings);

} // namespace norma::model
