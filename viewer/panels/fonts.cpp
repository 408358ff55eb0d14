#include "viewer/panels/fonts.h"

#include <fontconfig/fontconfig.h>
#include <ft2build.h>
#include <imgui.h>
#include <imgui_freetype.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>

#include FT_FREETYPE_H

namespace footing {

namespace {

// Latin with its extensions, Greek, Cyrillic, punctuation, arrows and operators: what names and units are
// made of.
constexpr std::array<ImWchar, 13> text_ranges{0x0020, 0x024F, 0x0370, 0x052F, 0x2010, 0x2044, 0x2190,
                                              0x2193, 0x2212, 0x2212, 0x2248, 0x2265, 0};
// The large figure shows numbers only.
constexpr std::array<ImWchar, 7> figure_ranges{0x0020, 0x0039, 0x00B1, 0x00B1, 0x2013, 0x2014, 0};

constexpr std::array<ImWchar, 3> word_ranges{0x0020, 0x017F, 0};
constexpr double digits_em_px = 240.0;
/// The builder of Dear ImGui 1.86 keeps each letter in 256 kB, 4 bytes a pixel, and writes past that for
/// larger ones.
constexpr float most_em_px = 250.0F;

struct Face {
    std::string family;
    std::string path;
};

std::optional<Face> match(const char* family, int weight) {
    FcPattern* wanted = FcPatternCreate();
    FcPatternAddString(wanted, FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
    FcPatternAddInteger(wanted, FC_WEIGHT, weight);
    FcPatternAddInteger(wanted, FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddBool(wanted, FC_SCALABLE, FcTrue);
    FcConfigSubstitute(nullptr, wanted, FcMatchPattern);
    FcDefaultSubstitute(wanted);
    FcResult outcome = FcResultNoMatch;
    FcPattern* found = FcFontMatch(nullptr, wanted, &outcome);
    std::optional<Face> face;
    FcChar8* found_family = nullptr;
    FcChar8* found_path = nullptr;
    if (found && FcPatternGetString(found, FC_FAMILY, 0, &found_family) == FcResultMatch &&
        FcPatternGetString(found, FC_FILE, 0, &found_path) == FcResultMatch) {
        face = Face{reinterpret_cast<const char*>(found_family), reinterpret_cast<const char*>(found_path)};
    }
    if (found) FcPatternDestroy(found);
    FcPatternDestroy(wanted);
    return face;
}

/// The faces of one family draw a narrow 1; ImGui does not shape text, so that the font's own tabular digits
/// are out of reach. Every digit gets the widest digit's width, and stands in its middle.
void make_digits_tabular(ImFont& font) {
    float widest = 0.0F;
    for (ImWchar digit = '0'; digit <= '9'; ++digit) {
        widest = std::max(widest, font.FindGlyph(digit)->AdvanceX);
    }
    for (ImFontGlyph& glyph : font.Glyphs) {
        if (glyph.Codepoint < '0' || glyph.Codepoint > '9') continue;
        const float shift = std::floor((widest - glyph.AdvanceX) / 2.0F);
        glyph.X0 += shift;
        glyph.X1 += shift;
        glyph.AdvanceX = widest;
    }
    font.BuildLookupTable();
}

/// Dear ImGui counts a face's size from the top of its accents to the foot of its descenders; paper counts
/// the em. This is the one over the other, so that 16 px are the same on both.
float height_over_em(const std::string& path) {
    FT_Library library = nullptr;
    if (FT_Init_FreeType(&library) != 0) return 1.0F;
    FT_Face face = nullptr;
    float ratio = 1.0F;
    if (FT_New_Face(library, path.c_str(), 0, &face) == 0) {
        if (face->units_per_EM > 0) {
            ratio =
                static_cast<float>(face->ascender - face->descender) / static_cast<float>(face->units_per_EM);
        }
        FT_Done_Face(face);
    }
    FT_Done_FreeType(library);
    return ratio;
}

}  // namespace

FontFiles find_fonts() {
    for (const char* family : {"Inter", "sans-serif", "DejaVu Sans"}) {
        const auto regular = match(family, FC_WEIGHT_REGULAR);
        const auto bold = match(family, FC_WEIGHT_SEMIBOLD);
        std::error_code ignored;
        if (regular && bold && std::filesystem::exists(regular->path, ignored) &&
            std::filesystem::exists(bold->path, ignored)) {
            return {regular->family, regular->path, bold->path};
        }
    }
    return {};
}

Fonts add_fonts(ImFontAtlas& atlas, const FontFiles& files, float scale) {
    atlas.Clear();
    atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    atlas.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
    atlas.Flags |= ImFontAtlasFlags_NoPowerOfTwoHeight;
    Fonts fonts;
    for (const TextSize size : {TextSize::text, TextSize::small, TextSize::heading, TextSize::figure}) {
        for (const TextWeight weight : {TextWeight::regular, TextWeight::bold}) {
            const std::string& path = weight == TextWeight::bold ? files.bold : files.regular;
            const float em_px = std::round(std::min(static_cast<float>(text_px(size)) * scale, most_em_px));
            const float px = std::round(em_px * (path.empty() ? 1.0F : height_over_em(path)));
            const ImWchar* ranges = size == TextSize::figure ? figure_ranges.data() : text_ranges.data();
            ImFont* face =
                path.empty() ? nullptr : atlas.AddFontFromFileTTF(path.c_str(), px, nullptr, ranges);
            if (!face) {
                ImFontConfig built_in;
                built_in.SizePixels = px;
                face = atlas.AddFontDefault(&built_in);
            }
            fonts.faces[static_cast<std::size_t>(size)][static_cast<std::size_t>(weight)] = face;
        }
    }
    const auto add_large = [&](double em_px, const ImWchar* ranges) -> ImFont* {
        ImFont* face = nullptr;
        if (!files.bold.empty()) {
            const float wanted_px = static_cast<float>(em_px) * scale;
            const float drawn_px = std::min(wanted_px, most_em_px);
            const float px = std::round(drawn_px * height_over_em(files.bold));
            face = atlas.AddFontFromFileTTF(files.bold.c_str(), px, nullptr, ranges);
            if (face) face->Scale = wanted_px / drawn_px;
        }
        return face ? face : fonts.face(TextSize::figure, TextWeight::bold);
    };
    fonts.words = add_large(text_px(TextSize::figure), word_ranges.data());
    fonts.digits = add_large(digits_em_px, figure_ranges.data());
    atlas.Build();
    make_digits_tabular(*fonts.digits);
    for (auto& weights : fonts.faces) {
        for (ImFont* face : weights) make_digits_tabular(*face);
    }
    return fonts;
}

}  // namespace footing
