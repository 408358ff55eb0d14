#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "analysis/report/number_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"

namespace footing {

namespace {

struct Column {
    const char* name;
    std::optional<ShareValue> SwingShares::*share;
};
constexpr Column columns[] = {{"address", &SwingShares::address},
                              {"turnaround", &SwingShares::turnaround},
                              {"impact", &SwingShares::impact}};

/// One small rule: name, numerals, band; the rows are drawn by the caller.
void draw_small_rule(SwingPicture& picture, const char* name) {
    const FigureBox& box = picture.scale.trace;
    const double rule_y = box.top - picture.px(6.0);
    draw_band(picture, rule_y, box.bottom);
    // All names in one size: that which the longest of them has room in.
    const double longest = picture.px(text_width("turnaround", TextSize::text, TextWeight::bold));
    picture.kit.text({box.left, rule_y - picture.px(32.0)}, name, Ink::ink, Align::left,
                     longest <= box.width() + picture.px(8.0) ? TextSize::text : TextSize::small,
                     TextWeight::bold);
    const bool roomy = box.width() >= picture.px(150.0);
    for (int percent = 0; percent <= 100; percent += 10) {
        const double x = picture.scale.x_of_share(percent / 100.0);
        picture.kit.line({x, rule_y - picture.px(percent % 50 == 0 ? 6.0 : 3.0)}, {x, rule_y}, Ink::ink, 1.0);
        if (percent % 50 != 0 || (percent == 50 && !roomy)) continue;
        const bool leftmost = x <= box.left + 1.0;
        const bool rightmost = x >= box.right - 1.0;
        picture.kit.text({x, rule_y - picture.px(10.0)},
                         fmt::format("{}{}", percent, percent == 100 ? " %" : ""), Ink::quiet,
                         leftmost    ? Align::left
                         : rightmost ? Align::right
                                     : Align::middle);
    }
    picture.kit.line({box.left, rule_y}, {box.right, rule_y}, Ink::ink, 1.5);
    const double middle = picture.scale.x_of_share(0.5);
    picture.kit.line({middle, rule_y}, {middle, box.bottom}, Ink::grid, 1.0);
}

}  // namespace

Figure lesson_figure(const LessonResult& lesson, const SwingFigureOptions& options) {
    SwingFigureOptions all = options;
    if (all.swings.empty()) {
        all.swings.resize(lesson.swings.size());
        std::iota(all.swings.begin(), all.swings.end(), std::size_t{0});
    }
    Figure figure;
    figure.width = options.width;
    figure.height = options.height;
    figure.text_scale = options.text_scale;
    SwingPicture picture{lesson, all, {}, chosen_swings(lesson, all), FigureKit(figure)};
    picture.scale.target_side = options.target_side;

    const bool with_kind = options.width >= picture.px(480.0);
    const double left = picture.px(with_kind ? 104.0 : 40.0);
    const double gap = picture.px(24.0);
    const double top = picture.px(60.0);
    const double bottom = options.height - picture.px(8.0);
    const double column_width = (options.width - left - picture.px(12.0) - 2.0 * gap) / 3.0;
    const double rows = static_cast<double>(std::max<std::size_t>(picture.swings.size(), 1));
    const double row_height = std::min((bottom - top) / rows, picture.px(32.0));
    const double radius = std::clamp(0.32 * row_height, 2.0, picture.px(6.0));
    const auto row_y = [&](std::size_t row) { return top + (static_cast<double>(row) + 0.5) * row_height; };

    // Labels thin out when the rows are nearer together than a line of text.
    const auto every = static_cast<std::size_t>(std::max(1.0, std::ceil(picture.px(12.5) / row_height)));
    for (std::size_t row = 0; row < picture.swings.size(); row += every) {
        const Swing& swing = *picture.swings[row];
        const double baseline = row_y(row) + picture.px(4.5);
        picture.kit.text({picture.px(24.0), baseline}, fmt::format("{}", swing.index), Ink::ink,
                         Align::right);
        if (with_kind && swing.kind != SwingKind::unknown) {
            picture.kit.text({picture.px(32.0), baseline}, kind_name(swing.kind), Ink::quiet);
        }
    }
    for (std::size_t c = 0; c < std::size(columns); ++c) {
        const double x = left + static_cast<double>(c) * (column_width + gap);
        picture.scale.trace = {x, top, x + column_width, top + rows * row_height};
        draw_small_rule(picture, columns[c].name);
        for (std::size_t row = 0; row < picture.swings.size(); ++row) {
            const auto& share = picture.swings[row]->lead_share.*columns[c].share;
            picture.kit.line({x, row_y(row)}, {x + column_width, row_y(row)}, Ink::grid, 1.0);
            if (!share) continue;
            const double at = picture.scale.x_of_share(std::clamp(share->value, 0.0, 1.0));
            const double reach = std::isfinite(share->u) ? 2.0 * share->u * column_width : 0.0;
            if (reach > radius + 1.0) {
                picture.kit.line({std::max(at - reach, x), row_y(row)},
                                 {std::min(at + reach, x + column_width), row_y(row)}, Ink::ink, 1.5);
            }
            picture.kit.mark({at, row_y(row)}, mark_towards(share->verdict, options.target_side), radius,
                             Ink::ink);
        }
    }
    figure.title = "All swings of the lesson";
    figure.description =
        fmt::format("Lead share at address, turnaround and impact of {} against the target band {}.",
                    count_words(picture.swings.size(), "swing", "swings"), band_words(lesson.band));
    return figure;
}

}  // namespace footing
