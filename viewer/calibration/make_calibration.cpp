#include "viewer/calibration/make_calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/calibration_fit_plate.h"
#include "viewer/calibration/calibration_loads.h"
#include "viewer/calibration/calibration_plan.h"
#include "viewer/calibration/calibration_work.h"

namespace footing {

namespace {

/// So much of a mass over one cell may show in the others before the plate is fitted as a whole.
constexpr double most_elsewhere = 0.02;
/// Standard uncertainty of a cell's nominal scale and cross-talk, before calibration (common practice, no
/// source).
constexpr double nominal_cell_relative_u = 0.05;
constexpr double guessed_cell_relative_u = 0.2;

Outcome fit_cells(CalibrationWork& work) {
    work.record.method = "known masses on each cell";
    work.record.gain_covariance.assign(work.values * work.values, 0.0);
    work.record.gain_zero_covariance.assign(work.values, 0.0);
    for (std::size_t plate = 0; plate < work.first_value.size(); ++plate) {
        double worst_shape = 0.0;
        for (std::size_t cell = 0; cell < work.cells_of(plate).size(); ++cell) {
            const std::size_t value = work.first_value[plate] + cell;
            const Result<CellCalibration> fitted = fit_cell(cell_loads(work, plate, cell, cell));
            if (!fitted) {
                Problem problem = fitted.problem();
                problem.place = "calibration of " + cell_words(work, plate, cell);
                return problem;
            }
            const CellCalibration& found = fitted.value();
            const double cover = covering_factor(found.degrees_of_freedom);
            work.record.newtons_per_count[value] = found.newtons_per_count;
            work.record.zero_counts[value] = found.zero_counts;
            work.covariance(value, value) = std::pow(cover * found.u_newtons_per_count, 2);
            work.record.gain_zero_covariance[value] = cover * cover * found.covariance;
            work.record.errors.push_back(errors_of(cell_words(work, plate, cell), found));
            worst_shape = std::max(worst_shape, shape_relative_u(work.record.errors.back()));
        }
        note_plate_u(work, even_load_relative_u(work, plate), worst_shape);
    }
    return Done{};
}

/// What one count of a cell is worth before the calibration: as the device says, or by the sum of its plate.
Result<PlateBelief> belief_in(const CalibrationWork& work, std::size_t plate,
                              const std::vector<PlateReading>& readings) {
    const std::size_t cells = work.cells_of(plate).size();
    if (work.device.newtons_per_count)
        return PlateBelief{std::vector<double>(cells, *work.device.newtons_per_count),
                           nominal_cell_relative_u};
    std::vector<LoadReading> sums;
    for (const PlateReading& reading : readings) {
        double sum = 0.0;
        for (const double counts : reading.counts) sum += counts;
        sums.push_back({reading.force_n, sum, 0.0, LoadDirection::growing, reading.run});
    }
    const Result<CellCalibration> fitted = fit_cell(sums);
    if (!fitted) return fitted.problem();
    return PlateBelief{std::vector<double>(cells, fitted.value().newtons_per_count), guessed_cell_relative_u};
}

Outcome fit_plates(CalibrationWork& work) {
    work.record.gain_covariance.assign(work.values * work.values, 0.0);
    work.record.cell_matrix.assign(work.values * work.values, 0.0);
    double most_cross_talk = 0.0;
    double worst_place_m = 0.0;
    for (std::size_t plate = 0; plate < work.first_value.size(); ++plate) {
        const std::string name = plate_words(work.device.layout, plate);
        const std::vector<PlateReading> readings = plate_readings(work, plate);
        if (readings.empty())
            return bad_readings("there are no readings of " + name, "read it empty and loaded");
        const Result<PlateBelief> belief = belief_in(work, plate, readings);
        if (!belief) return belief.problem();
        const Result<PlateCalibration> fitted = fit_plate(readings, work.cells_of(plate), belief.value());
        if (!fitted) {
            Problem problem = fitted.problem();
            problem.place = "calibration of " + name;
            return problem;
        }
        const PlateCalibration& found = fitted.value();
        const std::size_t cells = work.cells_of(plate).size();
        const std::size_t first = work.first_value[plate];
        const double cover = covering_factor(found.degrees_of_freedom);
        for (std::size_t a = 0; a < cells; ++a) {
            work.record.newtons_per_count[first + a] = found.newtons_per_count[a];
            work.record.zero_counts[first + a] = found.zero_counts[a];
            for (std::size_t b = 0; b < cells; ++b) {
                work.covariance(first + a, first + b) = cover * cover * found.covariance[a * cells + b];
                work.record.cell_matrix[(first + a) * work.values + first + b] = found.matrix[a * cells + b];
            }
        }
        const Result<CellCalibration> total =
            fit_cell(loads_on(work, plate, std::nullopt, found.newtons_per_count));
        if (!total) return total.problem();
        work.record.errors.push_back(errors_of(name, total.value()));
        work.record.errors.back().residual_sd_n = found.residual_sd_n;
        work.record.errors.back().degrees_of_freedom = static_cast<int>(found.degrees_of_freedom);
        note_plate_u(work, even_load_relative_u(work, plate), shape_relative_u(work.record.errors.back()));
        most_cross_talk = std::max(most_cross_talk, found.cross_talk);
        worst_place_m = std::max(worst_place_m, found.residual_place_m);
    }
    work.remarks.push_back(
        fmt::format("A cell answers to its neighbours' load by up to {:.1f} %; the matrix takes that out. "
                    "After it, the masses are "
                    "found where they stood to {:.1f} mm (one standard deviation).",
                    100.0 * most_cross_talk, worst_place_m * mm_per_metre));
    return Done{};
}

Outcome fit_totals(CalibrationWork& work) {
    work.record.method = "a known weight on each plate";
    work.record.gain_covariance.assign(work.values * work.values, 0.0);
    for (std::size_t plate = 0; plate < work.first_value.size(); ++plate) {
        const std::string name = plate_words(work.device.layout, plate);
        const std::size_t cells = work.cells_of(plate).size();
        const std::size_t first = work.first_value[plate];
        const double nominal = work.device.newtons_per_count.value_or(1.0);
        const Result<CellCalibration> fitted =
            fit_cell(loads_on(work, plate, std::nullopt, std::vector<double>(cells, nominal)));
        if (!fitted) {
            Problem problem = fitted.problem();
            problem.place = "calibration of " + name;
            return problem;
        }
        const CellCalibration& found = fitted.value();
        const double cover = covering_factor(found.degrees_of_freedom);
        const double gain = nominal * found.newtons_per_count;
        for (std::size_t a = 0; a < cells; ++a) {
            work.record.newtons_per_count[first + a] = gain;
            for (std::size_t b = 0; b < cells; ++b)
                work.covariance(first + a, first + b) =
                    std::pow(cover * nominal * found.u_newtons_per_count, 2);
        }
        work.record.errors.push_back(errors_of(name, found));
        note_plate_u(work, even_load_relative_u(work, plate), shape_relative_u(work.record.errors.back()));
    }
    for (std::size_t value = 0; value < work.values; ++value) {
        double empty = 0.0;
        for (const CalibrationReading& reading : work.readings) {
            if (reading.mass_kg != 0.0) continue;
            ++empty;
            work.record.zero_counts[value] +=
                (reading.counts[value] - work.record.zero_counts[value]) / empty;
        }
    }
    work.remarks.emplace_back(
        "One factor a plate: loads and shares gain, but cells that differ within a plate still shift the "
        "centre of "
        "pressure. Masses over the cells or at marked points would find that too.");
    return Done{};
}

}  // namespace

Result<MadeCalibration> make_calibration(const DeviceDescription& device,
                                         const std::vector<CalibrationReading>& readings,
                                         const Weighing& weighing, const std::string& made,
                                         int valid_months) {
    CalibrationWork work = start_calibration(device, readings, weighing);
    if (const Outcome sound = check_readings(work); !sound) return sound.problem();
    const bool on_cells =
        std::all_of(readings.begin(), readings.end(), [](const auto& r) { return r.cell.has_value(); });
    const bool at_points =
        std::all_of(readings.begin(), readings.end(), [](const auto& r) { return r.point || r.cell; });
    Outcome fitted = Done{};
    if (on_cells) {
        double elsewhere = 0.0;
        bool can_be_matrix = true;
        for (std::size_t plate = 0; plate < work.first_value.size(); ++plate) {
            can_be_matrix = can_be_matrix && work.cells_of(plate).size() >= 3;
            for (std::size_t cell = 0; cell < work.cells_of(plate).size(); ++cell)
                elsewhere = std::max(elsewhere, carried_elsewhere(work, plate, cell));
        }
        const bool as_a_whole = elsewhere > most_elsewhere && can_be_matrix;
        if (as_a_whole) {
            work.record.method = "known masses over the cells, each plate as a whole";
            work.remarks.push_back(
                fmt::format("Up to {:.0f} % of a mass over one cell was carried by others, so each plate was "
                            "fitted as a whole.",
                            100.0 * elsewhere));
        }
        fitted = as_a_whole ? fit_plates(work) : fit_cells(work);
    } else if (at_points) {
        work.record.method = "known masses at marked points";
        fitted = fit_plates(work);
    } else {
        fitted = fit_totals(work);
    }
    if (!fitted) return fitted.problem();
    finish_calibration(work, made, valid_months);
    return MadeCalibration{std::move(work.record), std::move(work.remarks)};
}

}  // namespace footing
