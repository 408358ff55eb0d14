#include "viewer/panels/touch.h"

#include <imgui.h>

namespace footing {

namespace {

Touch state_of_last_item(bool went_down) {
    if (went_down) return Touch::pressed;
    if (ImGui::IsItemActive()) return Touch::held;
    return ImGui::IsItemHovered() ? Touch::hovered : Touch::none;
}

bool place_item(const char* name, const Box& box) {
    if (box.width() < 1.0F || box.height() < 1.0F) return false;
    ImGui::SetCursorScreenPos({box.left, box.top});
    ImGui::InvisibleButton(name, {box.width(), box.height()});
    return true;
}

}  // namespace

Touch touch(const char* name, const Box& box) {
    if (!place_item(name, box)) return Touch::none;
    return state_of_last_item(ImGui::IsItemActivated());
}

Touch touch(int number, const Box& box) {
    ImGui::PushID(number);
    const Touch found = touch("item", box);
    ImGui::PopID();
    return found;
}

void explain(const char* sentence) {
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(ImGui::GetFontSize() * 24.0F);
    ImGui::TextUnformatted(sentence);
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

}  // namespace footing
