#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "analysis/report/number_words.h"
#include "analysis/report/progress_figure.h"
#include "viewer/book/simulated_lessons.h"
#include "viewer/book/student_progress.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/chart_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/length_option.h"
#include "viewer/command_line/picture_option.h"
#include "viewer/command_line/progress_json.h"
#include "viewer/command_line/sure_option.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

struct ProgressOptions : BookOptions, ChartOptions {
    std::string length;
    std::string picture;
    double sure_percent = 95.0;
};

std::string lesson_table(const StudentProgress& progress) {
    std::vector<TableColumn> columns{{"lesson", Side::right}, {"date"}};
    std::vector<std::vector<std::string>> rows;
    for (const LessonLine& line : progress.lessons)
        rows.push_back({std::to_string(line.lesson.id), line.lesson.date});
    for (const ProgressSeries& series : progress.series) {
        columns.push_back({progress_measure_words(series.measure), Side::right});
        for (auto& row : rows) row.emplace_back();
        for (const ProgressPoint& point : series.points)
            rows[point.lesson].back() = progress_value_words(series.measure, point.value);
    }
    return terminal_table(columns, rows);
}

std::string words_of(const StudentProgress& progress, DistanceUnit unit) {
    std::string text = lesson_table(progress) + "\nwhat has changed\n";
    for (const ProgressSeries& series : progress.series)
        text += "  " + progress_words(series, progress.dates()) + "\n";
    text += "\ndoes the weight explain the miss\n";
    for (const std::string& sentence : weight_effect_words(progress.effects, unit))
        text += "  " + sentence + "\n";
    text += "\nwhat to practise next\n";
    for (const Advice& advice : progress.advice) text += "  " + shown_long(advice.words) + "\n";
    if (progress.advice.empty()) text += "  Nothing yet: no rule holds with what the book has.\n";
    if (const std::string words = finish_not_known_words(progress); !words.empty())
        text += "  " + words + "\n";
    const std::string simulated = simulated_lessons_words(progress.lessons);
    if (!simulated.empty()) text += "\n" + simulated + "\n";
    return text;
}

Outcome show(const ProgressOptions& options) {
    if (Outcome sound = check_picture_name(options.picture); !sound) return sound;
    const auto sure = parse_sure(options.sure_percent);
    if (!sure) return sure.problem();
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto asked = chart_request(book.value(), options);
    if (!asked) return asked.problem();
    const auto progress = progress_of(
        book.value(), options.student,
        {asked.value().limits, asked.value().unit, length_called(options.length), sure.value(), ""});
    if (!progress) return progress.problem();
    if (!options.picture.empty()) {
        const Figure figure =
            progress_figure(shown(progress.value().student.name) + ", " +
                                count_words(progress.value().lessons.size(), "lesson", "lessons"),
                            progress.value().series, progress.value().dates(), picture_width_px);
        if (Outcome drawn = write_picture(options.picture, figure, FileReaders::owner); !drawn) return drawn;
    }
    if (progress.value().lessons.empty())
        return tell(options, "no lesson\n", progress_json(progress.value(), asked.value().unit));
    return tell(options, words_of(progress.value(), asked.value().unit),
                progress_json(progress.value(), asked.value().unit));
}

}  // namespace

void add_progress(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ProgressOptions>();
    Arguments* verb = program.add_subcommand(
        "progress", "a student over the lessons: what has changed, what goes together, what to practise");
    add_book_options(*verb, *options);
    add_chart_options(*verb, *options);
    add_length_option(*verb, options->length, "only swings of this length");
    add_sure_option(*verb, options->sure_percent);
    verb->add_option("--picture", options->picture,
                     "draw the lessons into this file (.svg or .png), readable by you only");
    set_work(*verb, outcome, [options] { return show(*options); });
}

}  // namespace footing
