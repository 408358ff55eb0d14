#include "viewer/panels/screen_layout.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

/// px of the screen for one px of the design, before the size of text: as designed, and the most that leaves
/// every part its room.
struct Scales {
    float usual = 1.0F;
    float most = 1.0F;
};

Scales scales_of(float width_px, float height_px, float density) {
    const float room = std::min(width_px / density / 1280.0F, height_px / density / 720.0F);
    const float least_room =
        std::min(width_px / density / least_width_px, height_px / density / least_height_px);
    const float usual =
        room > 1.0F ? std::min(1.0F + 0.6F * (room - 1.0F), 2.2F) : std::min(least_room, 1.0F);
    return {usual, std::max(least_room, usual)};
}

}  // namespace

float room_for_text(float width_px, float height_px, float density) {
    const Scales scales = scales_of(width_px, height_px, density);
    return std::min(scales.most / scales.usual, text_sizes.back());
}

float screen_scale(float width_px, float height_px, float density, float text_size) {
    const Scales scales = scales_of(width_px, height_px, density);
    return std::max(std::min(scales.usual * text_size, scales.most) * density, 0.25F);
}

ScreenLayout lay_out(float width_px, float height_px, float scale, int number_rows) {
    const auto px = [scale](float design_px) { return std::round(design_px * scale); };
    ScreenLayout layout;
    layout.scale = scale;
    layout.window = {0.0F, 0.0F, width_px, height_px};

    Box rest = layout.window.inset(px(24), px(16));
    layout.title = rest.cut_top(px(48));
    rest.cut_top(px(8));
    layout.timeline = rest.cut_bottom(px(56));
    rest.cut_bottom(px(8));
    layout.transport = rest.cut_bottom(px(32));
    rest.cut_bottom(px(8));

    Box column = rest.cut_right(px(344));
    rest.cut_right(px(24));
    layout.stage = rest;
    layout.figure = column.cut_top(px(104));
    column.cut_top(px(8));
    layout.numbers = column.cut_top(px(24.0F * static_cast<float>(number_rows) + 36.0F));
    column.cut_top(px(16));
    layout.list = column;
    return layout;
}

}  // namespace footing
