#include "plan/many_mouths.hpp"

#include <algorithm>
#include <cmath>

#include "facts/phrases.hpp"
#include "plan/plan.hpp"

namespace norma::plan {

using mouths::Varies;

mouths::Group group_of_patients(const kit::Kit* kit, physics::Dentition dentition) {
  mouths::Group out = mouths::group_of(dentition, sizes_of_patients(kit));
  if (kit == nullptr) return out;
  const auto fixed = [&](Varies what) { out.spread[static_cast<std::size_t>(what)] = 0; };
  for (const kit::OwnValue& own : kit->anatomy) {
    for (const mouths::Spread& spread : mouths::spreads(dentition)) {
      if (own.value.known() && mouths::row_of(spread.what, dentition) == own.which)
        fixed(spread.what);
    }
  }
  if (!kit->teeth.empty()) fixed(Varies::tooth_size);
  if (kit->mouths.opened_wide.known()) fixed(Varies::opening);
  return out;
}

const std::shared_ptr<const mouths::Mouths>& usual_mouths(physics::Dentition dentition) {
  const auto drawn = [](physics::Dentition of) {
    return std::make_shared<const mouths::Mouths>(
        mouths::draw(group_of_patients(nullptr, of), mouths_asked, mouths_seed));
  };
  switch (dentition) {
  case physics::Dentition::adult: break;
  case physics::Dentition::mixed: {
    static const auto mixed = drawn(dentition);
    return mixed;
  }
  case physics::Dentition::primary: {
    static const auto primary = drawn(dentition);
    return primary;
  }
  }
  static const auto adult = drawn(physics::Dentition::adult);
  return adult;
}

InMouths in_mouths(std::span<const mouths::Drawn> drawn, Counts counts,
                   const std::function<bool(const mouths::Drawn&)>& holds) {
  const double all = static_cast<double>(drawn.size());
  double hold = 0;
  std::array<double, mouths::varied> sum{}, squares{}, of_holding{};
  for (const mouths::Drawn& mouth : drawn) {
    const bool held = holds(mouth);
    hold += held ? 1 : 0;
    for (std::size_t i = 0; i < mouths::varied; ++i) {
      sum[i] += mouth.off[i];
      squares[i] += mouth.off[i] * mouth.off[i];
      if (held) of_holding[i] += mouth.off[i];
    }
  }
  if (hold == 0) return {0, {}};
  if (hold == all) return {100, {}};
  InMouths out{std::clamp(static_cast<int>(std::lround(100 * hold / all)), 1, 99), {}};
  // Correlation of what holds (1) and what does not (0) with each thing that varies.
  constexpr double few = 5; // say nothing of what they have in common
  if (hold < few || all - hold < few) return out;
  constexpr double stands_out = 0.35; // more than three standard errors of 100 mouths
  constexpr auto sizes = static_cast<std::size_t>(Varies::opening);
  double most = stands_out;
  for (std::size_t i = 0; i < (counts == Counts::all ? mouths::varied : sizes); ++i) {
    const double spread = squares[i] - sum[i] * sum[i] / all;
    if (spread <= 0) continue;
    const double together = of_holding[i] - hold * sum[i] / all;
    const double r = std::abs(together) / std::sqrt(spread * hold * (1 - hold / all));
    if (r <= most) continue;
    most = r;
    out.by = static_cast<Varies>(i);
  }
  return out;
}

const diag::Term& what_varies(Varies what) {
  static constexpr std::array<const diag::Term*, mouths::varied> terms{
      &phrase::varies_upper_canines, &phrase::varies_lower_canines, &phrase::varies_upper_molars,
      &phrase::varies_lower_molars,  &phrase::varies_tooth_size,    &phrase::varies_overjet,
      &phrase::varies_overbite,      &phrase::varies_palate,        &phrase::varies_opening,
      &phrase::varies_corner_aside,  &phrase::varies_corner_back};
  return *terms[static_cast<std::size_t>(what)];
}

} // namespace norma::plan
