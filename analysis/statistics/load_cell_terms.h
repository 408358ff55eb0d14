#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "analysis/statistics/straight_line.h"

namespace footing {

/// Whether a load was reached by putting more on, by taking some off, or was left where it was.
enum class LoadDirection { growing, falling, held };

/// What one cell (or a plate's total) read under one known load.
struct LoadReading {
    double force_n = 0.0;
    double counts = 0.0;
    double time_s = 0.0;
    LoadDirection direction = LoadDirection::growing;
    std::size_t run = 0;  ///< readings of one run share a zero; between runs it may have drifted
};

/// Tells from the loads' order whether each grew, fell or was held. The first one of a run counts as growing.
void tell_directions(std::span<LoadReading> in_order_of_time);

/// How a cell departs from a straight line, in the words of OIML R 60-1:2021 (terms from memory), newtons.
/// Absent: not measured.
struct LoadCellTerms {
    double full_load_n = 0.0;  ///< largest load
    std::optional<double>
        non_linearity_n;                 ///< largest deviation of the growing loads' readings from the line
    std::optional<double> hysteresis_n;  ///< largest difference between falling and growing load, same load
    std::optional<double> repeatability_n;  ///< largest spread of the same load reached in the same way
    std::optional<double> creep_n;          ///< reading at the end of a held load less that at its start
    std::optional<double> creep_s;          ///< how long it was held
};

/// `line`: counts over force, fitted to the growing and falling readings.
[[nodiscard]] LoadCellTerms load_cell_terms(std::span<const LoadReading> readings, const StraightLine& line);

/// `error_n` as a percentage of the full load.
[[nodiscard]] double percent_of_full_load(double error_n, double full_load_n);

}  // namespace footing
