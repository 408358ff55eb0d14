#pragma once

#include <optional>
#include <vector>

#include "analysis/report/figure.h"
#include "analysis/report/figure_scale.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// For pictures only, where nothing says how far the toes point outwards.
inline constexpr double usual_toe_out_rad = 0.14;

/// Where the feet stand, plate frame: each foot's mean centre of pressure over the swing looked at (over the
/// whole recording without one), else the centre of its plate, else 0.18 m from the middle.
struct FeetOnGround {
    PointM left;
    PointM right;
    bool told_apart = false;                      ///< whether the load of each foot is known at all
    double left_toe_out_rad = usual_toe_out_rad;  ///< as a mat shows it at address, else as most people stand
    double right_toe_out_rad = usual_toe_out_rad;
};

[[nodiscard]] FeetOnGround feet_on_ground(const LessonResult& lesson, const Swing* swing);

/// Mean centre of pressure of all load over a swing, or over the whole recording; the origin when there is
/// none.
[[nodiscard]] PointM cop_mean(const LessonResult& lesson, const Swing* swing);

/// From the ground to the picture, seen from above. Never a mirror image: with the target on the right a
/// right-handed golfer's toes point down the picture, towards a coach who stands face to face with the
/// golfer, and a left-handed golfer's toes point up.
struct GroundView {
    PointM middle;            ///< the point of the ground …
    FigurePoint at;           ///< … that stands here
    double px_per_m_x = 1.0;  ///< across the picture
    double px_per_m_y =
        1.0;  ///< down the picture; the same but over the rule, where the stance fills the axis
    bool toes_down = true;

    [[nodiscard]] FigurePoint operator()(const PointM& point) const;
};

[[nodiscard]] bool toes_point_down(Hand hand, TargetSide target_side);

inline constexpr double sole_length_m = 0.29;  ///< of the drawn shoe; a picture, not a measurement

/// Outline of a shoe sole around its centre, metres, plate frame, its toes turned out.
[[nodiscard]] std::vector<PointM> sole_outline(PlateSide side, double toe_out_rad = usual_toe_out_rad);

/// The path of the centre of pressure of all load from `from_s` to `to_s`, in runs without holes, plate
/// frame.
[[nodiscard]] std::vector<std::vector<PointM>> cop_path(const LoadTrace& trace, double from_s, double to_s);

/// Centre of pressure of one instant; absent below the load floor.
[[nodiscard]] std::optional<PointM> cop_at(const LoadTrace& trace, double time_s);

/// From the stance frame (x towards the target) to the plate frame, and back: the same rule.
[[nodiscard]] PointM stance_to_plate(const PointM& point, Hand hand);

}  // namespace footing
