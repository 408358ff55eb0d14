#include "viewer/lesson/value_uncertainty.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "acquisition/frame/units.h"

namespace footing {

namespace {

/// Relative standard uncertainty of one cell against its neighbours where only plates as a whole were
/// calibrated: as that of nominal plates of four cells (common practice, no source).
constexpr double nominal_cell_relative_u = 0.02;

/// Gains known by covariance: what the masses have in common is taken off, what the fit does not know (the
/// shape of the curve, age) is put on, each cell by itself.
std::vector<double> relative_covariance(const Calibration& calibration, const PlateLayout& layout,
                                        double own_relative_u) {
    const std::vector<double>& gain = calibration.newtons_per_count;
    const std::size_t values = gain.size();
    const double common = calibration.common_relative_u * calibration.common_relative_u;
    std::vector<double> covariance(values * values, 0.0);
    for (std::size_t i = 0; i < values; ++i) {
        for (std::size_t j = 0; j < values; ++j)
            covariance[i * values + j] =
                calibration.gain_covariance[i * values + j] / (gain[i] * gain[j]) - common;
    }
    std::size_t first = 0;
    for (const Plate& plate : layout.plates) {
        const std::size_t cells = plate.cells.size();
        const auto count = static_cast<double>(cells);
        const auto at = [&](std::size_t a, std::size_t b) -> double& {
            return covariance[(first + a) * values + first + b];
        };
        double even_load = 0.0;
        bool as_one = cells > 1;
        for (std::size_t a = 0; a < cells; ++a) {
            for (std::size_t b = 0; b < cells; ++b) {
                even_load += at(a, b) / (count * count);
                as_one = as_one && std::abs(at(a, b) - at(0, 0)) <= 1e-9 * at(0, 0);
            }
        }
        const double beyond_fit = std::max(0.0, own_relative_u * own_relative_u - even_load) * count;
        for (std::size_t a = 0; a < cells; ++a) {
            at(a, a) += beyond_fit;
            if (!as_one) continue;
            // One factor a plate: its cells may differ, though not in an even load.
            const double cell = nominal_cell_relative_u * nominal_cell_relative_u;
            for (std::size_t b = 0; b < cells; ++b) at(a, b) += cell * ((a == b ? 1.0 : 0.0) - 1.0 / count);
        }
        first += cells;
    }
    return covariance;
}

/// By how much the values of an empty plate moved between two zeros, newtons.
std::vector<double> shift_between(const ZeroEvent& from, const ZeroEvent& to, const Calibration& calibration,
                                  FrameKind kind) {
    const std::vector<double>& gain = calibration.newtons_per_count;
    std::vector<double> shift_n(gain.size());
    for (std::size_t i = 0; i < gain.size(); ++i)
        shift_n[i] = gain[i] * (to.zero_counts[i] - from.zero_counts[i]);
    if (kind != FrameKind::grid) return shift_n;
    double total_n = 0.0;
    for (const double value_n : shift_n) total_n += value_n;
    return {total_n};
}

std::vector<ZeroShift> zero_shifts(const Calibration& calibration, FrameKind kind,
                                   std::span<const ZeroEvent> zeros, std::uint64_t first_time_us) {
    std::vector<ZeroShift> shifts;
    const auto seconds = [&](const ZeroEvent& zero) {
        return (static_cast<double>(zero.device_time_us) - static_cast<double>(first_time_us)) *
               seconds_per_us;
    };
    const auto size = [](const ZeroShift& shift) {
        double squares = 0.0;
        for (const double value_n : shift.shift_n) squares += value_n * value_n;
        return squares;
    };
    for (std::size_t k = 1; k < zeros.size(); ++k)
        shifts.push_back({seconds(zeros[k - 1]), seconds(zeros[k]),
                          shift_between(zeros[k - 1], zeros[k], calibration, kind)});
    if (shifts.empty()) return shifts;
    // Nobody saw the drift after the last zero; the largest one seen stands for it.
    const auto largest = std::max_element(shifts.begin(), shifts.end(),
                                          [&](const auto& a, const auto& b) { return size(a) < size(b); });
    shifts.push_back({seconds(zeros.back()), std::numeric_limits<double>::infinity(), largest->shift_n});
    return shifts;
}

}  // namespace

ValueUncertainty value_uncertainty(const Calibration& calibration, const PlateLayout& layout,
                                   std::string_view day, std::span<const ZeroEvent> zeros,
                                   std::uint64_t first_time_us) {
    ValueUncertainty known;
    known.gain_relative_u = std::hypot(ratio_relative_u(calibration), ageing_relative_u(calibration, day));
    const std::size_t values = calibration.newtons_per_count.size();
    if (values == 0) return known;  // newtons already
    known.count_n =
        *std::max_element(calibration.newtons_per_count.begin(), calibration.newtons_per_count.end(),
                          [](double a, double b) { return std::abs(a) < std::abs(b); });
    known.count_n = std::abs(known.count_n);
    if (layout.kind == FrameKind::cells && calibration.gain_covariance.size() == values * values)
        known.gain_covariance = relative_covariance(calibration, layout, known.gain_relative_u);
    known.zero_shifts = zero_shifts(calibration, layout.kind, zeros, first_time_us);
    return known;
}

}  // namespace footing
