#include "analysis/report/legend_figure.h"

#include "analysis/report/figure_kit.h"
#include "analysis/report/swing_figure.h"

namespace footing {

std::string finish_mark_words() {
    return "At the finish a mark above the band is no fault: there all the weight may be on the lead foot.";
}

Figure legend_figure(double width) {
    constexpr struct {
        Verdict verdict;
        const char* words;
    } entries[] = {{Verdict::inside, "inside the band"},
                   {Verdict::below, "below the band"},
                   {Verdict::above, "above the band"},
                   {Verdict::too_close, "too close to call"}};
    constexpr double row_height = 24.0;
    Figure figure;
    figure.width = width;
    FigureKit kit(figure);
    double x = 0.0;
    double y = 0.5 * row_height;
    for (const auto& entry : entries) {
        const double needed = 20.0 + text_width(entry.words, TextSize::small);
        if (x > 0.0 && x + needed > width) {
            x = 0.0;
            y += row_height;
        }
        kit.mark({x + 8.0, y}, mark_of(entry.verdict), 6.0, Ink::ink);
        kit.text({x + 20.0, y + 4.5}, entry.words, Ink::quiet);
        x += needed + 16.0;
    }
    figure.height = y + 0.5 * row_height;
    figure.title = "What the marks mean";
    figure.description =
        "Full diamond: inside the band. Triangle towards the trail foot: below the band. Triangle towards "
        "the "
        "lead foot: above the band. Hollow diamond: too close to call.";
    return figure;
}

}  // namespace footing
