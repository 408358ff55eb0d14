#include "analysis/pressure/load_uncertainty.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace footing {

namespace {

/// A foot on a mat, or on plates of which nothing is known: four parts about its CoP, each with a gain of its
/// own (a foot's half breadth and half length, as root mean squares; common practice, no source).
constexpr PointM foot_part{0.03, 0.07};
/// Both feet where they cannot be told apart.
constexpr PointM stance_part{0.15, 0.07};
/// A plate that tells components: as if on four corners.
constexpr PointM plate_corner{0.2, 0.2};
/// Ground that a foot presses on; says how many elements of a mat are loaded.
constexpr double sole_m2 = 0.015;

std::array<PointM, 4> about(PointM middle, PointM reach) {
    return {PointM{middle.x_m - reach.x_m, middle.y_m + reach.y_m},
            PointM{middle.x_m + reach.x_m, middle.y_m + reach.y_m},
            PointM{middle.x_m - reach.x_m, middle.y_m - reach.y_m},
            PointM{middle.x_m + reach.x_m, middle.y_m - reach.y_m}};
}

/// Least-squares shares of a load over supports: f = A^T (A A^T)^-1 (F, F x, F y), rows of A being 1, x, y.
/// That is how a rigid plate on alike cells carries it. Supports on one line share it evenly.
std::vector<double> carried(const std::vector<PointM>& places, double force_n, PointM at) {
    const auto count = static_cast<double>(places.size());
    PointM middle;
    for (const PointM& place : places) {
        middle.x_m += place.x_m / count;
        middle.y_m += place.y_m / count;
    }
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (const PointM& place : places) {
        const double x = place.x_m - middle.x_m;
        const double y = place.y_m - middle.y_m;
        xx += x * x;
        xy += x * y;
        yy += y * y;
    }
    const double determinant = xx * yy - xy * xy;
    std::vector<double> force(places.size(), force_n / count);
    if (determinant <= 1e-12 * (xx + yy) * (xx + yy)) return force;
    const double moment_x = force_n * (at.x_m - middle.x_m);
    const double moment_y = force_n * (at.y_m - middle.y_m);
    const double slope_x = (yy * moment_x - xy * moment_y) / determinant;
    const double slope_y = (xx * moment_y - xy * moment_x) / determinant;
    for (std::size_t i = 0; i < places.size(); ++i)
        force[i] += slope_x * (places[i].x_m - middle.x_m) + slope_y * (places[i].y_m - middle.y_m);
    return force;
}

}  // namespace

double quantisation_left(double noise_counts) {
    const double squared = 4.0 * std::numbers::pi * std::numbers::pi * noise_counts * noise_counts;
    double left = 0.0;
    for (int k = 1; k <= 64; ++k) left += std::exp(-squared * k * k) / (k * k);
    // Beyond the 64th harmonic, without noise: the rest of pi^2 / 6.
    if (squared * 64.0 * 64.0 < 1.0) left += 1.0 / 64.5;
    return left / (2.0 * std::numbers::pi * std::numbers::pi);
}

LoadUncertainty::LoadUncertainty(PlateLayout layout, ValueUncertainty known)
    : layout_(std::move(layout)), known_(std::move(known)) {
    if (layout_.kind != FrameKind::grid) add_fixed_supports();
}

void LoadUncertainty::add_fixed_supports() {
    const std::vector<PlateSide> sides = plate_sides(layout_);
    for (std::size_t p = 0; p < layout_.plates.size(); ++p) {
        const Plate& plate = layout_.plates[p];
        std::vector<PointM> places;
        if (plate.cells.empty()) {
            const auto corners = about(plate.centre, plate_corner);
            places.assign(corners.begin(), corners.end());
        }
        for (std::size_t cell = 0; cell < plate.cells.size(); ++cell)
            places.push_back(cell_position(plate, cell));
        const double gain_u = known_.gain_relative_u * std::sqrt(static_cast<double>(places.size()));
        for (const PointM& place : places) fixed_.push_back({place, sides[p], gain_u, 0.0, 0.0, 0.0});
    }
}

std::vector<LoadUncertainty::Support> LoadUncertainty::supports_under(const MeanLoad& mean) const {
    std::vector<Support> all = fixed_;
    const LoadSample& load = mean.load;
    const bool feet = known(load.left_n) && known(load.right_n);
    const auto stand = [&](PlateSide side, double force_n, const std::optional<PointM>& at, PointM reach) {
        if (fixed_.empty()) {
            const double gain_u = 2.0 * known_.gain_relative_u;
            for (const PointM& place : about(at.value_or(PointM{}), reach))
                all.push_back({place, side, gain_u, force_n / 4.0, known_.zero_n / 2.0, 0.0});
            return;
        }
        std::vector<std::size_t> numbers;
        std::vector<PointM> places;
        PointM middle;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (feet && all[i].side != side) continue;
            numbers.push_back(i);
            places.push_back(all[i].place);
        }
        if (places.empty()) return;
        const auto count = static_cast<double>(places.size());
        for (const PointM& place : places) {
            middle.x_m += place.x_m / count;
            middle.y_m += place.y_m / count;
        }
        const std::vector<double> force = carried(places, force_n, at.value_or(middle));
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            all[numbers[i]].force_n = force[i];
            all[numbers[i]].zero_u_n = known_.zero_n / std::sqrt(count);
        }
    };
    if (feet) {
        stand(PlateSide::left, load.left_n, load.left_cop, foot_part);
        stand(PlateSide::right, load.right_n, load.right_cop, foot_part);
    } else {
        stand(PlateSide::whole, load.total_n, load.cop, stance_part);
    }

    // Quantisation of the reading and of the zero that is taken off it.
    const bool is_grid = layout_.kind == FrameKind::grid && layout_.grid;
    const double element_m2 = is_grid ? layout_.grid->pitch_x_m * layout_.grid->pitch_y_m : 0.0;
    const double counted_in_each = element_m2 > 0.0 ? std::max(1.0, sole_m2 / element_m2 / 4.0) : 1.0;
    if (known_.count_n > 0.0 && !all.empty()) {
        const double values = counted_in_each * static_cast<double>(all.size());
        const double noise_counts = mean.noise_n / std::sqrt(values) / known_.count_n;
        const double variance_n2 =
            2.0 * counted_in_each * known_.count_n * known_.count_n * quantisation_left(noise_counts);
        for (Support& support : all) support.zero_u_n = std::hypot(support.zero_u_n, std::sqrt(variance_n2));
    }
    for (const ZeroShift& shift : known_.zero_shifts) {
        if (mean.time_s < shift.from_s || mean.time_s >= shift.to_s || shift.shift_n.empty()) continue;
        for (std::size_t i = 0; i < all.size(); ++i) {
            all[i].shift_n = shift.shift_n.size() == all.size()
                                 ? shift.shift_n[i]
                                 : shift.shift_n.front() / static_cast<double>(all.size());
        }
        break;
    }
    return all;
}

double LoadUncertainty::variance(const std::vector<Support>& supports,
                                 const std::vector<double>& by_force) const {
    const std::size_t count = supports.size();
    const bool correlated = known_.gain_covariance.size() == count * count && !fixed_.empty();
    double sum = 0.0;
    double shifted = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const Support& one = supports[i];
        const double by_gain = by_force[i] * one.force_n;
        if (!correlated) sum += by_gain * by_gain * one.gain_u * one.gain_u;
        for (std::size_t j = 0; correlated && j < count; ++j)
            sum += by_gain * by_force[j] * supports[j].force_n * known_.gain_covariance[i * count + j];
        sum += by_force[i] * by_force[i] * one.zero_u_n * one.zero_u_n;
        shifted += by_force[i] * one.shift_n;
    }
    // A shift seen at the next zero came at an unknown time: anything from none of it to all (GUM, 4.3.7).
    return std::max(0.0, sum + shifted * shifted / 3.0);
}

LoadU LoadUncertainty::of(const MeanLoad& mean) const {
    LoadU u;
    const LoadSample& load = mean.load;
    const std::vector<Support> supports = supports_under(mean);
    std::vector<double> by_force(supports.size(), 0.0);
    const auto place_u = [&](const std::optional<PointM>& at, double force_n, std::optional<PlateSide> side,
                             double PointM::*axis) {
        if (!at || !(force_n > 0.0)) return unknown;
        for (std::size_t i = 0; i < supports.size(); ++i) {
            const bool counts = !side || supports[i].side == *side;
            by_force[i] = counts ? (supports[i].place.*axis - (*at).*axis) / force_n : 0.0;
        }
        return std::sqrt(variance(supports, by_force));
    };
    const auto point_u = [&](const std::optional<PointM>& at, double force_n, std::optional<PlateSide> side) {
        return PointM{place_u(at, force_n, side, &PointM::x_m), place_u(at, force_n, side, &PointM::y_m)};
    };
    u.cop = point_u(load.cop, load.total_n, std::nullopt);
    if (!known(load.left_n) || !known(load.right_n)) return u;
    u.left_cop = point_u(load.left_cop, load.left_n, PlateSide::left);
    u.right_cop = point_u(load.right_cop, load.right_n, PlateSide::right);
    const double both_n = load.left_n + load.right_n;
    if (!(both_n > 0.0)) return u;
    const double share = load.left_n / both_n;
    for (std::size_t i = 0; i < supports.size(); ++i)
        by_force[i] = (supports[i].side == PlateSide::left ? 1.0 - share : -share) / both_n;
    u.share = std::sqrt(variance(supports, by_force));
    return u;
}

}  // namespace footing
