#include "viewer/panels/stage_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

constexpr double event_gutter_px = 112.0;
constexpr double time_gutter_px = 56.0;
constexpr double rule_room_px = 40.0;
constexpr double least_half_width_m = 0.05;  // of the axis in a picture of the centre of pressure

StageFigure share_of_swing(const ViewState& state, double width, double height) {
    SwingFigureOptions options;
    options.width = width;
    options.height = height;
    options.swings.push_back(*state.chosen);
    if (compared_swing(state)) options.swings.push_back(*state.compared);
    options.head_time_s = state.head_s;
    options.head_label = HeadLabel::none;
    return {swing_figure(*state.lesson, options), swing_figure_scale(*state.lesson, options)};
}

/// Times by the recording's clock, where there is no swing whose impact could be zero.
void draw_clock(FigureKit& kit, const SwingScale& scale) {
    const double span_s = scale.to_s - scale.from_s;
    double step_s = 60.0;
    for (const double finer : {30.0, 10.0, 5.0, 2.0, 1.0, 0.5}) {
        if (finer / span_s * scale.trace.height() < 32.0) break;
        step_s = finer;
    }
    const double from_s = scale.zero_s + scale.from_s;
    for (double tick = std::ceil(from_s / step_s - 1e-9); tick * step_s <= from_s + span_s + 1e-9;
         tick += 1.0) {
        const double y = scale.y_of(tick * step_s - scale.zero_s);
        kit.line({scale.trace.left, y}, {scale.trace.right, y}, Ink::grid, 1.0);
        const double baseline = std::clamp(y + 4.5, scale.trace.top + 9.0, scale.trace.bottom);
        kit.text({scale.trace.right + 8.0, baseline}, clock_words(tick * step_s, step_s < 1.0 ? 1 : 0),
                 Ink::quiet);
    }
}

StageFigure share_without_swing(const ViewState& state, double width, double height) {
    const TimeSpan shown = shown_span(state);
    SwingFigureOptions options;
    options.width = width;
    options.height = height;
    options.head_time_s = state.head_s;
    options.head_label = HeadLabel::none;
    StageFigure stage;
    stage.figure.width = width;
    stage.figure.height = height;
    stage.figure.title = "Lead share without a swing";
    stage.figure.description = "Lead share over time, time running down; no swing was found here.";
    Swing stretch;  // a stretch of the recording: no events, nothing to judge
    stretch.from_s = shown.from_s;
    stretch.to_s = std::max(shown.to_s, shown.from_s + 0.01);
    SwingPicture picture{*state.lesson,
                         options,
                         swing_figure_scale(*state.lesson, options),
                         {&stretch},
                         FigureKit(stage.figure)};
    picture.scale.zero_s = stretch.from_s;
    picture.scale.from_s = 0.0;
    picture.scale.to_s = stretch.to_s - stretch.from_s;
    draw_band(picture, picture.scale.feet.top, picture.scale.trace.bottom);
    draw_foot_names(picture, 16.0);
    draw_clock(picture.kit, picture.scale);
    draw_loss(picture);
    draw_rule(picture, picture.scale.trace.top - 6.0);
    draw_feet_over_rule(picture);
    draw_traces(picture);
    draw_head(picture);
    stage.scale = picture.scale;
    return stage;
}

/// Centre of pressure across the plate, towards the target, in metres; the axis of the third picture.
struct CopAxis {
    FigureBox trace;
    double middle_m = 0.0;
    double half_width_m = least_half_width_m;

    [[nodiscard]] double x_of(double cop_m) const {
        return 0.5 * (trace.left + trace.right) + (cop_m - middle_m) / half_width_m * 0.5 * trace.width();
    }
};

double towards_target_m(const LessonResult& lesson, std::size_t sample) {
    const double x = sample < lesson.trace.cop_x_m.size() ? lesson.trace.cop_x_m[sample] : unknown;
    return lesson.facts.hand == Hand::right ? -x : x;
}

CopAxis fit_axis(const LessonResult& lesson, const TimeSpan& shown, const FigureBox& trace) {
    double least = 1e9;
    double greatest = -1e9;
    for (std::size_t i = sample_from(lesson.trace, shown.from_s); i < sample_from(lesson.trace, shown.to_s);
         ++i) {
        const double at = towards_target_m(lesson, i);
        if (!known(at)) continue;
        least = std::min(least, at);
        greatest = std::max(greatest, at);
    }
    CopAxis axis{trace};
    if (greatest < least) return axis;
    axis.middle_m = std::round(50.0 * (least + greatest)) / 100.0;
    const double reach = std::max(greatest - axis.middle_m, axis.middle_m - least);
    axis.half_width_m = std::max(least_half_width_m, std::ceil(reach * 1.1 / 0.05) * 0.05);
    return axis;
}

void draw_cop_rule(FigureKit& kit, const CopAxis& axis) {
    const double rule_y = axis.trace.top - 6.0;
    int step_cm = 1;
    for (const int wider : {1, 2, 5, 10, 20, 50}) {
        step_cm = wider;
        if (wider / 100.0 / (2.0 * axis.half_width_m) * axis.trace.width() >= 56.0) break;
    }
    const double from_cm = 100.0 * (axis.middle_m - axis.half_width_m);
    const double to_cm = 100.0 * (axis.middle_m + axis.half_width_m);
    for (int tick = static_cast<int>(std::ceil(from_cm / step_cm - 1e-9)); tick * step_cm <= to_cm + 1e-9;
         ++tick) {
        const int cm = tick * step_cm;
        const double x = axis.x_of(cm / 100.0);
        kit.line({x, rule_y - 6.0}, {x, rule_y}, Ink::ink, 1.0);
        kit.line({x, rule_y}, {x, axis.trace.bottom}, Ink::grid, 1.0);
        kit.text({x, rule_y - 10.0}, fmt::format("{}{}", cm < 0 ? "−" : "", std::abs(cm)), Ink::quiet,
                 Align::middle);
    }
    kit.line({axis.trace.left, rule_y}, {axis.trace.right, rule_y}, Ink::ink, 1.5);
    kit.text({axis.trace.left, 16.0}, "trail side", Ink::trail);
    const std::string long_name = "centre of pressure, cm from the plate's middle";
    const double sides = 2.0 * text_width("lead side → target", TextSize::small) + 32.0;
    const bool fits = text_width(long_name, TextSize::small) + sides < axis.trace.width();
    kit.text({0.5 * (axis.trace.left + axis.trace.right), 16.0}, fits ? long_name : "CoP, cm", Ink::quiet,
             Align::middle);
    kit.text({axis.trace.right, 16.0}, "lead side → target", Ink::lead, Align::right);
}

void draw_cop_line(FigureKit& kit, const LessonResult& lesson, const SwingScale& scale, const CopAxis& axis) {
    std::vector<FigurePoint> run;
    const auto finish = [&] { kit.path(thinned_down(std::exchange(run, {})), Ink::ink, 2.0); };
    const std::size_t end = sample_from(lesson.trace, scale.zero_s + scale.to_s);
    for (std::size_t i = sample_from(lesson.trace, scale.zero_s + scale.from_s); i < end; ++i) {
        const double at = towards_target_m(lesson, i);
        if (known(at)) {
            run.push_back({axis.x_of(at), scale.y_of(lesson.trace.time_s[i] - scale.zero_s)});
        } else {
            finish();
        }
    }
    finish();
}

void draw_event_lines(FigureKit& kit, const Swing& swing, const SwingScale& scale) {
    std::vector<Label> labels;
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        const auto& event = swing.events.*named_events[i].member;
        if (event) labels.push_back({scale.y_of(event->time_s - scale.zero_s), 0.0, static_cast<int>(i), i});
    }
    for (const Label& label :
         spread_labels(std::move(labels), 17.0, scale.trace.top + 8.5, scale.trace.bottom - 8.5)) {
        kit.text({8.0, label.y + 4.5}, named_events[label.key].name, Ink::ink);
        kit.path({{event_gutter_px - 20.0, label.y},
                  {event_gutter_px - 16.0, label.y},
                  {scale.trace.left, label.wanted_y},
                  {scale.trace.right, label.wanted_y}},
                 Ink::quiet, 1.0, LineStyle::solid, 0.6);
    }
}

StageFigure cop_across(const ViewState& state, double width, double height) {
    const LessonResult& lesson = *state.lesson;
    const TimeSpan shown = shown_span(state);
    const Swing* swing = chosen_swing(state);
    StageFigure stage;
    stage.figure.width = width;
    stage.figure.height = height;
    stage.figure.title = "Centre of pressure";
    stage.figure.description =
        "Centre of pressure across the plate over time, time running down; the feet cannot be told apart.";
    stage.scale.trace = {event_gutter_px, 24.0 + rule_room_px, width - time_gutter_px, height - 12.0};
    stage.scale.zero_s = swing ? zero_of(*swing) : shown.from_s;
    stage.scale.from_s = shown.from_s - stage.scale.zero_s;
    stage.scale.to_s = std::max(shown.to_s, shown.from_s + 0.01) - stage.scale.zero_s;
    const CopAxis axis = fit_axis(lesson, shown, stage.scale.trace);
    SwingPicture picture{lesson, {}, stage.scale, {}, FigureKit(stage.figure)};
    FigureKit& kit = picture.kit;
    if (swing) {
        draw_time_grid(picture);
    } else {
        draw_clock(kit, stage.scale);
    }
    draw_cop_rule(kit, axis);
    if (swing) draw_event_lines(kit, *swing, stage.scale);
    draw_cop_line(kit, lesson, stage.scale, axis);
    const auto sample = nearest_sample(lesson.trace, state.head_s);
    if (sample && state.head_s >= shown.from_s && state.head_s <= shown.to_s) {
        const double y = stage.scale.y_of(state.head_s - stage.scale.zero_s);
        kit.line({axis.trace.left, y}, {axis.trace.right, y}, Ink::ink, 1.0);
        const double at = towards_target_m(lesson, *sample);
        if (known(at)) kit.mark({axis.x_of(at), y}, MarkShape::dot, 5.0, Ink::ink);
    }
    return stage;
}

}  // namespace

StageFigure stage_figure(const ViewState& state, double width, double height) {
    if (!feet_known(state)) return cop_across(state, width, height);
    return chosen_swing(state) ? share_of_swing(state, width, height)
                               : share_without_swing(state, width, height);
}

}  // namespace footing
