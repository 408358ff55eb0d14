#include "acquisition/join/joined_device.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace footing {

namespace {

/// Plates are wider than this; centres nearer to each other than this cannot both be right.
constexpr double least_apart_m = 0.05;

Problem not_one(const DeviceDescription& device, std::string what, std::string remedy) {
    return {ProblemKind::bad_input, device_words(device), std::move(what), std::move(remedy)};
}

/// Puts the square matrix `part` of the values [first, first + its side) into `whole`.
void put_block(std::vector<double>& whole, std::size_t values, const std::vector<double>& part,
               std::size_t side, std::size_t first) {
    for (std::size_t i = 0; i < side; ++i) {
        for (std::size_t k = 0; k < side; ++k) whole[(first + i) * values + first + k] = part[i * side + k];
    }
}

/// What is known of a device's gains as a covariance; where only a relative uncertainty is known, its values
/// go together.
std::vector<double> gain_covariance_of(const Calibration& calibration) {
    if (!calibration.gain_covariance.empty()) return calibration.gain_covariance;
    const std::vector<double>& gain = calibration.newtons_per_count;
    std::vector<double> covariance(gain.size() * gain.size());
    for (std::size_t i = 0; i < gain.size(); ++i) {
        for (std::size_t k = 0; k < gain.size(); ++k)
            covariance[i * gain.size() + k] =
                calibration.relative_u * calibration.relative_u * gain[i] * gain[k];
    }
    return covariance;
}

std::vector<double> cell_matrix_of(const Calibration& calibration) {
    if (!calibration.cell_matrix.empty()) return calibration.cell_matrix;
    const std::vector<double>& gain = calibration.newtons_per_count;
    std::vector<double> matrix(gain.size() * gain.size());
    for (std::size_t i = 0; i < gain.size(); ++i) matrix[i * gain.size() + i] = gain[i];
    return matrix;
}

std::string joined_method(std::span<const Calibration> calibrations) {
    std::string method;
    for (const Calibration& calibration : calibrations) {
        // A lesson is no better than its worst plate.
        if (calibration.method == "nominal" || calibration.method == "physical") return calibration.method;
        if (method.find(calibration.method) != std::string::npos) continue;
        method += (method.empty() ? "" : " and ") + calibration.method;
    }
    return method;
}

}  // namespace

Result<DeviceDescription> join_devices(std::span<const DeviceDescription> devices) {
    DeviceDescription joined;
    std::size_t cells = 0;
    for (const DeviceDescription& device : devices) {
        if (device.layout.kind == FrameKind::grid)
            return not_one(device, "is a mat, which cannot be joined with another device",
                           "record it by itself");
        if (device.layout.kind != devices.front().layout.kind)
            return not_one(device, "sends other values (cells or components) than the first device",
                           "join plates of one kind");
        const auto same = std::count_if(devices.begin(), devices.end(), [&](const DeviceDescription& other) {
            return other.serial == device.serial;
        });
        if (same > 1)
            return not_one(device, "comes on two lines, or two plates have one serial number",
                           "connect each plate to a line of its own");
        for (const Plate& plate : device.layout.plates) {
            for (const Plate& other : joined.layout.plates) {
                if (std::hypot(plate.centre.x_m - other.centre.x_m, plate.centre.y_m - other.centre.y_m) <
                    least_apart_m)
                    return not_one(device, "says that it stands where another plate stands",
                                   "give each a layout file with its place (--layout, one for each line)");
            }
        }
        joined.layout.plates.insert(joined.layout.plates.end(), device.layout.plates.begin(),
                                    device.layout.plates.end());
        cells += values_per_frame(device.layout);
        joined.name += (joined.name.empty() ? "" : " with ") + device.name;
    }
    if (joined.layout.plates.size() > most_plates || cells > most_cells)
        return not_one(devices.front(), "and those beside it have more plates or cells than can be recorded",
                       "record fewer devices together");
    const DeviceDescription& first = devices.front();
    joined.layout.kind = first.layout.kind;
    joined.serial = first.serial;
    joined.rate_hz = first.rate_hz;
    joined.full_scale_counts = first.full_scale_counts;
    joined.newtons_per_count = first.newtons_per_count;
    for (const DeviceDescription& device : devices) {
        if (!device.newtons_per_count) joined.newtons_per_count.reset();
        if (!device.full_scale_counts) joined.full_scale_counts.reset();
        if (joined.full_scale_counts)
            joined.full_scale_counts = std::min(*joined.full_scale_counts, *device.full_scale_counts);
    }
    return joined;
}

Calibration join_calibrations(std::span<const Calibration> calibrations,
                              std::span<const DeviceDescription> devices) {
    Calibration joined;
    joined.device_serial = devices.front().serial;
    joined.method = joined_method(calibrations);
    bool any_matrix = false;
    bool any_covariance = false;
    for (const Calibration& calibration : calibrations) {
        joined.newtons_per_count.insert(joined.newtons_per_count.end(), calibration.newtons_per_count.begin(),
                                        calibration.newtons_per_count.end());
        joined.zero_counts.insert(joined.zero_counts.end(), calibration.zero_counts.begin(),
                                  calibration.zero_counts.end());
        joined.relative_u = std::max(joined.relative_u, calibration.relative_u);
        joined.only_ratios = joined.only_ratios || calibration.only_ratios;
        any_matrix = any_matrix || !calibration.cell_matrix.empty();
        any_covariance = any_covariance || !calibration.gain_covariance.empty();
        const auto earliest = [](std::string& date, const std::string& other) {
            if (!other.empty() && (date.empty() || other < date)) date = other;
        };
        earliest(joined.made, calibration.made);
        earliest(joined.valid_until, calibration.valid_until);
        joined.errors.insert(joined.errors.end(), calibration.errors.begin(), calibration.errors.end());
    }
    if (joined.method == "nominal") joined.made.clear();
    const std::size_t values = joined.newtons_per_count.size();
    if (any_matrix) joined.cell_matrix.assign(values * values, 0.0);
    if (any_covariance) joined.gain_covariance.assign(values * values, 0.0);
    std::size_t first = 0;
    for (const Calibration& calibration : calibrations) {
        const std::size_t side = calibration.newtons_per_count.size();
        if (any_matrix) put_block(joined.cell_matrix, values, cell_matrix_of(calibration), side, first);
        if (any_covariance)
            put_block(joined.gain_covariance, values, gain_covariance_of(calibration), side, first);
        first += side;
    }
    return joined;
}

double joined_residual(std::span<const double> residuals) {
    double squares = 0.0;
    for (const double residual : residuals) squares += residual * residual;
    return std::sqrt(squares);
}

std::string device_words(const DeviceDescription& device) {
    return (device.name.empty() ? "the device" : device.name) + " (serial number " +
           std::to_string(device.serial) + ")";
}

}  // namespace footing
