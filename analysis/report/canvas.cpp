#include "analysis/report/canvas.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "analysis/report/mark_outline.h"
#include "analysis/report/number_words.h"
#include "analysis/report/pdf_language.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

constexpr double points_per_px = 0.75;
constexpr const char* type_family = "Inter, Roboto, DejaVu Sans, Sans";

cairo_status_t append_bytes(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

enum class SurfaceKind { pages, picture, measure };

bool is_plain(const std::string& text) {
    return std::ranges::all_of(text, [](char letter) { return static_cast<unsigned char>(letter) < 0x80; });
}

}  // namespace

struct Canvas::Surface {
    SurfaceKind kind = SurfaceKind::pages;
    Theme theme = Theme::print;
    int page = 1;
    std::string bytes;
    cairo_surface_t* surface = nullptr;
    cairo_t* cairo = nullptr;
    PangoLayout* layout = nullptr;
    PangoFontDescription* font = nullptr;
    mutable std::map<std::string, bool> has_glyph;  // by character, once it was in doubt
    mutable bool missing = false;

    Surface() = default;
    Surface(const Surface&) = delete;
    Surface& operator=(const Surface&) = delete;
    ~Surface() {
        if (font != nullptr) pango_font_description_free(font);
        if (layout != nullptr) g_object_unref(layout);
        if (cairo != nullptr) cairo_destroy(cairo);
        if (surface != nullptr) {
            cairo_surface_finish(surface);
            cairo_surface_destroy(surface);
        }
    }

    void begin(double scale) {
        cairo = cairo_create(surface);
        cairo_scale(cairo, scale, scale);
        cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
        layout = pango_cairo_create_layout(cairo);
        PangoContext* context = pango_layout_get_context(layout);
        cairo_font_options_t* options = cairo_font_options_create();
        cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
        cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
        cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
        pango_cairo_context_set_font_options(context, options);
        cairo_font_options_destroy(options);
        pango_context_set_round_glyph_positions(context, FALSE);
        pango_cairo_context_set_resolution(context, 96.0);
        pango_layout_set_auto_dir(layout, FALSE);  // names of any script stay in their column
        font = pango_font_description_from_string(type_family);
        PangoAttrList* attributes = pango_attr_list_new();
        pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1"));
        pango_layout_set_attributes(layout, attributes);
        pango_attr_list_unref(attributes);
    }

    void ink(Ink ink, double opacity = 1.0) const {
        const Colour colour = colour_of(ink, theme);
        cairo_set_source_rgba(cairo, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0, opacity);
    }

    void set_text(const std::string& text, TextSize size, TextWeight weight, double scale) const {
        pango_font_description_set_weight(
            font, weight == TextWeight::bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(font, text_px(size) * scale * PANGO_SCALE);
        pango_layout_set_font_description(layout, font);
        const std::string clean = clean_parts(text);
        pango_layout_set_width(layout, -1);
        pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_NONE);
        pango_layout_set_alignment(layout, PANGO_ALIGN_LEFT);
        pango_layout_set_text(layout, clean.c_str(), static_cast<int>(clean.size()));
        if (pango_layout_get_unknown_glyphs_count(layout) == 0) return;
        const std::string printable = printable_part(clean);
        pango_layout_set_text(layout, printable.c_str(), static_cast<int>(printable.size()));
    }

    /// The text with one plain box for a run of characters that no font here has (an emoji is often several).
    [[nodiscard]] std::string printable_part(const std::string& clean) const {
        const std::string box = "\xE2\x96\xA1";  // U+25A1, which the fonts of the package have
        const auto joins = [](const std::string& letter) {
            return letter == "\xE2\x80\x8D" ||
                   letter == "\xEF\xB8\x8F";  // U+200D, U+FE0F: never seen by themselves
        };
        std::string printable;
        bool in_run = false;
        for (std::size_t at = 0; at < clean.size();) {
            const std::size_t length =
                std::max<std::size_t>(1, first_character(std::string_view(clean).substr(at)).bytes);
            const std::string letter = clean.substr(at, length);
            at += length;
            const auto [known, is_new] = has_glyph.try_emplace(letter, true);
            if (is_new && length > 1) {
                pango_layout_set_text(layout, letter.c_str(), static_cast<int>(letter.size()));
                known->second = pango_layout_get_unknown_glyphs_count(layout) == 0;
            }
            if (!known->second && joins(letter)) continue;
            if (known->second) printable += letter;
            if (!known->second && !in_run) printable += box;
            in_run = !known->second;
            missing = missing || !known->second;
        }
        return printable;
    }

    /// Whether the fonts have every letter of a text that is not set.
    void look_for_letters(const std::string& text) const {
        if (!is_plain(text)) static_cast<void>(printable_part(clean_parts(text)));
    }

    [[nodiscard]] double layout_width() const {
        int width = 0;
        pango_layout_get_size(layout, &width, nullptr);
        return static_cast<double>(width) / PANGO_SCALE;
    }

    [[nodiscard]] double layout_height() const {
        int height = 0;
        pango_layout_get_size(layout, nullptr, &height);
        return static_cast<double>(height) / PANGO_SCALE;
    }

    void show_at_baseline(double x, double y) const {
        cairo_move_to(cairo, x, y - static_cast<double>(pango_layout_get_baseline(layout)) / PANGO_SCALE);
        pango_cairo_show_layout(cairo, layout);
    }

    void trace(const std::vector<FigurePoint>& points) const {
        cairo_new_path(cairo);
        for (const FigurePoint& point : points) cairo_line_to(cairo, point.x, point.y);
    }

    void paint(const FigureArea& area) const {
        trace(area.points);
        cairo_close_path(cairo);
        ink(area.fill, area.opacity);
        cairo_fill(cairo);
    }

    void paint(const FigureLine& line) const {
        trace(line.points);
        ink(line.ink, line.opacity);
        cairo_set_line_width(cairo, line.width);
        const double dashes[] = {4.0, 3.0};
        cairo_set_dash(cairo, dashes, line.style == LineStyle::dashed ? 2 : 0, 0.0);
        cairo_stroke(cairo);
    }

    void paint(const FigureMark& mark) const {
        const std::vector<FigurePoint> outline = mark_outline(mark);
        cairo_new_path(cairo);
        if (outline.empty()) {
            cairo_arc(cairo, mark.at.x, mark.at.y, mark.radius, 0.0, 2.0 * std::numbers::pi);
        } else {
            trace(outline);
        }
        cairo_close_path(cairo);
        if (mark_fill(mark.shape) == MarkFill::full) {
            ink(mark.ink);
            cairo_fill(cairo);
            return;
        }
        ink(Ink::paper);
        cairo_fill_preserve(cairo);
        ink(mark.ink);
        cairo_set_line_width(cairo, mark_outline_px);
        cairo_set_dash(cairo, nullptr, 0, 0.0);
        cairo_stroke(cairo);
    }

    void paint(const FigureText& text, double scale) const {
        set_text(text.text, text.size, text.weight, scale);
        ink(text.ink);
        const double width = layout_width();
        const double shift = text.align == Align::left     ? 0.0
                             : text.align == Align::middle ? 0.5 * width
                                                           : width;
        show_at_baseline(text.at.x - shift, text.at.y);
    }

    void paint(const FigureShape& shape, double scale) const {
        std::visit(
            [&](const auto& one) {
                if constexpr (std::is_same_v<std::decay_t<decltype(one)>, FigureText>) {
                    paint(one, scale);
                } else {
                    paint(one);
                }
            },
            shape);
    }

    void set_paragraph(const std::string& text, double width, const TextStyle& style) const {
        set_text(unbroken(text), style.size, style.weight, 1.0);
        pango_layout_set_width(layout, static_cast<int>(width * PANGO_SCALE));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
        pango_layout_set_spacing(layout, static_cast<int>(0.28 * text_px(style.size) * PANGO_SCALE));
        pango_layout_set_alignment(layout, style.align == Align::left     ? PANGO_ALIGN_LEFT
                                           : style.align == Align::middle ? PANGO_ALIGN_CENTER
                                                                          : PANGO_ALIGN_RIGHT);
    }
};

Canvas::Canvas(std::unique_ptr<Surface> surface) : surface_(std::move(surface)) {}
Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;
Canvas::~Canvas() = default;

Canvas Canvas::pdf(double width, double height, const DocumentFacts& facts) {
    auto pages = std::make_unique<Surface>();
    pages->surface = cairo_pdf_surface_create_for_stream(append_bytes, &pages->bytes, width * points_per_px,
                                                         height * points_per_px);
    cairo_surface_t* surface = pages->surface;
    cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_5);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, clean_text(facts.title).c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, clean_text(facts.subject).c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Footing");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, facts.created.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, facts.created.c_str());
    pages->begin(points_per_px);
    return Canvas(std::move(pages));
}

Canvas Canvas::measure() {
    auto nothing = std::make_unique<Surface>();
    nothing->kind = SurfaceKind::measure;
    nothing->surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    nothing->begin(points_per_px);
    return Canvas(std::move(nothing));
}

bool Canvas::draws() const {
    return surface_->kind != SurfaceKind::measure;
}

Canvas Canvas::picture(double width, double height, double pixels_per_px, Theme theme) {
    auto picture = std::make_unique<Surface>();
    picture->kind = SurfaceKind::picture;
    picture->theme = theme;
    picture->surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(width * pixels_per_px)),
                                   static_cast<int>(std::ceil(height * pixels_per_px)));
    picture->begin(pixels_per_px);
    picture->ink(Ink::paper);
    cairo_paint(picture->cairo);
    return Canvas(std::move(picture));
}

void Canvas::draw(const Figure& figure, FigurePoint at) {
    if (!draws()) {
        for (const FigureShape& shape : figure.shapes) draw(shape);
        return;
    }
    cairo_save(surface_->cairo);
    cairo_translate(surface_->cairo, at.x, at.y);
    for (const FigureShape& shape : figure.shapes) surface_->paint(shape, figure.text_scale);
    cairo_restore(surface_->cairo);
}

void Canvas::draw(const FigureShape& shape) {
    if (draws()) {
        surface_->paint(shape, 1.0);
    } else if (const auto* text = std::get_if<FigureText>(&shape)) {
        surface_->look_for_letters(text->text);
    }
}

double Canvas::paragraph(FigurePoint at, double width, const std::string& text, const TextStyle& style) {
    surface_->set_paragraph(text, width, style);
    if (!draws()) return surface_->layout_height();
    surface_->ink(style.ink);
    cairo_move_to(surface_->cairo, at.x, at.y);
    pango_cairo_show_layout(surface_->cairo, surface_->layout);
    return surface_->layout_height();
}

double Canvas::paragraph_height(double width, const std::string& text, const TextStyle& style) const {
    surface_->set_paragraph(text, width, style);
    return surface_->layout_height();
}

void Canvas::cell(FigurePoint at, double width, const std::string& text, const TextStyle& style) {
    if (!draws()) {
        surface_->look_for_letters(text);
        return;
    }
    surface_->set_paragraph(text, width, style);
    pango_layout_set_height(surface_->layout, 0);
    pango_layout_set_ellipsize(surface_->layout, PANGO_ELLIPSIZE_END);
    surface_->ink(style.ink);
    surface_->show_at_baseline(at.x, at.y);
}

double Canvas::line_width(const std::string& text, const TextStyle& style) const {
    surface_->set_text(text, style.size, style.weight, 1.0);
    return surface_->layout_width();
}

TypeCoverage Canvas::coverage() const {
    return surface_->missing ? TypeCoverage::some_missing : TypeCoverage::whole;
}

void Canvas::next_page() {
    if (draws()) cairo_show_page(surface_->cairo);
    ++surface_->page;
}

void Canvas::bookmark(const std::string& name) {
    if (surface_->kind != SurfaceKind::pages) return;
    const std::string destination = "page=" + std::to_string(surface_->page);
    cairo_pdf_surface_add_outline(surface_->surface, CAIRO_PDF_OUTLINE_ROOT, clean_text(name).c_str(),
                                  destination.c_str(), static_cast<cairo_pdf_outline_flags_t>(0));
}

Result<std::string> Canvas::finish() {
    cairo_status_t status = cairo_status(surface_->cairo);
    if (surface_->kind == SurfaceKind::picture) {
        cairo_surface_flush(surface_->surface);
        if (status == CAIRO_STATUS_SUCCESS) {
            status = cairo_surface_write_to_png_stream(surface_->surface, append_bytes, &surface_->bytes);
        }
    } else {
        cairo_surface_finish(surface_->surface);
        if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface_->surface);
        if (status == CAIRO_STATUS_SUCCESS) surface_->bytes = with_language(std::move(surface_->bytes), "en");
    }
    if (status != CAIRO_STATUS_SUCCESS) {
        return Problem{ProblemKind::bad_input, "",
                       std::string("the drawing failed: ") + cairo_status_to_string(status),
                       "report this with the recording"};
    }
    return std::move(surface_->bytes);
}

Result<std::string> png_of(const Figure& figure, Theme theme, double pixels_per_px) {
    Canvas canvas = Canvas::picture(figure.width, figure.height, pixels_per_px, theme);
    canvas.draw(figure, {});
    return canvas.finish();
}

void release_type() {
    pango_cairo_font_map_set_default(nullptr);
    cairo_debug_reset_static_data();
    FcFini();
}

}  // namespace footing
