#pragma once

#include "analysis/report/figure.h"
#include "viewer/panels/screen_canvas.h"

namespace footing {

/// Draws a figure with its top left corner at `origin`, enlarged by the canvas's scale. The window's painter
/// among the three: what HTML and PDF show on paper, this shows on the screen.
void paint_figure(ScreenCanvas& canvas, const Figure& figure, ImVec2 origin);

}  // namespace footing
