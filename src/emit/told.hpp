// Findings told apart for other programs: one for each subject, each with an id. Text merges what
// is said of several views in the same words; here nothing is merged.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

struct Told {
  const diag::Diagnostic* finding = nullptr;
  const diag::Subject* about = nullptr; // one of the finding's; null where it has none
  diag::SubjectNames names;             // of what it is about
  /// 16 hexadecimal digits, made of what it is about (file and name of the protocol, group of
  /// patients, view, series, kit), its code, and the words and teeth among what it says. The file
  /// goes into it by its path within the project: not as it was typed. Lines and other files do
  /// not, nor do numbers: they come out otherwise by an edit elsewhere. Findings that are alike in
  /// all of this are counted, in the order of places.
  std::string id;
};

struct AllTold {
  /// By place, then as subjects stand in the finding. `diag::Findings::most` at most, those that
  /// are known apart, the graver ones first. Names and pointers hold as long as the report.
  std::vector<Told> list;
  std::array<std::size_t, 3> counts{}; // by severity: all, but those that are accepted
  std::size_t accepted = 0;
  std::size_t known = 0;
  std::array<std::size_t, 3> left_out{}; // by severity; of `counts`, those that are not in `list`

  [[nodiscard]] std::size_t count(diag::Severity s) const {
    return counts[static_cast<std::size_t>(s)];
  }
  [[nodiscard]] std::size_t not_shown() const { return left_out[0] + left_out[1] + left_out[2]; }
};

/// Known ones with the others, or not at all. They are told apart all the same: an id is the same
/// with them and without.
enum class KnownOnes { left_out, listed };
AllTold told_apart(const report::Report& report, KnownOnes known = KnownOnes::left_out);
/// As many as there are.
AllTold all_told_apart(const report::Report& report);

/// What it is about, in words, as text has it (subject_words.hpp); "" where that goes without
/// saying.
std::string about_text(const report::Report& report, const Told& told, const wording::Language& in);

} // namespace norma::emit
