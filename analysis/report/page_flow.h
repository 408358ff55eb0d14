#pragma once

#include <string>
#include <vector>

#include "analysis/report/canvas.h"
#include "analysis/report/paper.h"

namespace footing {

/// Pages that fill from the top, px of 1/96 inch; what does not fit any more goes onto the next one. Each
/// page says whose it is and its number.
class PageFlow {
  public:
    /// `pages`: how many there will be, for "page 2 of 5"; 0 while that is not known.
    PageFlow(Canvas& canvas, const Paper& paper, std::string running_title, int pages);

    [[nodiscard]] Canvas& canvas() { return canvas_; }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double left() const { return paper_.margin; }
    [[nodiscard]] double width() const { return paper_.width - 2.0 * paper_.margin; }
    /// Where the content of a page ends.
    [[nodiscard]] double bottom() const;
    /// What a whole page holds.
    [[nodiscard]] double page_room() const { return bottom() - paper_.margin; }
    [[nodiscard]] int page() const { return page_; }

    /// What is left of this page.
    [[nodiscard]] double room() const;
    /// Makes sure that `height` fits on this page; goes to the next one if not. Says whether it did.
    bool need(double height);
    void next_page();
    void skip(double height) { y_ += height; }

    /// A paragraph over the full width, or from `indent` on.
    void paragraph(const std::string& sentence, const TextStyle& style, double indent = 0.0);
    /// A heading that stays with at least `with_height` of what follows, an entry of the outline too.
    void heading(const std::string& text, double with_height);
    /// A list of sentences, a bar before each.
    [[nodiscard]] double list_height(const std::vector<std::string>& sentences, const TextStyle& style) const;
    void list(const std::vector<std::string>& sentences, const TextStyle& style);
    void figure(const Figure& figure);
    /// One of this height and of plain letters, made only where it is drawn.
    template <typename Make>
    void figure(double height, const Make& make) {
        need(height);
        canvas_.draw_made(make, {left(), y_});
        y_ += height;
    }
    void rule(Ink ink, double from_x, double to_x);

    /// Numbers the last page.
    void close();

  private:
    void number_page();

    Canvas& canvas_;
    Paper paper_;
    std::string running_title_;
    int pages_;
    int page_ = 1;
    double y_ = 0.0;
};

}  // namespace footing
