#pragma once

#include <cstddef>

namespace footing {

/// Counts of two yes-or-no questions about the same things: `a b` in the upper row, `c d` in the lower one.
struct TwoByTwo {
    std::size_t a = 0;
    std::size_t b = 0;
    std::size_t c = 0;
    std::size_t d = 0;

    [[nodiscard]] std::size_t total() const { return a + b + c + d; }
};

/// Fisher's exact test (Fisher 1935, J. R. Stat. Soc. 98:39): with the sums of rows and columns as they are,
/// how often would chance make a table as unlikely as this one (docs/formulas.md, F55)?
struct FisherTest {
    double p = 1.0;        ///< two-sided: of all tables no more probable than this one
    double least_p = 1.0;  ///< of the most unlikely table with these sums: below it nothing can be found
    /// a d / (b c) as the conditional maximum likelihood sees it; infinite or 0 where a count is 0.
    double odds_ratio = 1.0;
    double low = 0.0;   ///< exact interval of the odds ratio, half of what is left on either side
    double high = 0.0;  ///< infinite where the counts set no limit
};

/// Of any counts up to some ten thousand. With an empty row or column nothing is known: p 1, odds from 0 to
/// infinity.
[[nodiscard]] FisherTest fisher_test(const TwoByTwo& table, double confidence = 0.95);

}  // namespace footing
