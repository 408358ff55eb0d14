#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"

namespace footing {

/// What the cells of one plate read while a known load stood at a known point.
struct PlateReading {
    double force_n = 0.0;
    PointM point;                ///< from the plate's centre
    std::size_t run = 0;         ///< readings of one run share a zero; between runs it may have drifted
    std::vector<double> counts;  ///< one a cell
};

/// What was believed of the plate before: each cell's scale, and how sure that is.
struct PlateBelief {
    std::vector<double> newtons_per_count;  ///< one a cell
    double relative_u = 0.05;  ///< of each cell's scale, and of what its neighbours catch of its load
};

/// A plate as the calibration found it: force = matrix (counts - zero_counts), shape [cell, cell].
struct PlateCalibration {
    std::vector<double> matrix;             ///< row-major, N/count
    std::vector<double> zero_counts;        ///< mean of the empty readings
    std::vector<double> newtons_per_count;  ///< sums of the matrix' columns: what a count adds to the total
    std::vector<double> covariance;         ///< of newtons_per_count, row-major, (N/count)^2, by the fit
    double residual_sd_n = 0.0;             ///< of the total load
    double residual_place_m = 0.0;          ///< of the load's place, at full load
    double degrees_of_freedom = 0.0;
    double cross_talk = 0.0;  ///< largest matrix element beside the diagonal, as a fraction of its diagonal
    double largest_change = 0.0;  ///< of newtons_per_count against the belief, as a fraction
};

/// Least squares over all readings of a plate: finds the linear map from counts to total load and its two
/// moments, cross-talk included. Loads on a rigid plate do not excite every way in which cells can differ;
/// what they do not tell stays as it was believed, with that uncertainty (least squares with prior knowledge,
/// GUM-compatible Bayesian form: JCGM 101, 6.2 and Elster & Toman 2009, Metrologia 46:261, from memory).
/// The cell matrix is the one nearest to the believed scales that has these total and moments exactly.
/// Fails with bad_input: fewer than three cells or four readings more than runs, no load, cells on one line.
[[nodiscard]] Result<PlateCalibration> fit_plate(std::span<const PlateReading> readings,
                                                 std::span<const PointM> cells, const PlateBelief& belief);

}  // namespace footing
