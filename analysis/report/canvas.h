#pragma once

#include <memory>
#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/figure.h"
#include "analysis/report/theme.h"

namespace footing {

/// What a document says of itself.
struct DocumentFacts {
    std::string title;
    std::string subject;
    std::string created;  ///< ISO 8601; the same lesson gives the same bytes
};

/// How a paragraph is set.
struct TextStyle {
    TextSize size = TextSize::small;
    TextWeight weight = TextWeight::regular;
    Align align = Align::left;
    Ink ink = Ink::ink;
};

/// Whether the fonts here have every character that was set.
enum class TypeCoverage { whole, some_missing };

/// Paper to draw on, by Cairo and Pango; lengths are px of 1/96 inch, y down. Type is Inter, or the family at
/// hand.
class Canvas {
  public:
    /// Pages of a PDF, kept in memory until finish().
    [[nodiscard]] static Canvas pdf(double width, double height, const DocumentFacts& facts);
    /// As high and wide as pages of a PDF, and as short of letters, but nothing is drawn: to know beforehand
    /// how many pages there will be.
    [[nodiscard]] static Canvas measure();
    /// A picture of `pixels_per_px` device pixels a px.
    [[nodiscard]] static Canvas picture(double width, double height, double pixels_per_px, Theme theme);
    Canvas(Canvas&&) noexcept;
    Canvas& operator=(Canvas&&) noexcept;
    ~Canvas();

    void draw(const Figure& figure, FigurePoint at);
    void draw(const FigureShape& shape);
    /// The same for a figure of plain letters that takes long to make: not made where nothing is drawn.
    template <typename Make>
    void draw_made(const Make& make, FigurePoint at) {
        if (draws()) draw(make(), at);
    }

    /// Sets a paragraph, broken into lines of at most `width`, never between a number and its unit; gives its
    /// height. Top left corner at `at`.
    double paragraph(FigurePoint at, double width, const std::string& text, const TextStyle& style);
    /// The height that paragraph() would take.
    [[nodiscard]] double paragraph_height(double width, const std::string& text,
                                          const TextStyle& style) const;
    /// One line in a cell of a table, cut with "…" when it is wider; `at` on the baseline, left edge of the
    /// cell.
    void cell(FigurePoint at, double width, const std::string& text, const TextStyle& style);
    [[nodiscard]] double line_width(const std::string& text, const TextStyle& style) const;

    /// What no font here has is set as a plain box; whether that happened so far.
    [[nodiscard]] TypeCoverage coverage() const;

    void next_page();
    /// An entry of a PDF's outline that leads to this page.
    void bookmark(const std::string& name);

    /// Bytes of the PDF or the PNG. The canvas is used up.
    [[nodiscard]] Result<std::string> finish();

  private:
    struct Surface;
    [[nodiscard]] bool draws() const;
    explicit Canvas(std::unique_ptr<Surface> surface);
    std::unique_ptr<Surface> surface_;
};

/// One figure as a PNG, on its theme's ground.
[[nodiscard]] Result<std::string> png_of(const Figure& figure, Theme theme, double pixels_per_px = 1.0);

/// Frees what Cairo, Pango and Fontconfig keep for the whole process; for leak checks at the very end of it.
void release_type();

}  // namespace footing
