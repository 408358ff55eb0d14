#include "acquisition/import/c3d_provenance.h"

#include <charconv>
#include <cmath>
#include <string_view>

#include "acquisition/frame/calendar_day.h"
#include "acquisition/frame/units.h"
#include "acquisition/import/c3d_format.h"

namespace footing {

namespace {

namespace names = c3d::provenance;

std::string text_of(const C3dParameters& parameters, std::string_view name) {
    const std::vector<std::string> texts = parameters.texts(names::group, name);
    return texts.empty() ? std::string() : texts.front();
}

/// "2026-11-25T10:20:44.123Z", ns since 1970.
std::optional<std::int64_t> utc_ns_of(std::string_view text) {
    constexpr std::string_view shape = "0000-00-00T00:00:00.000Z";
    if (text.size() != shape.size()) return std::nullopt;
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (shape[i] == '0' ? !digit : text[i] != shape[i]) return std::nullopt;
    }
    const auto day = day_of_date(text.substr(0, 10));
    if (!day) return std::nullopt;
    const auto part = [&](std::size_t from, std::size_t length) {
        std::int64_t number = 0;
        std::from_chars(text.data() + from, text.data() + from + length, number);
        return number;
    };
    constexpr std::int64_t last_day = 100'000;  // in 2243: nanoseconds of it have room in 64 bits
    if (*day < 0 || *day > last_day || part(11, 2) > 23 || part(14, 2) > 59 || part(17, 2) > 60)
        return std::nullopt;
    const std::int64_t seconds = *day * 86'400 + part(11, 2) * 3'600 + part(14, 2) * 60 + part(17, 2);
    return (seconds * 1'000 + part(20, 3)) * (ns_per_s / 1'000);
}

std::optional<double> fraction_of(const C3dParameters& parameters, std::string_view name) {
    const auto number = parameters.number(names::group, name);
    if (!number || !std::isfinite(*number) || *number < 0.0 || *number >= 1.0) return std::nullopt;
    return number;
}

std::optional<std::string> date_of(const C3dParameters& parameters, std::string_view name) {
    std::string date = text_of(parameters, name);
    if (!date.empty() && !day_of_date(date)) return std::nullopt;
    return date;
}

std::optional<Calibration> calibration_of(const C3dParameters& parameters) {
    const auto relative_u = fraction_of(parameters, names::relative_u);
    const auto common_u = fraction_of(parameters, names::common_u);
    const auto made = date_of(parameters, names::made);
    const auto valid_until = date_of(parameters, names::valid_until);
    std::string method = text_of(parameters, names::method);
    if (!relative_u || !(*relative_u > 0.0) || !common_u || *common_u > *relative_u || !made ||
        !valid_until || method.empty())
        return std::nullopt;
    Calibration calibration;
    calibration.method = std::move(method);
    calibration.made = *made;
    calibration.valid_until = *valid_until;
    calibration.relative_u = *relative_u;
    calibration.common_relative_u = *common_u;
    calibration.only_ratios = parameters.number(names::group, names::only_ratios).value_or(0.0) != 0.0;
    return calibration;
}

}  // namespace

C3dProvenance c3d_provenance(const C3dParameters& parameters) {
    C3dProvenance known;
    known.start_utc_ns = utc_ns_of(text_of(parameters, names::start_utc));
    known.zone = text_of(parameters, names::zone);
    known.calibration = calibration_of(parameters);
    const bool says_something = !text_of(parameters, names::method).empty() ||
                                parameters.number(names::group, names::relative_u).has_value();
    known.calibration_is_odd = says_something && !known.calibration;
    return known;
}

}  // namespace footing
