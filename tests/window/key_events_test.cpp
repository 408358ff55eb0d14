#include "viewer/window/key_events.h"

#include <GLFW/glfw3.h>
#include <doctest/doctest.h>

using namespace footing;

TEST_CASE("keys that type nothing are heard by name, with shift") {
    CHECK(key_press(GLFW_KEY_LEFT, 0) == KeyPress{0, NamedKey::left, Modifier::none});
    CHECK(key_press(GLFW_KEY_RIGHT, GLFW_MOD_SHIFT) == KeyPress{0, NamedKey::right, Modifier::shift});
    CHECK(key_press(GLFW_KEY_PAGE_DOWN, 0) == KeyPress{0, NamedKey::page_down, Modifier::none});
}

TEST_CASE("letters come as characters, and with control as keys; never both") {
    CHECK_FALSE(key_press(GLFW_KEY_L, 0).has_value());
    CHECK_FALSE(key_press(GLFW_KEY_SPACE, 0).has_value());
    CHECK(key_press(GLFW_KEY_Q, GLFW_MOD_CONTROL) == KeyPress{U'q', NamedKey::none, Modifier::control});
}
