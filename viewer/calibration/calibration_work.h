#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"
#include "analysis/statistics/calibration_fit.h"
#include "viewer/calibration/make_calibration.h"

namespace footing {

/// Something is wrong with the readings of a calibration, and what to do.
[[nodiscard]] Problem bad_readings(std::string what, std::string remedy);

/// A record in the making, which every way to calibrate fills in step by step.
struct CalibrationWork {
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

[[nodiscard]] CalibrationWork start_calibration(const DeviceDescription& device,
                                                const std::vector<CalibrationReading>& readings,
                                                const Weighing& weighing);

/// Fails with bad_input when there are no readings, or one has not a count for each value.
[[nodiscard]] Outcome check_readings(const CalibrationWork& work);

/// Adds what one cell's or plate's readings add to a load's uncertainty beside the fit: the shape of its
/// curve.
[[nodiscard]] double shape_relative_u(const CalibrationErrors& errors);
[[nodiscard]] CalibrationErrors errors_of(std::string where, const CellCalibration& cell);
[[nodiscard]] std::string cell_words(const CalibrationWork& work, std::size_t plate, std::size_t cell);

/// Relative standard uncertainty of a load spread evenly over a plate's cells, by gain_covariance as it
/// stands.
[[nodiscard]] double even_load_relative_u(CalibrationWork& work, std::size_t plate);
void note_plate_u(CalibrationWork& work, double fit_relative_u, double shape_u);

/// What all ways have in common: whose record it is, masses, gravity, and the part of the uncertainty that
/// all scales share.
void finish_calibration(CalibrationWork& work, const std::string& made, int valid_months);

}  // namespace footing
