#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "acquisition/frame/simulated_golfer.h"
#include "analysis/report/number_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/written_words.h"
#include "viewer/lesson/lesson_into_book.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

struct LessonsOptions : BookOptions {
    std::string student;
    std::int64_t lesson = 0;
    std::string recording;
    std::string date;
    std::optional<std::string> setup;
    std::optional<std::string> note;
    std::string hand;
    std::vector<std::string> bands;
    bool sure = false;
};

/// "half=72:82" over the lesson's bands; without a length, for all of them.
Outcome take_bands(const std::vector<std::string>& words, Lesson& lesson) {
    for (const std::string& word : words) {
        const std::size_t equals = word.find('=');
        const auto band = parse_band(equals == std::string::npos ? word : word.substr(equals + 1));
        if (!band) return band.problem();
        if (equals == std::string::npos) {
            lesson.bands.fill(band.value());
            continue;
        }
        const auto length = length_called(word.substr(0, equals));
        if (!length) {
            return Problem{ProblemKind::command_line, "--band",
                           "\"" + word.substr(0, equals) + "\" is no length of swing",
                           "write half, three-quarter or full, such as half=72:82"};
        }
        lesson.bands[static_cast<std::size_t>(*length)] = band.value();
    }
    return Done{};
}

Outcome take_words(const LessonsOptions& options, Lesson& lesson) {
    if (!options.date.empty()) {
        const auto date = parse_lesson_date(options.date, "--date");
        if (!date) return date.problem();
        lesson.date = date.value();
    }
    if (Outcome done = take_note(options.setup, "--setup", lesson.setup); !done) return done;
    if (Outcome done = take_note(options.note, "--note", lesson.note); !done) return done;
    return take_bands(options.bands, lesson);
}

Outcome list(const LessonsOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto whose = student_or_all(book.value(), options.student);
    if (!whose) return whose.problem();
    const auto lines = book.value().lessons(whose.value());
    if (!lines) return lines.problem();
    std::vector<std::vector<std::string>> rows;
    auto json = nlohmann::ordered_json::array();
    for (const LessonLine& line : lines.value()) {
        const std::string file = line.recording_file.substr(line.recording_file.rfind('/') + 1);
        const std::string begun = line.zone.empty() ? "" : time_of_day(line.start_utc_ns, line.zone);
        rows.push_back({std::to_string(line.lesson.id), line.lesson.date, begun, line.student_name,
                        std::to_string(line.swings), std::to_string(line.carries),
                        line.lesson.recording_uuid.empty() ? ""
                        : file.empty()                     ? "not found"
                        : is_simulated_golfer(line.device) ? file + ", simulated"
                                                           : file,
                        line.lesson.setup});
        json.push_back(json_of(line));
    }
    const std::string text = rows.empty() ? "no lesson\n"
                                          : terminal_table({{"lesson", Side::right},
                                                            {"date"},
                                                            {"begun"},
                                                            {"student"},
                                                            {"swings", Side::right},
                                                            {"carries", Side::right},
                                                            {"recording"},
                                                            {"setup"}},
                                                           rows);
    return tell(options, text, {{"lessons", json}});
}

Outcome tell_lesson(const LessonsOptions& options, Book& book, std::int64_t id, const char* what) {
    const auto line = book.lesson(id);
    if (!line) return line.problem();
    return tell(options,
                fmt::format("lesson {} of {} on {}{}: {}\n", id, shown(line.value().student_name),
                            line.value().lesson.date, what,
                            count_words(static_cast<std::size_t>(line.value().swings), "swing", "swings")),
                json_of(line.value()));
}

Outcome add(const LessonsOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    if (options.student.empty()) {
        return Problem{ProblemKind::command_line, "--student", "is not given", "say whose lesson it is"};
    }
    const auto student = book.value().student(options.student);
    if (!student) return student.problem();
    Lesson lesson;
    lesson.student = student.value().id;
    if (Outcome done = take_words(options, lesson); !done) return done;
    std::int64_t id = 0;
    if (!options.recording.empty()) {
        if (student.value().consent == Consent::refused) {
            return Problem{ProblemKind::command_line, student.value().name, "does not consent to be recorded",
                           "add the lesson without the recording"};
        }
        lesson.hand = parse_hand(options.hand);
        const auto added = put_lesson_into_book(book.value(), lesson, options.recording);
        if (!added) return added.problem();
        id = added.value();
    } else {
        if (lesson.date.empty()) lesson.date = date_of_today();
        const Outcome done = book.value().in_transaction([&]() -> Outcome {
            const auto added = book.value().add_lesson(lesson);
            if (!added) return added.problem();
            id = added.value();
            return Done{};
        });
        if (!done) return done;
    }
    return tell_lesson(options, book.value(), id, "");
}

Outcome change(const LessonsOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const Outcome done = book.value().in_transaction([&]() -> Outcome {
        auto line = book.value().lesson(options.lesson);
        if (!line) return line.problem();
        if (Outcome taken = take_words(options, line.value().lesson); !taken) return taken;
        return book.value().change_lesson(line.value().lesson);
    });
    if (!done) return done;
    return tell_lesson(options, book.value(), options.lesson, ", changed");
}

Outcome analyse_again(const LessonsOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    if (Outcome done = analyse_lesson_again(book.value(), options.lesson, parse_hand(options.hand)); !done)
        return done;
    return tell_lesson(options, book.value(), options.lesson, ", analysed again");
}

Outcome remove(const LessonsOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto line = book.value().lesson(options.lesson);
    if (!line) return line.problem();
    if (!options.sure) {
        return Problem{ProblemKind::command_line, fmt::format("lesson {}", options.lesson),
                       "would be removed with its swings and shots", "add --yes to remove"};
    }
    const auto removed = book.value().remove_lesson(options.lesson);
    if (!removed) return removed.problem();
    return tell(options, removed_words(removed.value()), removed_json(removed.value()));
}

void add_words(Arguments& step, LessonsOptions& options, const std::string& without_date) {
    step.add_option("--date", options.date, "such as 2026-05-14; else " + without_date);
    step.add_option("--setup", options.setup, "what was set up: ball back, stance narrow …");
    step.add_option(
        "--band", options.bands,
        "lead share to aim at in per cent, for all lengths (70:80) or one (half=72:82); may be repeated");
    step.add_option("--note", options.note, "whatever you want to keep");
}

}  // namespace

void add_lessons(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<LessonsOptions>();
    Arguments* verb = program.add_subcommand("lessons", "lessons given, newest first");
    add_book_options(*verb, *options);
    verb->add_option("--student", options->student, "name, or #number");
    set_work(*verb, outcome, [options] { return list(*options); });

    Arguments* adding =
        add_step(*verb, "add", "add a lesson, with the swings of its recording where there is one", outcome,
                 [options] { return add(*options); });
    adding->add_option("RECORDING", options->recording, "a recording (.h5)");
    const auto with_hand = [&](Arguments* step) {
        add_hand_option(*step, options->hand,
                        "which way the golfer in the recording played, where it and the book differ");
    };
    with_hand(adding);
    add_words(*adding, *options, "that of the recording, or today");
    const auto numbered = [&](Arguments* step) {
        step->add_option("LESSON", options->lesson, "the lesson's number")
            ->required()
            ->check(number_of_book());
        return step;
    };
    add_words(*numbered(add_step(*verb, "change", "change the date, set-up, bands or note of a lesson",
                                 outcome, [options] { return change(*options); })),
              *options, "it stays as it is");
    with_hand(numbered(add_step(*verb, "analyse",
                                "find the swings of the recording again; what you said of them stays",
                                outcome, [options] { return analyse_again(*options); })));
    numbered(add_step(*verb, "remove", "remove a lesson with its swings and shots", outcome, [options] {
        return remove(*options);
    }))->add_flag("--yes", options->sure, "yes, it shall go");
}

}  // namespace footing
