#include "words/teeth.hpp"

#include <algorithm>
#include <tuple>

#include "words/literal.hpp"
#include "words/meant.hpp"

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

namespace {

bool is_one_of(char c, std::string_view set) { return set.find(c) != set.npos; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Does `rest`, what stands behind a number, make it a quantity?
bool counts_something(std::string_view rest) {
  rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
  const std::string_view next =
      rest.substr(0, static_cast<std::size_t>(
                         std::find_if_not(rest.begin(), rest.end(), is_letter) - rest.begin()));
  if (next.empty()) return rest.starts_with("%");
  return next == "times" || rest.starts_with("o'clock") || find_unit(next) != nullptr ||
         meant_unit(next).has_value();
}

} // namespace

std::optional<physics::Tooth> tooth_in_prose(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    if (!is_digit(text[at])) {
      ++at;
      continue;
    }
    std::size_t stop = at;
    while (stop < text.size() && is_digit(text[stop]))
      ++stop;
    const bool starts = at == 0 || !(is_letter(text[at - 1]) || is_one_of(text[at - 1], ".,:/_"));
    const bool joined =
        stop + 1 < text.size() && is_one_of(text[stop], ".,:/") && is_digit(text[stop + 1]);
    const bool ends = stop == text.size() || !(is_letter(text[stop]) || text[stop] == '_');
    const auto tooth = parse_tooth(text.substr(at, stop - at));
    if (tooth && starts && ends && !joined && !counts_something(text.substr(stop))) return tooth;
    at = stop;
  }
  return std::nullopt;
}

} // namespace norma::words
