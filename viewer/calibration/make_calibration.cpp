#include "viewer/calibration/make_calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/calibration_fit_plate.h"
#include "analysis/statistics/gravity.h"
#include "viewer/calibration/calibration_plan.h"

namespace footing {

namespace {

/// So much of a mass over one cell may show in the others before the plate is fitted as a whole.
constexpr double most_elsewhere = 0.02;
/// Standard uncertainty of a cell's nominal scale and cross-talk, before calibration (common practice, no
/// source).
constexpr double nominal_cell_relative_u = 0.05;
constexpr double guessed_cell_relative_u = 0.2;

Problem bad(std::string what, std::string remedy) {
    return {ProblemKind::bad_input, "calibration", std::move(what), std::move(remedy)};
}

/// What every method fills in step by step.
struct Work {
    const DeviceDescription& device;
    const std::vector<CalibrationReading>& readings;
    const Weighing& weighing;
    std::size_t values;
    std::vector<std::size_t> first_value;  ///< of each plate
    std::vector<std::string> remarks;
    Calibration record;
    double own_relative_u = 0.0;  ///< largest over the plates, without the common part

    double force_n(const CalibrationReading& reading) const {
        return reading.mass_kg * weighing.gravity_m_s2;
    }
    const std::vector<PointM>& cells_of(std::size_t plate) const { return device.layout.plates[plate].cells; }
    double& covariance(std::size_t i, std::size_t j) { return record.gain_covariance[i * values + j]; }
};

Work start(const DeviceDescription& device, const std::vector<CalibrationReading>& readings,
           const Weighing& weighing) {
    Work work{device, readings, weighing, values_per_frame(device.layout), {}, {}, {}, 0.0};
    std::size_t first = 0;
    for (const Plate& plate : device.layout.plates) {
        work.first_value.push_back(first);
        first += plate.cells.size();
    }
    work.record.newtons_per_count.assign(work.values, 0.0);
    work.record.zero_counts.assign(work.values, 0.0);
    return work;
}

/// Adds what one cell's or plate's readings add to a load's uncertainty beside the fit: the shape of its
/// curve.
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

std::string cell_words(const Work& work, std::size_t plate, std::size_t cell) {
    return fmt::format("{}, cell {}", plate_words(work.device.layout, plate), cell + 1);
}

/// Relative standard uncertainty of a load spread evenly over a plate's cells, by gain_covariance as it
/// stands.
double even_load_relative_u(Work& work, std::size_t plate) {
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

void note_plate_u(Work& work, double fit_relative_u, double shape_u) {
    work.own_relative_u = std::max(work.own_relative_u, std::hypot(fit_relative_u, shape_u));
}

/// Numbers the runs: a new one begins where the load stands elsewhere, or where an empty plate is read again.
class RunCounter {
  public:
    std::size_t run_of(const CalibrationReading& reading) {
        if (before_ != nullptr) {
            const bool moved = reading.cell != before_->cell || reading.point != before_->point;
            const bool anew = before_->mass_kg == 0.0 && reading.mass_kg == 0.0;
            if (moved || anew) ++run_;
        }
        before_ = &reading;
        return run_;
    }

  private:
    const CalibrationReading* before_ = nullptr;
    std::size_t run_ = 0;
};

/// What a weighted sum of a plate's counts read under each load; at one cell only, if that is named.
std::vector<LoadReading> loads_on(const Work& work, std::size_t plate, std::optional<std::size_t> cell,
                                  const std::vector<double>& weights) {
    std::vector<LoadReading> loads;
    RunCounter runs;
    for (const CalibrationReading& reading : work.readings) {
        if (reading.plate != plate || (cell && reading.cell != cell)) continue;
        double sum = 0.0;
        for (std::size_t i = 0; i < weights.size(); ++i)
            sum += weights[i] * reading.counts[work.first_value[plate] + i];
        loads.push_back(
            {work.force_n(reading), sum, reading.time_s, LoadDirection::growing, runs.run_of(reading)});
    }
    tell_directions(loads);
    return loads;
}

std::vector<LoadReading> cell_loads(const Work& work, std::size_t plate, std::size_t cell,
                                    std::size_t answering) {
    std::vector<double> weights(work.cells_of(plate).size(), 0.0);
    weights[answering] = 1.0;
    return loads_on(work, plate, cell, weights);
}

/// Part of the loads over this cell that the other cells of its plate answered to, if all cells are alike.
double carried_elsewhere(const Work& work, std::size_t plate, std::size_t cell) {
    double own = 0.0;
    double others = 0.0;
    for (std::size_t other = 0; other < work.cells_of(plate).size(); ++other) {
        std::vector<double> force_n;
        std::vector<double> counts;
        for (const LoadReading& load : cell_loads(work, plate, cell, other)) {
            force_n.push_back(load.force_n);
            counts.push_back(load.counts);
        }
        const Result<StraightLine> line = fit_straight_line(force_n, counts);
        if (!line) return 0.0;
        (other == cell ? own : others) += std::abs(line.value().slope);
    }
    return own + others > 0.0 ? others / (own + others) : 0.0;
}

Outcome fit_cells(Work& work) {
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

/// A plate's readings for the fit as a whole, without those that were only held for creep.
std::vector<PlateReading> plate_readings(const Work& work, std::size_t plate) {
    const std::vector<PointM>& cells = work.cells_of(plate);
    const std::vector<LoadReading> loads =
        loads_on(work, plate, std::nullopt, std::vector<double>(cells.size(), 0.0));
    std::vector<PlateReading> taken;
    auto load = loads.begin();
    for (const CalibrationReading& reading : work.readings) {
        if (reading.plate != plate) continue;
        const LoadReading& told = *load++;
        if (told.direction == LoadDirection::held) continue;
        const auto first = reading.counts.begin() + static_cast<std::ptrdiff_t>(work.first_value[plate]);
        PlateReading kept;
        kept.force_n = told.force_n;
        kept.point = reading.cell ? cells[*reading.cell] : reading.point.value_or(PointM{});
        kept.run = told.run;
        kept.counts.assign(first, first + static_cast<std::ptrdiff_t>(cells.size()));
        taken.push_back(std::move(kept));
    }
    return taken;
}

/// What one count of a cell is worth before the calibration: as the device says, or by the sum of its plate.
Result<PlateBelief> belief_in(const Work& work, std::size_t plate,
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

Outcome fit_plates(Work& work) {
    work.record.gain_covariance.assign(work.values * work.values, 0.0);
    work.record.cell_matrix.assign(work.values * work.values, 0.0);
    double most_cross_talk = 0.0;
    double worst_place_m = 0.0;
    for (std::size_t plate = 0; plate < work.first_value.size(); ++plate) {
        const std::string name = plate_words(work.device.layout, plate);
        const std::vector<PlateReading> readings = plate_readings(work, plate);
        if (readings.empty()) return bad("there are no readings of " + name, "read it empty and loaded");
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

Outcome fit_totals(Work& work) {
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

void finish(Work& work, const std::string& made, int valid_months) {
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

Outcome check_readings(const Work& work) {
    if (work.readings.empty()) return bad("there are no readings", "read the plates empty and loaded");
    for (const CalibrationReading& reading : work.readings) {
        if (reading.counts.size() != work.values)
            return bad("a reading has not one number a value", "give one count for each cell");
    }
    return Done{};
}

}  // namespace

Weighing weighing_at(std::optional<double> latitude_deg, std::optional<double> height_m,
                     std::optional<double> gravity_m_s2, double mass_tolerance_percent) {
    Weighing weighing;
    weighing.mass_relative_u = rectangular_u(mass_tolerance_percent / 100.0);
    if (gravity_m_s2) {
        weighing.gravity_m_s2 = *gravity_m_s2;
        weighing.gravity_source = "as given";
    } else if (latitude_deg) {
        weighing.gravity_m_s2 = local_gravity_m_s2(*latitude_deg, height_m.value_or(0.0));
        weighing.gravity_relative_u = local_gravity_relative_u();
        weighing.gravity_source =
            fmt::format("latitude {:g} degrees, height {:g} m", *latitude_deg, height_m.value_or(0.0));
    } else {
        weighing.gravity_m_s2 = standard_gravity_m_s2;
        weighing.gravity_relative_u = unknown_gravity_relative_u();
        weighing.gravity_source = "standard gravity, the place is not known";
    }
    return weighing;
}

Result<MadeCalibration> make_calibration(const DeviceDescription& device,
                                         const std::vector<CalibrationReading>& readings,
                                         const Weighing& weighing, const std::string& made,
                                         int valid_months) {
    Work work = start(device, readings, weighing);
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
    finish(work, made, valid_months);
    return MadeCalibration{std::move(work.record), std::move(work.remarks)};
}

Result<MadeCalibration> make_mat_calibration(const DeviceDescription& device,
                                             const std::vector<CalibrationReading>& readings,
                                             const MatFindings& findings, const Weighing& weighing,
                                             const std::string& made, int valid_months) {
    Work work = start(device, readings, weighing);
    if (const Outcome sound = check_readings(work); !sound) return sound.problem();
    work.record.method = "a known weight on the mat";
    const CalibrationReading* empty = nullptr;
    std::map<double, std::vector<double>> totals;  // by mass, less the empty reading before
    for (const CalibrationReading& reading : readings) {
        if (reading.mass_kg == 0.0) {
            empty = &reading;
            continue;
        }
        if (empty == nullptr) return bad("a load was read before the empty mat", "read the mat empty first");
        double total = 0.0;
        for (std::size_t i = 0; i < work.values; ++i) total += reading.counts[i] - empty->counts[i];
        totals[work.force_n(reading)].push_back(total);
    }
    if (totals.size() != 1 || empty == nullptr)
        return bad("a mat wants one known weight in several places", "use one weight, or one person");
    const std::optional<MatFactor> factor = mat_factor(totals.begin()->first, totals.begin()->second);
    if (!factor)
        return bad("the mat does not answer to the load", "see that it is plugged in and step on its middle");
    work.record.newtons_per_count.assign(work.values, factor->newtons_per_count);
    work.record.zero_counts = empty->counts;
    work.own_relative_u = std::min(factor->relative_u, 0.99);
    work.record.elements = ElementFindings{findings.dead, findings.clipped, findings.weak, findings.unchecked,
                                           findings.response};
    CalibrationErrors errors;
    errors.where = "mat";
    errors.full_load_n = totals.begin()->first;
    errors.degrees_of_freedom = static_cast<int>(factor->by_place.size()) - 1;
    const auto [lowest, highest] = std::minmax_element(factor->by_place.begin(), factor->by_place.end());
    errors.repeatability_n = (*highest - *lowest) / factor->newtons_per_count * errors.full_load_n;
    errors.residual_sd_n = factor->relative_u * errors.full_load_n;
    work.record.errors.push_back(errors);
    finish(work, made, valid_months);
    work.remarks.push_back(fmt::format(
        "{} dead, {} weak and {} clipped elements of {}; {} were not walked on and stay unjudged.",
        findings.dead.size(), findings.weak.size(), findings.clipped.size(), work.values,
        findings.unchecked.size()));
    if (!findings.clipped.empty()) {
        work.remarks.emplace_back(
            "Clipped elements read less than is there: loads come out low, and the centre of pressure is "
            "drawn away from "
            "them. Use a softer shoe, a foam sheet or a wider range of the device.");
    }
    return MadeCalibration{std::move(work.record), std::move(work.remarks)};
}

}  // namespace footing
