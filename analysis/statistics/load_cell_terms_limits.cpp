#include "analysis/statistics/load_cell_terms_limits.h"

#include <array>
#include <cmath>

namespace footing {

namespace {

struct Steps {
    std::array<double, 3> up_to_e;  ///< 0.5 e, 1.0 e and 1.5 e are allowed up to these loads
};

/// OIML R 76-1:2006, table 6, in the order of AccuracyClass; class I has no printed end, so no load is beyond
/// it.
constexpr std::array<Steps, 4> weighing_steps{{
    {{50'000.0, 200'000.0, HUGE_VAL}},
    {{5'000.0, 20'000.0, 100'000.0}},
    {{500.0, 2'000.0, 10'000.0}},
    {{50.0, 200.0, 1'000.0}},
}};

std::optional<double> step_of(const Steps& steps, double load) {
    const double size = std::abs(load);
    if (size <= steps.up_to_e[0]) return 0.5;
    if (size <= steps.up_to_e[1]) return 1.0;
    if (size <= steps.up_to_e[2]) return 1.5;
    return std::nullopt;
}

std::optional<double> scaled(std::optional<double> value, double factor) {
    if (!value) return std::nullopt;
    return *value * factor;
}

}  // namespace

std::optional<double> weighing_mpe_e(AccuracyClass accuracy, double load_e) {
    return step_of(weighing_steps.at(static_cast<std::size_t>(accuracy)), load_e);
}

std::optional<double> weighing_mpe(AccuracyClass accuracy, double load, double scale_interval) {
    return scaled(weighing_mpe_e(accuracy, load / scale_interval), scale_interval);
}

std::optional<double> load_cell_mpe_v(double load_v, double share) {
    // Class C steps at the same multiples of v as class III at multiples of e (from memory).
    return scaled(weighing_mpe_e(AccuracyClass::three, load_v), share);
}

std::optional<double> creep_limit_v(double load_v) {
    return scaled(load_cell_mpe_v(load_v), 0.7);
}

std::optional<double> late_creep_limit_v(double load_v) {
    return scaled(load_cell_mpe_v(load_v), 0.15);
}

}  // namespace footing
