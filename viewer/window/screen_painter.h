#pragma once

#include <optional>

#include "analysis/report/theme.h"
#include "viewer/window/changed_parts.h"

namespace footing {

enum class Painted { nothing, something };

/// Draws Dear ImGui's frames through its OpenGL back end into the framebuffer that is bound, which still
/// holds the frame before: only what changed is drawn, on the theme's paper.
class ScreenPainter {
  public:
    /// The frame that ImGui::Render() made, on `size` px; its lists are cut down to what had to be drawn.
    /// Nothing is drawn where it looks like the one before.
    Painted paint(PixelSize size, Theme theme);

    /// What the framebuffer held is gone, or the fonts are others: the next frame is drawn whole.
    void forget() { changed_.forget(); }

  private:
    ChangedParts changed_;
    std::optional<Theme> theme_;
};

}  // namespace footing
