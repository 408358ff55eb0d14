#pragma once

#include <cstddef>
#include <deque>
#include <optional>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// What somebody on the plates is doing at this moment.
enum class Stance {
    nobody,  ///< less load than a golfer
    moving,
    still,
};

/// When a set-up counts as still. Limits are common practice, no source: quiet standing sways by a few
/// millimetres, a waggle moves the share by several per cent.
struct SetUpOptions {
    double block_s = 0.02;           ///< samples are averaged over this long first
    double mean_s = 0.5;             ///< the values of a set-up are means over this long, as at address
    double most_share_range = 0.04;  ///< between the highest and the lowest block, as a fraction
    double most_load_range = 0.06;   ///< of the mean load
    double least_person_n = 150.0;   ///< less load is a thing, not a golfer
    double lean_s = 0.25;            ///< time constant of the plumb bob
    double sure = 0.95;              ///< probability with which a verdict must hold
    double gain_u = 0.003;           ///< relative standard uncertainty of each side's sensitivity
    double zero_u_n = 1.0;           ///< standard uncertainty of each side's zero
};

/// The set-up as it is now.
struct SetUpReading {
    Stance stance = Stance::nobody;
    double total_n = 0.0;               ///< mean of the newest block
    std::optional<double> share;        ///< lead share of the newest block, in [0, 1]
    std::optional<double> bob_share;    ///< the same as a plumb bob follows it: late by lean_s
    std::optional<ShareValue> settled;  ///< mean over mean_s with its verdict; only while still
    std::optional<PointM> cop_m;        ///< newest block, stance frame: x towards the target, y to the toes
    std::optional<double> sway_m;       ///< root mean square distance of the CoP from its mean over mean_s
    double still_for_s = 0.0;           ///< since when nothing moved; 0 while something does
};

/// Watches the stance between swings. Fed sample by sample, in order; keeps half a second; one thread.
class SetUpWatch {
  public:
    SetUpWatch(double rate_hz, Hand hand, TargetBand band, SetUpOptions options = {});

    void take(const LoadSample& sample);
    /// Frames were lost: what was collected does not belong with what follows.
    void interrupt();
    [[nodiscard]] const SetUpReading& reading() const { return reading_; }

  private:
    struct Block {
        double total_n = 0.0;
        double share = unknown;
        double cop_x_m = unknown;  ///< stance frame
        double cop_y_m = unknown;
    };
    /// Sums of the block that is being filled.
    struct Sums {
        std::size_t samples = 0;
        double total_n = 0.0;
        double lead_n = 0.0;
        double trail_n = 0.0;
        bool feet_known = true;
        double moment_x_n_m = 0.0;
        double moment_y_n_m = 0.0;
        double located_n = 0.0;  ///< load of the samples that have a CoP
    };

    void close_block();
    void look();
    [[nodiscard]] ShareValue settled_share() const;
    [[nodiscard]] std::optional<double> sway_m() const;

    Hand hand_;
    TargetBand band_;
    SetUpOptions options_;
    std::size_t samples_a_block_;
    std::size_t blocks_kept_;
    Sums sums_;
    std::deque<Block> blocks_;
    SetUpReading reading_;
};

}  // namespace footing
