#include "analysis/statistics/moving_average_chart.h"

#include <cmath>

namespace footing {

MovingAverageChart moving_average_chart(std::span<const double> values, double target, double sd,
                                        double weight, double factor, double target_u) {
    MovingAverageChart chart;
    chart.final_limit = factor * sd * std::sqrt(weight / (2.0 - weight));
    double average = target;
    double forgotten = 1.0;
    const double longest = sd * sd * weight / (2.0 - weight);
    for (std::size_t i = 0; i < values.size(); ++i) {
        average += weight * (values[i] - average);
        forgotten *= 1.0 - weight;
        chart.average.push_back(average);
        const double of_target = target_u * (1.0 - forgotten);
        chart.limit.push_back(factor *
                              std::sqrt(longest * (1.0 - forgotten * forgotten) + of_target * of_target));
        if (!chart.first_beyond && std::abs(average - target) > chart.limit.back()) chart.first_beyond = i;
    }
    return chart;
}

}  // namespace footing
