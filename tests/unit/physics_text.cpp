// How numbers print.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>

#include "physics/quantity_text.hpp"

namespace norma::physics {

TEST_CASE("what is no number, or too large for one, is said in words") {
  CHECK(fixed(INFINITY, 1) == "infinite");
  CHECK(fixed(-INFINITY, 1) == "-infinite");
  CHECK(fixed(1e300, 0.1) == "infinite");
}

TEST_CASE("a tie rounds away from zero, also where arithmetic left it a hair short") {
  CHECK(fixed(0.125, 0.01) == "0.13");
  CHECK(fixed(-0.125, 0.01) == "-0.13");
  CHECK(fixed(1.005, 0.01) == "1.01"); // the double lies below 1.005
  CHECK(fixed(0.1 * 3.0 + 0.05, 0.1) == "0.4");
  CHECK(fixed(2.5, 1) == "3");
  CHECK(fixed(2.4999, 1) == "2");
}

TEST_CASE("nothing prints as minus zero, and small numbers keep their zeros") {
  CHECK(fixed(-0.001, 0.1) == "0.0");
  CHECK(fixed(0.0, 0.001) == "0.000");
  CHECK(fixed(0.004, 0.001) == "0.004");
  CHECK(fixed(1234.5, 0.1) == "1234.5");
}

TEST_CASE("what is no number prints as a word") {
  CHECK(fixed(std::numeric_limits<double>::infinity(), 0.1) == "infinite");
  CHECK(fixed(-std::numeric_limits<double>::infinity(), 0.1) == "-infinite");
  CHECK(fixed(std::numeric_limits<double>::quiet_NaN(), 0.1) == "unknown");
}

TEST_CASE("an f-number prints as its mark, as engraved or exact, else in tenths") {
  CHECK(to_text(FNumber{22}) == "f/22");
  CHECK(to_text(FNumber{std::exp2(4.5)}) == "f/22");
  CHECK(to_text(FNumber{5.6}) == "f/5.6");
  CHECK(to_text(FNumber{33.9}) == "f/33.9");
  CHECK(to_text(FNumber{2}) == "f/2");
}

TEST_CASE("the mark 22 stands for 2^(9/2); a number that is no mark stands for nothing") {
  CHECK(exact_f_number(22).value() == doctest::Approx(22.627417));
  CHECK(exact_f_number(5.6).value() == doctest::Approx(5.656854));
  CHECK(exact_f_number(32).value() == doctest::Approx(32));
  CHECK(exact_f_number(6.7).value() == doctest::Approx(std::exp2(2.75))); // a half stop
  CHECK(exact_f_number(23).value() == 0);
}

TEST_CASE("where a half and a third stop are engraved alike the third wins") {
  CHECK(exact_f_number(13).value() == doctest::Approx(std::exp2(22.0 / 6.0)));
  CHECK(exact_f_number(1.2).value() == doctest::Approx(std::exp2(2.0 / 6.0)));
}

TEST_CASE("every third stop from f/1 to f/128 prints as a mark that stands for it again") {
  for (int thirds = 0; thirds <= 42; ++thirds) {
    CAPTURE(thirds);
    const FNumber n = f_number_of_thirds(thirds);
    CHECK(nearest_thirds(n) == thirds);
    const double engraved = std::stod(to_text(n).substr(2));
    CHECK(exact_f_number(engraved).value() == doctest::Approx(n.value()).epsilon(1e-9));
  }
}

TEST_CASE("a length prints in tenths of a mm, from 10 cm on in whole ones") {
  CHECK(to_text(5.0 * mm) == "5.0 mm");
  CHECK(to_text(99.94 * mm) == "99.9 mm");
  CHECK(to_text(100.0 * mm) == "100 mm");
  CHECK(to_text(-254.6 * mm) == "-255 mm");
}

TEST_CASE("flash power reads as it is set") {
  CHECK(to_text(Power{1}) == "1/1");
  CHECK(to_text(Power{0.25}) == "1/4");
  CHECK(to_text(Power{0.25 * std::exp2(1.0 / 3.0)}) == "1/4 +1/3 stop");
  CHECK(to_text(Power{0.25 * std::exp2(2.0 / 3.0)}) == "1/4 +2/3 stop");
  CHECK(to_text(Power{0}) == "off");
}

TEST_CASE("times, ratios and sizes") {
  CHECK(to_text(1.0 / 125.0 * second) == "1/125 s");
  CHECK(to_text(2.0 * second) == "2 s");
  CHECK(to_text(Magnification{0.5}) == "1:2");
  CHECK(to_text(Magnification{2}) == "2:1");
  CHECK(to_text(Magnification{1}) == "1:1");
  CHECK(to_text(Magnification{1.0 / 1.5}) == "1:1.5");
  CHECK(to_text(Size{72.0 * mm, 48.0 * mm}) == "72 x 48 mm");
  CHECK(to_text(Size{23.5 * mm, 15.7 * mm}) == "23.5 x 15.7 mm");
  CHECK(to_text(30.0 * degree) == "30 deg");
  CHECK(to_text(41.35 * degree) == "41.4 deg");
  CHECK(to_text(0.5 * stop, true) == "+0.50 stops");
  CHECK(to_text(-1.0 * stop, true) == "-1.00 stops");
}

} // namespace norma::physics
