#include "physics/optics.hpp"

#include <algorithm>
#include <cmath>

namespace norma::physics {
namespace {

constexpr double slack = 1e-9; // 1:3 written as a decimal is still 1:3

Length diagonal(Size s) { return std::hypot(s.width.in(mm), s.height.in(mm)) * mm; }

/// The largest ratio at which it holds, as it does at all smaller ones.
template <class Holds> std::optional<Magnification> largest_ratio(const Holds& holds) {
  double low = std::log(0.01);
  double high = std::log(10.0);
  if (!holds(Magnification{std::exp(low)})) return std::nullopt;
  if (holds(Magnification{std::exp(high)})) return Magnification{std::exp(high)};
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    (holds(Magnification{std::exp(middle)}) ? low : high) = middle;
  }
  return Magnification{std::exp(low)};
}

} // namespace

Size field(Size sensor, Magnification m) {
  return {sensor.width / m.value(), sensor.height / m.value()};
}

CarriedRatio carried_ratio(Magnification m, Size reference, Size sensor) {
  const double scale = std::min(sensor.width / reference.width, sensor.height / reference.height);
  const Magnification exact{m.value() * scale};
  if (std::abs(scale - 1.0) < 1e-9) return {m, m, Share{0}};
  Magnification nominal = exact;
  if (exact.value() <= 1.0) {
    const double n = 1.0 / exact.value();
    for (const double round_n : {std::round(n), std::round(2.0 * n) / 2.0}) {
      if (std::abs(round_n / n - 1.0) > ratio_tolerance) continue;
      nominal = Magnification{1.0 / round_n};
      break;
    }
  }
  const Size wanted = field(reference, m);
  const Size got = field(sensor, nominal);
  const double lost = 1.0 - std::min(got.width / wanted.width, got.height / wanted.height);
  return {exact, nominal, Share{std::max(0.0, lost)}};
}

Magnification ratio_carried_by(CarriedBy side, Magnification m, Size reference, Size sensor) {
  switch (side) {
  case CarriedBy::width: return Magnification{m.value() * (sensor.width / reference.width)};
  case CarriedBy::height: return Magnification{m.value() * (sensor.height / reference.height)};
  case CarriedBy::diagonal: break;
  }
  return Magnification{m.value() * (diagonal(sensor) / diagonal(reference))};
}

Length pupil_distance(Length focal_length, Magnification m, PupilRatio p) {
  return focal_length * (1.0 / m.value() + 1.0 / p.value());
}

double bellows_factor(Magnification m, PupilRatio p) { return 1.0 + m.value() / p.value(); }

FNumber effective_f_number(FNumber n, Magnification m, PupilRatio p) {
  return FNumber{n.value() * bellows_factor(m, p)};
}

Stops bellows_loss(Magnification m, PupilRatio p) {
  return 2.0 * std::log2(bellows_factor(m, p)) * stop;
}

Depth depth_of_field(FNumber n, Length c, Magnification m, PupilRatio p,
                     std::optional<Length> focal_length) {
  const Length middle = n.value() * bellows_factor(m, p) / (m.value() * m.value()) * c;
  if (!focal_length) return {middle, middle};
  const double term = n.value() * (c / (m.value() * *focal_length));
  if (term >= 1.0) return {middle / (1.0 + term), std::nullopt};
  return {middle / (1.0 + term), middle / (1.0 - term)};
}

std::optional<Length> whole(const Depth& depth) {
  if (!depth.far) return std::nullopt;
  return depth.near + *depth.far;
}

std::optional<Length> blur_of_point(Length behind, Length focal_length, FNumber n, Magnification m,
                                    PupilRatio p) {
  const Length from_pupil = pupil_distance(focal_length, m, p) + behind;
  if (from_pupil <= 0.0 * mm) return std::nullopt;
  return m.value() / n.value() * (abs(behind) / from_pupil) * focal_length;
}

Length balanced_focus(Length depth, Length pupil_distance) {
  const double t = depth.in(mm);
  const double x = pupil_distance.in(mm);
  return t * x / (x + t + std::hypot(x, t)) * mm;
}

std::optional<FNumber> f_number_holding(Length near, Length far, Length c, Magnification m,
                                        PupilRatio p, std::optional<Length> focal_length) {
  // near (1 + N c/(m f)) = N c B/m^2 and far (1 - N c/(m f)) = N c B/m^2, each solved for N.
  const double per_depth = bellows_factor(m, p) / (m.value() * m.value());
  const double near_term = focal_length ? near / (m.value() * *focal_length) : 0.0;
  const double far_term = focal_length ? far / (m.value() * *focal_length) : 0.0;
  if (per_depth <= near_term) return std::nullopt;
  const double for_near = (near / c) / (per_depth - near_term);
  const double for_far = (far / c) / (per_depth + far_term);
  return FNumber{std::max(for_near, for_far)};
}

std::optional<Magnification> ratio_holding(Length near, Length far, FNumber n, Length c,
                                           PupilRatio p, std::optional<Length> focal_length) {
  return largest_ratio([&](Magnification m) {
    const auto needed = f_number_holding(near, far, c, m, p, focal_length);
    return needed && *needed <= n;
  });
}

std::optional<Magnification> ratio_holding(Length depth, FNumber n, Length c, PupilRatio p,
                                           std::optional<Length> focal_length) {
  return largest_ratio([&](Magnification m) {
    const Length near =
        focal_length ? balanced_focus(depth, pupil_distance(*focal_length, m, p)) : 0.5 * depth;
    const auto needed = f_number_holding(near, depth - near, c, m, p, focal_length);
    return needed && *needed <= n;
  });
}

Length usual_blur(Size sensor) {
  return 0.030 * mm * (diagonal(sensor) / diagonal({36.0 * mm, 24.0 * mm}));
}

double blur_scale(Size asked, Size here) { return diagonal(here) / diagonal(asked); }

double f_number_scale(Size asked, Magnification ratio_asked, Size here, Magnification ratio_here,
                      PupilRatio pupil) {
  const double ratios = ratio_here.value() / ratio_asked.value();
  return ratios * ratios / blur_scale(asked, here) * bellows_factor(ratio_asked, pupil) /
         bellows_factor(ratio_here, pupil);
}

Length diffraction_blur(FNumber effective, double k, Length wavelength) {
  return k * effective.value() * wavelength;
}

std::optional<Length> depth_with_diffraction(FNumber effective, Length c, Magnification m,
                                             double k) {
  const Length airy = diffraction_blur(effective, k);
  if (airy > c) return std::nullopt;
  return 2.0 * effective.value() / (m.value() * m.value()) * sqrt(c * c - airy * airy);
}

FNumber sharpest_effective_f_number(Length c, double k) {
  return FNumber{c / (std::sqrt(2.0) * k * green_light)};
}

Length greatest_depth(Length c, Magnification m, double k) {
  return (c / (k * m.value() * m.value() * green_light)) * c;
}

std::optional<Window> aperture_window(Length depth, Length c, Magnification m, double k) {
  // (k lambda)^2 y^2 - c^2 y + (T m^2/2)^2 = 0 with y = N_eff^2.
  const double a = std::pow(k * green_light.in(mm), 2);
  const double b = std::pow(c.in(mm), 2);
  const double d = std::pow(depth.in(mm)*m.value() * m.value() / 2.0, 2);
  const double root = b * b - 4.0 * a * d;
  if (root < 0) return std::nullopt;
  const double high = (b + std::sqrt(root)) / (2.0 * a);
  // The smaller root by Vieta: the difference of two near numbers would lose its digits.
  const double low = d / (a * high);
  return Window{FNumber{std::sqrt(low)}, FNumber{std::sqrt(high)}};
}

Magnification greatest_ratio_for(Length depth, Length c, double k) {
  return Magnification{c / sqrt(k * green_light * depth)};
}

Magnification rounded_smaller(Magnification m) {
  constexpr double per_step = 20.0;
  constexpr double hair = 1e-9;
  if (m.value() > 1.0) return Magnification{std::floor(m.value() * per_step + hair) / per_step};
  return Magnification{per_step / std::ceil(per_step / m.value() - hair)};
}

std::optional<Beyond> beyond(std::span<const DistanceAtRatio> table, Magnification m) {
  if (table.empty()) return std::nullopt;
  if (m.value() < table.front().ratio.value() * (1 - slack)) return Beyond::smallest_image;
  if (m.value() > table.back().ratio.value() * (1 + slack)) return Beyond::largest_image;
  return std::nullopt;
}

std::optional<Length> working_distance(std::span<const DistanceAtRatio> table, Magnification m) {
  if (table.empty() || beyond(table, m)) return std::nullopt;
  for (std::size_t i = 1; i < table.size(); ++i) {
    if (m.value() > table[i].ratio.value() * (1 + slack)) continue;
    const double low = 1.0 / table[i - 1].ratio.value();
    const double high = 1.0 / table[i].ratio.value();
    const double share = std::clamp((1.0 / m.value() - low) / (high - low), 0.0, 1.0);
    return table[i - 1].distance + share * (table[i].distance - table[i - 1].distance);
  }
  return table.front().distance;
}

std::optional<Magnification> ratio_at_distance(std::span<const DistanceAtRatio> table,
                                               Length distance) {
  for (std::size_t i = 1; i < table.size(); ++i) {
    const DistanceAtRatio& far = table[i - 1];
    const DistanceAtRatio& near = table[i];
    if (distance > far.distance || distance < near.distance) continue;
    const double share = (far.distance - distance) / (far.distance - near.distance);
    const double n = (1.0 - share) / far.ratio.value() + share / near.ratio.value();
    return Magnification{1.0 / n};
  }
  return std::nullopt;
}

} // namespace norma::physics
