#pragma once

#include "analysis/report/figure.h"
#include "analysis/report/figure_scale.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// What a report shows of one swing: swing_figure() against `band`; where the feet cannot be told apart, and
/// so no share is known, feet_figure(): the ground from above, to scale, with the path of the centre of
/// pressure.
[[nodiscard]] Figure evidence_figure(const LessonResult& lesson, const SwingFigureOptions& options,
                                     const TargetBand& band);

}  // namespace footing
