#include "analysis/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace footing {

namespace {
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();
constexpr double sd_per_mad = 1.482602218505602;  // 1 / Phi^-1(3/4)
}  // namespace

void RunningSummary::add(double value) {
    ++count_;
    const double before = value - mean_;
    mean_ += before / static_cast<double>(count_);
    squares_ += before * (value - mean_);
}

double RunningSummary::variance() const {
    return count_ < 2 ? not_known : squares_ / static_cast<double>(count_ - 1);
}

double RunningSummary::standard_deviation() const {
    return std::sqrt(variance());
}

double mean(std::span<const double> values) {
    if (values.empty()) return not_known;
    // The first value as a provisional mean keeps digits that a large common part would swallow.
    const double provisional = values.front();
    double sum = 0.0;
    for (const double value : values) sum += value - provisional;
    return provisional + sum / static_cast<double>(values.size());
}

double standard_deviation(std::span<const double> values) {
    if (values.size() < 2) return not_known;
    const double middle = mean(values);
    double sum = 0.0;
    double squares = 0.0;
    for (const double value : values) {
        sum += value - middle;
        squares += (value - middle) * (value - middle);
    }
    const double count = static_cast<double>(values.size());
    return std::sqrt(std::max(0.0, squares - sum * sum / count) / (count - 1.0));
}

double lag_one_autocorrelation(std::span<const double> values) {
    if (values.size() < 2) return not_known;
    const double middle = mean(values);
    double products = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        squares += (values[i] - middle) * (values[i] - middle);
        if (i + 1 < values.size()) products += (values[i] - middle) * (values[i + 1] - middle);
    }
    return products / squares;
}

double quantile(std::vector<double> values, double p) {
    if (values.empty()) return not_known;
    const double position = std::clamp(p, 0.0, 1.0) * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::ptrdiff_t>(position);
    const auto at = values.begin() + below;
    std::nth_element(values.begin(), at, values.end());
    const double part = position - static_cast<double>(below);
    if (part == 0.0) return *at;
    return *at + part * (*std::min_element(at + 1, values.end()) - *at);
}

double median(std::vector<double> values) {
    return quantile(std::move(values), 0.5);
}

double robust_standard_deviation(std::vector<double> values) {
    const double middle = median(values);
    for (double& value : values) value = std::abs(value - middle);
    return sd_per_mad * median(std::move(values));
}

}  // namespace footing
