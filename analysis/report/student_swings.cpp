#include "analysis/report/student_swings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "analysis/report/evidence_figure.h"
#include "analysis/report/laid_swings.h"
#include "analysis/report/legend_figure.h"
#include "analysis/report/lesson_pages.h"
#include "analysis/report/student_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_styles.h"

namespace footing {

namespace {

using page_text::small;
using page_text::small_bold;
using page_text::small_quiet;
using page_text::text_bold;

/// How large each swing is drawn: two across while a page is read, not leafed through; a few over the whole
/// width.
struct Tiles {
    std::size_t across;
    double lowest;   ///< px
    double highest;  ///< px
};
constexpr Tiles for_few{1, 380.0, 470.0};
constexpr Tiles for_many{2, 240.0, 330.0};
constexpr std::size_t few_swings = 4;
constexpr double tile_gap = 24.0;

/// Rows that the room holds, of those that are left.
std::size_t rows_within(double room, std::size_t left, const Tiles& tiles) {
    const double fit = std::floor((room + tile_gap) / (tiles.lowest + tile_gap));
    return std::min(left, static_cast<std::size_t>(std::max(1.0, fit)));
}

/// A recording of one of the report's lessons.
struct Recorded {
    std::size_t lesson;  // place in StudentReport::lessons
    const LessonResult& result;
};

void draw_swing_tile(PageFlow& flow, const StudentReport& report, const Recorded& recorded, std::size_t place,
                     FigurePoint at, double width, double height) {
    const Swing& swing = recorded.result.swings[place];
    Canvas& canvas = flow.canvas();
    const ReportedSwing* said = reported(report, recorded.lesson, swing);
    const std::string number = fmt::format("{}", swing.index);
    canvas.cell({at.x, at.y + 14.0}, width, number, text_bold);
    const double beside = canvas.line_width(number, text_bold) + 10.0;
    canvas.cell({at.x + beside, at.y + 13.0}, width - beside, said ? swing_line(report, *said) : "", small);
    SwingFigureOptions options;
    options.width = width;
    options.height = height - 28.0;
    options.edge = 0.0;
    options.swings = {place};
    const TargetBand& band = said ? said->band : recorded.result.band;
    canvas.draw_made([&] { return evidence_figure(recorded.result, options, band); }, {at.x, at.y + 26.0});
}

void draw_each_swing(PageFlow& flow, const StudentReport& report, const Recorded& recorded,
                     const std::string& heading, const std::string& words) {
    const std::size_t count = recorded.result.swings.size();
    if (count == 0) return;
    const Tiles& tiles = count <= few_swings ? for_few : for_many;
    const std::size_t rows = (count + tiles.across - 1) / tiles.across;
    const Figure legend = legend_figure(flow.width());
    flow.heading(heading, 40.0 + legend.height + 12.0 + tiles.lowest);
    flow.paragraph(words, small_quiet);
    if (has_shares(recorded.result)) {
        flow.figure(legend);
        flow.skip(12.0);
    }
    const double width =
        (flow.width() - tile_gap * static_cast<double>(tiles.across - 1)) / static_cast<double>(tiles.across);
    for (std::size_t row = 0; row < rows;) {
        if (flow.room() < tiles.lowest) flow.next_page();
        const std::size_t here = rows_within(flow.room(), rows - row, tiles);
        const double gaps = tile_gap * static_cast<double>(here - 1);
        const double height = std::min(tiles.highest, (flow.room() - gaps) / static_cast<double>(here));
        for (const std::size_t last = row + here; row < last; ++row) {
            const std::size_t from = row * tiles.across;
            for (std::size_t i = from; i < std::min(count, from + tiles.across); ++i) {
                const double x = flow.left() + static_cast<double>(i - from) * (width + tile_gap);
                draw_swing_tile(flow, report, recorded, i, {x, flow.y()}, width, height);
            }
            flow.skip(height + tile_gap);
        }
    }
}

}  // namespace

void draw_laid(PageFlow& flow, const StudentReport& report) {
    if (!shows_laid(report)) return;
    constexpr double gap = 24.0;
    constexpr double picture_height = 260.0;
    constexpr double row = 24.0 + picture_height;
    const double width = 0.5 * (flow.width() - gap);
    flow.heading("Swing over swing",
                 flow.canvas().paragraph_height(flow.width(), laid_words(report), small) + row);
    flow.paragraph(laid_words(report), small);
    for (std::size_t from = 0; from < report.laid.size(); from += 2) {
        flow.need(row);
        for (std::size_t i = from; i < std::min(report.laid.size(), from + 2); ++i) {
            const LaidSwings& laid = report.laid[i];
            const double x = flow.left() + static_cast<double>(i - from) * (width + gap);
            flow.canvas().cell({x, flow.y() + 14.0}, width, laid_title(report, laid), small_bold);
            flow.canvas().draw_made([&] { return laid_figure(laid, width, picture_height); },
                                    {x, flow.y() + 20.0});
        }
        flow.skip(row + 12.0);
    }
}

void draw_swings_together(PageFlow& flow, const StudentReport& report) {
    if (!report.measured || report.measured->swings.empty() || !has_shares(*report.measured)) return;
    flow.heading("All of them at a glance", overview_height(flow, *report.measured));
    draw_overview(flow, *report.measured);
    flow.skip(32.0);
    draw_together(flow, *report.measured, set_aside_places(report, report.measured_lesson, *report.measured));
}

void draw_swings(PageFlow& flow, const StudentReport& report) {
    if (!report.measured) return;
    draw_each_swing(flow, report, {report.measured_lesson, *report.measured}, "Each swing",
                    each_swing_words(report));
    flow.skip(16.0);
    draw_swings_together(flow, report);
    draw_swing_table(flow, *report.measured);
    for (const MeasuredLesson& earlier : report.earlier) {
        flow.skip(24.0);
        draw_each_swing(flow, report, {earlier.lesson, earlier.result}, "Each swing before",
                        each_swing_words(report, earlier.lesson));
        draw_swing_table(flow, earlier.result);
    }
}

}  // namespace footing
