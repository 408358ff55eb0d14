#pragma once

#include <cstdint>

#include "analysis/report/figure.h"

namespace footing {

/// paper: the light window and every report; slate: the dark window; print: white paper, the same inks.
enum class Theme { paper, slate, print };

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
