#include "viewer/panels/screen_canvas.h"

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <utility>

#include "analysis/report/mark_outline.h"

namespace footing {

namespace {

constexpr float most_enlarged = 1.8F;  // of a heading's face

constexpr std::string_view ellipsis = "…";

ImVec2 measure(const ImFont& font, std::string_view text) {
    return font.CalcTextSizeA(font.FontSize, FLT_MAX, 0.0F, text.data(), text.data() + text.size());
}

bool starts_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

/// Bytes of the UTF-8 sequence at the front of `text` that must not be drawn; 0 when it may.
std::size_t undrawable(std::string_view text) {
    const auto first = static_cast<unsigned char>(text[0]);
    if (first < 0x20U || first == 0x7FU) return 1;
    if (text.size() >= 2 && first == 0xC2U && static_cast<unsigned char>(text[1]) < 0xA0U) return 2;
    if (text.size() < 3 || first != 0xE2U) return 0;
    const auto second = static_cast<unsigned char>(text[1]);
    const auto third = static_cast<unsigned char>(text[2]);
    // U+200B..U+200F, U+2028..U+202E, U+2060..U+206F
    const bool hidden =
        (second == 0x80U && ((third >= 0x8BU && third <= 0x8FU) || (third >= 0xA8U && third <= 0xAEU))) ||
        (second == 0x81U && third >= 0xA0U && third <= 0xAFU);
    return hidden ? 3 : 0;
}

}  // namespace

std::string one_line(std::string_view text) {
    std::string clean;
    clean.reserve(text.size());
    while (!text.empty()) {
        const std::size_t skipped = undrawable(text);
        if (skipped > 0) {
            if (!clean.empty() && clean.back() != ' ') clean += ' ';
            text.remove_prefix(skipped);
        } else {
            clean += text.front();
            text.remove_prefix(1);
        }
    }
    return clean;
}

ScreenCanvas::ScreenCanvas(ImDrawList& list, const Fonts& fonts, Theme theme, float scale,
                           std::vector<PlacedText>& placed)
    : list_(&list), fonts_(&fonts), theme_(theme), scale_(scale), placed_(&placed) {}

float ScreenCanvas::px(float design_px) const {
    return std::round(design_px * scale_);
}

ImU32 ScreenCanvas::colour(Ink ink, double opacity) const {
    const Colour rgb = colour_of(ink, theme_);
    return IM_COL32(rgb.red, rgb.green, rgb.blue, static_cast<int>(std::lround(opacity * 255.0)));
}

float ScreenCanvas::text_width(std::string_view text, TextSize size, TextWeight weight) const {
    return measure(*fonts_->face(size, weight), text).x;
}

float ScreenCanvas::text_height(TextSize size) const {
    return fonts_->face(size, TextWeight::regular)->FontSize;
}

Box ScreenCanvas::text(const Box& box, std::string_view text, TextSize size, Ink ink, Align align,
                       TextWeight weight) {
    ImFont& font = *fonts_->face(size, weight);
    std::string shown = one_line(text);
    Cut cut = Cut::whole;
    if (measure(font, shown).x > box.width() + 0.5F) {
        cut = Cut::shortened;
        while (!shown.empty() && measure(font, shown + std::string(ellipsis)).x > box.width()) {
            do {
                shown.pop_back();
            } while (!shown.empty() && !starts_character(shown.back()));
            // The loop above leaves the first byte of the character that went.
            if (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0x80U) != 0U) shown.pop_back();
        }
        shown += ellipsis;
    }
    const ImVec2 extent = measure(font, shown);
    float x = box.left;
    if (align == Align::middle) x = box.middle_x() - extent.x / 2.0F;
    if (align == Align::right) x = box.right - extent.x;
    x = std::round(x);
    const float y = std::round(box.middle_y() - extent.y / 2.0F);
    list_->AddText(&font, font.FontSize, {x, y}, colour(ink), shown.c_str());
    const Box drawn{x, y, x + extent.x, y + extent.y};
    placed_->push_back({shown, drawn, box, cut, panel_});
    return drawn;
}

void ScreenCanvas::text_on_baseline(ImVec2 at, std::string_view text, TextSize size, TextWeight weight,
                                    Align align, Ink ink, const Box& allowed, float enlarged) {
    ImFont& font = *fonts_->face(size, weight);
    const std::string shown = one_line(text);
    const float size_px = font.FontSize * enlarged;
    const ImVec2 extent = font.CalcTextSizeA(size_px, FLT_MAX, 0.0F, shown.c_str());
    float x = at.x;
    if (align == Align::middle) x -= extent.x / 2.0F;
    if (align == Align::right) x -= extent.x;
    x = std::round(x);
    const float y = std::round(at.y - font.Ascent * enlarged);
    list_->AddText(&font, size_px, {x, y}, colour(ink), shown.c_str());
    placed_->push_back({shown, {x, y, x + extent.x, y + extent.y}, allowed, Cut::whole, panel_});
}

Box ScreenCanvas::large_text(const Box& box, std::string_view text, LargeFace face, Ink ink) {
    ImFont& font = *(face == LargeFace::digits ? fonts_->digits : fonts_->words);
    const std::string shown = one_line(text);
    const ImVec2 drawn_at = measure(font, shown);
    const ImVec2 whole{drawn_at.x * font.Scale, drawn_at.y * font.Scale};
    const float fit = std::min(box.width() / std::max(whole.x, 1.0F), box.height() / std::max(whole.y, 1.0F));
    const float size = std::floor(font.FontSize * font.Scale * fit);
    // What does not fit even at the size of a heading is shortened rather than made unreadable.
    if (size < text_height(TextSize::heading))
        return this->text({box.left, box.top, box.right, box.top + text_height(TextSize::heading)}, text,
                          TextSize::heading, ink, Align::left, TextWeight::bold);
    // The large face is drawn for more; much smaller its edges would be torn.
    ImFont& heading = *fonts_->face(TextSize::heading, TextWeight::bold);
    const bool small = face == LargeFace::words && size < most_enlarged * heading.FontSize;
    ImFont& used = small ? heading : font;
    const ImVec2 extent = used.CalcTextSizeA(size, FLT_MAX, 0.0F, shown.c_str());
    list_->AddText(&used, size, {box.left, box.top}, colour(ink), shown.c_str());
    const Box drawn{box.left, box.top, box.left + extent.x, box.top + extent.y};
    placed_->push_back({shown, drawn, box, Cut::whole, panel_});
    return drawn;
}

std::string ScreenCanvas::without_middle(std::string_view text, float width_px, TextSize size,
                                         TextWeight weight) const {
    const ImFont& font = *fonts_->face(size, weight);
    std::string whole = one_line(text);
    if (measure(font, whole).x <= width_px) return whole;
    std::size_t front = whole.size() / 2;  // bytes kept at the front; from `back` on those kept at the end
    while (front > 0 && !starts_character(whole[front])) --front;
    std::size_t back = front;
    std::string shown;
    do {
        if (front >= whole.size() - back) {
            do --front;
            while (front > 0 && !starts_character(whole[front]));
        } else {
            do ++back;
            while (back < whole.size() && !starts_character(whole[back]));
        }
        shown = whole.substr(0, front).append(ellipsis).append(whole, back);
    } while (measure(font, shown).x > width_px && (front > 0 || back < whole.size()));
    return shown;
}

std::vector<std::string> ScreenCanvas::lines_of(std::string_view text, float width_px, TextSize size,
                                                TextWeight weight) const {
    const ImFont& font = *fonts_->face(size, weight);
    const std::string clean = one_line(text);
    std::string_view rest = clean;
    std::vector<std::string> lines;
    while (!rest.empty()) {
        std::size_t end = 0;  // of the words that fit
        for (std::size_t at = 0; at <= rest.size(); ++at) {
            if (at < rest.size() && rest[at] != ' ') continue;
            if (end != 0 && measure(font, rest.substr(0, at)).x > width_px) break;
            end = at;
        }
        lines.push_back(without_middle(rest.substr(0, end), width_px, size, weight));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return lines;
}

float ScreenCanvas::paragraph(const Box& box, std::string_view text, TextSize size, Ink ink,
                              TextWeight weight) {
    const float line_height = std::round(fonts_->face(size, weight)->FontSize * 1.5F);
    float y = box.top;
    for (const std::string& line : lines_of(text, box.width(), size, weight)) {
        if (y + line_height > box.bottom + 1.0F) break;
        this->text({box.left, y, box.right, y + line_height}, line, size, ink, Align::left, weight);
        y += line_height;
    }
    return y;
}

void ScreenCanvas::line(ImVec2 from, ImVec2 to, Ink ink, float width, double opacity) {
    list_->AddLine(from, to, colour(ink, opacity), width * scale_);
}

void ScreenCanvas::fill(const Box& box, Ink ink, double opacity, float rounding) {
    list_->AddRectFilled({box.left, box.top}, {box.right, box.bottom}, colour(ink, opacity),
                         rounding * scale_);
}

void ScreenCanvas::frame(const Box& box, Ink ink, float width, float rounding) {
    list_->AddRect({box.left, box.top}, {box.right, box.bottom}, colour(ink), rounding * scale_, 0,
                   width * scale_);
}

void ScreenCanvas::mark(ImVec2 at, MarkShape shape, float radius, Ink ink, double opacity) {
    const ImU32 shade = colour(ink, opacity);
    const float stroke = 1.5F * scale_;
    if (shape == MarkShape::dot) return list_->AddCircleFilled(at, radius * scale_, shade, 24);
    if (shape == MarkShape::ring) return list_->AddCircle(at, radius * scale_, shade, 24, stroke);
    std::vector<ImVec2> corners;
    for (const FigurePoint& corner : mark_outline({{0.0, 0.0}, shape, static_cast<double>(radius), ink})) {
        corners.push_back(
            {at.x + static_cast<float>(corner.x) * scale_, at.y + static_cast<float>(corner.y) * scale_});
    }
    const auto count = static_cast<int>(corners.size());
    if (mark_fill(shape) == MarkFill::full) {
        list_->AddConvexPolyFilled(corners.data(), count, shade);
    } else {
        list_->AddConvexPolyFilled(corners.data(), count, colour(Ink::paper));
        list_->AddPolyline(corners.data(), count, shade, ImDrawFlags_Closed, stroke);
    }
}

}  // namespace footing
