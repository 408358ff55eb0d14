#include "analysis/statistics/fisher_test.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

namespace footing {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The distribution of the count `a` when row and column sums are given: hypergeometric, tilted by the odds
/// ratio (noncentral, Fisher 1935).
class TiltedCounts {
  public:
    explicit TiltedCounts(const TwoByTwo& table) {
        const double row = static_cast<double>(table.a + table.b);
        const double other_row = static_cast<double>(table.c + table.d);
        const double column = static_cast<double>(table.a + table.c);
        least_ = std::max(0.0, column - other_row);
        for (double a = least_; a <= std::min(row, column); ++a) {
            log_weight_.push_back(-std::lgamma(a + 1.0) - std::lgamma(row - a + 1.0) -
                                  std::lgamma(column - a + 1.0) - std::lgamma(other_row - column + a + 1.0));
        }
    }

    [[nodiscard]] std::size_t size() const { return log_weight_.size(); }
    [[nodiscard]] double least() const { return least_; }

    /// By place, from the least count on.
    [[nodiscard]] std::vector<double> probabilities(double log_odds) const {
        std::vector<double> weight(size());
        for (std::size_t i = 0; i < size(); ++i)
            weight[i] = log_weight_[i] + log_odds * static_cast<double>(i);
        const double most = *std::max_element(weight.begin(), weight.end());
        for (double& one : weight) one = std::exp(one - most);
        const double sum = std::accumulate(weight.begin(), weight.end(), 0.0);
        for (double& one : weight) one /= sum;
        return weight;
    }

  private:
    double least_ = 0.0;
    std::vector<double> log_weight_;
};

/// Two-sided p of every count: of all those no more probable than it. Counts that differ by rounding only are
/// equally probable.
std::vector<double> two_sided(const std::vector<double>& probability) {
    constexpr double rounding = 1.0 + 1e-7;
    std::vector<double> p(probability.size(), 0.0);
    for (std::size_t i = 0; i < p.size(); ++i) {
        for (const double other : probability) {
            if (other <= probability[i] * rounding) p[i] += other;
        }
        p[i] = std::min(1.0, p[i]);
    }
    return p;
}

/// Where a rising function of the log odds passes a level.
template <typename Function>
double log_odds_at(double level, Function function) {
    double low = -60.0;
    double high = 60.0;
    for (int i = 0; i < 200 && high - low > 1e-13; ++i) {
        const double middle = 0.5 * (low + high);
        (function(middle) < level ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

FisherTest fisher_test(const TwoByTwo& table, double confidence) {
    const TiltedCounts counts(table);
    FisherTest test;
    test.high = infinity;
    if (counts.size() < 2) return test;
    const auto place = static_cast<std::size_t>(static_cast<double>(table.a) - counts.least());
    const std::vector<double> p = two_sided(counts.probabilities(0.0));
    test.p = p[place];
    test.least_p = *std::min_element(p.begin(), p.end());

    const auto mean_place = [&](double log_odds) {
        const std::vector<double> probability = counts.probabilities(log_odds);
        double sum = 0.0;
        for (std::size_t i = 0; i < probability.size(); ++i) sum += static_cast<double>(i) * probability[i];
        return sum;
    };
    const auto from_place = [&](std::size_t first) {
        return [&counts, first](double log_odds) {
            const std::vector<double> probability = counts.probabilities(log_odds);
            return std::accumulate(probability.begin() + static_cast<std::ptrdiff_t>(first),
                                   probability.end(), 0.0);
        };
    };
    const double tail = (1.0 - confidence) / 2.0;
    const bool is_least = place == 0;
    const bool is_most = place + 1 == counts.size();
    test.odds_ratio = is_least  ? 0.0
                      : is_most ? infinity
                                : std::exp(log_odds_at(static_cast<double>(place), mean_place));
    if (!is_least) test.low = std::exp(log_odds_at(tail, from_place(place)));
    if (!is_most) test.high = std::exp(log_odds_at(1.0 - tail, from_place(place + 1)));
    return test;
}

}  // namespace footing
