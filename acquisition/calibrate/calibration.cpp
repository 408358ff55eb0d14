#include "acquisition/calibrate/calibration.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdio>
#include <optional>

#include "acquisition/frame/calendar_day.h"

namespace footing {

namespace {

/// Relative standard uncertainty of a scale that nobody has checked: common practice, no source.
constexpr double nominal_relative_u = 0.01;
constexpr double nominal_mat_relative_u = 0.05;
/// A scale may wander by so much a year, either way: common practice, no source.
constexpr double wander_a_year = 0.005;

std::string element_words(const ElementFindings& elements) {
    std::string text;
    const auto add = [&](std::size_t count, const char* what) {
        if (count == 0) return;
        text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + what;
    };
    add(elements.dead.size(), "dead");
    add(elements.clipped.size(), "clipped");
    add(elements.weak.size(), "weak");
    return text.empty() ? text : "; elements of the mat: " + text;
}

}  // namespace

Calibration nominal_calibration(const DeviceDescription& device, double assumed_newtons_per_count) {
    Calibration calibration;
    calibration.device_serial = device.serial;
    calibration.method = "nominal";
    calibration.only_ratios = !device.newtons_per_count.has_value();
    calibration.relative_u =
        device.layout.kind == FrameKind::grid ? nominal_mat_relative_u : nominal_relative_u;
    const std::size_t values = values_per_frame(device.layout);
    calibration.newtons_per_count.assign(values,
                                         device.newtons_per_count.value_or(assumed_newtons_per_count));
    calibration.zero_counts.assign(values, 0.0);
    return calibration;
}

Outcome check_calibration(const Calibration& calibration, const DeviceDescription& device,
                          const std::string& place) {
    if (calibration.device_serial != device.serial) {
        return Problem{ProblemKind::bad_input, place,
                       "this calibration belongs to device " + std::to_string(calibration.device_serial) +
                           ", but the plates are device " + std::to_string(device.serial),
                       "use the calibration of these plates"};
    }
    const std::size_t values = values_per_frame(device.layout);
    if (calibration.newtons_per_count.size() != values) {
        return Problem{ProblemKind::bad_input, place,
                       "this calibration is for " + std::to_string(calibration.newtons_per_count.size()) +
                           " values a frame, but the plates send " + std::to_string(values),
                       "use the calibration of these plates"};
    }
    if (!calibration.cell_matrix.empty() && device.layout.kind != FrameKind::cells) {
        return Problem{ProblemKind::bad_input, place,
                       "this calibration holds a cell matrix, but the device has no single cells",
                       "use the calibration of these plates"};
    }
    return Done{};
}

bool is_stale(const Calibration& calibration, std::string_view today) {
    return !calibration.valid_until.empty() && std::string_view(calibration.valid_until) < today;
}

CalibrationState calibration_state(const Calibration& calibration, std::string_view today) {
    if (calibration.only_ratios) return CalibrationState::absent;
    if (calibration.method == "nominal") return CalibrationState::nominal;
    if (calibration.method == "physical") return CalibrationState::external;
    return is_stale(calibration, today) ? CalibrationState::expired : CalibrationState::valid;
}

double ageing_relative_u(const Calibration& calibration, std::string_view today) {
    if (!is_stale(calibration, today)) return 0.0;
    const auto ended = day_of_date(calibration.valid_until);
    const auto now = day_of_date(today);
    if (!ended || !now) return nominal_relative_u;
    const double years = std::ceil(static_cast<double>(*now - *ended) / 365.25);
    return std::min(nominal_relative_u, years * wander_a_year / std::sqrt(3.0));
}

std::string describe_calibration(const Calibration& calibration, std::string_view today) {
    if (calibration.only_ratios) {
        return "not calibrated, and the device states no newtons per count: shares and places hold, newtons "
               "do not";
    }
    if (calibration.method == "nominal") return "not calibrated: the device's own nominal newtons per count";
    std::array<char, 64> certainty{};
    std::snprintf(certainty.data(), certainty.size(), "within %.2g %% (k = 2)",
                  200.0 * calibration.relative_u);
    if (calibration.method == "physical")
        return std::string(
                   "values came as newtons; how they were calibrated is not known here, and each "
                   "plate's load is taken to be right ") +
               certainty.data();
    std::string text =
        "calibrated by " + calibration.method + " on " + calibration.made + ", loads " + certainty.data();
    if (!calibration.valid_until.empty()) {
        const bool stale = is_stale(calibration, today);
        text += (stale ? ", EXPIRED on " : ", valid until ") + calibration.valid_until;
    }
    if (calibration.elements) text += element_words(*calibration.elements);
    return text;
}

double ratio_relative_u(const Calibration& calibration) {
    const double all = calibration.relative_u;
    const double common = calibration.common_relative_u;
    return std::sqrt(std::max(0.0, all * all - common * common));
}

std::vector<std::size_t> plate_of_value(const PlateLayout& layout) {
    std::vector<std::size_t> plates;
    for (std::size_t plate = 0; plate < layout.plates.size(); ++plate)
        plates.insert(plates.end(), layout.plates[plate].cells.size(), plate);
    return plates;
}

LoadCovariance load_covariance(const Calibration& calibration, const std::vector<double>& counts_less_zero,
                               const std::vector<std::size_t>& plate_of_value) {
    const std::size_t values = counts_less_zero.size();
    assert(values == calibration.newtons_per_count.size() && values == plate_of_value.size());
    std::size_t plates = 0;
    for (const std::size_t plate : plate_of_value) plates = std::max(plates, plate + 1);
    LoadCovariance loads{std::vector<double>(plates, 0.0), std::vector<double>(plates * plates, 0.0)};
    for (std::size_t i = 0; i < values; ++i)
        loads.load_n[plate_of_value[i]] += calibration.newtons_per_count[i] * counts_less_zero[i];
    if (calibration.gain_covariance.empty()) {
        const double own = ratio_relative_u(calibration);
        for (std::size_t p = 0; p < plates; ++p) {
            for (std::size_t q = 0; q < plates; ++q) {
                const double relative = calibration.common_relative_u * calibration.common_relative_u +
                                        (p == q ? own * own : 0.0);
                loads.covariance[p * plates + q] = relative * loads.load_n[p] * loads.load_n[q];
            }
        }
        return loads;
    }
    for (std::size_t i = 0; i < values; ++i) {
        for (std::size_t j = 0; j < values; ++j) {
            loads.covariance[plate_of_value[i] * plates + plate_of_value[j]] +=
                calibration.gain_covariance[i * values + j] * counts_less_zero[i] * counts_less_zero[j];
        }
    }
    return loads;
}

}  // namespace footing
