#include "plan/many_mouths.hpp"

#include <algorithm>
#include <cmath>

#include "mouths/shares.hpp"
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

std::shared_ptr<const mouths::Mouths> mouths_for_verdicts(const mouths::Group& group) {
  return std::make_shared<const mouths::Mouths>(mouths::draw(group, mouths_asked, mouths_seed));
}

const std::shared_ptr<const mouths::Mouths>& usual_mouths(physics::Dentition dentition) {
  const auto drawn = [&] { return mouths_for_verdicts(mouths::group_of(dentition)); };
  switch (dentition) {
  case physics::Dentition::adult: break;
  case physics::Dentition::mixed: {
    static const auto mixed = drawn();
    return mixed;
  }
  case physics::Dentition::primary: {
    static const auto primary = drawn();
    return primary;
  }
  }
  static const auto adult = drawn();
  return adult;
}

InMouths in_mouths(std::span<const mouths::Drawn> drawn, Counts counts,
                   const std::function<bool(const mouths::Drawn&)>& holds) {
  const double all = static_cast<double>(drawn.size());
  std::size_t count = 0;
  std::array<double, mouths::varied> sum{}, squares{}, of_holding{};
  for (const mouths::Drawn& mouth : drawn) {
    const bool held = holds(mouth);
    count += held ? 1U : 0U;
    for (std::size_t i = 0; i < mouths::varied; ++i) {
      sum[i] += mouth.off[i];
      squares[i] += mouth.off[i] * mouth.off[i];
      if (held) of_holding[i] += mouth.off[i];
    }
  }
  const double hold = static_cast<double>(count);
  InMouths out{mouths::of_hundred(count, drawn.size()), {}};
  constexpr double few = 5; // say nothing of what they have in common
  if (hold < few || all - hold < few) return out;
  // Correlation of what holds (1) and what does not (0) with each thing that varies.
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

} // namespace norma::plan
