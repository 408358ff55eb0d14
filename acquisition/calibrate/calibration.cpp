#include "acquisition/calibrate/calibration.h"

#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

namespace footing {

namespace {

using nlohmann::json;

/// Relative standard uncertainty of a scale that nobody has checked: common practice, no source.
constexpr double nominal_relative_u = 0.01;
constexpr const char* remake = "make the calibration again, or record without --calibration";

std::string sha256_hex(const std::string& text) {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    EVP_Digest(text.data(), text.size(), digest.data(), &length, EVP_sha256(), nullptr);
    std::string hex;
    for (unsigned int i = 0; i < length; ++i) {
        constexpr const char* digits = "0123456789abcdef";
        hex += digits[digest[i] >> 4U];
        hex += digits[digest[i] & 15U];
    }
    return hex;
}

json content_of(const Calibration& calibration) {
    return {{"format", "footing calibration"},
            {"version", calibration_format_version},
            {"device_serial", calibration.device_serial},
            {"method", calibration.method},
            {"made", calibration.made},
            {"valid_until", calibration.valid_until},
            {"newtons_per_count", calibration.newtons_per_count},
            {"zero_counts", calibration.zero_counts},
            {"relative_u", calibration.relative_u},
            {"only_ratios", calibration.only_ratios}};
}

Problem bad(const std::string& place, std::string what) {
    return {ProblemKind::bad_input, place, std::move(what), remake};
}

bool sound_factors(const std::vector<double>& factors) {
    return !factors.empty() &&
           std::all_of(factors.begin(), factors.end(), [](double f) { return std::isfinite(f) && f != 0.0; });
}

}  // namespace

Calibration nominal_calibration(const DeviceDescription& device, double assumed_newtons_per_count) {
    Calibration calibration;
    calibration.device_serial = device.serial;
    calibration.method = "nominal";
    calibration.only_ratios = !device.newtons_per_count.has_value();
    calibration.relative_u = nominal_relative_u;
    const std::size_t values = values_per_frame(device.layout);
    calibration.newtons_per_count.assign(values,
                                         device.newtons_per_count.value_or(assumed_newtons_per_count));
    calibration.zero_counts.assign(values, 0.0);
    return calibration;
}

std::string calibration_json(const Calibration& calibration) {
    json content = content_of(calibration);
    content["sha256"] = sha256_hex(content.dump());
    return content.dump(2) + "\n";
}

Result<Calibration> parse_calibration(std::string_view text, const std::string& place) {
    json content = json::parse(text, nullptr, false);
    if (content.is_discarded() || !content.is_object())
        return bad(place, "this is not a calibration record (no JSON object)");
    if (content.value("format", json()) != "footing calibration")
        return bad(place, "this is not a calibration record");
    if (content.value("version", json()) != calibration_format_version) {
        return bad(place, "this calibration record has a version that this program does not know");
    }
    const json stated = content.value("sha256", json());
    content.erase("sha256");
    if (stated != sha256_hex(content.dump())) {
        return bad(place,
                   "the calibration record was changed after it was made (its SHA-256 does not match)");
    }
    try {
        Calibration calibration;
        calibration.device_serial = content.at("device_serial").get<std::uint32_t>();
        calibration.method = content.at("method").get<std::string>();
        calibration.made = content.at("made").get<std::string>();
        calibration.valid_until = content.at("valid_until").get<std::string>();
        calibration.newtons_per_count = content.at("newtons_per_count").get<std::vector<double>>();
        calibration.zero_counts = content.at("zero_counts").get<std::vector<double>>();
        calibration.relative_u = content.at("relative_u").get<double>();
        calibration.only_ratios = content.at("only_ratios").get<bool>();
        if (!sound_factors(calibration.newtons_per_count))
            return bad(place, "newtons_per_count holds a zero or no number");
        if (calibration.zero_counts.size() != calibration.newtons_per_count.size()) {
            return bad(place, "newtons_per_count and zero_counts differ in length");
        }
        if (!(calibration.relative_u >= 0.0 && calibration.relative_u < 1.0)) {
            return bad(place, "relative_u is not a fraction between 0 and 1");
        }
        return calibration;
    } catch (const json::exception& error) {
        return bad(place, std::string("a part of the calibration record is missing or of the wrong type (") +
                              error.what() + ")");
    }
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
    return Done{};
}

std::string describe_calibration(const Calibration& calibration, std::string_view today) {
    std::string text;
    if (calibration.only_ratios) {
        text =
            "not calibrated, and the device states no newtons per count: shares and places hold, newtons do "
            "not";
    } else if (calibration.method == "nominal") {
        text = "not calibrated: the device's own nominal newtons per count";
    } else if (calibration.method == "physical") {
        text = "values came as newtons; how they were calibrated is not known here";
    } else {
        text = "calibrated by " + calibration.method + " on " + calibration.made;
        if (!calibration.valid_until.empty()) {
            const bool stale = std::string_view(calibration.valid_until) < today;
            text += (stale ? ", EXPIRED on " : ", valid until ") + calibration.valid_until;
        }
    }
    return text;
}

}  // namespace footing
