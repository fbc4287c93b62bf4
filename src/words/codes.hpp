// Standard view codes. Source: proposed ANSI/ADA Standard No. 1100 (review draft, July 2025) and
// the view table of the IHE Dental profile draft for orthodontic photographs (v0.2.7, 2025-06).
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace norma::words {

enum class MirrorState { none, uncorrected, corrected };

struct ViewCode {
  std::string_view code; // IV01
  std::string_view term; // IO.RB.CO.NM
  MirrorState mirror;
  std::string_view row; // Patient Orientation, DICOM PS3.3 C.7.6.1.1.1; "" where open
  std::string_view column;
  std::string_view view_sct; // SNOMED CT code of the view; "" where open

  /// Has the term this part between its points?
  [[nodiscard]] bool has_part(std::string_view part) const;
};

std::span<const ViewCode> view_codes();
const ViewCode* find_code(std::string_view code);
/// The code of the same view on the other side of the patient; the code itself for a view that has
/// no side. By the terms: RB and LB, RL and LL, RP and LP change over.
const ViewCode* other_side(const ViewCode& code);
/// The code of the same view in another mirror state; null where the table has none.
const ViewCode* in_state(const ViewCode& code, MirrorState state);

} // namespace norma::words
