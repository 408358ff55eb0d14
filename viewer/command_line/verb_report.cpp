#include <memory>
#include <optional>
#include <string>
#include <tuple>

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/chart_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/mass_option.h"
#include "viewer/command_line/reading_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/sure_option.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/written_words.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/gather_student_report.h"
#include "viewer/lesson/write_report.h"

namespace footing {

namespace {

struct ReportOptions {
    std::string file;
    std::string out;
    ReadingOptions reading;
    std::string student;
    std::string paper = "a4";
    MassOption mass;
    std::optional<std::size_t> swing;
    // From the book.
    std::string book;
    std::optional<std::int64_t> lesson;
    std::string from;
    std::string to;
    std::string unit;
    std::string card = "steps";
    bool card_said = false;
    bool brief = false;
    bool all_swings = false;
};

PaperSize paper_of(const ReportOptions& options) {
    return options.paper == "letter" ? PaperSize::letter : PaperSize::a4;
}

ReportForm form_of(const ReportOptions& options) {
    return options.brief ? ReportForm::brief : ReportForm::full;
}

/// The option that asks for something of the lesson book; empty: none does.
std::string asked_of_book(const ReportOptions& options) {
    return options.lesson          ? "--lesson"
           : !options.from.empty() ? "--from"
           : !options.to.empty()   ? "--to"
           : !options.unit.empty() ? "--units"
           : options.all_swings    ? "--all-swings"
           : options.card_said     ? "--card"
                                   : "";
}

Outcome report_of_recording(const ReportOptions& options) {
    if (const std::string asked = asked_of_book(options); !asked.empty()) {
        return Problem{ProblemKind::command_line, asked,
                       "asks something of the lesson book, and " + options.file + " is a recording",
                       "leave out one of the two; without FILE the report is a student's, from the book"};
    }
    if (options.brief && (options.swing || options.out.ends_with(".csv"))) {
        return Problem{ProblemKind::command_line, "--short", "is for a report on paper or as a page",
                       "leave it out, or let --out end in .pdf or .html"};
    }
    if (Outcome name = options.swing ? check_swing_picture_name(options.out) : check_report_name(options.out);
        !name)
        return name;
    auto request = options.reading.request(options.student);
    if (!request) return request.problem();
    request.value().centre_of_mass = options.mass.pendulum();
    const auto result = analyse_recording(options.file, request.value());
    if (!result) return result.problem();
    if (options.swing) return write_swing_picture(result.value(), *options.swing, options.out);
    return write_report(result.value(), options.out, paper_of(options), form_of(options));
}

/// Where the newest lesson was without plates and an older one was not: how to come by that one's report.
std::string thin_report_words(Book& book, const ReportOptions& options, const StudentReport& report) {
    const bool newest_alone = !options.lesson && options.from.empty() && options.to.empty();
    if (!newest_alone || report.lessons.empty() || report.lessons.front().not_measured.empty()) return "";
    const auto student = book.student(options.student);
    if (!student) return "";
    const auto lessons = book.lessons(student.value().id);
    if (!lessons) return "";
    for (const LessonLine& line : lessons.value()) {  // newest first
        if (line.lesson.recording_uuid.empty()) continue;
        return "lesson " + std::to_string(report.lessons.front().number) +
               ", the newest, has no recording, so this report has no swings; --lesson " +
               std::to_string(line.lesson.id) + " reports the newest that has";
    }
    return "";
}

Outcome report_of_student(const ReportOptions& options) {
    if (options.student.empty()) {
        return Problem{ProblemKind::command_line, "report",
                       "is of a recording or of a student, and neither is named",
                       "write FILE.h5, or --student NAME for a report from the lesson book"};
    }
    if (options.swing) {
        return Problem{ProblemKind::command_line, "--swing", "is a picture of one swing of a recording",
                       "write FILE.h5 before it"};
    }
    if (Outcome name = check_student_report_name(options.out); !name) return name;
    const auto sure = parse_sure(options.reading.sure_percent);
    if (!sure) return sure.problem();
    StudentReportRequest request;
    request.student = options.student;
    request.lesson = options.lesson;
    for (const auto& [word, option, date] :
         {std::tuple(&options.from, "--from", &request.from), std::tuple(&options.to, "--to", &request.to)}) {
        if (word->empty()) continue;
        const auto parsed = parse_date(*word, option);
        if (!parsed) return parsed.problem();
        *date = parsed.value();
    }
    if (!request.from.empty() && !request.to.empty() && request.from > request.to) {
        return Problem{ProblemKind::command_line, "--from",
                       request.from + " is later than --to " + request.to + ": no lesson lies between",
                       "write the earlier date behind --from"};
    }
    if (options.brief && options.all_swings) {
        return Problem{ProblemKind::command_line, "--short",
                       "leaves out each swing, and --all-swings asks for all of them",
                       "leave out one of the two"};
    }
    if (request.lesson && (!request.from.empty() || !request.to.empty())) {
        return Problem{ProblemKind::command_line, "--lesson",
                       "names one lesson, and --from and --to ask for those of a time",
                       "leave out one of the two"};
    }
    request.sure = sure.value();
    request.form = form_of(options);
    request.each_swing = options.all_swings ? EachSwing::of_all : EachSwing::of_newest;
    request.card = options.card == "numbers" ? CardKind::numbers : CardKind::steps;
    auto book = open_book({options.book, ""}, OpenAs::to_read);
    if (!book) return book.problem();
    ChartOptions chart;
    chart.student = options.student;
    chart.unit = options.unit;
    const auto asked = chart_request(book.value(), chart);
    if (!asked) return asked.problem();
    request.unit = asked.value().unit;
    request.limits = asked.value().limits;
    const auto report = gather_student_report(book.value(), request);
    if (!report) return report.problem();
    if (Outcome written = write_student_report(report.value(), options.out, paper_of(options)); !written)
        return written;
    if (const std::string hint = thin_report_words(book.value(), options, report.value()); !hint.empty())
        tell_line("footing: " + hint);
    return Done{};
}

Outcome report(const ReportOptions& options) {
    return options.file.empty() ? report_of_student(options) : report_of_recording(options);
}

}  // namespace

void add_report(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ReportOptions>();
    Arguments* verb = program.add_subcommand(
        "report", "write a report: of a recording, or what a student takes home, from the lesson book");
    verb->add_option("FILE", options->file,
                     "a recording (.h5); without it the report is a student's, from the book");
    verb->add_option(
            "--out", options->out,
            "where to: a name that ends in .pdf or .html; for a recording .csv too; with --swing .png")
        ->required();
    verb->add_option("--student", options->student,
                     "whose report, as the book knows them; of a recording: the name at its head");
    verb->add_option("--lesson", options->lesson, "this lesson of the student; else the newest")
        ->check(number_of_book());
    verb->add_option("--from", options->from, "the student's lessons from this date on, such as 2026-03-01");
    verb->add_option("--to", options->to, "… up to this date");
    const Argument* card =
        verb->add_option(
                "--card", options->card,
                "what the distance card says: a club every 5 yards or metres (steps), or all numbers")
            ->check(one_of({"steps", "numbers"}))
            ->capture_default_str();
    verb->add_flag("--short", options->brief,
                   "the short form: page one, the swings together, how it was measured, cautions");
    verb->add_flag("--all-swings", options->all_swings,
                   "draw every recording of these lessons swing by swing, not the newest alone");
    verb->add_option("--units", options->unit, "yd or m, else as the student plays")
        ->check(one_of({"yd", "m"}));
    verb->add_option("--book", options->book, "the lesson book, if not the usual one");
    verb->add_option("--paper", options->paper, "a4 or letter")
        ->check(one_of({"a4", "letter"}))
        ->capture_default_str();
    verb->add_option("--swing", options->swing,
                     "only this swing of the recording, as a picture to share (.png)");
    add_reading_options(*verb, options->reading, ", in a recording");
    add_mass_option(*verb, options->mass);
    verb->callback([options, card, &outcome] {
        options->card_said = card->given();
        if (const Outcome done = report(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
