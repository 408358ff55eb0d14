#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "acquisition/calibrate/calibration.h"

namespace footing {

namespace {

using nlohmann::json;

constexpr const char* remake = "make the calibration again, or record without --calibration";
/// No real calibration comes near; what exceeds it is refused.
constexpr std::size_t most_readings = 100'000;
constexpr std::size_t most_record_bytes = std::size_t{64} << 20U;

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

void put(json& into, const char* key, const std::optional<double>& value) {
    if (value) into[key] = *value;
}

std::optional<double> get_optional(const json& from, const char* key) {
    if (!from.contains(key)) return std::nullopt;
    return from.at(key).get<double>();
}

json json_of(const CalibrationErrors& errors) {
    json out = {{"where", errors.where},
                {"full_load_n", errors.full_load_n},
                {"residual_sd_n", errors.residual_sd_n},
                {"degrees_of_freedom", errors.degrees_of_freedom}};
    put(out, "non_linearity_n", errors.non_linearity_n);
    put(out, "hysteresis_n", errors.hysteresis_n);
    put(out, "repeatability_n", errors.repeatability_n);
    put(out, "creep_n", errors.creep_n);
    put(out, "creep_s", errors.creep_s);
    return out;
}

CalibrationErrors errors_of(const json& from) {
    CalibrationErrors errors;
    errors.where = from.at("where").get<std::string>();
    errors.full_load_n = from.at("full_load_n").get<double>();
    errors.residual_sd_n = from.at("residual_sd_n").get<double>();
    errors.degrees_of_freedom = from.at("degrees_of_freedom").get<int>();
    errors.non_linearity_n = get_optional(from, "non_linearity_n");
    errors.hysteresis_n = get_optional(from, "hysteresis_n");
    errors.repeatability_n = get_optional(from, "repeatability_n");
    errors.creep_n = get_optional(from, "creep_n");
    errors.creep_s = get_optional(from, "creep_s");
    return errors;
}

json json_of(const CalibrationReading& reading) {
    json out = {{"step", reading.step},
                {"mass_kg", reading.mass_kg},
                {"plate", reading.plate},
                {"time_s", reading.time_s},
                {"counts", reading.counts}};
    if (reading.cell) out["cell"] = *reading.cell;
    if (reading.point) out["point_m"] = {reading.point->x_m, reading.point->y_m};
    return out;
}

CalibrationReading reading_of(const json& from) {
    CalibrationReading reading;
    reading.step = from.at("step").get<int>();
    reading.mass_kg = from.at("mass_kg").get<double>();
    reading.plate = from.at("plate").get<std::size_t>();
    reading.time_s = from.at("time_s").get<double>();
    reading.counts = from.at("counts").get<std::vector<double>>();
    if (from.contains("cell")) reading.cell = from.at("cell").get<std::size_t>();
    if (from.contains("point_m"))
        reading.point =
            PointM{from.at("point_m").at(0).get<double>(), from.at("point_m").at(1).get<double>()};
    return reading;
}

json json_of(const ElementFindings& found) {
    return {{"dead", found.dead},
            {"clipped", found.clipped},
            {"weak", found.weak},
            {"unchecked", found.unchecked},
            {"response", found.response}};
}

ElementFindings findings_of(const json& from) {
    ElementFindings found;
    found.dead = from.at("dead").get<std::vector<std::uint32_t>>();
    found.clipped = from.at("clipped").get<std::vector<std::uint32_t>>();
    found.weak = from.at("weak").get<std::vector<std::uint32_t>>();
    found.unchecked = from.at("unchecked").get<std::vector<std::uint32_t>>();
    found.response = from.at("response").get<std::vector<double>>();
    return found;
}

json content_of(const Calibration& calibration) {
    json content = {{"format", "footing calibration"},
                    {"version", calibration_format_version},
                    {"device_serial", calibration.device_serial},
                    {"method", calibration.method},
                    {"made", calibration.made},
                    {"valid_until", calibration.valid_until},
                    {"newtons_per_count", calibration.newtons_per_count},
                    {"zero_counts", calibration.zero_counts},
                    {"relative_u", calibration.relative_u},
                    {"only_ratios", calibration.only_ratios},
                    {"common_relative_u", calibration.common_relative_u},
                    {"cell_matrix", calibration.cell_matrix},
                    {"gain_covariance", calibration.gain_covariance},
                    {"gain_zero_covariance", calibration.gain_zero_covariance},
                    {"masses_kg", calibration.masses_kg},
                    {"mass_relative_u", calibration.mass_relative_u},
                    {"gravity_m_s2", calibration.gravity_m_s2},
                    {"gravity_source", calibration.gravity_source}};
    content["errors"] = json::array();
    for (const CalibrationErrors& errors : calibration.errors) content["errors"].push_back(json_of(errors));
    content["readings"] = json::array();
    for (const CalibrationReading& reading : calibration.readings)
        content["readings"].push_back(json_of(reading));
    if (calibration.elements) content["elements"] = json_of(*calibration.elements);
    return content;
}

/// Text that is no UTF-8 is made so, rather than thrown at.
std::string text_of(const json& content, int indent) {
    return content.dump(indent, ' ', false, json::error_handler_t::replace);
}

Problem bad(const std::string& place, std::string what) {
    return {ProblemKind::bad_input, place, std::move(what), remake};
}

bool all_finite(const std::vector<double>& numbers) {
    return std::all_of(numbers.begin(), numbers.end(), [](double x) { return std::isfinite(x); });
}

bool is_fraction(double x) {
    return x >= 0.0 && x < 1.0;
}

bool absent_or_of_size(const std::vector<double>& numbers, std::size_t size) {
    return numbers.empty() || numbers.size() == size;
}

/// What the numbers of a record must obey; empty when they do.
std::string fault_of(const Calibration& calibration) {
    const std::size_t values = calibration.newtons_per_count.size();
    const auto& gains = calibration.newtons_per_count;
    if (values == 0 || !all_finite(gains) || std::count(gains.begin(), gains.end(), 0.0) != 0)
        return "newtons_per_count holds a zero or no number";
    if (calibration.zero_counts.size() != values) return "newtons_per_count and zero_counts differ in length";
    if (!all_finite(calibration.zero_counts)) return "zero_counts holds something that is no number";
    if (!is_fraction(calibration.relative_u)) return "relative_u is not a fraction between 0 and 1";
    if (!is_fraction(calibration.common_relative_u) || !is_fraction(calibration.mass_relative_u))
        return "common_relative_u or mass_relative_u is not a fraction between 0 and 1";
    if (!absent_or_of_size(calibration.cell_matrix, values * values) || !all_finite(calibration.cell_matrix))
        return "cell_matrix is no matrix of one row and one column a value";
    if (!absent_or_of_size(calibration.gain_covariance, values * values) ||
        !all_finite(calibration.gain_covariance))
        return "gain_covariance is no matrix of one row and one column a value";
    for (std::size_t i = 0; i < values && !calibration.gain_covariance.empty(); ++i) {
        if (calibration.gain_covariance[i * values + i] < 0.0)
            return "gain_covariance holds a negative variance";
    }
    if (!absent_or_of_size(calibration.gain_zero_covariance, values) ||
        !all_finite(calibration.gain_zero_covariance))
        return "gain_zero_covariance has not one number a value";
    if (!std::isfinite(calibration.gravity_m_s2) || calibration.gravity_m_s2 < 0.0 ||
        calibration.gravity_m_s2 > 20.0)
        return "gravity_m_s2 is not that of a place on Earth";
    for (const CalibrationReading& reading : calibration.readings) {
        if (reading.counts.size() != values || !all_finite(reading.counts) || !std::isfinite(reading.mass_kg))
            return "a reading has not one number a value";
    }
    if (calibration.elements) {
        for (const auto* list : {&calibration.elements->dead, &calibration.elements->clipped,
                                 &calibration.elements->weak, &calibration.elements->unchecked}) {
            if (std::any_of(list->begin(), list->end(), [&](std::uint32_t i) { return i >= values; }))
                return "elements names an element that the mat has not";
        }
        if (!absent_or_of_size(calibration.elements->response, values) ||
            !all_finite(calibration.elements->response))
            return "elements has not one response an element";
    }
    return {};
}

Calibration calibration_of(const json& content) {
    Calibration calibration;
    calibration.device_serial = content.at("device_serial").get<std::uint32_t>();
    calibration.method = content.at("method").get<std::string>();
    calibration.made = content.at("made").get<std::string>();
    calibration.valid_until = content.at("valid_until").get<std::string>();
    calibration.newtons_per_count = content.at("newtons_per_count").get<std::vector<double>>();
    calibration.zero_counts = content.at("zero_counts").get<std::vector<double>>();
    calibration.relative_u = content.at("relative_u").get<double>();
    calibration.only_ratios = content.at("only_ratios").get<bool>();
    calibration.common_relative_u = content.at("common_relative_u").get<double>();
    calibration.cell_matrix = content.at("cell_matrix").get<std::vector<double>>();
    calibration.gain_covariance = content.at("gain_covariance").get<std::vector<double>>();
    calibration.gain_zero_covariance = content.at("gain_zero_covariance").get<std::vector<double>>();
    calibration.masses_kg = content.at("masses_kg").get<std::vector<double>>();
    calibration.mass_relative_u = content.at("mass_relative_u").get<double>();
    calibration.gravity_m_s2 = content.at("gravity_m_s2").get<double>();
    calibration.gravity_source = content.at("gravity_source").get<std::string>();
    for (const json& errors : content.at("errors")) calibration.errors.push_back(errors_of(errors));
    for (const json& reading : content.at("readings")) calibration.readings.push_back(reading_of(reading));
    if (content.contains("elements")) calibration.elements = findings_of(content.at("elements"));
    return calibration;
}

}  // namespace

std::string calibration_json(const Calibration& calibration) {
    json content = content_of(calibration);
    content["sha256"] = sha256_hex(text_of(content, -1));
    return text_of(content, 2) + "\n";
}

Result<Calibration> parse_calibration(std::string_view text, const std::string& place) {
    if (text.size() > most_record_bytes) return bad(place, "this is too large for a calibration record");
    // A record that nests deeper than ours would only be there to exhaust the stack.
    constexpr int most_depth = 8;
    bool too_deep = false;
    const auto watch_depth = [&](int depth, json::parse_event_t, json&) {
        too_deep = too_deep || depth > most_depth;
        return !too_deep;
    };
    json content = json::parse(text, watch_depth, false);
    if (too_deep) return bad(place, "this is not a calibration record (it nests too deep)");
    if (content.is_discarded() || !content.is_object())
        return bad(place, "this is not a calibration record (no JSON object)");
    if (content.value("format", json()) != "footing calibration")
        return bad(place, "this is not a calibration record");
    if (content.value("version", json()) != calibration_format_version) {
        return bad(place, "this calibration record has a version that this program does not know");
    }
    const json stated = content.value("sha256", json());
    content.erase("sha256");
    if (stated != sha256_hex(text_of(content, -1))) {
        return bad(place,
                   "the calibration record was changed after it was made (its SHA-256 does not match)");
    }
    if (content.contains("readings") && content.at("readings").size() > most_readings)
        return bad(place, "the calibration record holds more readings than anyone can have taken");
    try {
        Calibration calibration = calibration_of(content);
        const std::string fault = fault_of(calibration);
        if (!fault.empty()) return bad(place, fault);
        return calibration;
    } catch (const json::exception& error) {
        return bad(place, std::string("a part of the calibration record is missing or of the wrong type (") +
                              error.what() + ")");
    }
}

}  // namespace footing
