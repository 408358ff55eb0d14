#include "viewer/calibration/calibration_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/statistics/load_cell_terms.h"
#include "analysis/statistics/load_cell_terms_limits.h"
#include "viewer/calibration/calibration_plan.h"

namespace footing {

namespace {

constexpr double counts_a_row = 1000.0;  ///< gains are told for so many counts
constexpr double yardstick_steps = 3000.0;
constexpr double example_load_n = 400.0;
constexpr double example_share = 0.75;

std::string error_cell(const std::optional<double>& error_n, double full_load_n) {
    if (!error_n) return "not measured";
    return fmt::format("{:.2f} N {:.3f} %", *error_n, percent_of_full_load(*error_n, full_load_n));
}

std::string error_table(const Calibration& record) {
    std::string text = fmt::format("{:<26}{:>12}{:>20}{:>20}{:>20}{:>20}\n", "", "full load", "non-linearity",
                                   "hysteresis", "repeatability", "creep");
    for (const CalibrationErrors& errors : record.errors) {
        std::string creep = error_cell(errors.creep_n, errors.full_load_n);
        if (errors.creep_s) creep += fmt::format(" in {:.0f} min", *errors.creep_s / 60.0);
        text += fmt::format("{:<26}{:>10.1f} N{:>20}{:>20}{:>20}{:>20}\n", errors.where, errors.full_load_n,
                            error_cell(errors.non_linearity_n, errors.full_load_n),
                            error_cell(errors.hysteresis_n, errors.full_load_n),
                            error_cell(errors.repeatability_n, errors.full_load_n), creep);
    }
    return text;
}

std::string gain_table(const Calibration& record, const DeviceDescription& device) {
    if (record.gain_covariance.empty() || device.layout.kind != FrameKind::cells) return {};
    std::string text =
        fmt::format("{:<26}{:>34}{:>20}\n", "", "newtons per 1000 counts (k = 2)", "zero, counts");
    const std::size_t values = record.newtons_per_count.size();
    std::size_t value = 0;
    for (std::size_t plate = 0; plate < device.layout.plates.size(); ++plate) {
        for (std::size_t cell = 0; cell < device.layout.plates[plate].cells.size() && value < values;
             ++cell, ++value) {
            const double u = std::sqrt(record.gain_covariance[value * values + value]);
            text += fmt::format(
                "{:<26}{:>34}{:>20.1f}\n",
                fmt::format("{}, cell {}", plate_words(device.layout, plate), cell + 1),
                with_uncertainty(counts_a_row * record.newtons_per_count[value], 2.0 * counts_a_row * u),
                record.zero_counts[value]);
        }
    }
    return text;
}

std::string how_it_was_made(const Calibration& record, const DeviceDescription& device) {
    std::string masses;
    for (const double mass : record.masses_kg)
        masses += fmt::format("{}{:g}", masses.empty() ? "" : ", ", mass);
    std::string text = fmt::format("Calibration of {} (serial number {}), made {}", device.name,
                                   record.device_serial, record.made);
    text += record.valid_until.empty() ? ", no end stated\n"
                                       : fmt::format(", valid until {}\n", record.valid_until);
    text += fmt::format("by {}: {} kg, known to ±{:.2g} %, at g = {:.5f} m/s2 ({})\n", record.method, masses,
                        200.0 * record.mass_relative_u, record.gravity_m_s2, record.gravity_source);
    return text;
}

/// "±0.12 %"; what would be shown as nothing is told as less than the least shown.
std::string percent_words(double percent) {
    constexpr double least = 0.01;
    return percent < least ? fmt::format("less than ±{} %", least) : fmt::format("±{:.2g} %", percent);
}

std::string what_it_means(const Calibration& record, const PlateLayout& layout) {
    std::string text = fmt::format(
        "A load of {:.0f} N on {} is known to ±{:.2g} N, a lead share of {:.0f} % to {}, as far as the\n"
        "calibration goes (k = 2: right 95 times in 100; zero, noise and sway come on top).\n",
        example_load_n, layout.kind == FrameKind::grid ? "the mat" : "one plate",
        2.0 * record.relative_u * example_load_n, 100.0 * example_share,
        percent_words(100.0 * share_certainty(record, example_share)));
    double worst_n = 0.0;
    double full_load_n = 0.0;
    for (const CalibrationErrors& errors : record.errors) {
        full_load_n = std::max(full_load_n, errors.full_load_n);
        worst_n =
            std::max({worst_n, errors.non_linearity_n.value_or(0.0), errors.hysteresis_n.value_or(0.0)});
    }
    const auto limit_v = load_cell_mpe_v(yardstick_steps);
    if (limit_v && full_load_n > 0.0 && record.method != "a known weight on the mat") {
        text += fmt::format(
            "As a yardstick, no verification: a cell of class C3 (OIML R 60) may err by {:.2f} N at {:.0f} "
            "N; the largest\n"
            "non-linearity or hysteresis here is {:.2f} N.\n",
            *limit_v * full_load_n / yardstick_steps, full_load_n, worst_n);
    }
    return text;
}

constexpr const char* meaning_of_words =
    "non-linearity: how far growing loads leave the straight line. hysteresis: difference between coming "
    "from below\n"
    "and from above. repeatability: spread when the same load is put on again. creep: change while a load "
    "stays.\n";

}  // namespace

std::string with_uncertainty(double value, double uncertainty) {
    if (!(uncertainty > 0.0) || !std::isfinite(uncertainty)) return fmt::format("{:.6g}", value);
    // Two digits of the uncertainty when it begins with 1 or 2, else one (common practice).
    const double exponent = std::floor(std::log10(uncertainty));
    const double leading = uncertainty / std::pow(10.0, exponent);
    const int digits = std::clamp(static_cast<int>(-exponent) + (leading < 3.0 ? 1 : 0), 0, 12);
    return fmt::format("{:.{}f} ± {:.{}f}", value, digits, uncertainty, digits);
}

double share_certainty(const Calibration& record, double share) {
    // Both plates off by ratio_relative_u, independently: u(s) = s (1 - s) sqrt(2) r.
    return 2.0 * share * (1.0 - share) * std::sqrt(2.0) * ratio_relative_u(record);
}

std::string calibration_words(const Calibration& record, const DeviceDescription& device,
                              const std::vector<std::string>& remarks) {
    std::string text = how_it_was_made(record, device) + "\n";
    if (const std::string gains = gain_table(record, device); !gains.empty()) text += gains + "\n";
    text += error_table(record) + meaning_of_words + "\n" + what_it_means(record, device.layout);
    for (const std::string& remark : remarks) text += "- " + remark + "\n";
    return text;
}

}  // namespace footing
