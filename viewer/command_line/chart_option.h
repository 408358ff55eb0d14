#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/distance/distance_cell.h"
#include "viewer/book/book.h"
#include "viewer/book/book_records.h"

namespace footing {

class Arguments;

/// Whose chart, and the coach's limits for it.
struct ChartOptions {
    std::string student;
    std::string known_within;
    std::string widest_gap;
    std::int64_t oldest_days = 180;
    double outlier_percent = 5.0;
    std::string unit;
};

void add_chart_options(Arguments& verb, ChartOptions& options);

/// What the options come to.
struct ChartRequest {
    Student student;
    DistanceUnit unit = DistanceUnit::yards;  ///< asked for, else the student's; bare numbers are in it
    DistanceOptions limits;
};

/// Fails with command_line where a limit makes no sense, bad_input where the book has no such student.
[[nodiscard]] Result<ChartRequest> chart_request(Book& book, const ChartOptions& options);

}  // namespace footing
