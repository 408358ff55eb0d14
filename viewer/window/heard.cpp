#include "viewer/window/heard.h"

#include <GLFW/glfw3.h>

#include <optional>
#include <utility>

#include "viewer/window/key_events.h"

namespace footing {

namespace {

Heard& heard_by(GLFWwindow* window) {
    return *static_cast<Heard*>(glfwGetWindowUserPointer(window));
}

void wake(GLFWwindow* window) {
    heard_by(window).wake();
}

}  // namespace

void Heard::take_drop(int count, const char* const* paths) {
    wake();
    if (count > 0) actions.push_back(OpenFile{paths[0]});
}

/// Presses are taken as they come, not from the state of the keys at the next frame: a short press between
/// two frames counts.
void listen(GLFWwindow* window, Heard& heard) {
    glfwSetWindowUserPointer(window, &heard);
    glfwSetKeyCallback(window, [](GLFWwindow* from, int key, int, int action, int modifiers) {
        wake(from);
        if (action == GLFW_RELEASE) return;
        if (const auto press = key_press(key, modifiers)) heard_by(from).presses.push_back(*press);
    });
    glfwSetCharCallback(window, [](GLFWwindow* from, unsigned int character) {
        wake(from);
        heard_by(from).presses.push_back(
            KeyPress{static_cast<char32_t>(character), NamedKey::none, Modifier::none});
    });
    glfwSetDropCallback(window, [](GLFWwindow* from, int count, const char** paths) {
        heard_by(from).take_drop(count, paths);
    });
    glfwSetWindowCloseCallback(window, [](GLFWwindow* from) {
        wake(from);
        glfwSetWindowShouldClose(from, GLFW_FALSE);  // a lesson may have to be closed first
        heard_by(from).actions.push_back(CloseWindow{});
    });
    glfwSetCursorPosCallback(window, [](GLFWwindow* from, double, double) { wake(from); });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* from, int, int, int) { wake(from); });
    glfwSetScrollCallback(window, [](GLFWwindow* from, double, double) { wake(from); });
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* from) {
        wake(from);
        heard_by(from).surface = Surface::lost;
    });
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* from, int, int) {
        wake(from);
        heard_by(from).surface = Surface::lost;
    });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* from, int) { wake(from); });
}

ViewState carry_out_heard(ViewState state, Heard& heard) {
    state = carry_out(std::move(state), std::exchange(heard.actions, {}));
    for (const KeyPress& press : std::exchange(heard.presses, {})) {
        state.notice.clear();
        if (const auto asked = action_for(press, state)) state = carry_out(std::move(state), *asked);
    }
    return state;
}

}  // namespace footing
