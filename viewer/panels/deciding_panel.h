#pragma once

#include <vector>

#include "viewer/panels/grown.h"
#include "viewer/panels/screen_canvas.h"
#include "viewer/panels/view_action.h"

namespace footing {

/// How wide the column is in which they stand.
[[nodiscard]] float deciding_width(const ScreenCanvas& canvas, const Grown& grown);

/// Of a swing that was just caught, what decides: address, lowest, impact and tempo, each to be read from 3 m
/// (U7); what the share is at the head below. From the top of the box; returns what is left of it. Needs a
/// chosen swing.
[[nodiscard]] Box draw_deciding(ScreenCanvas& canvas, Box box, const ViewState& state, const Grown& grown,
                                std::vector<ViewAction>& asked);

}  // namespace footing
