#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"

namespace footing::test {

/// Where the tests' masses are weighed.
inline constexpr double local_g_m_s2 = 9.81;

/// Two plates of four cells with gains of their own, cross-talk, noise and drift, loaded as a test says. Each
/// cell carries all of a mass over it (bilinear, as the simulated golfer's plates do).
class SimulatedPlates {
  public:
    static constexpr double nominal = 0.00025;  ///< N a count
    static constexpr double cell_x_m = 0.17;
    static constexpr double cell_y_m = 0.22;

    explicit SimulatedPlates(std::uint64_t seed, double rate_hz = 100.0) : rate_hz_(rate_hz), random_(seed) {
        for (double& gain : gains) gain = nominal * (1.0 + 0.01 * normal_(random_));
        for (double& zero : zeros_) zero = 30000.0 * normal_(random_);
    }

    [[nodiscard]] DeviceDescription description() const {
        DeviceDescription device;
        device.name = "test plates";
        device.serial = 4711;
        device.rate_hz = rate_hz_;
        device.newtons_per_count = nominal;
        const std::vector<PointM> cells{
            {-cell_x_m, cell_y_m}, {cell_x_m, cell_y_m}, {-cell_x_m, -cell_y_m}, {cell_x_m, -cell_y_m}};
        device.layout = {FrameKind::cells, {{"left", {-0.21, 0}, cells}, {"right", {0.21, 0}, cells}}, {}};
        return device;
    }

    void clear() { forces_.fill(0.0); }
    void put(std::size_t plate, double force_n, PointM at) {
        const double u = at.x_m / cell_x_m;
        const double v = at.y_m / cell_y_m;
        const std::array<double, 4> share{(1 - u) * (1 + v), (1 + u) * (1 + v), (1 - u) * (1 - v),
                                          (1 + u) * (1 - v)};
        for (std::size_t i = 0; i < 4; ++i) forces_[4 * plate + i] += 0.25 * force_n * share[i];
    }
    void put_on_cell(std::size_t plate, std::size_t cell, double force_n) {
        forces_[4 * plate + cell] += force_n;
    }

    /// The next frame; valid until the next call.
    FrameView next() {
        for (std::size_t i = 0; i < 8; ++i) {
            const std::size_t neighbour = i / 4 * 4 + (i + 1) % 4;
            const double felt_n = forces_[i] + cross_talk * forces_[neighbour] + noise_n * normal_(random_) +
                                  drift_n_s * static_cast<double>(counter_) / rate_hz_;
            counts_[i] = static_cast<std::int32_t>(std::lround(zeros_[i] + felt_n / gains[i]));
        }
        FrameView frame{{}, std::span<const std::int32_t>(counts_)};
        frame.stamp.counter = counter_;
        frame.stamp.device_time_us =
            static_cast<std::uint64_t>(static_cast<double>(counter_) * 1e6 / rate_hz_);
        ++counter_;
        return frame;
    }

    std::array<double, 8> gains{};
    double cross_talk = 0.0;
    double noise_n = 0.3;
    double drift_n_s = 0.0;

  private:
    double rate_hz_;
    std::mt19937_64 random_;
    std::normal_distribution<double> normal_;
    std::array<double, 8> zeros_{};
    std::array<double, 8> forces_{};
    std::array<std::int32_t, 8> counts_{};
    std::uint64_t counter_ = 0;
};

}  // namespace footing::test
