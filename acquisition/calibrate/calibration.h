#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/calibration_state.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// How far one cell, plate or mat stayed from a straight line, in the words of OIML R 60. Newtons; what was
/// not measured is absent.
struct CalibrationErrors {
    std::string where;                      ///< "left, cell 1"; "right"; "mat"
    double full_load_n = 0.0;               ///< the largest load that was put on
    double residual_sd_n = 0.0;             ///< standard deviation of the readings about the fit
    int degrees_of_freedom = 0;             ///< of residual_sd_n
    std::optional<double> non_linearity_n;  ///< largest deviation of the readings under growing load
    std::optional<double> hysteresis_n;     ///< largest difference between falling and growing load
    std::optional<double> repeatability_n;  ///< largest spread of one load put on again in the same way
    std::optional<double> creep_n;          ///< change under constant load over creep_s
    std::optional<double> creep_s;
    friend bool operator==(const CalibrationErrors&, const CalibrationErrors&) = default;
};

/// One reading that went into a calibration, so that it can be computed again.
struct CalibrationReading {
    int step = 0;          ///< 1, 2, 3 … in the order of time
    double mass_kg = 0.0;  ///< what stood there; 0: empty
    std::size_t plate = 0;
    std::optional<std::size_t> cell;  ///< 0-based within the plate, when the mass stood on a cell
    std::optional<PointM> point;      ///< from the plate's centre, when it stood at a marked point
    double time_s = 0.0;              ///< device time since the first reading
    std::vector<double> counts;       ///< mean, one a value of a frame
    friend bool operator==(const CalibrationReading&, const CalibrationReading&) = default;
};

/// What was found of a mat's elements. 0-based numbers, row by row.
struct ElementFindings {
    std::vector<std::uint32_t> dead;       ///< did not answer though those around it were loaded
    std::vector<std::uint32_t> clipped;    ///< reached the end of the scale
    std::vector<std::uint32_t> weak;       ///< answered less than half as much as those around it
    std::vector<std::uint32_t> unchecked;  ///< never loaded, so nothing is known
    std::vector<double> response;  ///< one an element: against those around it, 1 is even; 0: not known
    friend bool operator==(const ElementFindings&, const ElementFindings&) = default;
};

/// How counts become newtons for one device: force = newtons_per_count[i] * (counts[i] - zero_counts[i]), or,
/// with a cell matrix, force = M (counts - zero_counts). A record is never changed after it was made; a new
/// calibration is a new record.
struct Calibration {
    std::uint32_t device_serial = 0;
    std::string method;       ///< "nominal", "physical", or how it was made: "known masses on each cell", …
    std::string made;         ///< ISO 8601 date; empty for nominal
    std::string valid_until;  ///< ISO 8601 date; empty: no end stated
    /// One a value of a frame: by how much a count of it raises the total load. With a cell matrix these are
    /// the sums of its columns.
    std::vector<double> newtons_per_count;
    std::vector<double> zero_counts;  ///< one a value; what an empty plate read when it was made
    double relative_u = 0.0;   ///< standard uncertainty of a plate's load from its scale, as a fraction of it
    bool only_ratios = false;  ///< true: the scale is a guess, so shares and places hold but newtons do not

    /// The part of relative_u that all values have in common (one set of masses, one gravity): it moves every
    /// load alike, so shares and places do not feel it.
    double common_relative_u = 0.0;
    /// Row-major [value, value], for layouts of cells; empty: each cell stands for itself.
    std::vector<double> cell_matrix;
    /// Covariance of newtons_per_count, row-major [value, value], (N/count)^2, the common part included;
    /// stated so that two standard uncertainties cover 95 %. Empty: only relative_u is known.
    std::vector<double> gain_covariance;
    /// Covariance of newtons_per_count[i] and zero_counts[i], N; one a value, or empty.
    std::vector<double> gain_zero_covariance;

    std::vector<double> masses_kg;  ///< that were used
    double mass_relative_u = 0.0;   ///< standard uncertainty of the masses, as a fraction
    double gravity_m_s2 = 0.0;      ///< 0: no weight was used
    std::string gravity_source;     ///< "latitude 52.0, height 40 m", "as given", "standard gravity"
    std::vector<CalibrationErrors> errors;
    std::vector<CalibrationReading> readings;
    std::optional<ElementFindings> elements;  ///< mats
};

/// The version of the file format that calibration_json writes and parse_calibration reads.
inline constexpr int calibration_format_version = 1;

/// What the device says of itself; a device that states no newtons per count gets
/// `assumed_newtons_per_count`, and only_ratios is set. `relative_u` of a nominal scale is 0.01 for plates,
/// 0.05 for a mat, whose elements differ more (common practice for uncalibrated sensors, no source).
[[nodiscard]] Calibration nominal_calibration(const DeviceDescription& device,
                                              double assumed_newtons_per_count);

/// JSON text with a SHA-256 hash over its own content. Throws nothing.
[[nodiscard]] std::string calibration_json(const Calibration& calibration);

/// Reads calibration_json's text. Fails with bad_input on other versions, wrong hash, missing parts, numbers
/// that cannot be.
[[nodiscard]] Result<Calibration> parse_calibration(std::string_view json, const std::string& place);

/// Whether this record may be used with this device: same serial number, one entry a value.
[[nodiscard]] Outcome check_calibration(const Calibration& calibration, const DeviceDescription& device,
                                        const std::string& place);

/// True when `today` (ISO 8601 date) is after the last day on which the record holds.
[[nodiscard]] bool is_stale(const Calibration& calibration, std::string_view today);

/// How far the record may be believed on `today` (ISO 8601 date; for a recording the day it was made).
[[nodiscard]] CalibrationState calibration_state(const Calibration& calibration, std::string_view today);

/// Relative standard uncertainty that a plate's scale has gathered by `today` since the record ended: up to
/// 0.5 % either way for each year begun, rectangular (GUM, 4.3.7), and no more than a nominal scale's 1 %
/// (common practice, no source). 0 while it holds.
[[nodiscard]] double ageing_relative_u(const Calibration& calibration, std::string_view today);

/// One sentence for screen and report; `today` is an ISO 8601 date, against which "valid until" is compared.
[[nodiscard]] std::string describe_calibration(const Calibration& calibration, std::string_view today);

/// Relative standard uncertainty of one plate's load that the other plate does not share: what a share
/// suffers from.
[[nodiscard]] double ratio_relative_u(const Calibration& calibration);

/// Loads of the plates and how well the calibration lets them be known. Newtons, newtons squared.
struct LoadCovariance {
    std::vector<double> load_n;  ///< one a plate
    std::vector<double>
        covariance;  ///< row-major [plate, plate]; standard uncertainties on the diagonal, squared
};

/// Propagates gain_covariance (GUM, 5.2.2) to the loads of all plates at a frame's counts less zero; without
/// it, relative_u and common_relative_u. `plate_of_value`: one a value. Not the zero's own uncertainty.
[[nodiscard]] LoadCovariance load_covariance(const Calibration& calibration,
                                             const std::vector<double>& counts_less_zero,
                                             const std::vector<std::size_t>& plate_of_value);

/// For layouts of cells: the plate that each value belongs to.
[[nodiscard]] std::vector<std::size_t> plate_of_value(const PlateLayout& layout);

}  // namespace footing
