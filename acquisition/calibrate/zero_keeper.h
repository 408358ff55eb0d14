#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <vector>

#include "acquisition/frame/frame.h"

namespace footing {

/// When an empty plate may be taken as zero.
struct ZeroOptions {
    double block_s = 0.1;  ///< readings are averaged over this long
    int blocks = 10;       ///< so many quiet blocks in a row make a zero
    double first_empty_limit_n =
        150.0;  ///< before the first zero: cells are rarely off by more, no golfer weighs less
    double empty_limit_n = 30.0;  ///< afterwards: |total| below this may be an empty plate that has drifted
    double most_noise_n = 4.0;    ///< standard deviation of the total within a block; more is no quiet plate
    double most_slope_n = 1.5;    ///< largest difference between the block means; more is still moving
    double worth_a_zero_n = 0.5;  ///< while the plate stays empty, a smaller shift of the total is left alone
};

/// A zero taken: from this frame on, the values of an empty plate are these.
struct ZeroEvent {
    std::uint64_t device_time_us = 0;
    std::vector<double> zero_counts;  ///< one a value: mean of the reading over the quiet blocks
    double shift_n = 0.0;             ///< by how much the total moved against the zero before
    double noise_n = 0.0;             ///< standard deviation of the total within the blocks
};

/// Watches raw frames and finds the moments when the plates are empty and at rest (R18). Fed with the same
/// frames it finds the same zeros, live or replayed. A noisy or sloping reading is never a zero; a person on
/// the plates is never one, since a zero needs a total near nothing.
class ZeroKeeper {
  public:
    /// `newtons_per_count` and `initial_zero_counts`: one a value of a frame.
    ZeroKeeper(std::vector<double> newtons_per_count, std::vector<double> initial_zero_counts,
               ZeroOptions options = {});

    /// Takes the next frame, in order. Returns a zero when this frame completed one.
    std::optional<ZeroEvent> take(const FrameView& raw);

    /// True when the plates carried a load before any zero was found: then the loads so far hang on the
    /// initial zero.
    [[nodiscard]] bool loaded_before_first_zero() const { return loaded_before_first_zero_; }

    /// For a recording read to its end in which no zero was found by the rules above, because the cells' own
    /// offsets are large: the lowest quiet spell, if someone stood at least `least_person_n` above it. It is
    /// empty by comparison only.
    [[nodiscard]] std::optional<ZeroEvent> lowest_quiet(double least_person_n = 200.0) const;

  private:
    struct Block {
        std::vector<double> mean_counts;
        double mean_total_n = 0.0;
        double sd_total_n = 0.0;
    };

    std::optional<ZeroEvent> close_block(std::uint64_t device_time_us);
    [[nodiscard]] ZeroEvent zero_of_recent(std::uint64_t device_time_us) const;
    void start_block(std::uint64_t device_time_us);

    ZeroOptions options_;
    std::vector<double> newtons_per_count_;
    std::vector<double> zero_counts_;
    double zero_total_n_ = 0.0;
    bool has_zero_ = false;
    bool left_empty_ = true;

    std::uint64_t block_start_us_ = 0;
    std::uint64_t block_frames_ = 0;
    std::vector<double> block_sums_;
    double block_mean_n_ = 0.0;
    double block_squares_n2_ = 0.0;
    std::deque<Block> recent_;  ///< quiet blocks in a row

    bool loaded_before_first_zero_ = false;
    std::optional<ZeroEvent> lowest_;  ///< shift_n is against the zero in force at the start
    double lowest_n_ = 0.0;
    double highest_n_ = 0.0;
};

}  // namespace footing
