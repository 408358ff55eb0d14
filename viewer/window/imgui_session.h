#pragma once

#include "viewer/panels/fonts.h"

struct ImGuiContext;

namespace footing {

/// One Dear ImGui context with the program's fonts; made current on construction, gone with the object.
/// Writes no files.
class ImGuiSession {
  public:
    explicit ImGuiSession(float scale);
    ~ImGuiSession();
    ImGuiSession(const ImGuiSession&) = delete;
    ImGuiSession& operator=(const ImGuiSession&) = delete;

    [[nodiscard]] const Fonts& fonts() const { return fonts_; }
    [[nodiscard]] float scale() const { return scale_; }

    /// Draws the faces anew for another scale. Whoever holds a texture of them must make a new one.
    void rescale(float scale);

  private:
    ImGuiContext* context_;
    FontFiles files_;
    Fonts fonts_;
    float scale_;
};

}  // namespace footing
