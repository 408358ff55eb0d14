#include "viewer/window/window.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "acquisition/frame/clock.h"
#include "viewer/panels/screen.h"
#include "viewer/window/book_keeper.h"
#include "viewer/window/compare_keeper.h"
#include "viewer/window/frame_buffer.h"
#include "viewer/window/heard.h"
#include "viewer/window/imgui_session.h"
#include "viewer/window/mark_keeper.h"
#include "viewer/window/report_writer.h"
#include "viewer/window/screen_painter.h"
#include "viewer/window/sound_player.h"

namespace footing {

namespace {

constexpr double longest_sleep_s = 1.0;
constexpr double progress_period_s = 0.1;
constexpr double frame_period_s = 1.0 / 60.0;

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

/// What is drawn on, in px, and how many of them one px of an ordinary screen is.
struct Surroundings {
    float width = 0.0F;
    float height = 0.0F;
    float density = 1.0F;
};

Surroundings surroundings_of(GLFWwindow* window) {
    int width = 0;
    int height = 0;
    float density_x = 1.0F;
    float density_y = 1.0F;
    glfwGetFramebufferSize(window, &width, &height);
    glfwGetWindowContentScale(window, &density_x, &density_y);
    return {static_cast<float>(width), static_cast<float>(height), std::max(density_x, 1.0F)};
}

float scale_of(GLFWwindow* window, const ViewState& state) {
    const Surroundings now = surroundings_of(window);
    return scale_for(state, now.width, now.height, now.density);
}

/// What is drawn on, and how: it keeps the last frame, so that the next one need not be drawn whole.
struct Easel {
    GLFWwindow* window;
    ImGuiSession& session;
    ScreenPainter painter;
    std::optional<FrameBuffer> last_frame;
};

/// Faces for another scale, where the window now wants one; drawn anew for steps of 1/16, not for every px of
/// a window being pulled.
void fit_fonts(Easel& easel, float scale) {
    const float wanted = std::max(std::floor(scale * 16.0F), 4.0F) / 16.0F;
    if (wanted == easel.session.scale()) return;
    easel.session.rescale(wanted);
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
    easel.painter.forget();
}

/// The frame that Dear ImGui made, to the window: only what changed is drawn, and where nothing did, nothing
/// is shown anew.
Painted show_frame(Easel& easel, Theme theme, Surface surface) {
    PixelSize size;
    glfwGetFramebufferSize(easel.window, &size.width, &size.height);
    if (size.width < 1 || size.height < 1) return Painted::nothing;
    if (!easel.last_frame || easel.last_frame->size() != size) {
        easel.last_frame.emplace(size);
        easel.painter.forget();
    }
    easel.last_frame->bind();
    const Painted painted = easel.painter.paint(size, theme);
    if (painted == Painted::nothing && surface == Surface::shows_last_frame) return painted;
    easel.last_frame->show();
    glfwSwapBuffers(easel.window);
    return Painted::something;
}

struct Drawn {
    std::vector<ViewAction> asked;  ///< with the pointer
    Painted painted = Painted::nothing;
};

/// Draws `state` once.
Drawn draw(Easel& easel, const ViewState& state, Surface surface) {
    fit_fonts(easel, scale_of(easel.window, state));
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
    ScreenDrawn drawn = draw_screen(state, easel.session.fonts(), easel.session.scale());
    ImGui::Render();
    return {std::move(drawn.asked), show_frame(easel, state.theme, surface)};
}

std::string title_of(const ViewState& state) {
    if (state.book && state.front == Front::book)
        return std::string("Lesson book, ") + page_name(state.book->page) + " - Footing";
    if (state.front == Front::compare) return "Swings laid over each other - Footing";
    if (state.desk) return "Lesson - Footing";
    if (!state.lesson) return "Footing";
    return one_line(state.lesson->facts.file) + " - Footing";
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

/// Sleeps until something is to be drawn. A running head is drawn 60 times a second, however fast the screen
/// is (and where nothing of it moved, there is no swap to wait for).
void wait_for_events(const ViewState& state, const Heard& heard, const Helpers& helpers,
                     double since_drawn_s) {
    if (heard.frames_to_draw > 0) {
        glfwPollEvents();
    } else if (state.playing == Playing::running) {
        glfwWaitEventsTimeout(std::max(frame_period_s - since_drawn_s, 0.0));
    } else {
        glfwWaitEventsTimeout(helpers.reading.is_reading() ? progress_period_s : longest_sleep_s);
    }
}

/// Returns the state in which the window was closed.
ViewState loop(Easel& easel, Heard& heard, ViewState state, Helpers& helpers,
               const std::atomic<bool>* end_asked) {
    const SystemClock clock;
    std::int64_t last_ns = clock.steady_ns();
    std::int64_t drawn_ns = last_ns;
    std::string title;
    while (state.life == WindowLife::open || !helpers.are_done(state)) {
        wait_for_events(state, heard, helpers,
                        static_cast<double>(clock.steady_ns() - drawn_ns) * seconds_per_ns);
        const SoundCues before = sound_cues(state);
        const std::int64_t now_ns = clock.steady_ns();
        state = advance(std::move(state), static_cast<double>(now_ns - last_ns) * seconds_per_ns);
        last_ns = now_ns;
        const Surroundings now = surroundings_of(easel.window);
        if (now.width >= 1.0F && now.height >= 1.0F)
            state.text_room = room_for_text(now.width, now.height, now.density);
        state = carry_out_heard(std::move(state), heard);
        if (end_asked && *end_asked) state = carry_out(std::move(state), CloseForSure{});
        const bool changed = helpers.step(state);
        if (const auto sound = sound_for(before, sound_cues(state))) helpers.sounds.play(*sound);
        if (changed) heard.frames_to_draw = std::max(heard.frames_to_draw, 2);
        if (const std::string wanted = title_of(state); wanted != title) {
            title = wanted;
            glfwSetWindowTitle(easel.window, title.c_str());
        }
        if (state.playing != Playing::running && heard.frames_to_draw == 0) continue;
        if (glfwGetWindowAttrib(easel.window, GLFW_ICONIFIED) == GLFW_TRUE) {
            heard.frames_to_draw = 0;
            glfwWaitEventsTimeout(longest_sleep_s);
            continue;
        }
        drawn_ns = clock.steady_ns();
        const Drawn drawn = draw(easel, state, std::exchange(heard.surface, Surface::shows_last_frame));
        heard.frames_to_draw =
            drawn.asked.empty() ? std::max(heard.frames_to_draw - 1, 0) : frames_after_change;
        state = carry_out(std::move(state), drawn.asked);
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
    listen(window.get(), heard);
    ImGuiSession session(scale_of(window.get(), start));
    ImGui_ImplGlfw_InitForOpenGL(window.get(), true);  // hands on to the callbacks above
    ImGui_ImplOpenGL3_Init("#version 330");
    Easel easel{window.get(), session, {}, {}};
    const SystemClock clock;
    std::vector<BinItem> bin;
    {
        Helpers helpers{{load, first_look, glfwPostEmptyEvent},
                        {load, glfwPostEmptyEvent},
                        {work.listen, clock, glfwPostEmptyEvent},
                        {work.start, load, work.book, glfwPostEmptyEvent, work.desk},
                        {work.book, work.plates, clock, glfwPostEmptyEvent},
                        ReportWriter(glfwPostEmptyEvent),
                        CompareKeeper(load, glfwPostEmptyEvent),
                        {}};
        if (!work.book.empty()) start.book.emplace(start.book.value_or(BookDesk{}));
        if (work.begin_with) helpers.lesson.begin(*work.begin_with, start);
        const ViewState end = loop(easel, heard, std::move(start), helpers, work.end_asked);
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
