#pragma once

#include "analysis/pressure/load_uncertainty.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Everything that the swing finder may be told; the defaults serve all players. Times in seconds, loads in
/// newtons or body weights (bw), shares as fractions.
struct SwingOptions {
    // Who stands there.
    double load_floor_n = 20.0;          ///< below it nobody stands on the plates
    double least_body_weight_n = 150.0;  ///< standing load below it is a thing, not a golfer
    bool use_trigger = true;             ///< false: the trigger input is ignored

    // How still is still, at address and finish.
    double quiet_window_s = 0.3;
    double address_mean_s = 0.5;         ///< address values are means over up to this long …
    double address_ends_before_s = 0.1;  ///< … ending this long before the takeaway

    // What a swing looks like.
    double shortest_backswing_s = 0.25;
    double longest_backswing_s = 2.2;
    double longest_downswing_s = 0.9;
    double least_load_bw = 0.35;    ///< less load than this within a swing is a hop or a step
    double most_load_bw = 2.6;      ///< more load than this within a swing is a landing
    double least_shift = 0.012;     ///< least change of share that can be evidence of a swing
    double least_push_bw = 0.012;   ///< least vertical push that can be evidence of a swing
    double shortest_hold_s = 0.25;  ///< after impact the load stays with the finish at least this long

    // The teaching numbers.
    double share_floor = 0.5;  ///< time under this share is told: never onto the trail foot

    // Deciding.
    double sure = usual_certainty;  ///< probability with which a verdict must hold
    LoadUncertainty loads;          ///< of gains, zeros and counts
};

}  // namespace footing
