#include "analysis/statistics/repeatability.h"

#include <algorithm>
#include <cmath>

#include "analysis/statistics/distributions.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

std::optional<std::vector<double>> differences(std::span<const double> first,
                                               std::span<const double> second) {
    if (first.size() != second.size() || first.size() < 2) return std::nullopt;
    std::vector<double> all;
    for (std::size_t i = 0; i < first.size(); ++i) all.push_back(first[i] - second[i]);
    return all;
}

double squares_about(std::span<const double> values, double middle) {
    double sum = 0.0;
    for (const double value : values) sum += (value - middle) * (value - middle);
    return sum;
}

}  // namespace

std::optional<double> intraclass_correlation_unequal(const std::vector<std::vector<double>>& groups) {
    std::vector<double> all;
    double within = 0.0;
    double squared_sizes = 0.0;
    double between = 0.0;
    for (const std::vector<double>& group : groups) {
        if (group.empty()) return std::nullopt;
        all.insert(all.end(), group.begin(), group.end());
        within += squares_about(group, mean(group));
        squared_sizes += static_cast<double>(group.size() * group.size());
    }
    const double count = static_cast<double>(all.size());
    const double k = static_cast<double>(groups.size());
    if (groups.size() < 2 || !(count > k)) return std::nullopt;
    const double middle = mean(all);
    for (const std::vector<double>& group : groups) {
        const double from_middle = mean(group) - middle;
        between += static_cast<double>(group.size()) * from_middle * from_middle;
    }
    const double between_ms = between / (k - 1.0);
    const double within_ms = within / (count - k);
    const double n0 = (count - squared_sizes / count) / (k - 1.0);
    const double whole = between_ms + (n0 - 1.0) * within_ms;
    if (!(whole > 0.0)) return std::nullopt;
    return (between_ms - within_ms) / whole;
}

std::optional<double> typical_error_in_a_row(std::span<const double> values) {
    if (values.size() < 3) return std::nullopt;
    double squares = 0.0;
    for (std::size_t i = 1; i < values.size(); ++i)
        squares += (values[i] - values[i - 1]) * (values[i] - values[i - 1]);
    return std::sqrt(squares / static_cast<double>(values.size() - 1) / 2.0);
}

double minimal_detectable_change(double typical_error) {
    constexpr double two_sided_95 = 1.96;  // as the source has it
    return two_sided_95 * std::sqrt(2.0) * typical_error;
}

std::optional<LimitsOfAgreement> agreement(std::span<const double> first, std::span<const double> second,
                                           double factor) {
    const auto change = differences(first, second);
    if (!change) return std::nullopt;
    const double n = static_cast<double>(change->size());
    LimitsOfAgreement result;
    result.pairs = change->size();
    result.bias = mean(*change);
    result.sd = standard_deviation(*change);
    result.low = result.bias - factor * result.sd;
    result.high = result.bias + factor * result.sd;
    result.bias_se = result.sd / std::sqrt(n);
    result.limit_se = result.sd * std::sqrt(3.0 / n);
    return result;
}

std::optional<Change> change_of_means(std::span<const double> first, std::span<const double> second,
                                      double first_common_u, double second_common_u) {
    if (first.size() < 2 || second.size() < 2) return std::nullopt;
    const double n1 = static_cast<double>(first.size());
    const double n2 = static_cast<double>(second.size());
    const double v1 = std::pow(standard_deviation(first), 2) / n1;
    const double v2 = std::pow(standard_deviation(second), 2) / n2;
    const double common = first_common_u * first_common_u + second_common_u * second_common_u;
    Change change;
    change.difference = mean(second) - mean(first);
    const double of_degrees = v1 * v1 / (n1 - 1.0) + v2 * v2 / (n2 - 1.0);
    change.degrees_of_freedom = of_degrees > 0.0 ? (v1 + v2) * (v1 + v2) / of_degrees : n1 + n2 - 2.0;
    change.detectable = student_t_quantile(0.975, change.degrees_of_freedom) * std::sqrt(v1 + v2 + common);
    const bool beyond = std::abs(change.difference) > change.detectable;
    change.verdict = beyond ? ChangeVerdict::real : ChangeVerdict::noise;
    return change;
}

}  // namespace footing
