#include "analysis/statistics/rounding.h"

#include <doctest/doctest.h>

using namespace footing;

TEST_CASE("half goes away from nought, hidden or not") {
    CHECK(rounded(64.5, 0) == "65");
    CHECK(rounded(63.5, 0) == "64");
    CHECK(rounded(0.1 + 0.2 + 64.2, 0) == "65");        // 64.5 but for its binary fraction
    CHECK(rounded(64.5 * 0.9144 / 0.9144, 0) == "65");  // held in metres
    CHECK(rounded(1.005, 2) == "1.01");                 // 1.00499999999999989 as held
    CHECK(rounded(64.499, 0) == "64");
    CHECK(rounded(-2.5, 0) == "−3");
    CHECK(rounded(-0.04, 1) == "0.0");
    CHECK(rounded(0.95, 1) == "1.0");
}

// JCGM 100:2008 (GUM), 7.2.6: y = 10,057 62 ohm with u = 27 milliohm is rounded to 10,058 ohm; here in
// milliohm.
TEST_CASE("a value has no digit that its uncertainty does not bear, as the guide's own example") {
    const ValueWords ohm = rounded_to_uncertainty(10057.62, 27.0);
    CHECK(ohm.value == "10058");
    CHECK(ohm.expanded == "27");
    const ValueWords share = rounded_to_uncertainty(74.26, 0.81);
    CHECK(share.value == "74.3");
    CHECK(share.expanded == "0.8");
    // Never "0.96 is 1.0, with a decimal", and never nought.
    CHECK(rounded_to_uncertainty(74.26, 0.96).expanded == "1");
    CHECK(rounded_to_uncertainty(74.26, 0.949).expanded == "0.9");
    CHECK(rounded_to_uncertainty(74.26, 0.01).expanded == "0.1");
    CHECK(rounded_to_uncertainty(83.5, 0.2, 0).value == "84");
    CHECK(rounded_to_uncertainty(83.5, 0.2, 0).expanded == "1");
}

TEST_CASE("a chance is never told as nought") {
    CHECK(chance_words(0.03) == "p = 0.030");
    CHECK(chance_words(0.0014) == "p = 0.001");
    CHECK(chance_words(0.0004) == "p < 0.001");
    CHECK(chance_words(0.0) == "p < 0.001");
}
