#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// How counts become newtons for one device: force = newtons_per_count[i] * (counts[i] - zero_counts[i]).
/// A record is never changed after it was made; a new calibration is a new record.
struct Calibration {
    std::uint32_t device_serial = 0;
    std::string method;                     ///< "nominal", "known masses", …
    std::string made;                       ///< ISO 8601 date; empty for nominal
    std::string valid_until;                ///< ISO 8601 date; empty: no end stated
    std::vector<double> newtons_per_count;  ///< one a value of a frame
    std::vector<double> zero_counts;        ///< one a value; what an empty plate read when it was made
    double relative_u = 0.0;   ///< standard uncertainty of newtons_per_count, as a fraction of it
    bool only_ratios = false;  ///< true: the scale is a guess, so shares and places hold but newtons do not
};

/// The version of the file format that calibration_json writes and parse_calibration reads.
inline constexpr int calibration_format_version = 1;

/// What the device says of itself; a device that states no newtons per count gets
/// `assumed_newtons_per_count`, and only_ratios is set. `relative_u` of a nominal scale is 0.01 (common
/// practice for uncalibrated cells, no source).
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

/// One sentence for screen and report; `today` is an ISO 8601 date, against which "valid until" is compared.
[[nodiscard]] std::string describe_calibration(const Calibration& calibration, std::string_view today);

}  // namespace footing
