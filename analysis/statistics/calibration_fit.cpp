#include "analysis/statistics/calibration_fit.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "analysis/statistics/distributions.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

struct RunMean {
    double force_n = 0.0;
    double counts = 0.0;
    double readings = 0.0;
};

std::map<std::size_t, RunMean> means_of_runs(std::span<const LoadReading> readings) {
    std::map<std::size_t, RunMean> runs;
    for (const LoadReading& reading : readings) {
        RunMean& run = runs[reading.run];
        ++run.readings;
        run.force_n += (reading.force_n - run.force_n) / run.readings;
        run.counts += (reading.counts - run.counts) / run.readings;
    }
    return runs;
}

std::vector<LoadReading> without_held(std::span<const LoadReading> readings) {
    std::vector<LoadReading> kept;
    std::copy_if(readings.begin(), readings.end(), std::back_inserter(kept),
                 [](const LoadReading& reading) { return reading.direction != LoadDirection::held; });
    return kept;
}

/// One slope for all runs: each run is moved to the mean of all, and pays one degree of freedom for that.
Result<StraightLine> fit_runs(std::span<const LoadReading> readings,
                              const std::map<std::size_t, RunMean>& runs) {
    std::vector<double> force_n;
    std::vector<double> counts;
    for (const LoadReading& reading : readings) {
        force_n.push_back(reading.force_n);
        counts.push_back(reading.counts);
    }
    if (runs.size() < 2) return fit_straight_line(force_n, counts);
    const double all_force_n = mean(force_n);
    const double all_counts = mean(counts);
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const RunMean& run = runs.at(readings[i].run);
        force_n[i] += all_force_n - run.force_n;
        counts[i] += all_counts - run.counts;
    }
    Result<StraightLine> fitted = fit_straight_line(force_n, counts);
    if (!fitted) return fitted;
    const double free = static_cast<double>(readings.size()) - static_cast<double>(runs.size()) - 1.0;
    if (free < 1.0)
        return Problem{ProblemKind::bad_input, "calibration line", "too few readings for so many runs",
                       "read more loads in each run"};
    StraightLine& line = fitted.value();
    const double raise = std::sqrt((static_cast<double>(readings.size()) - 2.0) / free);
    line.residual_sd *= raise;
    line.u_slope *= raise;
    line.u_intercept *= raise;
    line.covariance *= raise * raise;
    return fitted;
}

/// The readings as if all runs had had the same zero.
std::vector<LoadReading> with_one_zero(std::span<const LoadReading> readings,
                                       const std::map<std::size_t, RunMean>& runs, const StraightLine& line) {
    std::vector<LoadReading> moved(readings.begin(), readings.end());
    for (LoadReading& reading : moved) {
        const auto run = runs.find(reading.run);
        if (run != runs.end()) reading.counts -= run->second.counts - line.at(run->second.force_n);
    }
    return moved;
}

}  // namespace

Result<CellCalibration> fit_cell(std::span<const LoadReading> readings) {
    const std::vector<LoadReading> kept = without_held(readings);
    const std::map<std::size_t, RunMean> runs = means_of_runs(kept);
    const Result<StraightLine> fitted = fit_runs(kept, runs);
    if (!fitted) return fitted.problem();
    CellCalibration cell;
    cell.line = fitted.value();
    const StraightLine& line = cell.line;
    if (!(std::abs(line.slope) > 3.0 * line.u_slope) || line.slope == 0.0) {
        return Problem{ProblemKind::bad_input, "calibration line", "the cell does not answer to the load",
                       "see that the mass stands on this cell and that the cell is plugged in"};
    }
    cell.degrees_of_freedom = static_cast<int>(line.points) - static_cast<int>(runs.size()) - 1;
    cell.newtons_per_count = 1.0 / line.slope;
    cell.zero_counts = line.intercept;
    // gain = 1 / slope, so d gain = - gain^2 d slope.
    const double sensitivity = -cell.newtons_per_count * cell.newtons_per_count;
    cell.u_newtons_per_count = std::abs(sensitivity) * line.u_slope;
    cell.u_zero_counts = line.u_intercept;
    cell.covariance = sensitivity * line.covariance;
    cell.residual_sd_n = line.residual_sd * std::abs(cell.newtons_per_count);
    cell.terms = load_cell_terms(with_one_zero(readings, runs, line), line);
    return cell;
}

double covering_factor(double degrees_of_freedom) {
    constexpr double two_sided_9545 = 0.977249868;  // normal distribution function at 2
    return student_t_quantile(two_sided_9545, std::max(1.0, degrees_of_freedom)) / 2.0;
}

double rectangular_u(double half_width) {
    return std::abs(half_width) / std::sqrt(3.0);
}

}  // namespace footing
