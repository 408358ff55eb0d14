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
    double worth_a_zero_n =
        0.5;  ///< while the plate stays empty, a smaller shift of the total and of each value is left alone
    double ask_again_share = 0.005;  ///< of body weight: a larger empty reading asks for a new zero (R18)
    double ask_again_s = 600.0;      ///< so does an older one
};

/// Why a zero was taken.
enum class ZeroCause {
    first,        ///< the first of a recording; its shift is against the calibration, and is no drift
    left_plates,  ///< whoever stood there has left
    drifted,      ///< the empty plates' reading has moved
    asked,        ///< the coach asked for it
};

/// Why no zero can be taken at this moment.
enum class ZeroRefusal {
    none,       ///< one was just taken, or would be
    too_short,  ///< not at rest for long enough yet
    loaded,     ///< something or someone is on the plates; so it is all through a swing
    noisy,      ///< the reading shakes
    sloping,    ///< the reading still moves
};

/// Whether the zero in force still serves.
enum class ZeroAdvice {
    fine,
    none_yet,  ///< no zero was taken so far
    drifted,   ///< the empty reading is off by more than ask_again_share of body weight
    too_old,   ///< the plates were last seen empty more than ask_again_s ago
};

/// A zero taken: from this frame on, the values of an empty plate are these.
struct ZeroEvent {
    std::uint64_t device_time_us = 0;
    std::vector<double> zero_counts;  ///< one a value: mean of the reading over the quiet blocks
    double shift_n = 0.0;             ///< by how much the total moved against the zero before
    double noise_n = 0.0;             ///< standard deviation of the total within the blocks
    ZeroCause cause = ZeroCause::first;
    double since_last_s = 0.0;  ///< time from the zero before to this one; 0 for the first
    double largest_value_shift_n =
        0.0;  ///< of a single value, in newtons: cells may drift against each other
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

    /// The next quiet empty reading becomes a zero, however little it has moved.
    void ask_for_zero() { asked_ = true; }

    /// Why there is no zero at this moment.
    [[nodiscard]] ZeroRefusal refusal() const { return refusal_; }

    /// Whether to ask the coach for empty plates (R18). `body_weight_n` 0: not known.
    [[nodiscard]] ZeroAdvice advice(std::uint64_t device_time_us, double body_weight_n) const;

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
    std::optional<ZeroEvent> settle(ZeroEvent event, bool maybe_empty);
    [[nodiscard]] ZeroEvent zero_of_recent(std::uint64_t device_time_us) const;
    void start_block(std::uint64_t device_time_us);

    ZeroOptions options_;
    std::vector<double> newtons_per_count_;
    std::vector<double> zero_counts_;
    double zero_total_n_ = 0.0;
    bool has_zero_ = false;
    bool left_empty_ = true;
    bool asked_ = false;
    ZeroRefusal refusal_ = ZeroRefusal::too_short;
    std::uint64_t zero_us_ = 0;        ///< when the zero in force was taken
    std::uint64_t seen_empty_us_ = 0;  ///< when the plates were last seen empty and at rest
    double empty_reading_n_ = 0.0;     ///< newest quiet block near nothing, against the zero in force

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
