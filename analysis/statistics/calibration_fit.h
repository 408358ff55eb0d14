#pragma once

#include <span>
#include <vector>

#include "acquisition/frame/result.h"
#include "analysis/statistics/load_cell_terms.h"
#include "analysis/statistics/straight_line.h"

namespace footing {

/// A cell as the calibration found it: force = newtons_per_count * (counts - zero_counts). The uncertainties
/// are those of the fit alone; what all cells have in common (masses, gravity) comes on top.
struct CellCalibration {
    StraightLine line;  ///< counts over force in newtons: known masses against readings that scatter
    double newtons_per_count = 0.0;
    double zero_counts = 0.0;
    double u_newtons_per_count = 0.0;
    double u_zero_counts = 0.0;
    double covariance = 0.0;     ///< of newtons_per_count and zero_counts, N
    double residual_sd_n = 0.0;  ///< of the readings about the line
    int degrees_of_freedom = 0;
    LoadCellTerms terms;
};

/// Fits one cell's growing and falling readings with a straight line (GUM, H.3) and turns it about; held
/// readings serve for creep only. Several runs share one slope, each with a zero of its own; zero_counts is
/// then their mean. Fails with bad_input when there are fewer than two readings more than runs, one load
/// only, or no answer to the load.
[[nodiscard]] Result<CellCalibration> fit_cell(std::span<const LoadReading> readings);

/// By how much a standard uncertainty from `degrees_of_freedom` must be raised so that twice its value covers
/// 95.45 % although it was found from few readings: t / 2 (GUM, G.3).
[[nodiscard]] double covering_factor(double degrees_of_freedom);

/// Standard uncertainty of a value known to lie within +- `half_width`, all places alike (GUM, 4.3.7).
[[nodiscard]] double rectangular_u(double half_width);

}  // namespace footing
