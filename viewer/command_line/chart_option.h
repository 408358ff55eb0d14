#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/distance/distance_cell.h"
#include "viewer/book/book_records.h"

namespace CLI {
class App;
}

namespace footing {

/// Whose chart, and the coach's limits for it.
struct ChartOptions {
    std::string student;
    std::string known_within;
    std::string widest_gap;
    std::int64_t oldest_days = 180;
    double outlier_percent = 5.0;
    std::string unit;
};

void add_chart_options(CLI::App& verb, ChartOptions& options);

/// The limits; bare numbers are in the student's unit. Fails with command_line.
[[nodiscard]] Result<DistanceOptions> limits_of(const ChartOptions& options, DistanceUnit unit);

/// The unit asked for, else the student's.
[[nodiscard]] DistanceUnit options_unit(const ChartOptions& options, const Student& student);

}  // namespace footing
