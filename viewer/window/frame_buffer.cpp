#define GL_GLEXT_PROTOTYPES
#include "viewer/window/frame_buffer.h"

#include <GL/gl.h>
#include <GL/glext.h>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace footing {

FrameBuffer::FrameBuffer(PixelSize size) : size_(size) {
    glGenFramebuffers(1, &frame_);
    glBindFramebuffer(GL_FRAMEBUFFER, frame_);
    glGenTextures(1, &colour_);
    glBindTexture(GL_TEXTURE_2D, colour_);
    // The order of colours that windows have: then show() is a copy of bytes.
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, size.width, size.height, 0, GL_BGRA, GL_UNSIGNED_BYTE, nullptr);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAX_LEVEL, 0);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, colour_, 0);
}

FrameBuffer::~FrameBuffer() {
    glDeleteTextures(1, &colour_);
    glDeleteFramebuffers(1, &frame_);
}

bool FrameBuffer::complete() const {
    return glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
}

void FrameBuffer::bind() const {
    glBindFramebuffer(GL_FRAMEBUFFER, frame_);
}

void FrameBuffer::show() const {
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
    glBlitFramebuffer(0, 0, size_.width, size_.height, 0, 0, size_.width, size_.height, GL_COLOR_BUFFER_BIT,
                      GL_NEAREST);
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, frame_);
}

Picture FrameBuffer::read() const {
    const auto width = static_cast<std::size_t>(size_.width);
    const auto height = static_cast<std::size_t>(size_.height);
    std::vector<std::uint8_t> upwards(3 * width * height);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, size_.width, size_.height, GL_RGB, GL_UNSIGNED_BYTE, upwards.data());
    Picture picture{size_, {}};
    picture.rgb.reserve(upwards.size());
    for (std::size_t row = height; row-- > 0;) {
        const auto from = upwards.begin() + static_cast<std::ptrdiff_t>(3 * width * row);
        picture.rgb.insert(picture.rgb.end(), from, from + static_cast<std::ptrdiff_t>(3 * width));
    }
    return picture;
}

}  // namespace footing
