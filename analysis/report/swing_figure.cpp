#include "analysis/report/swing_figure.h"

#include <fmt/format.h>

#include "analysis/report/evidence_figure.h"
#include "analysis/report/number_words.h"
#include "analysis/report/swing_parts.h"

namespace footing {

namespace {

enum class Feet { without, over_the_rule };

std::string title_of(const SwingPicture& picture) {
    if (picture.swings.empty()) return "No swing chosen";
    const Swing& swing = *picture.swings.front();
    std::string title = fmt::format("Swing {}", swing.index);
    if (swing.kind != SwingKind::unknown) title += ", " + kind_name(swing.kind);
    return title;
}

std::string description_of(const SwingPicture& picture) {
    std::string text =
        "Lead share over time, time running down, target band " + band_words(picture.band_shown()) + ".";
    if (picture.swings.empty()) return text;
    for (const NamedShare& named : named_shares) {
        if (const auto& share = picture.swings.front()->lead_share.*named.member) {
            const bool finish = named.member == &SwingShares::finish;
            text +=
                fmt::format(" {}: {}, {}.", named.name, share_words(*share),
                            finish ? finish_verdict_words(share->verdict) : verdict_words(share->verdict));
        }
    }
    return text;
}

Figure draw(const LessonResult& lesson, const SwingFigureOptions& options, Feet feet,
            std::optional<TargetBand> band = std::nullopt) {
    Figure figure;
    figure.width = options.width;
    figure.height = options.height;
    figure.text_scale = options.text_scale;
    const bool with_feet = feet == Feet::over_the_rule;
    SwingPicture picture{
        lesson,
        options,
        with_feet ? swing_figure_scale(lesson, options) : share_figure_scale(lesson, options),
        chosen_swings(lesson, options),
        FigureKit(figure),
        band};
    const FigureBox& trace = picture.scale.trace;
    const double rule_y = trace.top - picture.px(6.0);

    const bool shares = has_shares(lesson);
    if (shares) {
        draw_band(picture, with_feet ? picture.scale.feet.top : rule_y, trace.bottom);
        draw_foot_names(picture, picture.px(16.0));
    }
    if (!picture.swings.empty()) draw_time_grid(picture);
    if (shares) draw_rule(picture, rule_y);
    draw_loss(picture);
    if (with_feet) draw_feet_over_rule(picture);
    if (!picture.swings.empty()) {
        draw_traces(picture);
        draw_events(picture);
        draw_head(picture);
    } else {
        draw_notice(picture, "no swing to show", "no swing");
    }
    figure.title = title_of(picture);
    figure.description = description_of(picture);
    return figure;
}

}  // namespace

Figure share_figure(const LessonResult& lesson, const SwingFigureOptions& options) {
    return draw(lesson, options, Feet::without);
}

Figure swing_figure(const LessonResult& lesson, const SwingFigureOptions& options) {
    return draw(lesson, options, Feet::over_the_rule);
}

Figure evidence_figure(const LessonResult& lesson, const SwingFigureOptions& options,
                       const TargetBand& band) {
    return has_shares(lesson) ? draw(lesson, options, Feet::over_the_rule, band)
                              : feet_figure(lesson, options);
}

}  // namespace footing
