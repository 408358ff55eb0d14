#pragma once

#include <algorithm>
#include <cmath>

#include "viewer/panels/box.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// How large words and figures are that are read from where the plates lie (U7): as the window is, not slower
/// as everything else grows; words as the coach wants text, too.
class Grown {
  public:
    /// `box`: the part of the screen between title and keys.
    Grown(const Box& box, const ViewState& state)
        : unit_(std::min(box.width() / designed_width_px, box.height() / designed_height_px)),
          wanted_(text_sizes[std::min(state.text_size, text_sizes.size() - 1)]) {}
    [[nodiscard]] float px(float design_px) const { return std::round(design_px * unit_); }
    [[nodiscard]] float words_px(float design_px) const { return std::round(design_px * unit_ * wanted_); }

  private:
    // At 1280 x 720.
    static constexpr float designed_width_px = 1232.0F;
    static constexpr float designed_height_px = 536.0F;

    float unit_;
    float wanted_;
};

}  // namespace footing
