#include "viewer/window/screen_painter.h"

#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <cstddef>

namespace footing {

namespace {

/// What everything stands on: the theme's paper, without blending.
void lay_paper(const PixelBox& part, PixelSize size, Theme theme) {
    const Colour paper = colour_of(Ink::paper, theme);
    const auto level = [](std::uint8_t byte) { return static_cast<float>(byte) / 255.0F; };
    glClearColor(level(paper.red), level(paper.green), level(paper.blue), 1.0F);
    glEnable(GL_SCISSOR_TEST);
    glScissor(part.left, size.height - part.bottom, part.right - part.left, part.bottom - part.top);
    glClear(GL_COLOR_BUFFER_BIT);
    glDisable(GL_SCISSOR_TEST);
}

}  // namespace

Painted ScreenPainter::paint(PixelSize size, Theme theme) {
    ImDrawData& frame = *ImGui::GetDrawData();
    const PixelBox all{0, 0, size.width, size.height};
    // Parts are told in px of the frame; where those are not the framebuffer's, all of it is drawn.
    const bool same_px = frame.FramebufferScale.x == 1.0F && frame.FramebufferScale.y == 1.0F;
    if (!same_px || theme_ != theme) forget();
    theme_ = theme;
    if (same_px) {
        const std::vector<PixelBox>& parts = changed_.compare(frame, size);
        if (parts.empty()) return Painted::nothing;
        for (const PixelBox& part : parts) lay_paper(part, size, theme);
        if (parts.front() != all) {
            for (int list = 0; list < frame.CmdListsCount; ++list)
                changed_.keep_parts(*frame.CmdLists[list], static_cast<std::size_t>(list));
        }
    } else {
        lay_paper(all, size, theme);
    }
    glViewport(0, 0, size.width, size.height);
    ImGui_ImplOpenGL3_RenderDrawData(&frame);
    return Painted::something;
}

}  // namespace footing
