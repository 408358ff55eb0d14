#include "viewer/command_line/shots_import.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "acquisition/frame/foreign_text.h"
#include "acquisition/import/whole_file.h"
#include "analysis/report/number_words.h"
#include "viewer/book/shot_table.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/length_option.h"
#include "viewer/command_line/written_words.h"
#include "viewer/lesson/import_shots.h"

namespace footing {

namespace {

constexpr std::uint64_t most_table_bytes = std::uint64_t{16} << 20;

struct ShotsImportOptions {
    std::string file;
    std::int64_t lesson = 0;
    std::string length;
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
    bool replace = false;
    bool far = false;
};

/// The shape told by the options, over the one remembered.
Result<ShotTableShape> shape_of(Book& book, const ShotsImportOptions& options, const std::string& header) {
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

std::string matched_words(const ShotImportReport& report) {
    switch (report.matched_by) {
        case MatchedBy::nothing:
            return "";
        case MatchedBy::order_of_times:
            return "matched by order: the earliest shot with the first swing\n";
        case MatchedBy::order_of_lines:
            return "matched by order: the first line with the first swing\n";
        case MatchedBy::time:
            break;
    }
    const double offset_s = report.clock_offset_s.value_or(0.0);
    if (std::abs(offset_s) < 0.5) return "matched by time; the device's clock agrees with the computer's\n";
    return fmt::format("matched by time; the device's clock is {:.0f} s {} the computer's\n",
                       std::abs(offset_s), offset_s < 0.0 ? "behind" : "ahead of");
}

std::string report_words(const ShotImportReport& report, std::int64_t lesson) {
    std::string words =
        fmt::format("{} taken into lesson {}", count_words(report.taken, "shot", "shots"), lesson);
    if (report.known_already > 0) words += fmt::format(", {} in the book already", report.known_already);
    if (report.replaced > 0) words += fmt::format(", {} of these corrected", report.replaced);
    if (report.of_other_days > 0) words += fmt::format(", {} of other days left out", report.of_other_days);
    words += "\n" + matched_words(report);
    if (report.without_length > 0)
        words += fmt::format(
            "{} without a wedge or a length: \"footing swings label\" brings them into the chart\n",
            count_words(report.without_length, "shot is", "shots are"));
    if (!report.not_matched.empty()) words += "not taken\n";
    for (const std::string& line : report.not_matched) words += "  " + shown_long(line) + "\n";
    return words;
}

Outcome import(const BookOptions& shared, const ShotsImportOptions& options) {
    auto book = open_book(shared, OpenAs::existing);
    if (!book) return book.problem();
    const auto bytes = read_whole_file(options.file, most_table_bytes);
    if (!bytes) return bytes.problem();
    const std::string text = as_utf8(bytes.value());
    const auto header = shot_table_header(text, options.file);
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
    request.other_reading = options.replace ? OtherReading::replace : OtherReading::refuse;
    request.unrecorded = options.without_swings ? UnrecordedShots::add : UnrecordedShots::refuse;
    request.far = options.far ? FarCarry::taken : FarCarry::asked_about;
    const auto done = import_shots(book.value(), text, request);
    if (!done) return done.problem();
    const ShotImportReport& report = done.value();
    return tell(shared, report_words(report, options.lesson),
                {{"lesson", options.lesson},
                 {"taken", report.taken},
                 {"known_already", report.known_already},
                 {"replaced", report.replaced},
                 {"of_other_days", report.of_other_days},
                 {"without_wedge_or_length", report.without_length},
                 {"clock_offset_s", or_null(report.clock_offset_s)},
                 {"not_taken", report.not_matched}});
}

}  // namespace

void add_shots_import(Arguments& shots, std::shared_ptr<const BookOptions> shared, VerbOutcome& outcome) {
    auto options = std::make_shared<ShotsImportOptions>();
    Arguments* importing =
        add_step(shots, "import", "take carries from the table of a distance device or simulator", outcome,
                 [options, shared] { return import(*shared, *options); });
    importing->add_option("FILE", options->file, "a table (CSV)")->required();
    importing->add_option("--lesson", options->lesson, "the lesson's number")
        ->required()
        ->check(number_of_book());
    importing->add_option("--carry-column", options->carry_column, "the column of the carry, by name");
    importing->add_option("--club-column", options->club_column, "the column of the club");
    importing->add_option("--date-column", options->date_column,
                          "the column of the date, with or without a time");
    importing->add_option("--side-column", options->side_column, "the column of the side");
    importing->add_option("--unit", options->unit, "of the carry")->check(one_of({"yd", "m", "ft"}));
    importing->add_option("--side-unit", options->side_unit, "of the side; else that of the carry")
        ->check(one_of({"yd", "m", "ft"}));
    importing->add_option("--dates", options->dates, "order of year, month and day")
        ->check(one_of({"ymd", "dmy", "mdy"}));
    importing->add_option(
        "--club", options->clubs,
        "what the device calls a wedge, WORD=NAME; or the wedge of all rows; may be repeated");
    add_length_option(*importing, options->length, "of the swings that have none yet");
    importing->add_option("--swings", options->swings, "match with these swings only, such as 3,5-9");
    importing->add_flag("--without-swings", options->without_swings,
                        "these shots were not recorded: add them as they are");
    importing->add_flag("--far", options->far, "take carries too that are farther than any wedge's");
    importing->add_flag("--replace", options->replace,
                        "correct shots that were taken from this table with other columns or another unit");
}

}  // namespace footing
