#include "viewer/window/off_screen.h"

#include <EGL/egl.h>
#include <EGL/eglext.h>
#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <array>
#include <cfloat>
#include <memory>
#include <string>
#include <utility>

#include "viewer/panels/screen.h"
#include "viewer/window/frame_buffer.h"
#include "viewer/window/imgui_session.h"
#include "viewer/window/screen_painter.h"

namespace footing {

namespace {

Problem no_egl(const std::string& what) {
    return {ProblemKind::device_failed, "EGL", what,
            "install a graphics driver with EGL (Debian: libegl1 and libgl1-mesa-dri)"};
}

/// An OpenGL 3.3 context that needs no display and has no surface.
class Context {
  public:
    Context() = default;
    Context(const Context&) = delete;
    Context& operator=(const Context&) = delete;
    ~Context() {
        if (display_ == EGL_NO_DISPLAY) return;
        eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        if (context_ != EGL_NO_CONTEXT) eglDestroyContext(display_, context_);
        eglTerminate(display_);
    }

    [[nodiscard]] Outcome open() {
        display_ = eglGetPlatformDisplay(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
        if (display_ == EGL_NO_DISPLAY) display_ = eglGetDisplay(EGL_DEFAULT_DISPLAY);
        EGLint major = 0;
        EGLint minor = 0;
        if (display_ == EGL_NO_DISPLAY || !eglInitialize(display_, &major, &minor)) {
            display_ = EGL_NO_DISPLAY;
            return no_egl("this computer cannot draw without a display");
        }
        constexpr std::array<EGLint, 5> wanted{EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_SURFACE_TYPE, 0,
                                               EGL_NONE};
        EGLConfig config = nullptr;
        EGLint count = 0;
        if (!eglBindAPI(EGL_OPENGL_API) || !eglChooseConfig(display_, wanted.data(), &config, 1, &count) ||
            count < 1) {
            return no_egl("its graphics driver offers no OpenGL without a display");
        }
        constexpr std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION,
                                                3,
                                                EGL_CONTEXT_MINOR_VERSION,
                                                3,
                                                EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                                EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                                EGL_NONE};
        context_ = eglCreateContext(display_, config, EGL_NO_CONTEXT, version.data());
        if (context_ == EGL_NO_CONTEXT ||
            !eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, context_)) {
            return no_egl("its graphics driver offers no OpenGL 3.3");
        }
        return Done{};
    }

  private:
    EGLDisplay display_ = EGL_NO_DISPLAY;
    EGLContext context_ = EGL_NO_CONTEXT;
};

/// The OpenGL back end of Dear ImGui, as long as this lives.
class Drawing {
  public:
    Drawing() : works_(ImGui_ImplOpenGL3_Init("#version 330")) {}
    ~Drawing() {
        if (works_) ImGui_ImplOpenGL3_Shutdown();
    }
    Drawing(const Drawing&) = delete;
    Drawing& operator=(const Drawing&) = delete;
    [[nodiscard]] bool works() const { return works_; }

  private:
    bool works_;
};

}  // namespace

/// In the order in which they need each other.
struct OffScreen::Parts {
    PixelSize size;
    Context context;
    std::unique_ptr<FrameBuffer> target;
    std::unique_ptr<ImGuiSession> session;
    std::unique_ptr<Drawing> drawing;
    ScreenPainter painter;
};

OffScreen::OffScreen(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
OffScreen::OffScreen(OffScreen&&) noexcept = default;
OffScreen& OffScreen::operator=(OffScreen&&) noexcept = default;
OffScreen::~OffScreen() = default;

Result<OffScreen> OffScreen::open(PixelSize size, const ViewState& state) {
    if (size.width < 1 || size.height < 1 || size.width > most_pixels || size.height > most_pixels) {
        return Problem{ProblemKind::command_line, "--size", "the picture's size makes no sense",
                       "give width x height in pixels, for example 1920x1080, at most 8192 on a side"};
    }
    auto parts = std::make_unique<Parts>();
    parts->size = size;
    if (Outcome opened = parts->context.open(); !opened) return opened.problem();
    parts->target = std::make_unique<FrameBuffer>(size);
    if (!parts->target->complete()) return no_egl("its graphics driver cannot draw into memory");
    const auto width = static_cast<float>(size.width);
    const auto height = static_cast<float>(size.height);
    parts->session = std::make_unique<ImGuiSession>(scale_for(state, width, height));
    parts->drawing = std::make_unique<Drawing>();
    if (!parts->drawing->works()) return no_egl("its OpenGL is too old for the window's drawing");
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {width, height};
    io.DeltaTime = 1.0F / 60.0F;
    io.MousePos = {-FLT_MAX, -FLT_MAX};
    return OffScreen(std::move(parts));
}

Painted OffScreen::draw(const ViewState& state) {
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    static_cast<void>(draw_screen(state, parts_->session->fonts(), parts_->session->scale()));
    ImGui::Render();
    const Painted painted = parts_->painter.paint(parts_->size, state.theme);
    glFinish();
    return painted;
}

void OffScreen::forget() {
    parts_->painter.forget();
}

Picture OffScreen::picture() const {
    return parts_->target->read();
}

Result<Picture> draw_off_screen(const ViewState& state, PixelSize size) {
    Result<OffScreen> screen = OffScreen::open(size, state);
    if (!screen) return screen.problem();
    static_cast<void>(screen.value().draw(state));
    return screen.value().picture();
}

}  // namespace footing
