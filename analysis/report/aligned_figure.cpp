#include "analysis/report/aligned_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "analysis/report/figure_key.h"
#include "analysis/report/figure_kit.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/number_words.h"
#include "analysis/report/swing_parts.h"
#include "analysis/statistics/rounding.h"
#include "analysis/swing/swing_set.h"

namespace footing {

namespace {

std::vector<FigurePoint> line_of(const SwingScale& scale, const AlignedSwings& aligned,
                                 const std::vector<double>& curve) {
    std::vector<FigurePoint> points;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        points.push_back({scale.x_of_share(std::clamp(curve[i], 0.0, 1.0)), scale.y_of(aligned.time_s[i])});
    }
    return points;
}

/// The line of mean + factor sd.
std::vector<FigurePoint> line_of(const SwingScale& scale, const AlignedSwings& aligned, const CurveSet& set,
                                 double factor) {
    std::vector<double> shares;
    for (std::size_t i = 0; i < set.mean.size(); ++i) shares.push_back(set.mean[i] + factor * set.sd[i]);
    return line_of(scale, aligned, shares);
}

void draw_events(SwingPicture& picture, const AlignedSwings& aligned, const std::string& zero) {
    const SwingScale& scale = picture.scale;
    std::vector<Label> labels;
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        const auto& at = aligned.event_s[i];
        if (!at || *at < aligned.time_s.front() || *at > aligned.time_s.back()) continue;
        const bool is_zero = named_events[i].name == zero;
        labels.push_back({scale.y_of(*at), 0.0, is_zero ? 1 : 0, i});
    }
    for (const Label& label :
         spread_labels(std::move(labels), 18.0, scale.trace.top + 4.0, scale.trace.bottom)) {
        const double right = scale.trace.left - 12.0;
        const bool is_zero = named_events[label.key].name == zero;
        picture.kit.text({right - 6.0, label.y + 4.5}, named_events[label.key].name, Ink::ink, Align::right,
                         TextSize::small, is_zero ? TextWeight::bold : TextWeight::regular);
        picture.kit.path({{right, label.y}, {scale.trace.left, label.wanted_y}}, Ink::quiet, 1.0);
        picture.kit.line({scale.trace.left, label.wanted_y}, {scale.trace.right, label.wanted_y},
                         is_zero ? Ink::quiet : Ink::grid, 1.0);
    }
}

void name_line(FigureKit& kit, const SwingScale& scale, FigurePoint at, const std::string& name) {
    kit.mark(at, MarkShape::ring, 4.0, Ink::ink);
    const bool leftwards = at.x > 0.5 * (scale.trace.left + scale.trace.right);
    const double width = text_width(name, TextSize::small);
    const double left = at.x + (leftwards ? -10.0 - width : 10.0);
    kit.area({left - 3.0, at.y - 9.0, left + width + 3.0, at.y + 9.0}, Ink::paper, 0.9);
    kit.text({left, at.y + 4.5}, name, Ink::ink);
}

bool is_odd(const AlignedGroup& group, std::size_t curve) {
    return std::ranges::any_of(group.odd, [&](const OddCurve& odd) {
        return odd.p < odd_below_p && group.curves[odd.curve] == curve;
    });
}

bool is_tinted(const AlignedGroup& group) {
    return group.together && group.curves.size() >= fewest_curves_to_tint;
}

void draw_group(SwingPicture& picture, const AlignedSwings& aligned, std::size_t which) {
    const AlignedGroup& group = aligned.groups[which];
    const SwingScale& scale = picture.scale;
    const Ink ink = which == 0 ? Ink::lead : Ink::ink;
    const LineStyle style = which == 0 ? LineStyle::solid : LineStyle::dashed;
    if (!group.together) {
        for (const std::size_t curve : group.curves)
            picture.kit.path(line_of(scale, aligned, aligned.curves[curve]), ink, 2.0, style);
        return;
    }
    if (which == 0 && is_tinted(group)) {
        const double reach =
            group.together->band_factor / std::sqrt(static_cast<double>(group.curves.size()));
        std::vector<FigurePoint> band = line_of(scale, aligned, *group.together, reach);
        const std::vector<FigurePoint> other_edge = line_of(scale, aligned, *group.together, -reach);
        band.insert(band.end(), other_edge.rbegin(), other_edge.rend());
        picture.kit.polygon(std::move(band), ink, 0.22);
    }
    for (const std::size_t curve : group.curves) {
        if (!is_odd(group, curve))
            picture.kit.path(line_of(scale, aligned, aligned.curves[curve]), Ink::quiet, 0.75,
                             LineStyle::solid, 0.6);
    }
    picture.kit.path(line_of(scale, aligned, *group.together, 0.0), ink, 2.5, style);
}

void draw_named(SwingPicture& picture, const AlignedSwings& aligned, const AlignedNames& names) {
    const auto draw = [&](std::size_t curve, std::size_t point) {
        const std::vector<FigurePoint> line = line_of(picture.scale, aligned, aligned.curves[curve]);
        picture.kit.path(line, Ink::ink, 1.5);
        name_line(picture.kit, picture.scale, line[point], names.swings[aligned.given[curve]]);
    };
    for (std::size_t curve = 0; curve < aligned.curves.size(); ++curve) {
        if (names.looked_at == aligned.given[curve]) draw(curve, aligned.time_s.size() * 9 / 10);
    }
    for (const AlignedGroup& group : aligned.groups) {
        for (const OddCurve& odd : group.odd) {
            const std::size_t curve = group.curves[odd.curve];
            if (odd.p < odd_below_p && names.looked_at != aligned.given[curve]) draw(curve, odd.point);
        }
    }
}

/// What the bold lines are, each beside a piece of it.
void draw_key(FigureKit& kit, const AlignedSwings& aligned, const AlignedNames& names, double y) {
    FigureKey key(kit, y);
    for (std::size_t which = 0; which < aligned_groups; ++which) {
        const AlignedGroup& group = aligned.groups[which];
        if (group.curves.empty()) continue;
        key.stroke(fmt::format("{}{}", group.together ? "mean of " : "", names.groups[which]),
                   which == 0 ? Ink::lead : Ink::ink, 2.5, which == 0 ? LineStyle::solid : LineStyle::dashed);
    }
    if (is_tinted(aligned.groups[0])) {
        key.tint("the true mean (95 %)");
    } else if (aligned.groups[0].together) {
        key.no_piece("where the true mean lies: from five swings on");
    }
}

}  // namespace

Figure aligned_figure(const AlignedSwings& aligned, const AlignedNames& names, const TargetBand& band,
                      double width, double height) {
    constexpr double key_height = 32.0;
    LessonResult nobody;  // the parts of a swing's picture take band and feet from a lesson
    nobody.band = band;
    SwingFigureOptions options;
    options.width = width;
    options.height = height;
    options.edge = 0.0;
    Figure figure;
    figure.width = width;
    figure.height = height;
    figure.title = "Swings aligned on " + names.event;
    for (const std::string& sentence : aligned_words(aligned, names))
        figure.description += (figure.description.empty() ? "" : " ") + sentence;
    if (aligned.curves.empty()) return figure;
    SwingPicture picture{nobody, options, {}, {}, FigureKit(figure)};
    SwingScale& scale = picture.scale;
    scale.trace = {104.0, 60.0, std::max(width - 48.0, 114.0), std::max(height - 12.0 - key_height, 70.0)};
    scale.from_s = aligned.time_s.front() - 0.03;
    scale.to_s = aligned.time_s.back() + 0.03;
    const double rule_y = scale.trace.top - 6.0;
    draw_band(picture, rule_y, scale.trace.bottom);
    draw_foot_names(picture, 16.0);
    draw_time_grid(picture);
    draw_rule(picture, rule_y);
    draw_events(picture, aligned, names.event);
    for (std::size_t which = 0; which < aligned_groups; ++which) draw_group(picture, aligned, which);
    draw_named(picture, aligned, names);
    draw_key(picture.kit, aligned, names, height - 0.5 * key_height);
    return figure;
}

std::vector<std::string> aligned_words(const AlignedSwings& aligned, const AlignedNames& names) {
    if (aligned.curves.empty())
        return {fmt::format("No swing with a known share at {} is among these.", names.event)};
    std::vector<std::string> words;
    bool any_odd = false;
    bool judged = false;
    for (const AlignedGroup& group : aligned.groups) {
        judged = judged || !group.odd.empty();
        for (const OddCurve& odd : group.odd) {
            if (odd.p >= odd_below_p) continue;
            any_odd = true;
            words.push_back(fmt::format("{} is the odd one out, most so {} s from {} ({}).",
                                        names.swings[aligned.given[group.curves[odd.curve]]],
                                        number_words(aligned.time_s[odd.point], 2), names.event,
                                        chance_words(odd.p)));
            words.back().front() =
                static_cast<char>(std::toupper(static_cast<unsigned char>(words.back().front())));
        }
    }
    if (judged && !any_odd) words.push_back("None of them is odd beyond chance.");
    if (!judged) words.push_back("Too few to say whether one of them is odd; five are needed.");
    if (aligned.left_out > 0) {
        words.push_back(fmt::format("{} left out: no {}, or no share known throughout.",
                                    count_words(aligned.left_out, "swing is", "swings are"), names.event));
    }
    return words;
}

}  // namespace footing
