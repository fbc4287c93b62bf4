// What a run printed, as lines that can be held against those of another run: one for each finding
// and view, for each fact, for each open question.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace norma::test::meta {

using Lines = std::vector<std::string>;

/// What of a finding is compared besides code, severity, message, views, kit, evidence and advice.
struct Also {
  bool ids = false;
  bool places = false; // file, line and column
  bool counts = false;
};

/// Lines of `check --format json`; of `document` that is no JSON one line that says so.
Lines findings_of(std::string_view document, Also also);
/// Lines of `plan`. Views, facts and series are told apart by name, not by order.
Lines facts_of(std::string_view document);

/// One finding as `check` prints it: what a checklist has to show.
struct Shown {
  std::string code;
  std::string message;
  std::string kit;
};
std::vector<Shown> shown_in(std::string_view document);

/// The lines (from 1) of `file` on which something stands that the program cannot read.
std::vector<std::size_t> refused_lines(std::string_view document, std::string_view file);
/// Names of findings and their views: what may be accepted.
std::vector<std::pair<std::string, std::string>> acceptable(std::string_view document);

/// Lines of one, and not of the other.
struct Difference {
  Lines only_first;
  Lines only_second;
  [[nodiscard]] bool none() const { return only_first.empty() && only_second.empty(); }
};
/// As bags of lines, whatever their order.
Difference difference_of(Lines first, Lines second);
/// The same, where each line counts once.
Difference difference_of_sets(Lines first, Lines second);
/// Leaves out pairs of lines that are alike but for numbers which differ by rounding only.
Difference without_rounding(Difference d);

/// `line` with left and right, the sides of teeth, and what is at the patient's left or right
/// (DICOM's L and R) changed over; then its words in the order of the alphabet: lists of teeth run
/// the other way.
std::string side_changed(std::string_view line);
/// Only the words put in order.
std::string words_in_order(std::string_view line);

/// The lines of a text, without the blanks at their ends and without empty lines.
Lines lines_of(std::string_view text);

} // namespace norma::test::meta
