// Quantiles against scipy, a live oracle where /usr/bin/python3 has it.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <sstream>
#include <string>

#include "analysis/statistics/distributions.h"
#include "tests/support/child_process.h"

using namespace footing;

TEST_CASE("quantiles of t, F and the normal distribution as scipy has them") {
    const std::string script =
        "from scipy import stats\n"
        "for n in [1, 2, 3, 4, 5, 7.5, 9, 14, 19.3, 29, 60, 120]:\n"
        "  for p in [0.005, 0.025, 0.05, 0.5, 0.8, 0.95, 0.975, 0.995]:\n"
        "    print(repr(n), repr(p), *map(repr, map(float, [stats.t.ppf(p, n),\n"
        "          stats.f.ppf(p, 2, n), stats.norm.ppf(p), stats.t.sf(stats.norm.ppf(p), n)])))\n";
    const auto run = test::run_program({"/usr/bin/python3", "-c", script});
    if (run.exit_code != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no scipy");
        return;
    }
    std::istringstream lines(run.out);
    double n = 0.0;
    double p = 0.0;
    double t = 0.0;
    double f = 0.0;
    double normal = 0.0;
    double tail = 0.0;
    int rows = 0;
    while (lines >> n >> p >> t >> f >> normal >> tail) {
        CAPTURE(n);
        CAPTURE(p);
        ++rows;
        CHECK(student_t_quantile(p, n) ==
              doctest::Approx(t).epsilon(1e-8));  // scipy 1.10 is itself good to some 1e-9
        CHECK(f_quantile(p, 2.0, n) == doctest::Approx(f).epsilon(1e-9));
        CHECK(normal_quantile(p) == doctest::Approx(normal).epsilon(1e-9));
        CHECK(student_t_probability(-normal_quantile(p), n) == doctest::Approx(tail).epsilon(1e-9));
    }
    CHECK(rows == 96);
}
