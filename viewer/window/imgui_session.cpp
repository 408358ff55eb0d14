#include "viewer/window/imgui_session.h"

#include <imgui.h>

namespace footing {

ImGuiSession::ImGuiSession(float scale)
    : context_(ImGui::CreateContext()), files_(find_fonts()), scale_(scale) {
    ImGui::SetCurrentContext(context_);
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().LogFilename = nullptr;
    ImGui::GetStyle().WindowRounding = 0.0F;
    ImGui::GetStyle().PopupRounding = 4.0F;
    ImGui::GetStyle().AntiAliasedLinesUseTex = false;  // lines of 1.5 px and wider blur from the texture
    rescale(scale);
}

ImGuiSession::~ImGuiSession() {
    ImGui::DestroyContext(context_);
}

void ImGuiSession::rescale(float scale) {
    scale_ = scale;
    fonts_ = add_fonts(*ImGui::GetIO().Fonts, files_, scale);
    ImGui::GetStyle().WindowPadding = {12.0F * scale, 8.0F * scale};
    ImGui::GetStyle().CurveTessellationTol = 0.5F;
}

}  // namespace footing
