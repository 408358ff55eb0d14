#pragma once

#include <cstdint>

#include "analysis/report/figure.h"

namespace footing {

/// paper: the light window and every report; slate: the dark window; sun: white and black for a screen
/// outdoors; print: white paper, the inks of the light window.
enum class Theme { paper, slate, sun, print };

/// What T goes through: light, dark, outdoors.
[[nodiscard]] Theme next_window_theme(Theme theme);
/// "light", "dark", "outdoors".
[[nodiscard]] const char* window_theme_name(Theme theme);

/// sRGB, 8 bits each.
struct Colour {
    std::uint8_t red = 0;
    std::uint8_t green = 0;
    std::uint8_t blue = 0;
    friend bool operator==(const Colour&, const Colour&) = default;
};

[[nodiscard]] Colour colour_of(Ink ink, Theme theme);

/// Relative luminance, 0 black to 1 white. WCAG 2.1, definition of relative luminance.
[[nodiscard]] double relative_luminance(Colour colour);

/// Contrast ratio, 1 to 21, whichever of the two is lighter. WCAG 2.1, definition of contrast ratio.
[[nodiscard]] double contrast_ratio(Colour one, Colour other);

/// What a translucent ink looks like on its ground.
[[nodiscard]] Colour laid_over(Colour ink, double opacity, Colour ground);

}  // namespace footing
