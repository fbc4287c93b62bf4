// Sizes of sensors against the crop factors of a public lens database (lensfun's data). A crop
// factor is the diagonal of 36 x 24 mm over the sensor's: the ratio that usual_blur() goes by.
#include <doctest/doctest.h>
#include <lensfun.h>

#include <cmath>
#include <memory>

#include "physics/optics.hpp"

namespace norma::physics {
namespace {

struct Destroy {
  void operator()(lfDatabase* db) const { lf_db_destroy(db); }
};

/// How many cameras of the database have this crop factor, to half a per cent.
int cameras_with(const lfDatabase* db, double crop) {
  int found = 0;
  for (const lfCamera* const* c = lf_db_get_cameras(db); *c != nullptr; ++c) {
    const double theirs = static_cast<double>((*c)->CropFactor);
    if (std::abs(theirs / crop - 1.0) < 0.005) ++found;
  }
  return found;
}

} // namespace

TEST_CASE("crop factors of usual sensors (lensfun's data)") {
  const std::unique_ptr<lfDatabase, Destroy> db(lf_db_new());
  // Not lf_db_load(): its search for folders leaks memory, which the sanitizer build reports.
  REQUIRE(lf_db_load_directory(db.get(), "/usr/share/lensfun/version_1"));
  constexpr Size full{36.0 * mm, 24.0 * mm};
  const auto crop = [&](Size sensor) { return usual_blur(full) / usual_blur(sensor); };
  // Each of these sizes is common; a wrong diagonal meets few cameras or none.
  CHECK(cameras_with(db.get(), crop(full)) > 50);
  CHECK(cameras_with(db.get(), crop({23.5 * mm, 15.6 * mm})) > 50);
  CHECK(cameras_with(db.get(), crop({22.3 * mm, 14.9 * mm})) > 50);
  CHECK(cameras_with(db.get(), crop({17.3 * mm, 13.0 * mm})) > 50);
  // The count can fail: by width alone the last would be 36 / 17.3.
  CHECK(cameras_with(db.get(), 36.0 / 17.3) == 0);
}

TEST_CASE("ratios on another format go by the crop factor (lensfun's data)") {
  const std::unique_ptr<lfDatabase, Destroy> db(lf_db_new());
  REQUIRE(lf_db_load_directory(db.get(), "/usr/share/lensfun/version_1"));
  constexpr Size full{36.0 * mm, 24.0 * mm};
  // Sensors of the same shape (3:2): width, height and diagonal all give the crop factor.
  for (const Size sensor : {Size{23.5 * mm, 15.7 * mm}, Size{22.3 * mm, 14.9 * mm}}) {
    const double crop = usual_blur(full) / usual_blur(sensor);
    REQUIRE(cameras_with(db.get(), crop) > 50);
    for (const double m : {0.1, 0.5, 1.0}) {
      const CarriedRatio there = carried_ratio(Magnification{m}, full, sensor);
      CHECK(m / there.exact.value() == doctest::Approx(crop).epsilon(0.005));
    }
  }
}

} // namespace norma::physics
