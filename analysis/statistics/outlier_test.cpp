#include "analysis/statistics/outlier_test.h"

#include <cmath>

#include "analysis/statistics/distributions.h"
#include "analysis/statistics/summary.h"

namespace footing {

double grubbs_critical(std::size_t n, double alpha) {
    const double count = static_cast<double>(n);
    const double t = -student_t_quantile(alpha / (2.0 * count), count - 2.0);
    return (count - 1.0) / std::sqrt(count) * std::sqrt(t * t / (count - 2.0 + t * t));
}

std::optional<GrubbsResult> grubbs_test(std::span<const double> values, double alpha) {
    if (values.size() < 3) return std::nullopt;
    const double middle = mean(values);
    const double sd = standard_deviation(values);
    if (!(sd > 0.0)) return std::nullopt;
    GrubbsResult result;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double g = std::abs(values[i] - middle) / sd;
        if (g > result.g) {
            result.g = g;
            result.index = i;
        }
    }
    result.critical = grubbs_critical(values.size(), alpha);
    return result;
}

}  // namespace footing
