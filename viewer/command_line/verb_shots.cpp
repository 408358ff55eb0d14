#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "acquisition/import/whole_file.h"
#include "analysis/report/number_words.h"
#include "viewer/book/shot_table.h"
#include "viewer/book/student_chart.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/distance_option.h"
#include "viewer/command_line/text_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/import_shots.h"

namespace footing {

namespace {

constexpr std::uint64_t most_table_bytes = std::uint64_t{16} << 20;

struct ShotsOptions : BookOptions {
    std::string student;
    std::int64_t lesson = 0;
    std::int64_t swing = 0;
    std::string wedge;
    std::string length;
    std::vector<std::string> carries;
    std::string side;
    std::string strike;
    std::string file;
    std::string carry_column;
    std::string club_column;
    std::string date_column;
    std::string side_column;
    std::string unit;
    std::string side_unit;
    std::string dates;
    std::vector<std::string> clubs;
    std::string swings;
    bool without_swings = false;
};

Outcome list(const ShotsOptions& options) {
    if (options.student.empty())
        return Problem{ProblemKind::command_line, "--student", "is not given", "say whose shots"};
    auto book = open_book(options);
    if (!book) return book.problem();
    const auto student = book.value().student(options.student);
    if (!student) return student.problem();
    const auto wedges = book.value().wedges(student.value().id);
    if (!wedges) return wedges.problem();
    const auto swings = book.value().swings_of_student(student.value().id);
    if (!swings) return swings.problem();
    const DistanceUnit unit = student.value().unit;
    std::vector<std::vector<std::string>> rows;
    auto json = nlohmann::ordered_json::array();
    for (const BookSwing& swing : swings.value()) {
        if (!swing.shot || (options.lesson > 0 && swing.lesson != options.lesson)) continue;
        std::string name;
        for (const Wedge& wedge : wedges.value()) {
            if (wedge.id == swing.wedge) name = wedge.name;
        }
        std::string side;
        if (swing.shot->side_m)
            side = distance_words(std::abs(*swing.shot->side_m), unit, 1) +
                   (*swing.shot->side_m < 0.0 ? " left" : " right");
        rows.push_back({std::to_string(swing.lesson), std::to_string(swing.number), name,
                        swing.length ? length_name(*swing.length) : "",
                        swing.shot->carry_m ? distance_words(*swing.shot->carry_m, unit, 1) : "", side,
                        swing.shot->strike ? strike_words(*swing.shot->strike) : ""});
        json.push_back(json_of(swing, name));
        json.back()["lesson"] = swing.lesson;
    }
    return tell(options,
                rows.empty() ? "no shot\n"
                             : text_table({{"lesson", Side::right},
                                           {"swing", Side::right},
                                           {"wedge"},
                                           {"length"},
                                           {"carry", Side::right},
                                           {"side", Side::right},
                                           {"strike"}},
                                          rows),
                {{"student", student.value().name}, {"shots", json}});
}

/// What was typed beside one swing, over what is known of it.
Outcome put_beside_swing(Book& book, const ShotsOptions& options, DistanceUnit unit,
                         std::optional<std::int64_t> wedge) {
    const auto swings = book.swings(options.lesson);
    if (!swings) return swings.problem();
    const auto at = std::find_if(swings.value().begin(), swings.value().end(),
                                 [&](const BookSwing& swing) { return swing.number == options.swing; });
    if (at == swings.value().end()) {
        return Problem{ProblemKind::command_line, fmt::format("lesson {}", options.lesson),
                       fmt::format("has no swing {}", options.swing),
                       fmt::format("\"footing swings --lesson {}\" lists them", options.lesson)};
    }
    if (options.carries.size() > 1) {
        return Problem{ProblemKind::command_line, "--carry", "one swing has one carry", "give one"};
    }
    BookSwing swing = *at;
    Shot shot = swing.shot.value_or(Shot{});
    if (!options.carries.empty()) {
        const auto carry = parse_distance(options.carries.front(), unit, "--carry");
        if (!carry) return carry.problem();
        shot.carry_m = carry.value();
    }
    if (!options.side.empty()) {
        const auto side = parse_side(options.side, unit);
        if (!side) return side.problem();
        shot.side_m = side.value();
    }
    if (const auto strike = strike_called(options.strike)) shot.strike = strike;
    swing.shot = shot;
    if (wedge) swing.wedge = wedge;
    if (!options.length.empty()) swing.length = length_called(options.length);
    return book.change_swing(swing);
}

Outcome add_unrecorded(Book& book, const ShotsOptions& options, DistanceUnit unit,
                       std::optional<std::int64_t> wedge) {
    if (!wedge || options.length.empty() || options.carries.empty()) {
        return Problem{ProblemKind::command_line, "shots add",
                       "shots without a recorded swing need --club, --length and --carry",
                       "or name a swing with --swing"};
    }
    if (!options.side.empty() && options.carries.size() > 1) {
        return Problem{ProblemKind::command_line, "--side", "belongs to one shot",
                       "give one --carry with it"};
    }
    for (const std::string& words : options.carries) {
        const auto carry = parse_distance(words, unit, "--carry");
        if (!carry) return carry.problem();
        BookSwing swing;
        swing.lesson = options.lesson;
        swing.wedge = wedge;
        swing.length = length_called(options.length);
        swing.shot = Shot{carry.value(), std::nullopt, strike_called(options.strike)};
        if (!options.side.empty()) {
            const auto side = parse_side(options.side, unit);
            if (!side) return side.problem();
            swing.shot->side_m = side.value();
        }
        if (const auto added = book.add_swing(swing); !added) return added.problem();
    }
    return Done{};
}

Outcome add(const ShotsOptions& options) {
    auto book = open_book(options);
    if (!book) return book.problem();
    const auto line = book.value().lesson(options.lesson);
    if (!line) return line.problem();
    const auto student = book.value().student(line.value().lesson.student);
    if (!student) return student.problem();
    std::optional<std::int64_t> wedge;
    if (!options.wedge.empty()) {
        const auto found = book.value().wedge(student.value().id, options.wedge);
        if (!found) return found.problem();
        wedge = found.value().id;
    }
    if (options.carries.empty() && options.strike.empty()) {
        return Problem{ProblemKind::command_line, "shots add", "there is neither a carry nor a strike",
                       "write for example --carry 82 or --strike thin"};
    }
    const Outcome done = book.value().in_transaction([&] {
        return options.swing > 0 ? put_beside_swing(book.value(), options, student.value().unit, wedge)
                                 : add_unrecorded(book.value(), options, student.value().unit, wedge);
    });
    if (!done) return done;
    const std::size_t count = std::max<std::size_t>(1, options.carries.size());
    return tell(options,
                fmt::format("{} of {} in lesson {}\n", count_words(count, "shot", "shots"),
                            shown(student.value().name), options.lesson),
                {{"lesson", options.lesson}, {"added", count}});
}

/// The shape told by the options, over the one remembered.
Result<ShotTableShape> shape_of(Book& book, const ShotsOptions& options, const std::string& header) {
    const auto known = book.shape_of(header);
    if (!known) return known.problem();
    ShotTableShape shape = known.value().value_or(ShotTableShape{});
    shape.header = header;
    for (const auto& [given, kept] :
         {std::pair(&options.carry_column, &shape.carry_column),
          std::pair(&options.club_column, &shape.club_column),
          std::pair(&options.date_column, &shape.date_column),
          std::pair(&options.side_column, &shape.side_column), std::pair(&options.unit, &shape.carry_unit),
          std::pair(&options.dates, &shape.date_order)}) {
        if (!given->empty()) *kept = *given;
    }
    if (!options.side_unit.empty()) {
        shape.side_unit = options.side_unit;
    } else if (!options.unit.empty()) {
        shape.side_unit = options.unit;
    }
    const bool is_new = !known.value();
    if (shape.carry_column.empty() || (is_new && options.unit.empty())) {
        return Problem{
            ProblemKind::command_line, options.file, "this shape of table is new; its columns are: " + header,
            "say which is which and in what unit: --carry-column NAME --unit yd, and --club-column, "
            "--date-column, --side-column where there are any; it is remembered"};
    }
    return shape;
}

Outcome import(const ShotsOptions& options) {
    auto book = open_book(options);
    if (!book) return book.problem();
    const auto text = read_whole_file(options.file, most_table_bytes);
    if (!text) return text.problem();
    const auto header = shot_table_header(text.value(), options.file);
    if (!header) return header.problem();
    const auto shape = shape_of(book.value(), options, header.value());
    if (!shape) return shape.problem();
    ShotImport request;
    request.place = options.file;
    request.lesson = options.lesson;
    request.shape = shape.value();
    for (const std::string& words : options.clubs) {
        const std::size_t equals = words.rfind('=');
        if (equals == std::string::npos) {
            request.one_club = words;
        } else {
            request.clubs.emplace_back(words.substr(0, equals), words.substr(equals + 1));
        }
    }
    request.length = length_called(options.length);
    if (!options.swings.empty()) {
        const auto numbers = parse_numbers(options.swings, "--swings");
        if (!numbers) return numbers.problem();
        request.swings = numbers.value();
    }
    request.unrecorded = options.without_swings ? UnrecordedShots::add : UnrecordedShots::refuse;
    const auto done = import_shots(book.value(), text.value(), request);
    if (!done) return done.problem();
    const ShotImportReport& report = done.value();
    std::string words =
        fmt::format("{} taken into lesson {}", count_words(report.taken, "shot", "shots"), options.lesson);
    if (report.known_already > 0) words += fmt::format(", {} in the book already", report.known_already);
    if (report.of_other_days > 0) words += fmt::format(", {} of other days left out", report.of_other_days);
    words += "\n";
    if (report.clock_offset_s)
        words += fmt::format("matched by time; the device's clock is {:.0f} s {} the computer's\n",
                             std::abs(*report.clock_offset_s),
                             *report.clock_offset_s < 0.0 ? "behind" : "ahead of");
    if (report.without_length > 0)
        words += fmt::format(
            "{} without a wedge or a length: \"footing swings label\" brings them into the chart\n",
            count_words(report.without_length, "shot is", "shots are"));
    if (!report.not_matched.empty()) words += "not taken\n";
    for (const std::string& line : report.not_matched) words += "  " + shown_long(line) + "\n";
    return tell(options, words,
                {{"lesson", options.lesson},
                 {"taken", report.taken},
                 {"known_already", report.known_already},
                 {"of_other_days", report.of_other_days},
                 {"without_wedge_or_length", report.without_length},
                 {"clock_offset_s", or_null(report.clock_offset_s)},
                 {"not_taken", report.not_matched}});
}

void add_length(CLI::App& step, ShotsOptions& options, const char* help) {
    step.add_option("--length", options.length, help)
        ->check(CLI::IsMember({"half", "three-quarter", "full", "1/2", "3/4"}));
}

void add_lesson_option(CLI::App& step, ShotsOptions& options) {
    step.add_option("--lesson", options.lesson, "its number")->required()->check(number_between(1.0, 1e12));
}

}  // namespace

void add_shots(CLI::App& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ShotsOptions>();
    CLI::App* verb = program.add_subcommand("shots", "where the balls went");
    add_book_options(*verb, *options);
    verb->add_option("--student", options->student, "whose shots to list: name, or #number");
    set_work(*verb, outcome, [options] { return list(*options); });

    CLI::App* adding = add_step(*verb, "add", "carries typed in, beside a recorded swing or without one",
                                outcome, [options] { return add(*options); });
    add_lesson_option(*adding, *options);
    adding->add_option("--swing", options->swing, "the recorded swing's number")
        ->check(number_between(1.0, 1e6));
    adding->add_option("--club", options->wedge, "the student's wedge, by name");
    add_length(*adding, *options, "half, three-quarter (or 3/4), full");
    adding->add_option("--carry", options->carries, "such as 82, 82yd or 75m; several with commas: 82,85,84")
        ->delimiter(',');
    adding->add_option("--side", options->side, "such as \"3yd left\"");
    adding->add_option("--strike", options->strike, "how the ball was met")
        ->check(CLI::IsMember({"ball_first", "ground_first", "thin"}));

    CLI::App* importing = add_step(*verb, "import", "carries from a distance device's or simulator's table",
                                   outcome, [options] { return import(*options); });
    importing->add_option("FILE", options->file, "a table (CSV)")->required();
    add_lesson_option(*importing, *options);
    importing->add_option("--carry-column", options->carry_column, "the column of the carry, by name");
    importing->add_option("--club-column", options->club_column, "the column of the club");
    importing->add_option("--date-column", options->date_column,
                          "the column of date, with or without a time");
    importing->add_option("--side-column", options->side_column, "the column of the side");
    importing->add_option("--unit", options->unit, "of the carry")->check(CLI::IsMember({"yd", "m", "ft"}));
    importing->add_option("--side-unit", options->side_unit, "of the side; else that of the carry")
        ->check(CLI::IsMember({"yd", "m", "ft"}));
    importing->add_option("--dates", options->dates, "order of year, month and day")
        ->check(CLI::IsMember({"ymd", "dmy", "mdy"}));
    importing->add_option(
        "--club", options->clubs,
        "what the device calls a wedge, WORD=NAME; or the wedge of all rows; may be repeated");
    add_length(*importing, *options, "of the swings that have none yet");
    importing->add_option("--swings", options->swings, "match with these swings only, such as 3,5-9");
    importing->add_flag("--without-swings", options->without_swings,
                        "these shots were not recorded: add them as they are");
}

}  // namespace footing
