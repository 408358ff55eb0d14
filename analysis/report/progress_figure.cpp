#include "analysis/report/progress_figure.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "analysis/report/figure_kit.h"
#include "analysis/report/figure_scale.h"

namespace footing {

namespace {

constexpr double margin = 24.0;
constexpr double head = 56.0;
constexpr double strip_height = 132.0;
constexpr double highest_strip = 184.0;  // where strips share a height
constexpr double strip_head = 30.0;
constexpr double values_width = 72.0;  // of the words beside the scale
constexpr double foot = 40.0;
constexpr double rim = 14.0;

bool is_drawn(const ProgressSeries& series) {
    return series.points.size() >= 2;
}

/// Where lessons and values lie on one strip.
struct Strip {
    FigureBox box;
    std::size_t lessons = 1;
    double low = 0.0;
    double high = 1.0;

    [[nodiscard]] double x_of(std::size_t lesson) const {
        const double of_all =
            lessons > 1 ? static_cast<double>(lesson) / static_cast<double>(lessons - 1) : 0.5;
        return box.left + rim + of_all * (box.width() - 2.0 * rim);
    }
    [[nodiscard]] double y_of(double value) const {
        return box.bottom - (value - low) / (high - low) * box.height();
    }
};

/// Room for all dots and limits, with some air.
void fit_values(Strip& strip, const ProgressSeries& series) {
    strip.low = strip.high = series.points.front().value;
    const auto hold = [&](double value) {
        strip.low = std::min(strip.low, value);
        strip.high = std::max(strip.high, value);
    };
    for (const ProgressPoint& point : series.points) hold(point.value);
    if (series.chart) {
        for (const double limit : series.chart->limit)
            hold(series.target - limit), hold(series.target + limit);
    }
    const double air = std::max(0.12 * (strip.high - strip.low), 1e-6);
    strip.low -= air;
    strip.high += air;
}

void draw_chart(FigureKit& kit, const Strip& strip, const ProgressSeries& series) {
    if (!series.chart) return;
    std::vector<FigurePoint> upper;
    std::vector<FigurePoint> lower;
    std::vector<FigurePoint> average;
    for (std::size_t i = 0; i < series.chart->average.size(); ++i) {
        const double x = strip.x_of(series.points[baseline + i].lesson);
        upper.push_back({x, strip.y_of(series.target + series.chart->limit[i])});
        lower.push_back({x, strip.y_of(series.target - series.chart->limit[i])});
        average.push_back({x, strip.y_of(series.chart->average[i])});
    }
    std::vector<FigurePoint> tint = upper;
    tint.insert(tint.end(), lower.rbegin(), lower.rend());
    kit.polygon(std::move(tint), Ink::band);
    kit.path(std::move(upper), Ink::band_edge, 1.0);
    kit.path(std::move(lower), Ink::band_edge, 1.0);
    const double target_y = strip.y_of(series.target);
    kit.line({strip.x_of(series.points.front().lesson), target_y},
             {strip.x_of(series.points.back().lesson), target_y}, Ink::quiet, 1.0, LineStyle::dashed);
    kit.path(std::move(average), Ink::lead, 2.5);
}

/// The means that are compared, where there is no chart.
void draw_change(FigureKit& kit, const Strip& strip, const ProgressSeries& series) {
    if (series.chart || !series.change) return;
    const std::size_t each = series.change->lessons_each;
    const std::size_t count = series.points.size();
    for (const auto& [from, value] :
         {std::pair(std::size_t{0}, series.change->first), std::pair(count - each, series.change->last)}) {
        kit.line({strip.x_of(series.points[from].lesson), strip.y_of(value)},
                 {strip.x_of(series.points[from + each - 1].lesson), strip.y_of(value)}, Ink::lead, 2.5);
    }
}

std::string outcome(const ProgressSeries& series) {
    if (!series.change) return "too few lessons to call a change";
    return series.change->verdict == ProgressVerdict::real ? "a real change" : "no change beyond chance";
}

void draw_strip(FigureKit& kit, const Strip& strip, const ProgressSeries& series) {
    kit.text({margin, strip.box.top - 10.0}, progress_measure_words(series.measure), Ink::ink, Align::left,
             TextSize::text, TextWeight::bold);
    const double words =
        text_width(progress_measure_words(series.measure), TextSize::text, TextWeight::bold) +
        text_width(outcome(series), TextSize::small) + 16.0;
    // On a phone the sentences below tell it.
    if (margin + words <= strip.box.right)
        kit.text({strip.box.right, strip.box.top - 10.0}, outcome(series), Ink::quiet, Align::right);
    kit.area(strip.box, Ink::grid, 0.25);
    draw_chart(kit, strip, series);
    draw_change(kit, strip, series);
    std::vector<FigurePoint> line;
    const auto [least, most] =
        std::minmax_element(series.points.begin(), series.points.end(),
                            [](const ProgressPoint& a, const ProgressPoint& b) { return a.value < b.value; });
    for (const ProgressPoint& point : series.points)
        line.push_back({strip.x_of(point.lesson), strip.y_of(point.value)});
    kit.path(line, Ink::quiet, 1.0, LineStyle::solid, 0.6);
    for (const FigurePoint& at : line) kit.mark(at, MarkShape::dot, 3.5, Ink::ink);
    if (const auto beyond = series.first_beyond()) kit.mark(line[*beyond], MarkShape::ring, 6.0, Ink::ink);
    std::vector<Label> labels{{strip.y_of(most->value), 0.0, 1, 0}, {strip.y_of(least->value), 0.0, 0, 1}};
    for (const Label& label : spread_labels(std::move(labels), 16.0, strip.box.top, strip.box.bottom)) {
        kit.text({strip.box.left - 10.0, label.y + 4.5},
                 progress_value_words(series.measure, label.key == 0 ? most->value : least->value),
                 Ink::quiet, Align::right);
    }
}

Figure figure_of(const std::string& title, std::span<const ProgressSeries> series,
                 std::span<const std::string> dates, double width, double each) {
    Figure figure;
    figure.width = width;
    figure.title = title.empty() ? "Progress" : title;
    FigureKit kit(figure);
    if (!title.empty())
        kit.text({margin, 34.0}, title, Ink::ink, Align::left, TextSize::heading, TextWeight::bold);
    double top = title.empty() ? 0.0 : head;
    for (const ProgressSeries& one : series) {
        if (!is_drawn(one)) continue;
        Strip strip;
        strip.box = {margin + values_width, top + strip_head, width - margin, top + each};
        strip.lessons = std::max<std::size_t>(1, dates.size());
        fit_values(strip, one);
        draw_strip(kit, strip, one);
        figure.description += (figure.description.empty() ? "" : " ") + progress_words(one, dates);
        top += each;
    }
    if (figure.description.empty()) {
        figure.description = "No number is known in two lessons yet.";
        kit.text({margin, top + 20.0}, figure.description, Ink::quiet, Align::left, TextSize::text);
        top += 20.0;
    } else {
        const double left = margin + values_width + rim;
        kit.text({left, top + 22.0}, dates.front(), Ink::quiet);
        kit.text({width - margin - rim, top + 22.0}, dates.back(), Ink::quiet, Align::right);
    }
    figure.height = top + foot;
    return figure;
}

}  // namespace

Figure progress_figure(const std::string& title, std::span<const ProgressSeries> series,
                       std::span<const std::string> dates, double width) {
    return figure_of(title, series, dates, width, strip_height);
}

Figure progress_figure(std::span<const ProgressSeries> series, std::span<const std::string> dates,
                       double width, double height) {
    const auto strips = static_cast<double>(std::ranges::count_if(series, is_drawn));
    const double each = (height - foot) / std::max(1.0, strips);
    return figure_of("", series, dates, width, std::clamp(each, strip_head + 24.0, highest_strip));
}

bool has_progress_figure(std::span<const ProgressSeries> series) {
    return std::ranges::any_of(series, is_drawn);
}

}  // namespace footing
