#pragma once

#include <array>
#include <string>

#include "analysis/report/figure.h"

struct ImFont;
struct ImFontAtlas;

namespace footing {

/// Where the two weights of the one family are on this computer.
struct FontFiles {
    std::string family;
    std::string regular;
    std::string bold;
};

/// Inter, else the family that fontconfig offers in its place, else DejaVu Sans. Empty paths when the
/// computer has no fonts at all; the window's built-in face is drawn then.
[[nodiscard]] FontFiles find_fonts();

/// The four sizes in two weights, owned by the atlas they were added to.
struct Fonts {
    std::array<std::array<ImFont*, 2>, 4> faces{};
    ImFont* words = nullptr;   ///< bold at the size of the figure, with letters: to be read from 3 m
    ImFont* digits = nullptr;  ///< bold, a third of the smallest window high; digits only
    [[nodiscard]] ImFont* face(TextSize size, TextWeight weight) const {
        return faces[static_cast<std::size_t>(size)][static_cast<std::size_t>(weight)];
    }
};

/// Draws the faces into the atlas at `scale` px of the screen for one px of the design, with digits of equal
/// width so that numbers stand in columns and do not tremble while they change.
[[nodiscard]] Fonts add_fonts(ImFontAtlas& atlas, const FontFiles& files, float scale);

}  // namespace footing
