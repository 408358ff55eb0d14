#include "analysis/statistics/moving_average_chart.h"

#include <cmath>

namespace footing {

MovingAverageChart moving_average_chart(std::span<const double> values, double target, double sd,
                                        double weight, double factor) {
    MovingAverageChart chart;
    chart.final_limit = factor * sd * std::sqrt(weight / (2.0 - weight));
    double average = target;
    double forgotten = 1.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        average += weight * (values[i] - average);
        forgotten *= (1.0 - weight) * (1.0 - weight);
        chart.average.push_back(average);
        chart.limit.push_back(chart.final_limit * std::sqrt(1.0 - forgotten));
        if (!chart.first_beyond && std::abs(average - target) > chart.limit.back()) chart.first_beyond = i;
    }
    return chart;
}

}  // namespace footing
