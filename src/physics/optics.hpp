// Closed forms of close-up optics: field, ratio on another sensor, distances, depth of field,
// diffraction. Symbols: m reproduction ratio, P pupil ratio, N marked f-number, f focal length, c
// blur allowed on the sensor. Sources stand with each formula.
#pragma once

#include <optional>
#include <span>

#include "physics/quantity.hpp"

namespace norma::physics {

/// Ratios that differ by no more are taken for the same: norma's choice.
inline constexpr double ratio_tolerance = 0.03;

/// Field in the focus plane: sensor over m. Source: definition of m.
Size field(Size sensor, Magnification m);

/// A ratio carried over to another sensor.
struct CarriedRatio {
  Magnification exact;   // the same field is contained: m min(w'/w, h'/h)
  Magnification nominal; // within 3 %: 1:n with n whole, or in halves; else the exact one
  Share shortfall;       // of the field's width or height, whichever loses more; 0 where none
};
/// `m` is meant for a sensor of size `reference`; what is it on `sensor`? Both sizes long side
/// first. The tolerance of 3 % is norma's choice: it takes 1:3 on 23.5 x 15.7 mm for 1:2 on 36
/// x 24.
CarriedRatio carried_ratio(Magnification m, Size reference, Size sensor);

/// By which side of the sensor a ratio is carried over.
enum class CarriedBy { width, height, diagonal };
/// m s'/s, s that side. The three differ wherever the sensors differ in shape: a ratio without a
/// sensor says little. Source: definition of m.
Magnification ratio_carried_by(CarriedBy side, Magnification m, Size reference, Size sensor);

/// Entrance pupil to the focus plane: f (1/m + 1/P). Source: Gaussian optics with pupils, e.g.
/// Kingslake, Optics in Photography (from memory).
Length pupil_distance(Length focal_length, Magnification m, PupilRatio p);

/// B = 1 + m/P, by which the f-number grows in close-up.
double bellows_factor(Magnification m, PupilRatio p);
/// N (1 + m/P).
FNumber effective_f_number(FNumber n, Magnification m, PupilRatio p);
/// Light lost against infinity: 2 log2(1 + m/P).
Stops bellows_loss(Magnification m, PupilRatio p);

/// Sharp depth in front of (near) and behind (far) the focus plane; far is nothing where it is
/// infinite.
struct Depth {
  Length near;
  std::optional<Length> far;
};
/// N c (1 + m/P) / (m^2 (1 +- N c/(m f))). Without focal length the term with f is left out (a long
/// lens), and near equals far. Source: geometrical optics with pupils.
Depth depth_of_field(FNumber n, Length c, Magnification m, PupilRatio p,
                     std::optional<Length> focal_length);

/// Near and far together; nothing where far is infinite.
std::optional<Length> whole(const Depth& depth);

/// Width on the sensor of the blur of a point `behind` the focus plane (negative: in front of it):
/// m (f/N) |d| / (x + d), x the pupil distance. Nothing where the point is not in front of the
/// pupil. Source: similar triangles from the entrance pupil; the depth above is where this is c.
std::optional<Length> blur_of_point(Length behind, Length focal_length, FNumber n, Magnification m,
                                    PupilRatio p);

/// Where to focus, behind the nearest point of a depth T, so that its nearest and its farthest
/// point are blurred alike: T x / (x + T + sqrt(x^2 + T^2)), a little in front of the middle; x is
/// the pupil distance at the ratio that is set. Source: the formula above, both ends set equal.
Length balanced_focus(Length depth, Length pupil_distance);

/// Smallest N whose depth holds `near` in front of and `far` behind the focus plane (both 0 or
/// more): the formula above solved for N. Nothing where no N does.
std::optional<FNumber> f_number_holding(Length near, Length far, Length c, Magnification m,
                                        PupilRatio p, std::optional<Length> focal_length);

/// Largest m at which N holds `near` and `far`: by bisection between 1:100 and 10:1, to a part in
/// 10^6. Nothing where even 1:100 does not.
std::optional<Magnification> ratio_holding(Length near, Length far, FNumber n, Length c,
                                           PupilRatio p, std::optional<Length> focal_length);

/// The same for a whole depth, focused at each ratio so that both its ends are blurred alike
/// (`balanced_focus`); in its middle where no focal length is given.
std::optional<Magnification> ratio_holding(Length depth, FNumber n, Length c, PupilRatio p,
                                           std::optional<Length> focal_length);

/// 0.030 mm on 36 x 24 mm, in proportion to the diagonal elsewhere. Source: convention of
/// depth-of-field tables.
Length usual_blur(Size sensor);
/// What a blur on the one sensor is on the other, in shares of it: by the diagonals.
double blur_scale(Size asked, Size here);
/// An f-number of a camera with that sensor and ratio, times this, is sharp as deep here: both
/// sides of N c (1 + m/P) / m^2 alike, the blur c in proportion to the diagonal.
double f_number_scale(Size asked, Magnification ratio_asked, Size here, Magnification ratio_here,
                      PupilRatio pupil);

/// How wide the Airy disc is taken: full width at half maximum. The whole disc has 2.44.
inline constexpr double airy_half_maximum = 1.03;
inline constexpr double airy_whole_disc = 2.44;
inline constexpr Length green_light = 550.0 * nanometre;

/// k lambda N_eff. Source: Airy pattern of a round aperture.
Length diffraction_blur(FNumber effective, double k = airy_half_maximum,
                        Length wavelength = green_light);

/// Whole depth with defocus and diffraction added in quadrature:
/// 2 N_eff sqrt(c^2 - (k lambda N_eff)^2) / m^2; nothing where diffraction alone exceeds c.
std::optional<Length> depth_with_diffraction(FNumber effective, Length c, Magnification m,
                                             double k = airy_half_maximum);
/// N_eff at which that depth is greatest: c / (sqrt2 k lambda).
FNumber sharpest_effective_f_number(Length c, double k = airy_half_maximum);
/// The greatest depth itself: c^2 / (k lambda m^2).
Length greatest_depth(Length c, Magnification m, double k = airy_half_maximum);
/// The N_eff between which that depth is at least `depth`; nothing where no aperture can.
struct Window {
  FNumber low;
  FNumber high;
};
std::optional<Window> aperture_window(Length depth, Length c, Magnification m,
                                      double k = airy_half_maximum);
/// Largest m at which `depth` can be had at all: c / sqrt(k lambda T).
Magnification greatest_ratio_for(Length depth, Length c, double k = airy_half_maximum);

/// The next ratio that is not larger, 1:n with n in steps of 0.05 (above 1:1 n:1, likewise): what
/// is told as "would do" must do.
Magnification rounded_smaller(Magnification m);

/// A measured pair.
struct DistanceAtRatio {
  Magnification ratio;
  Length distance;
};
/// Which end of the table `m` lies beyond: an image larger or smaller than any that was measured.
enum class Beyond { smallest_image, largest_image };
std::optional<Beyond> beyond(std::span<const DistanceAtRatio> table, Magnification m);
/// Linear in 1/m between the two rows around `m`; nothing outside of the table. `table` is sorted
/// by ratio, smallest image first.
std::optional<Length> working_distance(std::span<const DistanceAtRatio> table, Magnification m);
/// The other way round: the ratio at which the lens stands so far away.
std::optional<Magnification> ratio_at_distance(std::span<const DistanceAtRatio> table,
                                               Length distance);

} // namespace norma::physics
