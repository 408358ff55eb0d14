#include "viewer/window/window.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <future>
#include <memory>
#include <utility>
#include <vector>

#include "acquisition/frame/clock.h"
#include "viewer/panels/screen.h"
#include "viewer/window/book_keeper.h"
#include "viewer/window/compare_keeper.h"
#include "viewer/window/imgui_session.h"
#include "viewer/window/key_events.h"
#include "viewer/window/mark_keeper.h"
#include "viewer/window/report_writer.h"
#include "viewer/window/sound_player.h"

namespace footing {

namespace {

constexpr int frames_after_change = 3;  // Dear ImGui needs a frame to see a change and one more to show it
constexpr double longest_sleep_s = 1.0;
constexpr double progress_period_s = 0.1;

/// What GLFW reported since the last frame.
struct Heard {
    std::vector<KeyPress> presses;
    std::vector<ViewAction> actions;
    int frames_to_draw = frames_after_change;
};

/// GLFW as long as this lives.
class Glfw {
  public:
    Glfw() : started_(glfwInit() == GLFW_TRUE) {}
    ~Glfw() {
        if (started_) glfwTerminate();
    }
    Glfw(const Glfw&) = delete;
    Glfw& operator=(const Glfw&) = delete;
    [[nodiscard]] bool started() const { return started_; }

  private:
    bool started_;
};

struct DestroyWindow {
    void operator()(GLFWwindow* window) const { glfwDestroyWindow(window); }
};
using WindowHandle = std::unique_ptr<GLFWwindow, DestroyWindow>;

Heard& heard_by(GLFWwindow* window) {
    return *static_cast<Heard*>(glfwGetWindowUserPointer(window));
}

void wake(GLFWwindow* window) {
    heard_by(window).frames_to_draw = frames_after_change;
}

/// Presses are taken as they come, not from the state of the keys at the next frame: a short press between
/// two frames counts.
void listen(GLFWwindow* window) {
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
        wake(from);
        if (count > 0) heard_by(from).actions.push_back(OpenFile{paths[0]});
    });
    glfwSetWindowCloseCallback(window, [](GLFWwindow* from) {
        wake(from);
        glfwSetWindowShouldClose(from, GLFW_FALSE);  // a lesson may have to be closed first
        heard_by(from).actions.push_back(CloseWindow{});
    });
    glfwSetCursorPosCallback(window, [](GLFWwindow* from, double, double) { wake(from); });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* from, int, int, int) { wake(from); });
    glfwSetScrollCallback(window, [](GLFWwindow* from, double, double) { wake(from); });
    glfwSetWindowRefreshCallback(window, wake);
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* from, int, int) { wake(from); });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* from, int) { wake(from); });
}

float scale_of(GLFWwindow* window, const ViewState& state) {
    int width = 0;
    int height = 0;
    float density_x = 1.0F;
    float density_y = 1.0F;
    glfwGetFramebufferSize(window, &width, &height);
    glfwGetWindowContentScale(window, &density_x, &density_y);
    return scale_for(state, static_cast<float>(width), static_cast<float>(height), std::max(density_x, 1.0F));
}

/// Draws `state` once and returns what the pointer asked for.
std::vector<ViewAction> draw(GLFWwindow* window, ImGuiSession& session, const ViewState& state) {
    const float scale = scale_of(window, state);
    // Faces are drawn anew for steps of 1/16, not for every px of a window being pulled.
    const float wanted = std::max(std::floor(scale * 16.0F), 4.0F) / 16.0F;
    if (wanted != session.scale()) {
        session.rescale(wanted);
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
    }
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
    ScreenDrawn drawn = draw_screen(state, session.fonts(), session.scale());
    ImGui::Render();
    int width = 0;
    int height = 0;
    glfwGetFramebufferSize(window, &width, &height);
    glViewport(0, 0, width, height);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glfwSwapBuffers(window);
    return std::move(drawn.asked);
}

std::string title_of(const ViewState& state) {
    if (state.book && state.front == Front::book)
        return std::string("Lesson book, ") + page_name(state.book->page) + " - Footing";
    if (state.front == Front::compare) return "Swings laid over each other - Footing";
    if (state.desk) return "Lesson - Footing";
    if (!state.lesson) return "Footing";
    return one_line(state.lesson->facts.file) + " - Footing";
}

/// What keys and pointer ask for, in the light of what each of them changed.
ViewState carry_out_heard(ViewState state, Heard& heard) {
    state = carry_out(std::move(state), std::exchange(heard.actions, {}));
    for (const KeyPress& press : std::exchange(heard.presses, {})) {
        state.notice.clear();
        if (const auto asked = action_for(press, state)) state = carry_out(std::move(state), *asked);
    }
    return state;
}

/// What works beside the drawing thread, each on a thread of its own.
struct Helpers {
    FileOpener reading;
    MarkKeeper marks;
    PlatesKeeper plates;
    LessonKeeper lesson;
    BookKeeper book;
    ReportWriter report;
    CompareKeeper compare;
    SoundPlayer sounds;

    [[nodiscard]] bool step(ViewState& state) {
        bool changed = plates.step(state);
        if (plates.is_free()) changed = lesson.step(state) || changed;
        changed = compare.step(state) || changed;
        changed = book.step(state) || changed;
        changed = report.step(state) || changed;
        changed = marks.step(state) || changed;
        return reading.step(state) || changed;
    }
    /// Nothing would be lost if the window went now.
    [[nodiscard]] bool are_done(const ViewState& state) const {
        return lesson.is_over(state) && marks.is_settled(state);
    }
};

/// Returns the state in which the window was closed.
ViewState loop(GLFWwindow* window, ImGuiSession& session, Heard& heard, ViewState state, Helpers& helpers,
               const std::atomic<bool>* end_asked) {
    const SystemClock clock;
    std::int64_t last_ns = clock.steady_ns();
    std::string title;
    while (state.life == WindowLife::open || !helpers.are_done(state)) {
        if (state.playing == Playing::running || heard.frames_to_draw > 0) {
            glfwPollEvents();
        } else {
            glfwWaitEventsTimeout(helpers.reading.is_reading() ? progress_period_s : longest_sleep_s);
        }
        const SoundCues before = sound_cues(state);
        const std::int64_t now_ns = clock.steady_ns();
        state = advance(std::move(state), static_cast<double>(now_ns - last_ns) * seconds_per_ns);
        last_ns = now_ns;
        state = carry_out_heard(std::move(state), heard);
        if (end_asked && *end_asked) state = carry_out(std::move(state), CloseForSure{});
        const bool changed = helpers.step(state);
        if (const auto sound = sound_for(before, sound_cues(state))) helpers.sounds.play(*sound);
        if (changed) heard.frames_to_draw = std::max(heard.frames_to_draw, 2);
        if (const std::string wanted = title_of(state); wanted != title) {
            title = wanted;
            glfwSetWindowTitle(window, title.c_str());
        }
        if (state.playing != Playing::running && heard.frames_to_draw == 0) continue;
        if (glfwGetWindowAttrib(window, GLFW_ICONIFIED) == GLFW_TRUE) {
            heard.frames_to_draw = 0;
            glfwWaitEventsTimeout(longest_sleep_s);
            continue;
        }
        const std::vector<ViewAction> asked = draw(window, session, state);
        heard.frames_to_draw = asked.empty() ? std::max(heard.frames_to_draw - 1, 0) : frames_after_change;
        state = carry_out(std::move(state), asked);
    }
    return state;
}

}  // namespace

Outcome run_window(ViewState start, const LessonLoader& load, const FirstLook& first_look, LessonWork work) {
    glfwSetErrorCallback(nullptr);
    const Glfw glfw;
    if (!glfw.started()) {
        return Problem{ProblemKind::device_failed, "display", "there is none to open a window on",
                       "start it from a desktop; \"footing view FILE --screenshot FILE.png\" draws a picture "
                       "without one"};
    }
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
    glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
    const WindowHandle window(
        glfwCreateWindow(work.size.width, work.size.height, "Footing", nullptr, nullptr));
    if (!window) {
        return Problem{ProblemKind::device_failed, "display", "it offers no OpenGL 3.3 to draw with",
                       "update the graphics driver, or draw a picture with --screenshot FILE.png"};
    }
    glfwMakeContextCurrent(window.get());
    glfwSwapInterval(1);
    glfwSetWindowSizeLimits(window.get(), 640, 400, GLFW_DONT_CARE, GLFW_DONT_CARE);

    Heard heard;
    glfwSetWindowUserPointer(window.get(), &heard);
    listen(window.get());
    ImGuiSession session(scale_of(window.get(), start));
    ImGui_ImplGlfw_InitForOpenGL(window.get(), true);  // hands on to the callbacks above
    ImGui_ImplOpenGL3_Init("#version 330");
    const SystemClock clock;
    std::vector<BinItem> bin;
    {
        Helpers helpers{{load, first_look, glfwPostEmptyEvent},
                        {load, glfwPostEmptyEvent},
                        {work.listen, clock, glfwPostEmptyEvent},
                        {work.start, load, work.book, glfwPostEmptyEvent},
                        {work.book, work.plates, clock, glfwPostEmptyEvent},
                        ReportWriter(glfwPostEmptyEvent),
                        CompareKeeper(load, glfwPostEmptyEvent),
                        {}};
        if (!work.book.empty()) start.book.emplace(start.book.value_or(BookDesk{}));
        if (work.begin_with) helpers.lesson.begin(*work.begin_with, start);
        const ViewState end = loop(window.get(), session, heard, std::move(start), helpers, work.end_asked);
        if (end.book) bin = bin_of(*end.book);
        if (work.left) {
            PixelSize size;
            glfwGetWindowSize(window.get(), &size.width, &size.height);
            work.left(end, size);
        }
    }
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    if (bin.empty()) return Done{};
    const auto emptied = empty_bin(work.book, bin);
    if (!emptied) return emptied.problem();
    if (work.tell) {
        for (const std::string& sentence : emptied.value()) work.tell(sentence);
    }
    return Done{};
}

}  // namespace footing
