#pragma once

#include "analysis/report/figure.h"
#include "analysis/report/figure_scale.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// The one idea of all these pictures: the horizontal axis is the stance, from the trail foot (0 %) to the
/// lead foot (100 %); time runs down; the target band is one upright stripe. Made for 300 x 200 to 1800 x
/// 1100 px. A verdict is told by the shape of its mark: full diamond inside, triangle towards the trail foot
/// below, triangle towards the lead foot above, hollow diamond too close to call.

/// Lead share over time for one or a few swings, with events, uncertainties, lost frames and the moving head.
[[nodiscard]] Figure share_figure(const LessonResult& lesson, const SwingFigureOptions& options);

/// The feet seen from above, to scale, with plates or mat and the path of the centre of pressure.
[[nodiscard]] Figure feet_figure(const LessonResult& lesson, const SwingFigureOptions& options);

/// Feet on top, the rule under them, the trace under the rule, all on one axis: the trail foot's mean centre
/// of pressure stands over 0 %, the lead foot's over 100 %, so that the centre of pressure stands over its
/// own lead share.
[[nodiscard]] Figure swing_figure(const LessonResult& lesson, const SwingFigureOptions& options);

/// The whole lesson at a glance: one row a swing; address, turnaround and impact each on a rule of its own.
/// `options.swings` empty: all swings.
[[nodiscard]] Figure lesson_figure(const LessonResult& lesson, const SwingFigureOptions& options);

/// The mark that stands for a verdict, everywhere, with the target on the right.
[[nodiscard]] MarkShape mark_of(Verdict verdict);
/// The same with the triangles turned where the target is on the left, so that "below" always points to the
/// trail foot.
[[nodiscard]] MarkShape mark_towards(Verdict verdict, TargetSide target_side);

}  // namespace footing
