#pragma once

#include <array>
#include <cstddef>

#include "viewer/panels/box.h"

namespace footing {

/// Where each part of the screen stands, in px. Parts never overlap and never leave the window.
struct ScreenLayout {
    float scale = 1.0F;  ///< px of the screen for one px of the design
    Box window;
    Box title;      ///< who, which recording, how sound it is
    Box stage;      ///< feet, rule and trace on one axis
    Box figure;     ///< the share at the head, the largest thing on the screen
    Box numbers;    ///< this swing
    Box list;       ///< the swings to pick from
    Box transport;  ///< play, where the head is, speed, loop
    Box timeline;   ///< the whole recording
};

/// The smallest window for which nothing is cut off at scale 1.
inline constexpr float least_width_px = 1120.0F;
inline constexpr float least_height_px = 640.0F;

/// A coach stands back from a large screen, so that what is drawn grows with the window, slower than it:
/// 1 at 1280 x 720, 1.6 at 2560 x 1440, times the screen's own `density` (2 on a high-DPI screen). Smaller
/// windows than the least shrink everything, so that nothing is cut off.
/// `text_size` multiplies it, as far as the window has room for all of its parts.
[[nodiscard]] float screen_scale(float width_px, float height_px, float density = 1.0F,
                                 float text_size = 1.0F);

/// The largest text against the design's, at most the largest that may be chosen, that such a window has room
/// for.
[[nodiscard]] float room_for_text(float width_px, float height_px, float density = 1.0F);

/// Sizes of text that the coach may choose, against the design's; the window may have room for less.
inline constexpr std::array<float, 5> text_sizes{0.8F, 1.0F, 1.2F, 1.45F, 1.75F};
inline constexpr std::size_t usual_text_size = 1;

/// `number_rows`: lines that the panel of this swing needs.
[[nodiscard]] ScreenLayout lay_out(float width_px, float height_px, float scale, int number_rows);

}  // namespace footing
