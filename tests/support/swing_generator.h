#pragma once

#include <cstdint>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"

namespace footing::testing {

/// Ways of making up how a golfer's share moves; none of them knows how the finder looks for it.
enum class MotionShape {
    minimum_jerk,  ///< pieces of minimum-jerk motion, joined at rest (Flash & Hogan 1985)
    logistic,      ///< a sum of logistic steps, no piece ever at rest
    pendulum,      ///< a damped second-order system that is told where to go
    beta_bumps,    ///< asymmetric beta-shaped bumps and steps
    straight,      ///< straight lines with rounded corners
    asymmetric,    ///< asymmetric logistic steps
    two_stage,     ///< loads early and creeps on; comes back in two parts
    spline,        ///< monotone cubic through drawn knots
    half_cosine,   ///< half cosines with a pause at the top and a rebound; kept out while rules were set
};

/// What kind of golfer.
enum class LoadPath {
    trail_then_lead,  ///< goes to the trail foot in the backswing
    stays_lead,       ///< goes a little to the lead foot in the backswing already
    nearly_constant,  ///< the share hardly moves; CoP and vertical load tell
    hangs_back,       ///< goes to the trail foot and comes back hardly further than to where it was
    half_swing,       ///< a small swing: some 2 % back, a little more forward
};

/// Who comes: `usual` golfers are three of the load paths, `all_kinds` all of them, with a vertical load that
/// follows from the body's rise and fall instead of bells, and with odder things between the swings.
enum class Golfers { usual, all_kinds };

/// What the noise of plates and sway is made of.
enum class NoiseColour {
    plain,          ///< white noise, smooth sway
    pink_sway,      ///< sway with as much in every octave
    drift_and_hum,  ///< and plates that drift and hum at 50 Hz
    quantised,      ///< and loads that come in steps
};

/// All of it invented; ranges are drawn from the seed.
struct LessonPlan {
    MotionShape shape = MotionShape::minimum_jerk;
    std::uint64_t seed = 1;
    double rate_hz = 1000.0;
    double mass_kg = 75.0;
    Hand hand = Hand::right;
    int swings = 20;
    double sway_share = 0.004;  ///< standard deviation of the share in quiet stance
    double noise_n = 1.0;       ///< standard deviation of each cell, newtons; four cells a foot
    double smallest_backswing = 0.02;
    double largest_backswing = 0.20;
    double unusual_golfers = 0.1;  ///< part of the swings with another load path
    Golfers golfers = Golfers::usual;
    NoiseColour colour = NoiseColour::plain;
    bool with_trigger = false;
    double triggers_missing = 0.0;  ///< part of the swings in which the trigger stays silent
    double stray_triggers = 0.0;    ///< of pauses in which it speaks for nothing
    double strike_n = 0.0;          ///< size of the ripple that a strike sends through the body; 0: none
    double practice_swings = 0.0;   ///< part of the swings that strike nothing
    bool with_distractions = true;  ///< waggles, rocking, bending, stepping, walking, hops between the swings
    bool feet_known = true;
};

struct TrueSwing {
    LoadPath path = LoadPath::trail_then_lead;
    double takeaway_s = 0.0;
    double turnaround_s = 0.0;
    double turnaround_ends_s = 0.0;  ///< later than turnaround_s where the golfer pauses at the lowest share
    double impact_s = 0.0;
    double finish_s = 0.0;
    double address_share = 0.0;  ///< mean without noise over the 0.5 s that end 0.1 s before the takeaway
    double lowest_share = 0.0;   ///< without noise, between takeaway and impact
    double impact_share = 0.0;
    double finish_share = 0.0;
    double backswing = 0.0;  ///< planned change of share in the backswing
    bool struck = true;      ///< a ball was hit
    bool triggered = false;  ///< and the trigger said so
};

/// Something that is not a swing.
struct Distraction {
    const char* what = "";
    double from_s = 0.0;
    double to_s = 0.0;
};

struct GeneratedLesson {
    LoadTrace trace;
    std::vector<TrueSwing> swings;
    std::vector<Distraction> distractions;
    double body_weight_n = 0.0;
    std::vector<double> true_share;  ///< lead share with sway, without noise
};

[[nodiscard]] GeneratedLesson generate_lesson(const LessonPlan& plan);

}  // namespace footing::testing
