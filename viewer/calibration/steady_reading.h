#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <vector>

#include "acquisition/frame/frame.h"

namespace footing {

/// When a reading counts as at rest. A limit in newtons and one as a share of the load: the larger holds.
struct SteadyOptions {
    double block_s = 0.1;           ///< readings are averaged over this long
    double hold_s = 1.5;            ///< so long it must stay at rest
    double most_noise_n = 4.0;      ///< standard deviation of the total within a block
    double most_noise_share = 0.0;  ///< people sway, masses do not
    double most_slope_n = 1.0;      ///< change of the total from the first to the second half of hold_s
    double most_slope_share = 0.0;
};

enum class ReadingSteadiness {
    settling,  ///< not long enough yet
    noisy,     ///< shaking: touched, windy, a loose cable
    sloping,   ///< still moving or drifting
    steady,
};

/// A reading at rest.
struct SteadyReading {
    std::uint64_t device_time_us = 0;
    std::vector<double> counts;  ///< mean over hold_s, one a value
    double noise_n = 0.0;        ///< standard deviation of the total within the blocks
    double u_n = 0.0;            ///< standard uncertainty of the mean total, from the scatter of the blocks
    std::size_t blocks = 0;
};

/// Averages raw frames and tells when they are at rest.
class SteadyReader {
  public:
    /// `newtons_per_count`: one a value; a rough scale serves.
    explicit SteadyReader(std::vector<double> newtons_per_count, SteadyOptions options = {});

    /// The next frame, in order. After a hole in time it starts anew.
    void take(const FrameView& raw);
    /// Forgets what was read, so that the next reading is made of new frames only.
    void restart();

    [[nodiscard]] ReadingSteadiness steadiness() const;
    /// There is one when steadiness() is steady.
    [[nodiscard]] std::optional<SteadyReading> reading() const;
    /// Mean of the newest whole block; nothing before there is one.
    [[nodiscard]] std::optional<std::vector<double>> newest_counts() const;
    [[nodiscard]] double noise_n() const;  ///< within the newest blocks
    [[nodiscard]] double slope_n() const;  ///< second half less first half of the newest blocks
    [[nodiscard]] double newton(const std::vector<double>& counts) const;  ///< sum of counts in newtons

  private:
    struct Block {
        std::vector<double> counts;
        double mean_n = 0.0;
        double variance_n2 = 0.0;
    };

    void close_block();

    SteadyOptions options_;
    std::vector<double> newtons_per_count_;
    std::deque<Block> blocks_;
    std::vector<double> sums_;
    std::uint64_t block_start_us_ = 0;
    std::uint64_t newest_us_ = 0;
    std::uint64_t frames_ = 0;
    double mean_n_ = 0.0;
    double squares_n2_ = 0.0;
    double first_level_n_ = 0.0;  ///< of the very first block: what counts as no load
    bool has_first_level_ = false;
};

}  // namespace footing
