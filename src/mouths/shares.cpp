#include "mouths/shares.hpp"

#include <algorithm>
#include <cmath>

#include "mouths/turns.hpp"

namespace norma::mouths {
namespace {

constexpr std::size_t at(Promise p) { return static_cast<std::size_t>(p); }

} // namespace

double error_of_share(const std::vector<char>& holds) {
  constexpr std::size_t parts = 8;
  if (holds.size() < 2 * parts) return 0;
  std::array<double, parts> shares{};
  double mean = 0;
  for (std::size_t part = 0; part < parts; ++part) {
    const std::size_t begin = part * holds.size() / parts;
    const std::size_t end = (part + 1) * holds.size() / parts;
    std::size_t hold = 0;
    for (std::size_t i = begin; i < end; ++i)
      hold += holds[i] != 0 ? 1u : 0u;
    shares[part] = static_cast<double>(hold) / static_cast<double>(end - begin);
    mean += shares[part] / parts;
  }
  double sum = 0;
  for (const double s : shares)
    sum += (s - mean) * (s - mean);
  return std::sqrt(sum / (parts - 1) / parts);
}

OneMouth look_into(const placing::Setting& setting, const Drawn& mouth, bool opens_wide) {
  OneMouth out;
  const auto own = of_mouth(setting, mouth, opens_wide);
  const auto outcome = own ? placing::outcome_of(*own) : std::nullopt;
  const auto broken = [&](Promise which, bool is) {
    out.broken[at(which)] = is;
    if (is && !out.fate) out.fate = which;
  };
  broken(Promise::placed, !outcome);
  if (!outcome) return out;
  broken(Promise::fits, !outcome->fits);
  broken(Promise::framed, !outcome->framed);
  broken(Promise::turned, outcome->turned);
  broken(Promise::seen, !outcome->seen);
  broken(Promise::sharp, !outcome->sharp);
  broken(Promise::lit, !outcome->lit);
  out.shown = outcome->shown;
  return out;
}

Shares shares_of(const placing::Setting& setting, const Mouths& mouths, bool opens_wide,
                 unsigned threads) {
  Shares out;
  for (const physics::Wanted& w : setting.wanted)
    out.surfaces.push_back({w});
  std::vector<OneMouth> looked(mouths.drawn.size());
  in_turns(looked.size(), threads,
           [&](std::size_t i) { looked[i] = look_into(setting, mouths.drawn[i], opens_wide); });

  out.mouths = looked.size();
  std::vector<std::vector<double>> seen_of(out.surfaces.size());
  std::vector<char> holds;
  for (std::size_t i = 0; i < looked.size(); ++i) {
    const OneMouth& one = looked[i];
    out.fates.push_back(one.fate);
    holds.push_back(one.fate ? 0 : 1);
    if (one.fate) {
      ++out.first[at(*one.fate)];
    } else {
      ++out.hold;
    }
    for (std::size_t p = 0; p < promises; ++p)
      out.broken[p] += one.broken[p] ? 1u : 0u;
    for (const placing::Shown& s : one.shown) {
      const auto surface =
          std::find_if(out.surfaces.begin(), out.surfaces.end(), [&](const SurfaceShare& of) {
            return of.which.tooth == s.tooth && of.which.surface == s.surface;
          });
      if (surface == out.surfaces.end()) continue;
      const bool framed = !placing::cut_by_frame(s);
      const bool seen = physics::enough_of(s);
      surface->framed += framed ? 1u : 0u;
      surface->seen += seen ? 1u : 0u;
      surface->lit += s.enough_lit ? 1u : 0u;
      surface->all += framed && seen && s.enough_lit ? 1u : 0u;
      seen_of[static_cast<std::size_t>(surface - out.surfaces.begin())].push_back(s.seen);
    }
  }
  for (std::size_t i = 0; i < seen_of.size(); ++i) {
    if (seen_of[i].empty()) continue;
    const auto twentieth = static_cast<std::ptrdiff_t>(seen_of[i].size() / 20);
    std::nth_element(seen_of[i].begin(), seen_of[i].begin() + twentieth, seen_of[i].end());
    out.surfaces[i].worst_twentieth = seen_of[i][static_cast<std::size_t>(twentieth)];
  }
  out.error = error_of_share(holds);
  return out;
}

std::vector<Hangs> hangs_on(const placing::Setting& setting, const Group& group, bool opens_wide,
                            std::size_t count, std::uint64_t seed, unsigned threads) {
  constexpr std::size_t repeats = 4;
  std::vector<Hangs> out;
  const auto holds = [&](const Sequence::At& point) {
    return look_into(setting, near_to(group, point), opens_wide).fate ? 0.0 : 1.0;
  };
  const auto found = sensitivity_of(holds, varied, count, seed, repeats, threads);
  for (const Spread& row : spreads(group.dentition)) {
    if (group.spread[static_cast<std::size_t>(row.what)] != 0)
      out.push_back({row.what, found[static_cast<std::size_t>(row.what)]});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Hangs& a, const Hangs& b) { return a.by.total > b.by.total; });
  return out;
}

} // namespace norma::mouths
