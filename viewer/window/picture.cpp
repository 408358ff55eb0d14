#include "viewer/window/picture.h"

#include <cairo.h>

#include <cstddef>
#include <cstring>
#include <memory>
#include <string>

#include "acquisition/record/safe_file.h"

namespace footing {

namespace {

struct Destroy {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, Destroy>;

cairo_status_t append(void* png, const unsigned char* bytes, unsigned count) {
    static_cast<std::string*>(png)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
}

}  // namespace

Outcome write_png(const Picture& picture, const std::string& path) {
    const auto [width, height] = picture.size;
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
    unsigned char* pixels = cairo_image_surface_get_data(surface.get());
    if (!pixels) {
        return Problem{ProblemKind::command_line, path, "the picture has no size that can be drawn",
                       "ask for a smaller one"};
    }
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
    for (std::size_t row = 0; row < static_cast<std::size_t>(height); ++row) {
        for (std::size_t column = 0; column < static_cast<std::size_t>(width); ++column) {
            const std::uint8_t* from = &picture.rgb[3 * (row * static_cast<std::size_t>(width) + column)];
            const std::uint32_t pixel =
                (std::uint32_t{from[0]} << 16U) | (std::uint32_t{from[1]} << 8U) | from[2];
            std::memcpy(pixels + row * stride + 4 * column, &pixel, sizeof pixel);
        }
    }
    cairo_surface_mark_dirty(surface.get());

    std::string png;
    const cairo_status_t drawn = cairo_surface_write_to_png_stream(surface.get(), append, &png);
    if (drawn != CAIRO_STATUS_SUCCESS) {
        return Problem{ProblemKind::disk_failed, path,
                       std::string("the picture could not be made (") + cairo_status_to_string(drawn) + ")",
                       "ask for a smaller one"};
    }
    return write_file_safely(path, png);
}

Result<Picture> read_png(const std::string& path) {
    const Surface file(cairo_image_surface_create_from_png(path.c_str()));
    if (cairo_surface_status(file.get()) != CAIRO_STATUS_SUCCESS) {
        return Problem{ProblemKind::bad_input, path, "this is not a PNG picture that can be read", ""};
    }
    Picture picture;
    picture.size = {cairo_image_surface_get_width(file.get()), cairo_image_surface_get_height(file.get())};
    const Surface flat(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.size.width, picture.size.height));
    cairo_t* pen = cairo_create(flat.get());
    cairo_set_source_rgb(pen, 1.0, 1.0, 1.0);
    cairo_paint(pen);
    cairo_set_source_surface(pen, file.get(), 0.0, 0.0);
    cairo_paint(pen);
    cairo_destroy(pen);
    cairo_surface_flush(flat.get());
    const unsigned char* pixels = cairo_image_surface_get_data(flat.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(flat.get()));
    picture.rgb.reserve(3U * static_cast<std::size_t>(picture.size.width) *
                        static_cast<std::size_t>(picture.size.height));
    for (std::size_t row = 0; row < static_cast<std::size_t>(picture.size.height); ++row) {
        for (std::size_t column = 0; column < static_cast<std::size_t>(picture.size.width); ++column) {
            std::uint32_t pixel = 0;
            std::memcpy(&pixel, pixels + row * stride + 4 * column, sizeof pixel);
            for (const unsigned shift : {16U, 8U, 0U}) {
                picture.rgb.push_back(static_cast<std::uint8_t>(pixel >> shift));
            }
        }
    }
    return picture;
}

}  // namespace footing
