#pragma once

#include <algorithm>

namespace footing {

/// A rectangle of the screen in px, y down.
struct Box {
    float left = 0.0F;
    float top = 0.0F;
    float right = 0.0F;
    float bottom = 0.0F;

    [[nodiscard]] float width() const { return right - left; }
    [[nodiscard]] float height() const { return bottom - top; }
    [[nodiscard]] float middle_x() const { return (left + right) / 2.0F; }
    [[nodiscard]] float middle_y() const { return (top + bottom) / 2.0F; }

    [[nodiscard]] Box inset(float across, float down) const {
        return {left + across, top + down, right - across, bottom - down};
    }

    /// Takes a strip off one side and returns it.
    Box cut_top(float height_px) {
        const Box strip{left, top, right, std::min(top + height_px, bottom)};
        top = strip.bottom;
        return strip;
    }
    Box cut_bottom(float height_px) {
        const Box strip{left, std::max(bottom - height_px, top), right, bottom};
        bottom = strip.top;
        return strip;
    }
    Box cut_left(float width_px) {
        const Box strip{left, top, std::min(left + width_px, right), bottom};
        left = strip.right;
        return strip;
    }
    Box cut_right(float width_px) {
        const Box strip{std::max(right - width_px, left), top, right, bottom};
        right = strip.left;
        return strip;
    }

    /// No part outside `outer`, but for rounding to whole px.
    [[nodiscard]] bool inside(const Box& outer) const {
        return left >= outer.left - 1.0F && top >= outer.top - 1.0F && right <= outer.right + 1.0F &&
               bottom <= outer.bottom + 1.0F;
    }
    [[nodiscard]] bool overlaps(const Box& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
};

}  // namespace footing
