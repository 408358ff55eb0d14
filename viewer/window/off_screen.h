#pragma once

#include <memory>

#include "acquisition/frame/result.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/picture.h"
#include "viewer/window/screen_painter.h"

namespace footing {

/// The longest side of a picture; what graphics drivers can hold.
inline constexpr int most_pixels = 8192;

/// The window's screen drawn into memory, by OpenGL without a display: frame by frame, as the window does.
/// One at a time on one thread.
class OffScreen {
  public:
    /// For a screen as large as `size` that shows states with `state`'s size of text. Fails with
    /// device_failed where there is no EGL, command_line for sizes without sense.
    [[nodiscard]] static Result<OffScreen> open(PixelSize size, const ViewState& state);
    OffScreen(OffScreen&&) noexcept;
    OffScreen& operator=(OffScreen&&) noexcept;
    ~OffScreen();

    /// Draws what changed since the last state that was drawn, and waits until it is drawn.
    Painted draw(const ViewState& state);
    /// The next state is drawn whole.
    void forget();
    /// What was drawn last.
    [[nodiscard]] Picture picture() const;

  private:
    struct Parts;
    explicit OffScreen(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

/// One picture of it.
[[nodiscard]] Result<Picture> draw_off_screen(const ViewState& state, PixelSize size);

}  // namespace footing
