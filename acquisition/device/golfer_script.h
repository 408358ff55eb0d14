#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/device/golfer_motion.h"
#include "acquisition/device/golfer_style.h"

namespace footing {

/// What the student does on purpose in one swing, and when. Seconds from the start of the lesson, true time.
struct ScriptedSwing {
    bool with_ball = true;  ///< a shot; else a practice swing
    SwingLength length = SwingLength::half;
    double quiet_from_s = 0.0;  ///< the address is still from here …
    double takeaway_s = 0.0;    ///< … to here, where the swing begins
    double top_s = 0.0;
    double impact_s = 0.0;
    double finish_s = 0.0;  ///< the follow-through has come to rest
    double held_to_s = 0.0;
};

/// Where the student's feet carry load: none, one foot set down, both.
struct Support {
    double first = 0.0;   ///< part of the body's weight that stands on the plates at all, 0 to 1
    double second = 0.0;  ///< how far the second foot has taken over its part, 0 to 1
};

/// A whole lesson as movements of the body's centre of mass, relative to the middle of the stance, and of the
/// feet. Plates empty; step on; settle; rock; then for each swing bend for a ball (shots), waggle, address,
/// swing, hold the finish; step off. Practice swing, shot, shot at half, three-quarter and full length, over
/// and over.
struct GolferScript {
    MotionPath along;           ///< towards the target, m
    MotionPath ahead;           ///< towards the toes, m
    MotionPath up;              ///< m
    MotionPath toe_difference;  ///< how much further ahead the lead foot's CoP is than the trail foot's, m
    MotionPath first_support;   ///< the two parts of Support; the trail foot comes first
    MotionPath second_support;
    std::vector<ScriptedSwing> swings;
    double on_from_s = 0.0;  ///< both feet carry the whole body from here …
    double on_to_s = 0.0;    ///< … to here
    double end_s = 0.0;      ///< the lesson ends, plates empty again
};

/// Writes the script of a lesson of `swings` swings. The same style, number and seed give the same script.
[[nodiscard]] GolferScript write_script(const GolferStyle& style, std::size_t swings, std::uint64_t seed);

}  // namespace footing
