#pragma once

#include <cstddef>
#include <optional>

#include "analysis/swing/swing_stance.h"

namespace footing {

/// The numbers a coach teaches by beyond shares, tempo and load (docs/formulas.md, F34 to F43). Each is
/// absent where it cannot be known. Times are seconds, places metres in the stance frame (x towards the
/// target, y ahead), shares fractions.

/// For how long, between takeaway and finish, the lead share was under a floor (F34). `surely_s` and
/// `possibly_s`: the same with the share taken twice its standard uncertainty higher or lower.
struct TimeBelow {
    double floor = 0.5;
    double time_s = 0.0;
    double surely_s = 0.0;
    double possibly_s = 0.0;
};

/// Way of the centre of pressure from address to finish (F35).
struct CopTravel {
    double path_m = 0.0;
    double range_x_m = 0.0;  ///< along the stance, towards the target
    double range_y_m = 0.0;  ///< across it, heel to toe
};

/// Highest speed at which the load returns to the lead foot between turnaround and impact (F36).
struct LoadReturn {
    double peak_per_s = 0.0;  ///< lead share a second
    double u_per_s = 0.0;     ///< what noise and sway alone show as speed at address
    double time_s = 0.0;
};

/// Share of each foot's load on the toe half of its plate, wherever the foot stands on it, in [0, 1] (F37).
/// On a mat see SwingFeet.
struct HeelToe {
    FootShares lead;
    FootShares trail;
};

/// Whether the vertical impulse balances between two moments of rest (F38).
enum class Closure { closed, open };
struct MomentumClosure {
    double from_s = 0.0;
    double to_s = 0.0;
    double residual_bw = 0.0;   ///< mean load over the spell over that of the address, less one
    double tolerance_bw = 0.0;  ///< what noise, sway and movement at the ends explain, k = 2
    Closure verdict = Closure::closed;
};

/// Steadiness over a short window (F39); not comparable with posturography, which takes a minute.
struct ShortSway {
    double window_s = 0.0;
    double cop_rms_m = 0.0;  ///< root mean square distance of the CoP from its mean
    std::optional<double> share_sd;
};

/// How long the finish was held (F40). `left`: the golfer moved; else frames were lost, or the recording or
/// the time looked at ended first, so that it was held at least so long.
enum class HoldEnd { left, not_seen };
struct FinishHold {
    double held_s = 0.0;
    HoldEnd end = HoldEnd::left;
    std::optional<ShortSway> sway;  ///< of its first second
};

/// Root mean square third derivative of the lead share over the last 100 ms before impact (F41).
struct Abruptness {
    double rms_per_s3 = 0.0;               ///< without the part that noise and sway show at address
    double noise_per_s3 = 0.0;             ///< that part
    std::optional<double> practice_ratio;  ///< over the mean of the practice swings before it, for a shot
};

/// How a shot's rhythm matches the practice swings before it (F42). Differences are the shot's less their
/// mean.
struct RhythmMatch {
    std::size_t practice_swings = 0;
    double backswing_difference_s = 0.0;
    double backswing_u_s = 0.0;
    double downswing_difference_s = 0.0;
    double downswing_u_s = 0.0;
    std::optional<double> shape_correlation;  ///< of the share curves; absent where shares are not known
    double match_percent = 0.0;
    std::optional<double> practice_match_percent;  ///< of the practice swings among themselves, two or more
};

struct SwingNumbers {
    std::optional<TimeBelow> time_below;
    std::optional<CopTravel> cop_travel;
    std::optional<LoadReturn> load_return;
    std::optional<HeelToe> heel_toe;
    std::optional<MomentumClosure> momentum;
    std::optional<ShortSway> address_sway;
    std::optional<FinishHold> finish_hold;
    std::optional<Abruptness> abruptness;
    std::optional<RhythmMatch> rhythm;
    /// Of a shot: how many practice swings went before it, compared or not.
    std::optional<std::size_t> practice_swings_before;
};

}  // namespace footing
