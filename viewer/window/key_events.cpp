#include "viewer/window/key_events.h"

#include <GLFW/glfw3.h>

namespace footing {

namespace {

NamedKey named_key(int glfw_key) {
    switch (glfw_key) {
        case GLFW_KEY_LEFT:
            return NamedKey::left;
        case GLFW_KEY_RIGHT:
            return NamedKey::right;
        case GLFW_KEY_UP:
            return NamedKey::up;
        case GLFW_KEY_DOWN:
            return NamedKey::down;
        case GLFW_KEY_PAGE_UP:
            return NamedKey::page_up;
        case GLFW_KEY_PAGE_DOWN:
            return NamedKey::page_down;
        case GLFW_KEY_HOME:
            return NamedKey::home;
        case GLFW_KEY_END:
            return NamedKey::end;
        case GLFW_KEY_ESCAPE:
            return NamedKey::escape;
        case GLFW_KEY_ENTER:
        case GLFW_KEY_KP_ENTER:
            return NamedKey::enter;
        case GLFW_KEY_BACKSPACE:
            return NamedKey::backspace;
        case GLFW_KEY_TAB:
            return NamedKey::tab;
        case GLFW_KEY_DELETE:
            return NamedKey::erase;
        default:
            return NamedKey::none;
    }
}

}  // namespace

std::optional<KeyPress> key_press(int glfw_key, int glfw_modifiers) {
    const bool control = (glfw_modifiers & GLFW_MOD_CONTROL) != 0;
    const bool shift = (glfw_modifiers & GLFW_MOD_SHIFT) != 0;
    const NamedKey key = named_key(glfw_key);
    if (key != NamedKey::none) return KeyPress{0, key, shift ? Modifier::shift : Modifier::none};
    if (control && glfw_key >= GLFW_KEY_A && glfw_key <= GLFW_KEY_Z) {
        const auto letter = U'a' + static_cast<char32_t>(glfw_key - GLFW_KEY_A);
        return KeyPress{letter, NamedKey::none, Modifier::control};
    }
    if (control && glfw_key >= GLFW_KEY_1 && glfw_key <= GLFW_KEY_9) {
        const auto digit = U'1' + static_cast<char32_t>(glfw_key - GLFW_KEY_1);
        return KeyPress{digit, NamedKey::none, Modifier::control};
    }
    if (!control) return std::nullopt;
    switch (glfw_key) {
        case GLFW_KEY_EQUAL:
        case GLFW_KEY_KP_ADD:
            return KeyPress{U'+', NamedKey::none, Modifier::control};
        case GLFW_KEY_MINUS:
        case GLFW_KEY_KP_SUBTRACT:
            return KeyPress{U'-', NamedKey::none, Modifier::control};
        case GLFW_KEY_0:
        case GLFW_KEY_KP_0:
            return KeyPress{U'0', NamedKey::none, Modifier::control};
        default:
            return std::nullopt;
    }
}

}  // namespace footing
