#pragma once

#include <imgui.h>

#include <string>
#include <string_view>
#include <vector>

#include "analysis/report/figure.h"
#include "analysis/report/theme.h"
#include "viewer/panels/box.h"
#include "viewer/panels/fonts.h"

namespace footing {

enum class Cut { whole, shortened };

/// A text as it came to stand on the screen; tests look for collisions and for words cut off.
struct PlacedText {
    std::string text;
    Box drawn;    ///< what the text covers
    Box allowed;  ///< where its panel lets it stand
    Cut cut = Cut::whole;
    std::string panel;
};

/// Draws in the colours of a theme and the four sizes of text. Positions are px of the screen; lengths that
/// belong to the design (line widths, radii, gaps) are px of the design, times `scale`.
class ScreenCanvas {
  public:
    ScreenCanvas(ImDrawList& list, const Fonts& fonts, Theme theme, float scale,
                 std::vector<PlacedText>& placed);

    [[nodiscard]] float px(float design_px) const;  ///< to whole px of the screen
    [[nodiscard]] float scale() const { return scale_; }
    [[nodiscard]] Theme theme() const { return theme_; }
    [[nodiscard]] ImU32 colour(Ink ink, double opacity = 1.0) const;
    [[nodiscard]] ImDrawList& list() const { return *list_; }
    [[nodiscard]] std::vector<PlacedText>& placed() const { return *placed_; }

    /// The panel that the following texts belong to, for tests.
    void enter(std::string panel) { panel_ = std::move(panel); }

    [[nodiscard]] float text_width(std::string_view text, TextSize size,
                                   TextWeight weight = TextWeight::regular) const;
    [[nodiscard]] float text_height(
        TextSize size) const;  ///< from the top of an accent to the foot of a descender

    /// One line of text, in the middle of the box's height, at its left, middle or right. A text that is
    /// wider than the box is shortened and ends in "…". Returns what it covers.
    Box text(const Box& box, std::string_view text, TextSize size, Ink ink, Align align = Align::left,
             TextWeight weight = TextWeight::regular);

    /// One line of text on a baseline, never shortened, `enlarged` times its size; for figures.
    void text_on_baseline(ImVec2 at, std::string_view text, TextSize size, TextWeight weight, Align align,
                          Ink ink, const Box& allowed, float enlarged = 1.0F);

    /// One line in one of the two large faces, at the left and top of the box, as large as the box holds.
    /// Returns what it covers.
    enum class LargeFace { words, digits };
    Box large_text(const Box& box, std::string_view text, LargeFace face, Ink ink);

    /// The text broken at its spaces to lines of that width; a word that is wider loses its middle, so that a
    /// path keeps its folder's beginning and the file's name.
    [[nodiscard]] std::vector<std::string> lines_of(std::string_view text, float width_px, TextSize size,
                                                    TextWeight weight = TextWeight::regular) const;
    /// As much of both ends as that width holds, with "…" between them where something had to go.
    [[nodiscard]] std::string without_middle(std::string_view text, float width_px, TextSize size,
                                             TextWeight weight = TextWeight::regular) const;

    /// Lines of words broken to the box's width, from its top. Returns the y below the last line.
    float paragraph(const Box& box, std::string_view text, TextSize size, Ink ink,
                    TextWeight weight = TextWeight::regular);

    void line(ImVec2 from, ImVec2 to, Ink ink, float width = 1.0F, double opacity = 1.0);
    void fill(const Box& box, Ink ink, double opacity = 1.0, float rounding = 0.0F);
    void frame(const Box& box, Ink ink, float width = 1.0F, float rounding = 0.0F);
    void mark(ImVec2 at, MarkShape shape, float radius, Ink ink, double opacity = 1.0);

  private:
    ImDrawList* list_;
    const Fonts* fonts_;
    Theme theme_;
    float scale_;
    std::vector<PlacedText>* placed_;
    std::string panel_;
};

/// One line that can be drawn: without control characters, line breaks and marks that turn the direction of
/// writing.
[[nodiscard]] std::string one_line(std::string_view text);

}  // namespace footing
