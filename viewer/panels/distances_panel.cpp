#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "viewer/panels/book_panels.h"

namespace footing {

namespace {

/// Whole tens of the student's unit below the shortest and above the longest shot.
struct Range {
    double from = 0.0;
    double to = 100.0;
};

Range range_of(const DistanceChart& chart, double metres_a_unit) {
    double low = 1e9;
    double high = -1e9;
    for (const DistanceCell& cell : chart.cells) {
        for (const JudgedCarry& shot : cell.shots) {
            low = std::min(low, shot.carry.carry_m / metres_a_unit);
            high = std::max(high, shot.carry.carry_m / metres_a_unit);
        }
    }
    if (low > high) return {};
    return {std::floor((low - 3.0) / 10.0) * 10.0, std::ceil((high + 3.0) / 10.0) * 10.0};
}

/// Between marks of the scale, so that at most a dozen stand there.
double step_of(const Range& range) {
    for (const double step : {5.0, 10.0, 20.0, 50.0}) {
        if ((range.to - range.from) / step <= 12.0) return step;
    }
    return 100.0;
}

/// What does not fit together in the chart, and why a ± is wider than its shots: the first of each.
std::string remark_words(const DistanceChart& chart, DistanceUnit unit) {
    std::string words = chart.warnings.empty() ? "" : warning_words(chart, chart.warnings.front(), unit);
    for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
        const std::string wide = wide_interval_words(chart, cell, DistanceOptions{}.confidence, unit);
        if (wide.empty()) continue;
        return words + (words.empty() ? "" : ". ") + wide;
    }
    return words;
}

class Rows {
  public:
    Rows(ScreenCanvas& canvas, const Box& axis, const DistanceChart& chart, DistanceUnit unit)
        : canvas_(canvas), axis_(axis), unit_(unit), range_(range_of(chart, metres_per(unit))) {}

    void draw_scale(const Box& foot) {
        const double step = step_of(range_);
        for (double at = std::ceil(range_.from / step) * step; at <= range_.to + 1e-9; at += step) {
            const float x = x_of(at * metres_per(unit_));
            canvas_.line({x, axis_.top}, {x, axis_.bottom}, Ink::grid);
            const float half = canvas_.px(32);
            const bool last = at + step > range_.to + 1e-9;
            canvas_.text({x - half, foot.top, x + half, foot.bottom},
                         last ? fmt::format("{:.0f} {}", at, unit_name(unit_)) : fmt::format("{:.0f}", at),
                         TextSize::small, Ink::quiet, Align::middle);
        }
    }

    void draw(const DistanceCell& cell, const Box& row) {
        const float y = row.middle_y();
        if (cell.is_number()) {
            const float half = canvas_.px(7);
            canvas_.fill(
                {x_of(*cell.mean_m - *cell.sd_m), y - half, x_of(*cell.mean_m + *cell.sd_m), y + half},
                Ink::lead, 0.22, 3.0F);
        }
        const float tick = std::min(canvas_.px(9), row.height() * 0.4F);
        for (const JudgedCarry& shot : cell.shots) {
            const float x = x_of(shot.carry.carry_m);
            if (shot.standing == Standing::kept) {
                canvas_.line({x, y - tick}, {x, y + tick}, Ink::lead, 1.5F);
            } else {
                canvas_.mark({x, y}, MarkShape::ring, 3.5F, Ink::quiet);
            }
        }
        if (cell.is_number()) canvas_.mark({x_of(*cell.mean_m), y}, MarkShape::diamond, 5.0F, Ink::ink);
    }

  private:
    [[nodiscard]] float x_of(double metres) const {
        const double part = (metres / metres_per(unit_) - range_.from) / (range_.to - range_.from);
        return axis_.left + static_cast<float>(std::clamp(part, 0.0, 1.0)) * axis_.width();
    }

    ScreenCanvas& canvas_;
    Box axis_;
    DistanceUnit unit_;
    Range range_;
};

}  // namespace

void draw_distances_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                         std::vector<ViewAction>& asked) {
    const BookDesk& book = *state.book;
    const Student* student = chosen_student(book);
    Box rest = box;
    if (const float fill_in = fill_in_height(canvas, state); student && fill_in > 0.0F) {
        draw_fill_in(canvas, rest.cut_bottom(fill_in), state, asked);
        rest.cut_bottom(canvas.px(8));
    }
    const bool any =
        book.facts->chart && std::any_of(book.facts->chart->cells.begin(), book.facts->chart->cells.end(),
                                         [](const DistanceCell& cell) { return !cell.shots.empty(); });
    if (!student || !any) {
        return draw_purpose(
            canvas, rest, "How far each wedge carries at each length",
            student
                ? "A row for each wedge and length of swing comes with the first carry that is typed in a "
                  "lesson: say the wedge (W) and the length (E), before the swing or while its replay "
                  "stands there, and type the carry."
                : "Choose a student on the first page; then the carries typed in lessons stand here, shot "
                  "by shot.");
    }
    const DistanceChart& chart = *book.facts->chart;
    const std::string remark = remark_words(chart, student->unit);
    constexpr std::size_t one_line = 140;  // characters
    const float lines = remark.empty() ? 0.0F : remark.size() < one_line ? 1.0F : 3.0F;
    const Box remarks = rest.cut_bottom(canvas.px(lines == 0.0F ? 0.0F : 32.0F + 24.0F * lines));
    Box foot = rest.cut_bottom(canvas.px(24));
    const float row_height = std::min(canvas.px(44), rest.height() / static_cast<float>(chart.cells.size()));
    const float wedge_width = canvas.px(72);
    const float longest_length = canvas.text_width(length_name(SwingLength::three_quarter), TextSize::text);
    const Box names{rest.left, rest.top,
                    rest.left + wedge_width + std::max(canvas.px(104), longest_length + 1.0F), rest.bottom};
    const Box known{rest.right - canvas.px(136), rest.top, rest.right, rest.bottom};
    const Box axis{names.right + canvas.px(16), rest.top, known.left - canvas.px(24),
                   rest.top + row_height * static_cast<float>(chart.cells.size())};
    foot.top = axis.bottom + canvas.px(4);
    foot.bottom = foot.top + canvas.px(20);
    Rows rows(canvas, axis, chart, student->unit);
    rows.draw_scale(foot);
    for (std::size_t place = 0; place < chart.cells.size(); ++place) {
        const float top = axis.top + row_height * static_cast<float>(place);
        const DistanceCell& cell = chart.cells[place];
        const bool first_of_wedge = place == 0 || chart.cells[place - 1].wedge != cell.wedge;
        if (first_of_wedge && place > 0) canvas.line({rest.left, top}, {rest.right, top}, Ink::grid);
        Box name{names.left, top, names.right, top + row_height};
        canvas.text(name.cut_left(wedge_width), first_of_wedge ? chart.wedge_of(place).name : "",
                    TextSize::text, Ink::ink, Align::left, TextWeight::bold);
        canvas.text(name, length_name(cell.length), TextSize::text,
                    cell.shots.empty() ? Ink::quiet : Ink::ink);
        rows.draw(cell, {axis.left, top, axis.right, top + row_height});
        canvas.text({known.left, top, known.right, top + row_height}, known_words(cell, student->unit),
                    TextSize::text, cell.is_number() ? Ink::ink : Ink::quiet, Align::right);
    }
    if (!remark.empty()) canvas.paragraph(remarks, remark, TextSize::text, Ink::ink);
}

}  // namespace footing
