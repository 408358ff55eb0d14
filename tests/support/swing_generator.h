#pragma once

#include <cstdint>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"

namespace footing::testing {

/// Four ways of making up how a golfer loads the ground; none of them knows how the finder looks for it.
enum class MotionShape {
    minimum_jerk,  ///< pieces of minimum-jerk motion, joined at rest (Flash & Hogan 1985)
    logistic,      ///< a sum of logistic steps, no piece ever at rest
    pendulum,      ///< a damped second-order system that is told where to go
    beta_bumps,    ///< asymmetric beta-shaped bumps and steps
};

/// What kind of golfer.
enum class LoadPath {
    trail_then_lead,  ///< goes to the trail foot in the backswing
    stays_lead,       ///< goes a little to the lead foot in the backswing already
    nearly_constant,  ///< the share hardly moves; CoP and vertical load tell
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
    bool with_trigger = false;
    bool with_distractions = true;  ///< waggles, rocking, bending, stepping, walking, hops between the swings
    bool feet_known = true;
};

struct TrueSwing {
    LoadPath path = LoadPath::trail_then_lead;
    double takeaway_s = 0.0;
    double turnaround_s = 0.0;
    double impact_s = 0.0;
    double finish_s = 0.0;
    double address_share = 0.0;  ///< mean without noise over the 0.5 s that end 0.1 s before the takeaway
    double lowest_share = 0.0;   ///< without noise, between takeaway and impact
    double impact_share = 0.0;
    double finish_share = 0.0;
    double backswing = 0.0;  ///< planned change of share in the backswing
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
