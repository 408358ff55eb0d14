#include "analysis/report/set_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/report/figure_key.h"
#include "analysis/report/number_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"
#include "analysis/statistics/rounding.h"

namespace footing {

namespace {

constexpr std::array<const char*, 4> landmark_names{"takeaway", "turnaround", "impact", "finish"};

bool is_odd(const SwingSet& set, std::size_t curve) {
    return std::ranges::any_of(
        set.odd, [curve](const OddCurve& odd) { return odd.curve == curve && odd.p < odd_below_p; });
}

/// The line of mean + factor sd on the picture.
std::vector<FigurePoint> line_of(const SwingScale& scale, const SwingSet& set, double factor) {
    std::vector<FigurePoint> points;
    for (std::size_t i = 0; i < set.axis.time_s.size(); ++i) {
        const double share = set.together->mean[i] + factor * set.together->sd[i];
        points.push_back({scale.x_of_share(std::clamp(share, 0.0, 1.0)), scale.y_of(set.axis.time_s[i])});
    }
    return points;
}

std::vector<FigurePoint> line_of(const SwingScale& scale, const SwingSet& set,
                                 const std::vector<double>& curve) {
    std::vector<FigurePoint> points;
    for (std::size_t i = 0; i < curve.size(); ++i)
        points.push_back({scale.x_of_share(curve[i]), scale.y_of(set.axis.time_s[i])});
    return points;
}

void draw_landmarks(SwingPicture& picture, const SwingSet& set) {
    const SwingScale& scale = picture.scale;
    std::vector<Label> labels;
    for (std::size_t i = 0; i < landmark_names.size(); ++i)
        labels.push_back({scale.y_of(set.axis.landmark_s[i]), 0.0, 0, i});
    for (const Label& label : spread_labels(std::move(labels), picture.px(18.0),
                                            scale.trace.top + picture.px(4.0), scale.trace.bottom)) {
        const double right = scale.trace.left - picture.px(12.0);
        picture.kit.text({right - picture.px(6.0), label.y + picture.px(4.5)}, landmark_names[label.key],
                         Ink::ink, Align::right);
        picture.kit.path({{right, label.y}, {scale.trace.left, label.wanted_y}}, Ink::quiet, 1.0);
        picture.kit.line({scale.trace.left, label.wanted_y}, {scale.trace.right, label.wanted_y}, Ink::grid,
                         1.0);
    }
}

}  // namespace

namespace {

/// Between `top` and the foot of the figure, where the picture stands by itself within a page.
Figure drawn_between(const LessonResult& lesson, const SwingSet& set, double width, double height, double top,
                     double bottom, SetDetail detail) {
    SwingFigureOptions options;
    options.width = width;
    options.height = height;
    options.edge = 0.0;
    Figure figure;
    figure.width = width;
    figure.height = height;
    SwingPicture picture{lesson, options, {}, {}, FigureKit(figure)};
    SwingScale& scale = picture.scale;
    scale.trace = {104.0, top + 60.0, std::max(width - 48.0, 114.0), std::max(bottom - 12.0, top + 70.0)};
    figure.title = "Swings laid over each other";
    figure.description = "Too few swings of one kind to lay over each other.";
    if (!set.together) return figure;
    const double room_s = 0.06 * (set.axis.time_s.back() - set.axis.time_s.front());
    scale.from_s = set.axis.time_s.front() - room_s;
    scale.to_s = set.axis.time_s.back() + room_s;

    const double rule_y = scale.trace.top - 6.0;
    draw_band(picture, rule_y, scale.trace.bottom);
    draw_foot_names(picture, top + 16.0);
    draw_time_grid(picture);
    draw_rule(picture, rule_y);
    draw_landmarks(picture, set);
    const bool tells_ranges = set.curves.size() >= fewest_curves_to_tint;
    if (tells_ranges) {
        const double reach = set.together->band_factor / std::sqrt(static_cast<double>(set.curves.size()));
        std::vector<FigurePoint> band = line_of(scale, set, reach);
        const std::vector<FigurePoint> other_edge = line_of(scale, set, -reach);
        band.insert(band.end(), other_edge.rbegin(), other_edge.rend());
        picture.kit.polygon(std::move(band), Ink::lead, 0.22);
    }
    for (std::size_t c = 0; c < set.curves.size(); ++c) {
        if (detail == SetDetail::every_swing && !is_odd(set, c))
            picture.kit.path(line_of(scale, set, set.curves[c]), Ink::quiet, 0.75, LineStyle::solid, 0.6);
    }
    for (const double factor : {-set.together->next_factor, set.together->next_factor})
        if (tells_ranges)
            picture.kit.path(line_of(scale, set, factor), Ink::lead, 1.0, LineStyle::dashed, 0.8);
    picture.kit.path(line_of(scale, set, 0.0), Ink::lead, 2.5);
    for (const OddCurve& odd : set.odd) {
        if (odd.p >= odd_below_p) continue;
        const std::vector<FigurePoint> line = line_of(scale, set, set.curves[odd.curve]);
        picture.kit.path(line, Ink::ink, 1.5);
        const FigurePoint at = line[odd.point];
        picture.kit.mark(at, MarkShape::ring, 4.0, Ink::ink);
        const bool leftwards = at.x > 0.5 * (scale.trace.left + scale.trace.right);
        const std::string name = fmt::format("swing {}", lesson.swings[set.curve_places[odd.curve]].index);
        const double name_width = text_width(name, TextSize::small);
        const double left = at.x + (leftwards ? -10.0 - name_width : 10.0);
        picture.kit.area({left - 3.0, at.y - 9.0, left + name_width + 3.0, at.y + 9.0}, Ink::paper, 0.9);
        picture.kit.text({left, at.y + 4.5}, name, Ink::ink);
    }
    figure.description.clear();
    for (const std::string& sentence : set_words(lesson, set))
        figure.description += (figure.description.empty() ? "" : " ") + sentence;
    return figure;
}

/// What the lines are, each beside a piece of it, on one line.
void draw_key(FigureKit& kit, double y, const SwingSet& set, bool any_odd) {
    FigureKey key(kit, y);
    key.stroke("mean", Ink::lead, 2.5);
    if (set.curves.size() >= fewest_curves_to_tint) {
        key.tint("the true mean (95 %)");
        key.stroke("next swing within", Ink::lead, 1.0, LineStyle::dashed);
    }
    key.stroke("one swing", Ink::quiet, 0.75);
    if (any_odd) key.stroke("the odd one out", Ink::ink, 1.5);
}

}  // namespace

Figure set_figure(const LessonResult& lesson, const SwingSet& set, double width, double height,
                  SetDetail detail) {
    return drawn_between(lesson, set, width, height, 0.0, height, detail);
}

Figure titled_set_figure(const LessonResult& lesson, const SwingSet& set, double width, double height) {
    constexpr double title_height = 64.0;
    constexpr double key_height = 36.0;
    constexpr std::size_t most_title = 60;
    Figure figure =
        drawn_between(lesson, set, width, height, title_height, height - key_height, SetDetail::every_swing);
    if (!set.together) return figure;
    FigureKit kit(figure);
    std::string below = count_words(set.curves.size(), "swing", "swings") + " laid over each other";
    if (lesson.facts.started.size() >= 10) below = lesson.facts.started.substr(0, 10) + " · " + below;
    kit.text({8.0, 24.0}, clean_text(report_title(lesson), most_title), Ink::ink, Align::left,
             TextSize::heading, TextWeight::bold);
    kit.text({8.0, 46.0}, clean_text(below), Ink::quiet);
    bool any_odd = false;
    for (std::size_t curve = 0; curve < set.curves.size(); ++curve) any_odd = any_odd || is_odd(set, curve);
    draw_key(kit, height - 0.5 * key_height, set, any_odd);
    return figure;
}

std::vector<std::string> set_words(const LessonResult& lesson, const SwingSet& set) {
    if (!set.together) return {"Too few swings of one kind to lay over each other; three are needed."};
    std::vector<std::string> words{
        fmt::format("{} laid over each other by takeaway, turnaround, impact and finish. Bold: their mean",
                    count_words(set.curves.size(), "swing", "swings"))};
    if (set.curves.size() < fewest_curves_to_judge) {
        words.back() += ".";
        words.push_back(
            "Too few to say where the true mean lies, where the next swing is to be expected, or whether "
            "one of them is odd; five are needed.");
        return words;
    }
    words.back() +=
        ", tinted: where the true mean lies, as a whole line, in 95 of 100 cases. Between the dashed lines "
        "the next swing is to be expected.";
    bool any = false;
    for (const OddCurve& odd : set.odd) {
        if (odd.p >= odd_below_p) continue;
        any = true;
        words.push_back(fmt::format("Swing {} is the odd one out, most so {} s from impact ({}).",
                                    lesson.swings[set.curve_places[odd.curve]].index,
                                    number_words(set.axis.time_s[odd.point], 2), chance_words(odd.p)));
    }
    if (!any) words.push_back("None of them is odd beyond chance.");
    return words;
}

}  // namespace footing
