#include "analysis/report/figure_key.h"

namespace footing {

namespace {

constexpr double piece_px = 28.0;
constexpr double half_tint_px = 6.0;

}  // namespace

void FigureKey::stroke(const std::string& words, Ink ink, double width, LineStyle style) {
    kit_.line({x_, y_}, {x_ + piece_px, y_}, ink, width, style);
    no_piece(words);
}

void FigureKey::tint(const std::string& words) {
    kit_.area({x_, y_ - half_tint_px, x_ + piece_px, y_ + half_tint_px}, Ink::lead, 0.22);
    no_piece(words);
}

void FigureKey::no_piece(const std::string& words) {
    constexpr double to_words_px = 6.0;
    constexpr double to_next_px = 20.0;
    constexpr double below_middle_px = 4.5;
    kit_.text({x_ + piece_px + to_words_px, y_ + below_middle_px}, words, Ink::quiet);
    x_ += piece_px + to_words_px + text_width(words, TextSize::small) + to_next_px;
}

}  // namespace footing
