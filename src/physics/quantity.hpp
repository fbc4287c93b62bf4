// Strong types for everything that has a unit. A length is not a double: numbers enter through
// a unit (`22.0 * mm`) and leave through one (`field.in(mm)`); what has no meaning does not
// compile.
#pragma once

#include <cmath>
#include <compare>
#include <numbers>

namespace norma {

/// Exponents of the base dimensions: millimetre, second, radian, stop (a doubling of light), lux,
/// kelvin.
struct Dim {
  signed char length = 0;
  signed char time = 0;
  signed char angle = 0;
  signed char stop = 0;
  signed char illuminance = 0;
  signed char temperature = 0;

  friend constexpr bool operator==(const Dim&, const Dim&) = default;
  friend constexpr Dim operator+(Dim a, Dim b) {
    return {static_cast<signed char>(a.length + b.length),
            static_cast<signed char>(a.time + b.time),
            static_cast<signed char>(a.angle + b.angle),
            static_cast<signed char>(a.stop + b.stop),
            static_cast<signed char>(a.illuminance + b.illuminance),
            static_cast<signed char>(a.temperature + b.temperature)};
  }
  friend constexpr Dim operator-(Dim a, Dim b) {
    return {static_cast<signed char>(a.length - b.length),
            static_cast<signed char>(a.time - b.time),
            static_cast<signed char>(a.angle - b.angle),
            static_cast<signed char>(a.stop - b.stop),
            static_cast<signed char>(a.illuminance - b.illuminance),
            static_cast<signed char>(a.temperature - b.temperature)};
  }
};

/// A number of dimension D, kept in base units (mm, s, rad, stop, lx, K).
template <Dim D> class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity from_base(double base) {
    Quantity q;
    q.base_ = base;
    return q;
  }
  /// How many of `unit` this is.
  [[nodiscard]] constexpr double in(Quantity unit) const { return base_ / unit.base_; }
  [[nodiscard]] constexpr double base() const { return base_; }

  constexpr Quantity operator-() const { return from_base(-base_); }
  constexpr Quantity& operator+=(Quantity o) {
    base_ += o.base_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity o) {
    base_ -= o.base_;
    return *this;
  }
  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return from_base(a.base_ + b.base_);
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return from_base(a.base_ - b.base_);
  }
  friend constexpr Quantity operator*(Quantity a, double k) { return from_base(a.base_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return from_base(k * a.base_); }
  friend constexpr Quantity operator/(Quantity a, double k) { return from_base(a.base_ / k); }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  double base_ = 0;
};

template <Dim A, Dim B> constexpr auto operator*(Quantity<A> a, Quantity<B> b) {
  if constexpr (A + B == Dim{}) {
    return a.base() * b.base();
  } else {
    return Quantity<A + B>::from_base(a.base() * b.base());
  }
}
template <Dim A, Dim B> constexpr auto operator/(Quantity<A> a, Quantity<B> b) {
  if constexpr (A == B) {
    return a.base() / b.base();
  } else {
    return Quantity<A - B>::from_base(a.base() / b.base());
  }
}
template <Dim A> constexpr auto operator/(double k, Quantity<A> a) {
  return Quantity<Dim{} - A>::from_base(k / a.base());
}

using Length = Quantity<Dim{.length = 1}>;
using Area = Quantity<Dim{.length = 2}>;
using Time = Quantity<Dim{.time = 1}>;
using Speed = Quantity<Dim{.length = 1, .time = -1}>;
using Angle = Quantity<Dim{.angle = 1}>;
using Stops = Quantity<Dim{.stop = 1}>;
using Illuminance = Quantity<Dim{.illuminance = 1}>;
/// Of light: that of the black body with the same colour.
using ColourTemperature = Quantity<Dim{.temperature = 1}>;
/// Its inverse: equal steps of it look about alike, warm or cold.
using ReciprocalTemperature = Quantity<Dim{.temperature = -1}>;
using LightExposure = Quantity<Dim{.time = 1, .illuminance = 1}>;

inline constexpr Length mm = Length::from_base(1.0);
inline constexpr Length cm = Length::from_base(10.0);
inline constexpr Length metre = Length::from_base(1000.0);
inline constexpr Length micrometre = Length::from_base(1e-3);
inline constexpr Length nanometre = Length::from_base(1e-6);
inline constexpr Time second = Time::from_base(1.0);
inline constexpr Time minute = Time::from_base(60.0);
inline constexpr Angle radian = Angle::from_base(1.0);
inline constexpr Angle degree = Angle::from_base(std::numbers::pi / 180.0);
inline constexpr Stops stop = Stops::from_base(1.0);
inline constexpr Illuminance lux = Illuminance::from_base(1.0);
inline constexpr ColourTemperature kelvin = ColourTemperature::from_base(1.0);
inline constexpr ReciprocalTemperature mired = ReciprocalTemperature::from_base(1e-6);

inline double sin(Angle a) { return std::sin(a.in(radian)); }
inline double cos(Angle a) { return std::cos(a.in(radian)); }
inline double tan(Angle a) { return std::tan(a.in(radian)); }
template <Dim D> constexpr Quantity<D> abs(Quantity<D> q) { return q.base() < 0 ? -q : q; }
inline Length sqrt(Area a) { return Length::from_base(std::sqrt(a.base())); }

/// A pure number that must not be mixed with others of its kind. Tag names it.
template <class Tag> class Number {
 public:
  constexpr Number() = default;
  explicit constexpr Number(double value) : value_(value) {}
  [[nodiscard]] constexpr double value() const { return value_; }
  friend constexpr auto operator<=>(Number, Number) = default;

 private:
  double value_ = 0;
};

/// f-number N: focal length over the diameter of the entrance pupil.
using FNumber = Number<struct FNumberTag>;
/// Reproduction ratio m: size on the sensor over size of the subject; 1:2 is 0.5.
using Magnification = Number<struct MagnificationTag>;
/// Pupil ratio P: diameter of the exit pupil over that of the entrance pupil.
using PupilRatio = Number<struct PupilRatioTag>;
/// ISO speed S.
using IsoSpeed = Number<struct IsoSpeedTag>;
/// Share of the flash's full output, over 0, at most 1.
using Power = Number<struct PowerTag>;
/// Refractive index n.
using RefractiveIndex = Number<struct RefractiveIndexTag>;
/// Minutes of a patient's time.
using Minutes = Number<struct MinutesTag>;
/// A share between 0 and 1, such as a reflectance.
using Share = Number<struct ShareTag>;

/// Width and height of a sensor or a field.
struct Size {
  Length width;
  Length height;
  friend constexpr auto operator<=>(const Size&, const Size&) = default;
};

} // namespace norma
