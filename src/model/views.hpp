// The statements of each view of a protocol for one group of patients: layers merged, derived views
// made. Late: a change of a view changes all that is made from it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "model/declared.hpp"

namespace norma::model {

class Views {
 public:
  /// `group` picks the blocks for groups that count; none: no such block does.
  Views(const Declared& declared, std::optional<Group> group, diag::Findings& findings)
      : declared_(declared), group_(std::move(group)), findings_(findings) {}

  /// The merged and derived statements of a view; null where it leads nowhere (reported).
  const std::vector<Statement>* statements_of(const std::string& name);

 private:
  std::vector<Statement> layered(const Block& block, std::vector<Statement> below) const;
  std::optional<std::vector<Statement>> resolve(const DeclaredView& view);
  void check_jaw(const DeclaredView& view, std::string_view crossing, std::string_view source,
                 const std::vector<Statement>& crossed);

  const Declared& declared_;
  std::optional<Group> group_;
  diag::Findings& findings_;
  std::map<std::string, std::optional<std::vector<Statement>>> resolved_;
  std::vector<std::string> path_;
};

/// Says that there is no view of this name, and which may have been meant.
void report_unknown_view(const Declared& declared, text::Span span, std::string_view name,
                         diag::Findings& findings);

} // namespace norma::model
