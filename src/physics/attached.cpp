#include "physics/attached.hpp"

#include <cmath>

namespace norma::physics {
namespace {

/// Of lens and tube.
Magnification with_tube(const BareLens& lens, const Attached& on, Magnification own) {
  return Magnification{own.value() + on.tube / lens.focal_length};
}

/// Front to subject without the close-up lens.
Length behind_close_up(const BareLens& lens, const Attached& on, Magnification own, Length bare) {
  const double longer = 1.0 / own.value() - 1.0 / with_tube(lens, on, own).value();
  return bare - lens.focal_length * longer;
}

} // namespace

Length bare_distance(const BareLens& lens, Magnification own) {
  const auto distances = lens.distances;
  if (distances.empty()) return lens.focal_length * (1.0 + 1.0 / own.value());
  if (const auto measured = working_distance(distances, own)) return *measured;
  const DistanceAtRatio& end =
      beyond(distances, own) == Beyond::smallest_image ? distances.front() : distances.back();
  return end.distance + lens.focal_length * (1.0 / own.value() - 1.0 / end.ratio.value());
}

Magnification ratio_with(const BareLens& lens, const Attached& on, Magnification own) {
  const double behind = on.converter * with_tube(lens, on, own).value();
  if (!on.close_up) return Magnification{behind};
  const Length away = behind_close_up(lens, on, own, bare_distance(lens, own));
  return Magnification{behind * (1.0 + away / *on.close_up)};
}

std::optional<Magnification> own_ratio(const BareLens& lens, const Attached& on,
                                       Magnification whole) {
  if (on.nothing()) return whole;
  double low = std::log(1e-4);
  double high = std::log(1e3);
  const auto at = [&](double own) {
    return ratio_with(lens, on, Magnification{std::exp(own)}).value();
  };
  if (at(low) > whole.value() || at(high) < whole.value()) return std::nullopt;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (at(middle) <= whole.value() ? low : high) = middle;
  }
  return Magnification{std::exp(0.5 * (low + high))};
}

Length distance_with(const BareLens& lens, const Attached& on, Magnification own, Length bare) {
  const Length away = behind_close_up(lens, on, own, bare);
  return on.close_up ? away / (1.0 + away / *on.close_up) : away;
}

std::optional<Equivalent> equivalent_of(const BareLens& lens, const Attached& on,
                                        Magnification own) {
  const Length focal_length = on.converter * lens.focal_length;
  const PupilRatio pupil{on.converter * lens.pupil.value()};
  if (!on.close_up) return Equivalent{focal_length, pupil};
  const Magnification behind{on.converter * with_tube(lens, on, own).value()};
  const Length to_pupil = pupil_distance(focal_length, behind, pupil);
  const Length away = behind_close_up(lens, on, own, bare_distance(lens, own));
  const double narrower = 1.0 - (to_pupil - away) / *on.close_up;
  constexpr double least = 0.1;
  if (narrower < least) return std::nullopt;
  const double larger = ratio_with(lens, on, own).value() / behind.value();
  return Equivalent{focal_length / narrower, PupilRatio{pupil.value() * larger}};
}

FNumber f_number_with(FNumber own, double converter) { return FNumber{own.value() * converter}; }

} // namespace norma::physics
