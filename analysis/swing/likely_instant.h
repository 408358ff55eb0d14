#pragma once

#include <algorithm>
#include <cmath>

namespace footing {

/// Mean and standard deviation of an instant that lies at each of several samples with some likelihood.
class LikelyInstant {
  public:
    /// The likelihoods need not add up to 1.
    void add(double sample, double likelihood) {
        sum_ += likelihood;
        first_ += likelihood * sample;
        second_ += likelihood * sample * sample;
    }

    /// Defined once a likelihood above 0 was added.
    [[nodiscard]] double sample() const { return first_ / sum_; }
    /// In samples; at least that of a value known to the nearest sample (rectangular, JCGM 100, 4.3.7).
    [[nodiscard]] double u_samples() const {
        return std::sqrt(std::max(1.0 / 12.0, second_ / sum_ - sample() * sample()));
    }

  private:
    double sum_ = 0.0;
    double first_ = 0.0;
    double second_ = 0.0;
};

}  // namespace footing
