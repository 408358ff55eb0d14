#include "analysis/report/page_flow.h"

#include <fmt/format.h>

#include <utility>

namespace footing {

namespace {
constexpr double footer_height = 24.0;
constexpr double list_indent = 16.0;
}  // namespace

PageFlow::PageFlow(Canvas& canvas, const Paper& paper, std::string running_title, int pages)
    : canvas_(canvas),
      paper_(paper),
      running_title_(std::move(running_title)),
      pages_(pages),
      y_(paper.margin) {}

double PageFlow::bottom() const {
    return paper_.height - paper_.margin - footer_height;
}

void PageFlow::number_page() {
    const double baseline = paper_.height - paper_.margin + 8.0;
    const TextStyle quiet{TextSize::small, TextWeight::regular, Align::left, Ink::quiet};
    TextStyle right = quiet;
    right.align = Align::right;
    canvas_.cell({left(), baseline}, 0.75 * width(), running_title_, quiet);
    const std::string number =
        pages_ > 0 ? fmt::format("page {} of {}", page_, pages_) : fmt::format("page {}", page_);
    canvas_.cell({left() + 0.75 * width(), baseline}, 0.25 * width(), number, right);
}

void PageFlow::next_page() {
    number_page();
    canvas_.next_page();
    ++page_;
    y_ = paper_.margin;
}

double PageFlow::room() const {
    return bottom() - y_;
}

bool PageFlow::need(double height) {
    if (y_ + height <= bottom() || y_ <= paper_.margin) return false;
    next_page();
    return true;
}

void PageFlow::paragraph(const std::string& sentence, const TextStyle& style, double indent) {
    need(canvas_.paragraph_height(width() - indent, sentence, style));
    y_ += canvas_.paragraph({left() + indent, y_}, width() - indent, sentence, style) + 8.0;
}

void PageFlow::heading(const std::string& text, double with_height) {
    need(40.0 + with_height);
    canvas_.bookmark(text);
    y_ += canvas_.paragraph({left(), y_}, width(), text, {TextSize::heading, TextWeight::bold}) + 16.0;
}

double PageFlow::list_height(const std::vector<std::string>& sentences, const TextStyle& style) const {
    double height = 0.0;
    for (const std::string& sentence : sentences)
        height += canvas_.paragraph_height(width() - list_indent, sentence, style) + 8.0;
    return height;
}

void PageFlow::list(const std::vector<std::string>& sentences, const TextStyle& style) {
    for (const std::string& sentence : sentences) {
        need(canvas_.paragraph_height(width() - list_indent, sentence, style));
        canvas_.paragraph({left(), y_}, list_indent, "–", style);
        y_ += canvas_.paragraph({left() + list_indent, y_}, width() - list_indent, sentence, style) + 8.0;
    }
}

void PageFlow::figure(const Figure& figure) {
    need(figure.height);
    canvas_.draw(figure, {left(), y_});
    y_ += figure.height;
}

void PageFlow::rule(Ink ink, double from_x, double to_x) {
    canvas_.draw(FigureLine{{{from_x, y_}, {to_x, y_}}, ink, 1.0});
}

void PageFlow::close() {
    number_page();
}

}  // namespace footing
