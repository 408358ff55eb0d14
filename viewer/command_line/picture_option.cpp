#include "viewer/command_line/picture_option.h"

#include <filesystem>

#include "analysis/report/canvas.h"
#include "analysis/report/svg_painter.h"
#include "viewer/command_line/write_text.h"

namespace footing {

namespace {

constexpr double pixels_per_px = 2.0;

}  // namespace

Outcome check_picture_name(const std::string& file) {
    const std::string suffix = std::filesystem::path(file).extension().string();
    if (file.empty() || suffix == ".svg" || suffix == ".png") return Done{};
    return Problem{ProblemKind::command_line, file, "a picture cannot be written in this form",
                   "let the name end in .svg or .png"};
}

Outcome write_picture(const std::string& file, const Figure& figure, FileReaders readers) {
    if (std::filesystem::path(file).extension() == ".svg")
        return write_text(file, svg_of(figure, Theme::print, SvgPlace::own_file), readers);
    const Result<std::string> bytes = png_of(figure, Theme::print, pixels_per_px);
    if (!bytes) return bytes.problem();
    return write_text(file, bytes.value(), readers);
}

}  // namespace footing
