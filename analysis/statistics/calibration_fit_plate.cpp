#include "analysis/statistics/calibration_fit_plate.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>

namespace footing {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

Problem bad(const char* what, const char* remedy) {
    return {ProblemKind::bad_input, "plate calibration", what, remedy};
}

struct Centred {
    MatrixXd counts;  ///< [reading, cell], less the mean of its run
    MatrixXd loads;   ///< [reading, 3]: total, x moment, y moment, less the mean of its run
    Index runs = 0;
};

/// Each run has a zero of its own, so only what changes within a run tells anything.
Centred centred(std::span<const PlateReading> readings, Index cells) {
    const auto rows = static_cast<Index>(readings.size());
    Centred all{MatrixXd(rows, cells), MatrixXd(rows, 3), 0};
    std::map<std::size_t, std::vector<Index>> rows_of_run;
    for (Index row = 0; row < rows; ++row) {
        const PlateReading& reading = readings[static_cast<std::size_t>(row)];
        all.counts.row(row) = Eigen::Map<const VectorXd>(reading.counts.data(), cells).transpose();
        all.loads.row(row) << reading.force_n, reading.force_n * reading.point.x_m,
            reading.force_n * reading.point.y_m;
        rows_of_run[reading.run].push_back(row);
    }
    for (const auto& [run, members] : rows_of_run) {
        VectorXd mean_counts = VectorXd::Zero(cells);
        Eigen::Vector3d mean_loads = Eigen::Vector3d::Zero();
        const double share = 1.0 / static_cast<double>(members.size());
        for (const Index row : members) {
            mean_counts += share * all.counts.row(row).transpose();
            mean_loads += share * all.loads.row(row).transpose();
        }
        for (const Index row : members) {
            all.counts.row(row) -= mean_counts.transpose();
            all.loads.row(row) -= mean_loads.transpose();
        }
    }
    all.runs = static_cast<Index>(rows_of_run.size());
    return all;
}

struct Row {
    VectorXd weights;
    MatrixXd covariance;
    double residual_sd = 0.0;
    double degrees_of_freedom = 0.0;
};

/// One output as a weighted sum of counts, starting from what was believed with standard uncertainty `u`; the
/// readings' scatter is found on the way.
Row fit_row(const MatrixXd& counts, const VectorXd& loads, Index runs, const VectorXd& believed,
            const VectorXd& u) {
    constexpr int most_rounds = 50;
    const VectorXd miss = loads - counts * believed;
    const MatrixXd scaled = counts * u.asDiagonal();
    const MatrixXd information = scaled.transpose() * scaled;
    const VectorXd pull = scaled.transpose() * miss;
    const auto own = MatrixXd::Identity(u.size(), u.size());
    const double free = static_cast<double>(counts.rows() - runs);
    double variance = std::max(miss.squaredNorm() / std::max(free, 1.0) * 1e-4, 1e-18);
    Row row;
    for (int round = 0; round < most_rounds; ++round) {
        const Eigen::LDLT<MatrixXd> solver(information + variance * own);
        const VectorXd change = solver.solve(pull);
        const double spent = solver.solve(information).trace();
        row.degrees_of_freedom = std::max(1.0, free - spent);
        row.weights = believed + u.asDiagonal() * change;
        const double found = std::max((miss - scaled * change).squaredNorm() / row.degrees_of_freedom, 1e-18);
        const bool settled = std::abs(found - variance) < 1e-9 * variance;
        variance = found;
        if (settled) break;
    }
    const Eigen::LDLT<MatrixXd> solver(information + variance * own);
    row.covariance = variance * u.asDiagonal() * solver.solve(own) * u.asDiagonal();
    row.residual_sd = std::sqrt(variance);
    return row;
}

std::vector<double> flat(const MatrixXd& matrix) {
    std::vector<double> values;
    values.reserve(static_cast<std::size_t>(matrix.size()));
    for (Index row = 0; row < matrix.rows(); ++row) {
        for (Index column = 0; column < matrix.cols(); ++column) values.push_back(matrix(row, column));
    }
    return values;
}

std::vector<double> mean_of_empty(std::span<const PlateReading> readings, std::size_t cells) {
    std::vector<double> zero(cells, 0.0);
    double empty = 0.0;
    for (const PlateReading& reading : readings) {
        if (reading.force_n != 0.0) continue;
        ++empty;
        for (std::size_t i = 0; i < cells; ++i) zero[i] += (reading.counts[i] - zero[i]) / empty;
    }
    return zero;
}

Outcome check_enough(std::span<const PlateReading> readings, std::span<const PointM> cells,
                     const PlateBelief& belief) {
    if (cells.size() < 3)
        return bad("a plate needs at least three cells for a matrix", "calibrate cell by cell");
    if (belief.newtons_per_count.size() != cells.size())
        return bad("not one believed scale a cell", "give the plate's own description");
    bool loaded = false;
    bool empty = false;
    std::map<std::size_t, int> runs;
    for (const PlateReading& reading : readings) {
        if (reading.counts.size() != cells.size())
            return bad("a reading has not one number a cell", "give one count for each cell of the plate");
        loaded = loaded || reading.force_n > 0.0;
        empty = empty || reading.force_n == 0.0;
        ++runs[reading.run];
    }
    if (!loaded || !empty)
        return bad("no reading with a load, or none without", "read the plate empty and loaded");
    if (readings.size() < runs.size() + 4) return bad("too few readings", "use more points or more masses");
    return Done{};
}

}  // namespace

Result<PlateCalibration> fit_plate(std::span<const PlateReading> readings, std::span<const PointM> cells,
                                   const PlateBelief& belief) {
    if (const Outcome enough = check_enough(readings, cells, belief); !enough) return enough.problem();
    const auto count = static_cast<Index>(cells.size());
    MatrixXd resultant(3, count);  // forces of the cells -> total and moments
    for (Index i = 0; i < count; ++i) {
        const PointM& cell = cells[static_cast<std::size_t>(i)];
        resultant.col(i) << 1.0, cell.x_m, cell.y_m;
    }
    const double reach_m = std::max(resultant.bottomRows(2).cwiseAbs().maxCoeff(), 1e-3);
    const VectorXd gains = Eigen::Map<const VectorXd>(belief.newtons_per_count.data(), count);
    const Centred data = centred(readings, count);

    MatrixXd found(3, count);  // counts -> total and moments
    Row total;
    double moment_variance = 0.0;
    for (Index output = 0; output < 3; ++output) {
        const VectorXd believed = resultant.row(output).transpose().cwiseProduct(gains);
        const VectorXd u = gains.cwiseAbs() * belief.relative_u * (output == 0 ? 1.0 : reach_m);
        Row row = fit_row(data.counts, data.loads.col(output), data.runs, believed, u);
        found.row(output) = row.weights.transpose();
        if (output == 0) {
            total = std::move(row);
        } else {
            moment_variance += row.residual_sd * row.residual_sd;
        }
    }
    const MatrixXd back = resultant.completeOrthogonalDecomposition().pseudoInverse();
    const MatrixXd matrix =
        back * found + (MatrixXd::Identity(count, count) - back * resultant) * MatrixXd(gains.asDiagonal());

    PlateCalibration plate;
    plate.matrix = flat(matrix);
    plate.zero_counts = mean_of_empty(readings, cells.size());
    plate.newtons_per_count.assign(total.weights.data(), total.weights.data() + count);
    plate.covariance = flat(total.covariance);
    plate.residual_sd_n = total.residual_sd;
    double full_load_n = 0.0;
    for (const PlateReading& reading : readings) full_load_n = std::max(full_load_n, reading.force_n);
    plate.residual_place_m = std::sqrt(moment_variance / 2.0) / full_load_n;
    plate.degrees_of_freedom = total.degrees_of_freedom;
    for (Index column = 0; column < count; ++column) {
        for (Index row = 0; row < count; ++row) {
            if (row == column) continue;
            plate.cross_talk =
                std::max(plate.cross_talk, std::abs(matrix(row, column) / matrix(column, column)));
        }
        plate.largest_change =
            std::max(plate.largest_change, std::abs(total.weights[column] / gains[column] - 1.0));
    }
    return plate;
}

}  // namespace footing
