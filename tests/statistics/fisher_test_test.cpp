// Fisher's exact test against printed examples, scipy and, where it is installed, R.
#include "analysis/statistics/fisher_test.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "tests/support/child_process.h"

using namespace footing;

namespace {

const std::vector<TwoByTwo> tables{{3, 1, 1, 3}, {2, 10, 15, 3},   {8, 2, 1, 5},      {0, 5, 7, 3},
                                   {9, 0, 4, 6}, {14, 6, 9, 11},   {120, 80, 40, 60}, {1, 9, 11, 3},
                                   {5, 5, 5, 5}, {30, 12, 11, 27}, {0, 4, 4, 0}};

/// Numbers that another program prints, five a table: p, odds ratio, low, high, in the order of `tables`.
void compare(const std::string& printed, double tolerance) {
    std::istringstream words(printed);
    const auto number = [&] {
        std::string word;
        words >> word;
        return word == "inf" || word == "Inf" ? INFINITY : std::stod(word);
    };
    for (const TwoByTwo& table : tables) {
        CAPTURE(table.a);
        CAPTURE(table.d);
        const FisherTest test = fisher_test(table);
        for (const double ours : {test.p, test.odds_ratio, test.low, test.high}) {
            const double theirs = number();
            if (std::isinf(theirs) || std::isinf(ours)) {
                CHECK(ours == theirs);
            } else {
                CHECK(std::abs(ours - theirs) <= tolerance * std::max(1e-3, std::abs(theirs)));
            }
        }
    }
}

}  // namespace

TEST_CASE("the lady tasting tea, and convicted twins (Fisher 1935; Fisher 1962)") {
    // p from Fisher, The Design of Experiments: of eight cups, three of four told right, 17/35 two-sided.
    const FisherTest tea = fisher_test({3, 1, 1, 3});
    CHECK(tea.p == doctest::Approx(34.0 / 70.0).epsilon(1e-12));
    CHECK(tea.least_p == doctest::Approx(2.0 / 70.0).epsilon(1e-12));
    // R, whose roots are good to some 1e-4, prints 6.408309 and 0.3135693 to 308.5568 for fisher.test on it [M].
    CHECK(tea.odds_ratio == doctest::Approx(6.408309).epsilon(2e-5));
    CHECK(fisher_test({3, 1, 1, 3}, 0.90).low == doctest::Approx(0.3135693).epsilon(2e-4));
    // Convicted twins, J. R. Stat. Soc. 98:48; R's manual prints p 0.0005367 and 0.003325764 to 0.363182271
    // [M].
    const FisherTest twins = fisher_test({2, 10, 15, 3});
    CHECK(twins.p == doctest::Approx(0.0005367).epsilon(1e-4));
    CHECK(twins.odds_ratio == doctest::Approx(0.04693661).epsilon(1e-6));
    CHECK(twins.low == doctest::Approx(0.003325764).epsilon(5e-3));
    CHECK(twins.high == doctest::Approx(0.363182271).epsilon(2e-4));
}

TEST_CASE("p, odds ratio and its interval as scipy has them") {
    std::string script = "from scipy import stats\nfrom scipy.stats import contingency\n";
    for (const TwoByTwo& table : tables) {
        script += fmt::format(
            "t = [[{}, {}], [{}, {}]]\nr = contingency.odds_ratio(t)\ni = r.confidence_interval(0.95)\n"
            "print(*map(repr, map(float, [stats.fisher_exact(t)[1], r.statistic, i.low, i.high])))\n",
            table.a, table.b, table.c, table.d);
    }
    const auto run = test::run_program({"/usr/bin/python3", "-c", script});
    if (run.exit_code != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no scipy with odds_ratio");
        return;
    }
    compare(run.out, 1e-7);
}

TEST_CASE("the same as R has them") {
    std::string script = "options(digits=15)\n";
    for (const TwoByTwo& table : tables) {
        script += fmt::format(
            "f <- fisher.test(matrix(c({}, {}, {}, {}), 2, byrow=TRUE)); "
            "cat(f$p.value, f$estimate, f$conf.int[1], f$conf.int[2], \"\\n\")\n",
            table.a, table.b, table.c, table.d);
    }
    const auto run = test::run_program({"/usr/bin/env", "Rscript", "-e", script});
    if (run.exit_code != 0) {
        MESSAGE("skipped: no Rscript here");
        return;
    }
    compare(run.out, 5e-3);  // R finds its roots to about 1e-4 of 1 or of their inverse
}

TEST_CASE("an empty row or column tells nothing") {
    for (const TwoByTwo& table : {TwoByTwo{0, 0, 3, 4}, TwoByTwo{3, 0, 4, 0}, TwoByTwo{}}) {
        const FisherTest test = fisher_test(table);
        CHECK(test.p == 1.0);
        CHECK(test.least_p == 1.0);
        CHECK(test.low == 0.0);
        CHECK(std::isinf(test.high));
    }
}
