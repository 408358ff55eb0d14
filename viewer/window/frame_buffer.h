#pragma once

#include "viewer/window/picture.h"

namespace footing {

/// A picture that OpenGL draws into instead of the window, and that stays: the window's own is not there any
/// more after each swap. Needs a current context from construction to destruction.
class FrameBuffer {
  public:
    /// Bound for drawing from here on.
    explicit FrameBuffer(PixelSize size);
    ~FrameBuffer();
    FrameBuffer(const FrameBuffer&) = delete;
    FrameBuffer& operator=(const FrameBuffer&) = delete;

    [[nodiscard]] PixelSize size() const { return size_; }
    /// The driver can draw into it.
    [[nodiscard]] bool complete() const;
    /// What is drawn goes into it.
    void bind() const;
    /// Copies the picture to the window's back buffer, of the same size; bound for drawing as before.
    void show() const;
    [[nodiscard]] Picture read() const;

  private:
    PixelSize size_;
    unsigned frame_ = 0;
    unsigned colour_ = 0;
};

}  // namespace footing
