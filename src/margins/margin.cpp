#include "margins/margin.hpp"

#include <algorithm>
#include <cmath>

#include "mouths/turns.hpp"

namespace norma::margins {

namespace {

/// Between a size that holds and one that does not.
struct Bracket {
  double holds;
  double breaks;
};
template <class Holds> Bracket narrowed(Bracket b, const Holds& holds) {
  constexpr double share = 1.0 / 30;
  while (b.breaks - b.holds > std::max(finest, share * b.holds)) {
    const double middle = 0.5 * (b.holds + b.breaks);
    (holds(middle) ? b.holds : b.breaks) = middle;
  }
  return b;
}

} // namespace

namespace {

/// `bracket`: a size that holds, and one that does not, where `out.breaks` is broken.
void follow(Margin& out, const Standing& planned, const Judge& judge, bool more, Bracket bracket) {
  const Error what = out.what;
  const auto at = [&](double size) { return disturbed(planned, what, more ? size : -size); };
  // What is broken is followed to where it begins, which costs less than to ask for all; where
  // something else is broken there, that is followed on.
  constexpr int most_followed = 6;
  for (int i = 0; i < most_followed && out.breaks; ++i) {
    const Bracket found =
        narrowed(bracket, [&](double size) { return judge.holds(at(size), *out.breaks); });
    if (found.holds == bracket.holds) {
      bracket = found;
      break;
    }
    const auto earlier = judge.broken(at(found.holds));
    if (!earlier) {
      bracket = found;
      break;
    }
    bracket.breaks = found.holds;
    out.breaks = earlier;
  }
  bracket = narrowed(bracket, [&](double size) { return judge.holds(at(size), what); });
  out.size = bracket.holds;
  if (auto first = judge.broken(at(bracket.breaks))) out.breaks = std::move(first);
}

} // namespace

Margin margin_of(const Standing& planned, const Judge& judge, Error what, bool more, double most) {
  Margin out{what, way_of(planned, what, more), 0, std::nullopt};
  Bracket bracket{0, 0};
  for (int k = doublings; k >= 0; --k) {
    bracket.breaks = std::ldexp(most, -k);
    if (!judge.holds(disturbed(planned, what, more ? bracket.breaks : -bracket.breaks), what))
      break;
    bracket.holds = bracket.breaks;
  }
  out.size = bracket.holds;
  if (bracket.holds == most) return out;
  out.breaks = judge.broken(disturbed(planned, what, more ? bracket.breaks : -bracket.breaks));
  follow(out, planned, judge, more, bracket);
  return out;
}

std::optional<Margin> margin_within(const Standing& planned, const Judge& judge, Error what,
                                    bool more, double tolerance) {
  auto broken = judge.broken(disturbed(planned, what, more ? tolerance : -tolerance));
  if (!broken) return std::nullopt;
  Margin out{what, way_of(planned, what, more), 0, std::move(broken)};
  follow(out, planned, judge, more, {0, tolerance});
  return out;
}

std::optional<Judge> judge_for(const Standing& planned) {
  for (const int pieces : {margin_pieces, physics::fine_pieces}) {
    // What holds by a hair, and by coarse pieces does not, would have no margins.
    Judge judge(planned, pieces);
    if (judge.holds(planned)) return judge;
  }
  return std::nullopt;
}

ViewMargins margins_of(const Standing& planned, unsigned threads) {
  ViewMargins out;
  out.fails = Judge(planned, physics::fine_pieces).broken(planned);
  if (out.fails) return out;
  const auto judge = judge_for(planned);
  std::vector<std::pair<Error, bool>> asked;
  for (const ErrorRow& row : error_rows()) {
    if (!applies(row.what, planned)) continue;
    asked.emplace_back(row.what, false);
    asked.emplace_back(row.what, true);
  }
  out.margins.resize(asked.size());
  mouths::in_turns(asked.size(), threads, [&](std::size_t i) {
    out.margins[i] =
        margin_of(planned, *judge, asked[i].first, asked[i].second, row_of(asked[i].first).most);
  });
  return out;
}

} // namespace norma::margins
