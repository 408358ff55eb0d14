#pragma once

#include "analysis/report/figure.h"
#include "analysis/report/figure_scale.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// The picture in the middle of the screen, and how time lies on it.
struct StageFigure {
    Figure figure;
    SwingScale scale;
};

/// What `state` has to show, in px of the design: the chosen swing as on the report; without a swing the lead
/// share of ten seconds about the head; where the feet cannot be told apart the centre of pressure across the
/// plate.
[[nodiscard]] StageFigure stage_figure(const ViewState& state, double width, double height);

}  // namespace footing
