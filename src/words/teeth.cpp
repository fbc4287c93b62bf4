#include "words/teeth.hpp"

#include <algorithm>
#include <tuple>

namespace norma::words {
namespace {

bool same_row(physics::Tooth a, physics::Tooth b) {
  return a.is_upper() == b.is_upper() && a.is_primary() == b.is_primary();
}

/// The next tooth along the arch towards the patient's left, in the same jaw and dentition.
std::optional<physics::Tooth> next_along(physics::Tooth tooth) {
  const int quadrant = tooth.quadrant();
  const bool right = quadrant == 1 || quadrant == 4 || quadrant == 5 || quadrant == 8;
  if (right && tooth.position() > 1) return physics::Tooth::from_iso(tooth.iso() - 1);
  if (right) return tooth.other_side();
  return physics::Tooth::from_iso(tooth.iso() + 1);
}

} // namespace

std::optional<physics::Tooth> parse_tooth(std::string_view digits) {
  if (digits.size() != 2 || digits[0] < '0' || digits[0] > '9' || digits[1] < '0' ||
      digits[1] > '9') {
    return std::nullopt;
  }
  return physics::Tooth::from_iso((digits[0] - '0') * 10 + (digits[1] - '0'));
}

int along_arch(physics::Tooth tooth) {
  const int quadrant = tooth.quadrant();
  const bool right = quadrant == 1 || quadrant == 4 || quadrant == 5 || quadrant == 8;
  return right ? -tooth.position() : tooth.position();
}

std::optional<std::vector<physics::Tooth>> run_of(physics::Tooth first, physics::Tooth last) {
  if (!same_row(first, last)) return std::nullopt;
  if (along_arch(first) > along_arch(last)) std::swap(first, last);
  std::vector<physics::Tooth> out{first};
  while (out.back() != last)
    out.push_back(*next_along(out.back()));
  return out;
}

std::vector<ToothRun> runs_of(std::vector<physics::Tooth> teeth) {
  // Upper before lower, permanent before milk teeth, then from the patient's right to the left.
  const auto key = [](physics::Tooth t) {
    return std::make_tuple(!t.is_upper(), t.is_primary(), along_arch(t));
  };
  std::sort(teeth.begin(), teeth.end(),
            [&](physics::Tooth a, physics::Tooth b) { return key(a) < key(b); });
  teeth.erase(std::unique(teeth.begin(), teeth.end()), teeth.end());
  std::vector<ToothRun> out;
  for (std::size_t i = 0; i < teeth.size();) {
    std::size_t j = i;
    while (j + 1 < teeth.size() && same_row(teeth[j], teeth[j + 1]) &&
           next_along(teeth[j]) == teeth[j + 1]) {
      ++j;
    }
    // A run on the right alone is written as people count: 13 to 16.
    const bool right_alone = along_arch(teeth[j]) < 0;
    const physics::Tooth first = right_alone ? teeth[j] : teeth[i];
    const physics::Tooth last = right_alone ? teeth[i] : teeth[j];
    if (j == i + 1) { // two are no run
      out.push_back({first, first});
      out.push_back({last, last});
    } else {
      out.push_back({first, last});
    }
    i = j + 1;
  }
  return out;
}

std::string teeth_text(std::vector<physics::Tooth> teeth) {
  std::string out;
  for (const ToothRun& run : runs_of(std::move(teeth))) {
    if (!out.empty()) out += ", ";
    out += std::to_string(run.first.iso());
    if (run.first != run.last) out += " to " + std::to_string(run.last.iso());
  }
  return out;
}

} // namespace norma::words
