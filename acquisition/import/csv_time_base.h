#pragma once

#include <cstdint>
#include <vector>

#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"

namespace footing {

/// What a column of times says of the sampling.
struct CsvTimeBase {
    double rate_hz = 0.0;
    double first_s = 0.0;  ///< what to take off so that times start at or after 0: min(0, first time)
    std::vector<std::uint64_t> counters;  ///< one a row; a jump by more than one is a gap
    std::vector<Gap> gaps;
    std::uint64_t rows_missing = 0;
    enum class Spacing { even, uneven } spacing = Spacing::even;
};

/// Device time of a row, microseconds.
[[nodiscard]] std::uint64_t csv_device_time_us(const CsvTimeBase& base, double time_s);

/// Works out rate, counters and gaps from times that increase strictly; at least two. Where every step is a
/// whole number of the usual step, within a fifth of it, and most are one step, the missing rows are gaps;
/// else the rows are taken as they come, at the mean rate.
[[nodiscard]] CsvTimeBase csv_time_base(const std::vector<double>& times_s);

}  // namespace footing
