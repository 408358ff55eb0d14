#pragma once

namespace footing {

/// What the printer holds. A4: ISO 216, 210 x 297 mm; letter: ANSI/ASME Y14.1 size A, 8.5 x 11 in.
enum class PaperSize { a4, letter };

/// A sheet, px of 1/96 inch.
struct Paper {
    double width = 794.0;
    double height = 1123.0;
    double margin = 64.0;
};

[[nodiscard]] inline Paper sheet_of(PaperSize size, double margin) {
    if (size == PaperSize::letter) return {816.0, 1056.0, margin};
    return {794.0, 1123.0, margin};
}

}  // namespace footing
