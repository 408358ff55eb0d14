#pragma once

#include <imgui.h>

#include <cfloat>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "tests/support/lesson_sample.h"
#include "viewer/panels/screen.h"
#include "viewer/panels/view_action.h"

namespace footing::bench {

inline std::shared_ptr<const LessonResult> shared(LessonResult lesson) {
    return std::make_shared<const LessonResult>(std::move(lesson));
}

/// The faces for one scale, drawn once for all tests.
struct Faces {
    ImFontAtlas atlas;
    Fonts fonts;
};

inline Faces& faces_for(float scale) {
    static std::map<float, std::unique_ptr<Faces>> drawn;
    std::unique_ptr<Faces>& faces = drawn[scale];
    if (!faces) {
        faces = std::make_unique<Faces>();
        faces->fonts = add_fonts(faces->atlas, find_fonts(), scale);
    }
    return *faces;
}

/// The screen without a window: a Dear ImGui context that draws into nothing, and a pointer that tests move.
class ScreenBench {
  public:
    ScreenBench(float width, float height, float text_size = 1.0F)
        : faces_(faces_for(screen_scale(width, height, 1.0F, text_size))),
          scale_(screen_scale(width, height, 1.0F, text_size)),
          context_(ImGui::CreateContext(&faces_.atlas)) {
        ImGui::SetCurrentContext(context_);
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {width, height};
        io.DeltaTime = 1.0F / 60.0F;
        io.MousePos = {-FLT_MAX, -FLT_MAX};
    }
    ~ScreenBench() { ImGui::DestroyContext(context_); }
    ScreenBench(const ScreenBench&) = delete;
    ScreenBench& operator=(const ScreenBench&) = delete;

    ScreenDrawn draw(const ViewState& state) {
        ImGui::NewFrame();
        ScreenDrawn drawn = draw_screen(state, faces_.fonts, scale_);
        ImGui::Render();
        ImGui::GetIO().MouseWheel = 0.0F;
        return drawn;
    }

    /// Draws, and does what the pointer asked for.
    ViewState step(ViewState state) {
        const ScreenDrawn drawn = draw(state);
        return carry_out(std::move(state), drawn.asked);
    }

    /// A press at a place of the screen and a release there, with the frames that a window would draw
    /// meanwhile.
    ViewState click(ViewState state, float x, float y) {
        ImGui::GetIO().MousePos = {x, y};
        state = step(std::move(state));
        ImGui::GetIO().MouseDown[0] = true;
        state = step(std::move(state));
        ImGui::GetIO().MouseDown[0] = false;
        return step(std::move(state));
    }

    /// A press at one place, moved to another, released there.
    ViewState drag(ViewState state, ImVec2 from, ImVec2 to) {
        ImGui::GetIO().MousePos = from;
        state = step(std::move(state));
        ImGui::GetIO().MouseDown[0] = true;
        state = step(std::move(state));
        ImGui::GetIO().MousePos = to;
        state = step(std::move(state));
        ImGui::GetIO().MouseDown[0] = false;
        return step(std::move(state));
    }

    /// Turns the wheel over a place, positive upwards.
    ViewState wheel(ViewState state, float x, float y, float turns) {
        ImGui::GetIO().MousePos = {x, y};
        state = step(std::move(state));
        ImGui::GetIO().MouseWheel = turns;
        return step(std::move(state));
    }

    /// Clicks on the first text that reads so.
    ViewState click_text(ViewState state, const std::string& text) {
        const ScreenDrawn drawn = draw(state);
        for (const PlacedText& placed : drawn.texts) {
            if (placed.text == text)
                return click(std::move(state), placed.drawn.middle_x(), placed.drawn.middle_y());
        }
        return state;
    }

  private:
    Faces& faces_;
    float scale_;
    ImGuiContext* context_;
};

}  // namespace footing::bench
