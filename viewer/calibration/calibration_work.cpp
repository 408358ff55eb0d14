#include "viewer/calibration/calibration_work.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/gravity.h"
#include "viewer/calibration/calendar.h"
#include "viewer/calibration/calibration_plan.h"

namespace footing {

Problem bad_readings(std::string what, std::string remedy) {
    return {ProblemKind::bad_input, "calibration", std::move(what), std::move(remedy)};
}

CalibrationWork start_calibration(const DeviceDescription& device,
                                  const std::vector<CalibrationReading>& readings, const Weighing& weighing) {
    CalibrationWork work{device, readings, weighing, values_per_frame(device.layout), {}, {}, {}, 0.0};
    std::size_t first = 0;
    for (const Plate& plate : device.layout.plates) {
        work.first_value.push_back(first);
        first += plate.cells.size();
    }
    work.record.newtons_per_count.assign(work.values, 0.0);
    work.record.zero_counts.assign(work.values, 0.0);
    return work;
}

Outcome check_readings(const CalibrationWork& work) {
    if (work.readings.empty())
        return bad_readings("there are no readings", "read the plates empty and loaded");
    for (const CalibrationReading& reading : work.readings) {
        if (reading.counts.size() != work.values)
            return bad_readings("a reading has not one number a value", "give one count for each cell");
    }
    return Done{};
}

double shape_relative_u(const CalibrationErrors& errors) {
    const double line_n = rectangular_u(errors.non_linearity_n.value_or(0.0));
    const double hysteresis_n = rectangular_u(errors.hysteresis_n.value_or(0.0) / 2.0);
    const double creep_n = rectangular_u(errors.creep_n.value_or(0.0) / 2.0);
    return std::sqrt(line_n * line_n + hysteresis_n * hysteresis_n + creep_n * creep_n) / errors.full_load_n;
}

CalibrationErrors errors_of(std::string where, const CellCalibration& cell) {
    CalibrationErrors errors;
    errors.where = std::move(where);
    errors.full_load_n = cell.terms.full_load_n;
    errors.residual_sd_n = cell.residual_sd_n;
    errors.degrees_of_freedom = cell.degrees_of_freedom;
    errors.non_linearity_n = cell.terms.non_linearity_n;
    errors.hysteresis_n = cell.terms.hysteresis_n;
    errors.repeatability_n = cell.terms.repeatability_n;
    errors.creep_n = cell.terms.creep_n;
    errors.creep_s = cell.terms.creep_s;
    return errors;
}

std::string cell_words(const CalibrationWork& work, std::size_t plate, std::size_t cell) {
    return fmt::format("{}, cell {}", plate_words(work.device.layout, plate), cell + 1);
}

double even_load_relative_u(CalibrationWork& work, std::size_t plate) {
    const std::size_t cells = work.cells_of(plate).size();
    const auto& gain = work.record.newtons_per_count;
    double variance = 0.0;
    for (std::size_t a = 0; a < cells; ++a) {
        for (std::size_t b = 0; b < cells; ++b) {
            const std::size_t i = work.first_value[plate] + a;
            const std::size_t j = work.first_value[plate] + b;
            variance += work.covariance(i, j) / (gain[i] * gain[j]);
        }
    }
    return std::sqrt(std::max(0.0, variance)) / static_cast<double>(cells);
}

void note_plate_u(CalibrationWork& work, double fit_relative_u, double shape_u) {
    work.own_relative_u = std::max(work.own_relative_u, std::hypot(fit_relative_u, shape_u));
}

void finish_calibration(CalibrationWork& work, const std::string& made, int valid_months) {
    Calibration& record = work.record;
    record.device_serial = work.device.serial;
    record.made = made;
    if (valid_months > 0) record.valid_until = months_later(made, valid_months);
    record.common_relative_u = std::hypot(work.weighing.mass_relative_u, work.weighing.gravity_relative_u);
    record.relative_u = std::hypot(record.common_relative_u, work.own_relative_u);
    record.mass_relative_u = work.weighing.mass_relative_u;
    record.gravity_m_s2 = work.weighing.gravity_m_s2;
    record.gravity_source = work.weighing.gravity_source;
    // A mat's would be thousands of numbers each; its places stand in the errors.
    if (work.device.layout.kind == FrameKind::cells) record.readings = work.readings;
    std::set<double> masses;
    for (const CalibrationReading& reading : work.readings) {
        if (reading.mass_kg > 0.0) masses.insert(reading.mass_kg);
    }
    record.masses_kg.assign(masses.begin(), masses.end());
    if (!record.gain_covariance.empty()) {
        // Masses and gravity move all scales together (GUM, 5.2.4, F.1.2.3).
        const double common = record.common_relative_u * record.common_relative_u;
        for (std::size_t i = 0; i < work.values; ++i) {
            for (std::size_t j = 0; j < work.values; ++j)
                work.covariance(i, j) += common * record.newtons_per_count[i] * record.newtons_per_count[j];
        }
    }
    if (work.weighing.gravity_relative_u > 0.001) {
        work.remarks.emplace_back(
            "Gravity was not given, and over the Earth it changes by 0.5 %: give --latitude and --height for "
            "loads that "
            "are true to better than that. Shares do not feel it.");
    }
}

}  // namespace footing
