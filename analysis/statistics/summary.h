#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace footing {

/// Mean and variance kept up to date sample by sample (Welford 1962, Technometrics 4:419).
class RunningSummary {
  public:
    void add(double value);
    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] double mean() const { return mean_; }
    [[nodiscard]] double variance() const;  ///< with n - 1; NaN for fewer than two values
    [[nodiscard]] double standard_deviation() const;

  private:
    std::size_t count_ = 0;
    double mean_ = 0.0;
    double squares_ = 0.0;
};

/// NaN for no values.
[[nodiscard]] double mean(std::span<const double> values);
/// With n - 1, two passes (Chan, Golub & LeVeque 1983, Am. Stat. 37:242); NaN for fewer than two values.
[[nodiscard]] double standard_deviation(std::span<const double> values);
/// Lag-1 autocorrelation as NIST StRD defines it.
[[nodiscard]] double lag_one_autocorrelation(std::span<const double> values);
/// Linear interpolation between order statistics (Hyndman & Fan 1996, type 7); p in [0, 1]; NaN for no
/// values.
[[nodiscard]] double quantile(std::vector<double> values, double p);
[[nodiscard]] double median(std::vector<double> values);
/// Median absolute deviation times 1/Phi^-1(3/4): a standard deviation that outliers do not move.
[[nodiscard]] double robust_standard_deviation(std::vector<double> values);

}  // namespace footing
