#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "acquisition/frame/count_words.h"
#include "analysis/report/figure_kit.h"
#include "analysis/report/number_words.h"
#include "analysis/report/student_figures.h"
#include "analysis/report/student_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/statistics/rounding.h"

namespace footing {

namespace {

/// Of the axis, in the student's unit: whole steps below the shortest and above the longest shot.
struct Range {
    double from = 0.0;
    double to = 100.0;
    double step = 10.0;
};

Range range_of(const DistanceChart& chart, double unit_m, double axis_px) {
    double low = longest_carry_m;
    double high = 0.0;
    for (const DistanceCell& cell : chart.cells) {
        for (const JudgedCarry& shot : cell.shots) {
            low = std::min(low, shot.carry.carry_m / unit_m);
            high = std::max(high, shot.carry.carry_m / unit_m);
        }
    }
    if (low > high) return {};
    Range range;
    const double most_steps = std::max(3.0, axis_px / 44.0);
    for (const double step : {5.0, 10.0, 20.0, 50.0, 100.0}) {
        range = {std::floor((low - 2.0) / step) * step, std::ceil((high + 2.0) / step) * step, step};
        range.from = std::max(0.0, range.from);
        if ((range.to - range.from) / step <= most_steps) break;
    }
    return range;
}

/// Distances across the picture.
struct Axis {
    double left = 0.0;
    double right = 0.0;
    Range range;
    DistanceUnit unit = DistanceUnit::yards;

    [[nodiscard]] double x_of(double metres) const {
        const double part = (metres / metres_per(unit) - range.from) / (range.to - range.from);
        return left + std::clamp(part, 0.0, 1.0) * (right - left);
    }

    void draw(FigureKit& kit, double top, double bottom, double words_y) const {
        for (double at = range.from; at <= range.to + 1e-9; at += range.step) {
            const double x = x_of(at * metres_per(unit));
            kit.line({x, top}, {x, bottom}, Ink::grid, 1.0);
            const std::string number = rounded(at, 0);
            const bool last = at + range.step > range.to + 1e-9;
            kit.text({x - 0.5 * text_width(number, TextSize::small), words_y},
                     last ? number + " " + unit_name(unit) : number, Ink::quiet);
        }
    }
};

std::string short_length(SwingLength length) {
    return length == SwingLength::three_quarter ? "3/4" : length_name(length);
}

/// As much of a name as a place has room for.
std::string fitted(const std::string& name, double room, TextSize size,
                   TextWeight weight = TextWeight::regular) {
    const std::string clean = clean_text(name);
    std::size_t characters = clean.size();
    std::string shown = clean;
    while (characters > 1 && text_width(shown, size, weight) > room) shown = clean_text(clean, --characters);
    return shown;
}

/// Room for the names of wedges, as wide as the longest asks for, between two limits.
double names_width(const DistanceChart& chart, TextSize size, double least, double most) {
    double widest = 0.0;
    for (const ChartWedge& wedge : chart.wedges)
        widest = std::max(widest, text_width(clean_text(wedge.name), size, TextWeight::bold));
    return std::clamp(widest + 12.0, least, most);
}

/// "54 half 62 yd"; "54 half 2 of 5 shots" where that is no number yet.
std::string number_of_cell(const StudentReport& report, std::size_t cell) {
    const DistanceCell& one = report.chart.cells[cell];
    return cell_words(report.chart, cell) + " " +
           (one.is_number() ? distance_words(*one.mean_m, report.unit) : collected_words(one));
}

/// With fewer numbers there is hardly a club to choose: the card is one to be filled in.
constexpr std::size_t fewest_for_steps = 3;

struct CardCell {
    std::string left;
    std::string right;
};

std::vector<CardCell> step_rows(const StudentReport& report) {
    std::vector<CardCell> rows;
    for (const ClubChoice& choice : card_of(report)) {
        std::string club = "–";
        if (choice.advised) {
            const std::size_t cell = choice.options[*choice.advised].cell;
            club = report.chart.wedge_of(cell).name + " " + short_length(report.chart.cells[cell].length);
        }
        rows.push_back({rounded(choice.distance_m / metres_per(report.unit), 0), club});
    }
    return rows;
}

/// "Not yet on it: 5 of 6 numbers, 5 shots each"; empty where none is missing.
std::string not_on_card(const DistanceChart& chart) {
    std::size_t all = 0;
    std::size_t missing = 0;
    for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
        if (chart.wedge_of(cell).bag == Bag::out) continue;
        ++all;
        missing += chart.cells[cell].is_number() ? 0 : 1;
    }
    return missing == 0 ? ""
                        : fmt::format("Not yet on it: {}, {} shots each",
                                      part_words(missing, all, "number", "numbers"), shots_for_a_number);
}

void draw_steps(FigureKit& kit, const StudentReport& report, const FigureBox& whole) {
    const std::vector<CardCell> rows = step_rows(report);
    const std::string missing = not_on_card(report.chart);
    FigureBox box = whole;
    if (!missing.empty()) {
        kit.text({box.left, box.bottom - 2.0}, missing, Ink::quiet);
        box.bottom -= 18.0;
    }
    constexpr double least_row = 19.0;
    constexpr double most_row = 26.0;
    const auto a_column = static_cast<std::size_t>(box.height() / least_row);
    const std::size_t columns = std::max<std::size_t>(1, (rows.size() + a_column - 1) / a_column);
    const std::size_t each = (rows.size() + columns - 1) / columns;
    const double width = box.width() / static_cast<double>(columns);
    const double row_height = std::min(most_row, box.height() / static_cast<double>(each));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double x = box.left + width * static_cast<double>(i / each);
        const double y = box.top + row_height * (static_cast<double>(i % each) + 0.5) + 4.5;
        kit.text({x + 28.0, y}, rows[i].left, Ink::ink, Align::right, TextSize::small, TextWeight::bold);
        kit.text({x + 38.0, y}, fitted(rows[i].right, width - 44.0, TextSize::small), Ink::ink);
        if (i % each + 1 < each && i + 1 < rows.size())
            kit.line({x + 4.0, y + 0.5 * row_height - 4.5}, {x + width - 8.0, y + 0.5 * row_height - 4.5},
                     Ink::grid, 1.0);
    }
}

void draw_line_to_fill(FigureKit& kit, FigurePoint right_end, double width) {
    kit.line({right_end.x - 0.55 * width, right_end.y + 2.0}, {right_end.x, right_end.y + 2.0}, Ink::quiet,
             1.0);
}

/// A number to play by; a line to be filled in by hand, with how many shots there are so far, where there is
/// none.
void draw_card_number(FigureKit& kit, const DistanceCell& cell, DistanceUnit unit, FigurePoint right_end,
                      double width, TextSize size) {
    if (cell.is_number()) {
        kit.text(right_end, rounded(*cell.mean_m / metres_per(unit), 0), Ink::ink, Align::right, size);
        return;
    }
    draw_line_to_fill(kit, right_end, width);
    if (cell.collected() > 0) {
        kit.text(right_end, fmt::format("{} of {}", cell.collected(), shots_for_a_number), Ink::quiet,
                 Align::right);
    }
}

void draw_numbers(FigureKit& kit, const StudentReport& report, const FigureBox& box) {
    const DistanceChart& chart = report.chart;
    std::vector<std::size_t> wedges;
    for (std::size_t wedge = 0; wedge < chart.wedges.size(); ++wedge) {
        if (chart.wedges[wedge].bag == Bag::in) wedges.push_back(wedge);
    }
    const double name_width = 0.31 * box.width();
    const double width = (box.width() - name_width) / 3.0;
    for (std::size_t i = 0; i < swing_lengths.size(); ++i) {
        kit.text({box.left + name_width + width * (static_cast<double>(i) + 0.9), box.top + 12.0},
                 short_length(swing_lengths[i]), Ink::quiet, Align::right);
    }
    constexpr std::size_t rows_without_wedges = 4;  // their names are filled in by hand too
    const std::size_t rows = wedges.empty() ? rows_without_wedges : wedges.size();
    const double row_height = std::min(40.0, (box.height() - 18.0) / static_cast<double>(rows));
    const bool roomy = row_height >= 24.0;
    for (std::size_t row = 0; row < rows; ++row) {
        const double y = box.top + 18.0 + row_height * (static_cast<double>(row) + 0.7);
        if (wedges.empty()) {
            kit.line({box.left, y + 2.0}, {box.left + 0.7 * name_width, y + 2.0}, Ink::quiet, 1.0);
            for (std::size_t i = 0; i < swing_lengths.size(); ++i)
                draw_line_to_fill(kit, {box.left + name_width + width * (static_cast<double>(i) + 0.9), y},
                                  width);
            continue;
        }
        kit.text({box.left, y},
                 fitted(chart.wedges[wedges[row]].name, name_width - 8.0, TextSize::text, TextWeight::bold),
                 Ink::ink, Align::left, roomy ? TextSize::text : TextSize::small, TextWeight::bold);
        for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
            if (chart.cells[cell].wedge != wedges[row]) continue;
            const auto place = static_cast<double>(chart.cells[cell].length);
            const double right = box.left + name_width + width * (place + 0.9);
            draw_card_number(kit, chart.cells[cell], report.unit, {right, y}, width,
                             roomy ? TextSize::text : TextSize::small);
        }
        if (row + 1 < rows)
            kit.line({box.left, y + 0.3 * row_height}, {box.right, y + 0.3 * row_height}, Ink::grid, 1.0);
    }
}

}  // namespace

Figure wedges_figure(const StudentReport& report, double width, double height) {
    Figure figure;
    figure.width = width;
    figure.height = height;
    figure.title = "Your distances";
    const DistanceChart& chart = report.chart;
    std::vector<std::size_t> wedges;
    for (const std::size_t cell : chart.usable_cells()) {
        if (std::ranges::find(wedges, chart.cells[cell].wedge) == wedges.end())
            wedges.push_back(chart.cells[cell].wedge);
    }
    if (wedges.empty()) return figure;
    std::sort(wedges.begin(), wedges.end());
    FigureKit kit(figure);
    constexpr double most_names = 120.0;
    const double names = names_width(chart, TextSize::text, 76.0, most_names);
    // A long name in the smaller size.
    const TextSize name_size = names < most_names ? TextSize::text : TextSize::small;
    const double bottom = height - 24.0;
    const double row_height = std::min(52.0, bottom / static_cast<double>(wedges.size()));
    const Axis axis{names, width - 36.0, range_of(chart, metres_per(report.unit), width - names),
                    report.unit};
    const double end = row_height * static_cast<double>(wedges.size());
    axis.draw(kit, 0.0, end, end + 16.0);
    for (std::size_t row = 0; row < wedges.size(); ++row) {
        const double line_y = row_height * (static_cast<double>(row) + 0.66);
        kit.text({0.0, line_y + 4.5},
                 fitted(chart.wedges[wedges[row]].name, names - 12.0, name_size, TextWeight::bold), Ink::ink,
                 Align::left, name_size, TextWeight::bold);
        kit.line({axis.left, line_y}, {axis.right, line_y}, Ink::grid, 1.0);
        double taken = -1e9;  // up to where numbers stand above this row
        for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
            const DistanceCell& one = chart.cells[cell];
            if (one.wedge != wedges[row] || !one.mean_m) continue;
            const double x = axis.x_of(*one.mean_m);
            if (one.sd_m && one.is_number())
                kit.area({axis.x_of(*one.mean_m - *one.sd_m), line_y - 5.0,
                          axis.x_of(*one.mean_m + *one.sd_m), line_y + 5.0},
                         Ink::lead, 0.25);
            // What is no number yet is its shots alone, as in the chart of all shots.
            if (one.is_number()) {
                kit.mark({x, line_y}, MarkShape::diamond, 4.5, Ink::ink);
            } else {
                for (const JudgedCarry& shot : one.shots) {
                    if (shot.standing != Standing::kept) continue;
                    const double at = axis.x_of(shot.carry.carry_m);
                    kit.line({at, line_y - 5.0}, {at, line_y + 5.0}, Ink::lead, 1.5);
                }
            }
            const std::string number = one.is_number()
                                           ? rounded(*one.mean_m / metres_per(report.unit), 0)
                                           : fmt::format("{} of {}", one.collected(), shots_for_a_number);
            const std::string words = short_length(one.length) + " ";
            const double needed =
                text_width(words, TextSize::small) + text_width(number, TextSize::small, TextWeight::bold);
            double left = x - 0.5 * needed;
            if (left < taken + 6.0) left = taken + 6.0;
            taken = left + needed;
            // On ground of its own, so that no line of the grid goes through the words.
            kit.area({left - 2.0, line_y - 21.0, left + needed + 2.0, line_y - 6.0}, Ink::paper);
            kit.text({left, line_y - 10.0}, words, Ink::quiet);
            kit.text({left + text_width(words, TextSize::small), line_y - 10.0}, number,
                     one.is_number() ? Ink::ink : Ink::quiet, Align::left, TextSize::small,
                     one.is_number() ? TextWeight::bold : TextWeight::regular);
        }
    }
    figure.height = end + 24.0;
    figure.description = "Mean carry of each wedge at each length of swing:";
    for (const std::size_t cell : chart.usable_cells())
        figure.description += " " + number_of_cell(report, cell) + ";";
    figure.description.back() = '.';
    return figure;
}

Figure distance_chart_figure(const StudentReport& report, double width) {
    constexpr double row_height = 26.0;
    Figure figure;
    figure.width = width;
    figure.title = "Every shot, wedge by wedge";
    const DistanceChart& chart = report.chart;
    FigureKit kit(figure);
    const bool narrow = width < 500.0;
    const double names = names_width(chart, TextSize::small, narrow ? 48.0 : 88.0, narrow ? 84.0 : 150.0);
    const double lengths = narrow ? 40.0 : 96.0;
    const double known = narrow ? 84.0 : 112.0;
    const double end = row_height * static_cast<double>(chart.cells.size());
    const Axis axis{names + lengths, width - known - 28.0,
                    range_of(chart, metres_per(report.unit), width - known - names - lengths - 28.0),
                    report.unit};
    axis.draw(kit, 0.0, end, end + 16.0);
    for (std::size_t place = 0; place < chart.cells.size(); ++place) {
        const DistanceCell& cell = chart.cells[place];
        const double top = row_height * static_cast<double>(place);
        const double y = top + 0.5 * row_height;
        const bool first = place == 0 || chart.cells[place - 1].wedge != cell.wedge;
        if (first && place > 0) kit.line({0.0, top}, {width, top}, Ink::grid, 1.0);
        if (first)
            kit.text({0.0, y + 4.5},
                     fitted(chart.wedge_of(place).name, names - 8.0, TextSize::small, TextWeight::bold),
                     Ink::ink, Align::left, TextSize::small, TextWeight::bold);
        kit.text({names, y + 4.5}, narrow ? short_length(cell.length) : length_name(cell.length),
                 cell.shots.empty() ? Ink::quiet : Ink::ink);
        if (cell.is_number())
            kit.area({axis.x_of(*cell.mean_m - *cell.sd_m), y - 6.0, axis.x_of(*cell.mean_m + *cell.sd_m),
                      y + 6.0},
                     Ink::lead, 0.22);
        std::set<long> drawn;
        for (const JudgedCarry& shot : cell.shots) {
            const double x = axis.x_of(shot.carry.carry_m);
            if (shot.standing == Standing::kept) {
                // One stroke a pixel: hundreds of shots of a season would lie on each other.
                if (!drawn.insert(std::lround(x)).second) continue;
                kit.line({x, y - 7.0}, {x, y + 7.0}, Ink::lead, 1.5);
            } else {
                kit.mark({x, y}, MarkShape::ring, 3.5, Ink::ink);
            }
        }
        if (cell.is_number()) kit.mark({axis.x_of(*cell.mean_m), y}, MarkShape::diamond, 4.5, Ink::ink);
        kit.text({width, y + 4.5}, known_words(cell, report.unit), cell.is_number() ? Ink::ink : Ink::quiet,
                 Align::right);
    }
    figure.height = end + 24.0;
    figure.description = "Carry of every shot:";
    for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
        figure.description += fmt::format(" {}: {}, {} of {} count;", cell_words(chart, cell),
                                          known_words(chart.cells[cell], report.unit), chart.cells[cell].kept,
                                          chart.cells[cell].shots.size());
    }
    figure.description.back() = '.';
    return figure;
}

Figure card_figure(const StudentReport& report) {
    Figure figure;
    figure.width = card_width;
    figure.height = card_height;
    figure.title = "Distance card";
    FigureKit kit(figure);
    constexpr double edge = 1.0;  // half of it would be cut off outside
    kit.path({{edge, edge},
              {card_width - edge, edge},
              {card_width - edge, card_height - edge},
              {edge, card_height - edge},
              {edge, edge}},
             Ink::ink, 1.0, LineStyle::dashed);
    const FigureBox inner{14.0, 12.0, card_width - 14.0, card_height - 10.0};
    const std::string unit = report.unit == DistanceUnit::yards ? "carry in yards" : "carry in metres";
    kit.text({inner.left, inner.top + 12.0},
             fitted(report.name, inner.width() - text_width(unit, TextSize::small) - 16.0, TextSize::small,
                    TextWeight::bold),
             Ink::ink, Align::left, TextSize::small, TextWeight::bold);
    kit.text({inner.right, inner.top + 12.0}, unit, Ink::quiet, Align::right);
    kit.line({inner.left, inner.top + 19.0}, {inner.right, inner.top + 19.0}, Ink::ink, 1.0);
    const FigureBox table{inner.left, inner.top + 22.0, inner.right, inner.bottom};
    if (report.card_kind == CardKind::steps && report.chart.numbers().size() >= fewest_for_steps) {
        draw_steps(kit, report, table);
        figure.description = "Which club for which distance:";
        for (const CardCell& row : step_rows(report))
            figure.description += " " + row.left + ": " + row.right + ";";
    } else {
        draw_numbers(kit, report, table);
        figure.description = report.chart.usable_cells().empty()
                                 ? "A line for each number, to be filled in by hand."
                                 : "How far each wedge carries:";
        for (const std::size_t cell : report.chart.usable_cells())
            figure.description += " " + number_of_cell(report, cell) + ";";
    }
    figure.description.back() = '.';
    return figure;
}

}  // namespace footing
