#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "analysis/report/number_words.h"
#include "viewer/book/ruled_swing.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/length_option.h"
#include "viewer/command_line/sure_option.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/written_words.h"

namespace footing {

namespace {

struct SwingsOptions : BookOptions {
    std::int64_t lesson = 0;
    double sure_percent = 95.0;
    std::string numbers;
    std::string wedge;
    std::string length;
    std::string kind;
    std::optional<std::string> reason;
    bool keep = false;
    bool no_word = false;
    std::optional<std::string> note;
};

/// The lead share while the finish was held; "no rest" where the swing never came to it.
std::string finish_cell(const BookSwing& swing, const RuledSwing& judged) {
    if (judged.finish) return share_words(*judged.finish);
    return swing.finish && !swing.finish->came_to_rest ? "no rest" : "";
}

/// The lesson with its student, wedges and swings.
struct LessonPage {
    LessonLine line;
    Student student;
    std::vector<Wedge> wedges;
    std::vector<BookSwing> swings;
};

Result<LessonPage> read_page(Book& book, std::int64_t lesson) {
    const auto line = book.lesson(lesson);
    if (!line) return line.problem();
    const auto student = book.student(line.value().lesson.student);
    if (!student) return student.problem();
    const auto wedges = book.wedges(student.value().id);
    if (!wedges) return wedges.problem();
    const auto swings = book.swings(lesson);
    if (!swings) return swings.problem();
    return LessonPage{line.value(), student.value(), wedges.value(), swings.value()};
}

Outcome list(const SwingsOptions& options) {
    const auto sure = parse_sure(options.sure_percent);
    if (!sure) return sure.problem();
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto page = read_page(book.value(), options.lesson);
    if (!page) return page.problem();
    std::vector<std::vector<std::string>> rows;
    auto json = nlohmann::ordered_json::array();
    for (const BookSwing& swing : page.value().swings) {
        const std::string wedge = wedge_name_of(page.value().wedges, swing);
        const RuledSwing judged = ruled_swing(swing, page.value().line.lesson, sure.value());
        const auto share = [](const std::optional<ShareValue>& value) {
            return value ? share_words(*value) : std::string();
        };
        std::string coach = swing.coach == CoachSays::set_aside ? "set aside"
                            : swing.coach == CoachSays::keep    ? "keep"
                                                                : "";
        if (!swing.reason.empty()) coach += ": " + swing.reason;
        rows.push_back({std::to_string(swing.number), kind_name(swing.kind()), share(judged.address),
                        judged.address ? verdict_words(judged.address->verdict) : "", share(judged.lowest),
                        finish_cell(swing, judged), wedge, swing.length ? length_name(*swing.length) : "",
                        swing.shot && swing.shot->carry_m
                            ? distance_words(*swing.shot->carry_m, page.value().student.unit, 1)
                            : "",
                        swing.shot && swing.shot->strike ? strike_words(*swing.shot->strike) : "", coach,
                        swing.note});
        json.push_back(json_of(swing, wedge));
        json.back()["verdict"] = text_or_null(judged.address ? verdict_name(judged.address->verdict) : "");
    }
    const std::string text = rows.empty() ? "no swing\n"
                                          : terminal_table({{"swing", Side::right},
                                                            {"kind"},
                                                            {"address", Side::right},
                                                            {""},
                                                            {"lowest", Side::right},
                                                            {"finish", Side::right},
                                                            {"wedge"},
                                                            {"length"},
                                                            {"carry", Side::right},
                                                            {"strike"},
                                                            {"coach"},
                                                            {"note"}},
                                                           rows);
    return tell(options, text, {{"lesson", json_of(page.value().line)}, {"swings", json}});
}

/// What the coach says now, over what was said before.
Outcome take_words(const SwingsOptions& options, const std::optional<std::int64_t>& wedge, BookSwing& swing) {
    if (wedge) swing.wedge = wedge;
    if (!options.length.empty()) swing.length = length_called(options.length);
    if (!options.kind.empty()) swing.coach_kind = kind_called(options.kind);
    if (options.keep || options.no_word || options.reason) {
        swing.coach = options.keep     ? CoachSays::keep
                      : options.reason ? CoachSays::set_aside
                                       : CoachSays::nothing;
        if (Outcome taken = take_note(options.reason ? options.reason : std::optional<std::string>(""),
                                      "--aside", swing.reason);
            !taken)
            return taken;
    }
    return take_note(options.note, "--note", swing.note);
}

/// Of a carry that was once insisted on, or imported by an older program.
std::string far_words(const BookSwing& swing) {
    if (!swing.shot || !swing.shot->carry_m || swing.coach == CoachSays::set_aside) return "";
    const std::string words = beyond_reach_words(*swing.shot->carry_m, DistanceUnit::yards);
    return words.empty()
               ? ""
               : fmt::format("swing {}: {}; --aside sets it aside, \"footing shots add\" corrects it\n",
                             swing.number, words);
}

Outcome label(const SwingsOptions& options) {
    const auto numbers = parse_numbers(options.numbers, "SWINGS");
    if (!numbers) return numbers.problem();
    if (options.wedge.empty() && options.length.empty() && options.kind.empty() && !options.keep &&
        !options.no_word && !options.reason && !options.note) {
        return Problem{ProblemKind::command_line, "swings label", "there is nothing to change",
                       "write for example --club 54 --length half"};
    }
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    std::string far;
    const Outcome done = book.value().in_transaction([&]() -> Outcome {
        const auto line = book.value().lesson(options.lesson);
        if (!line) return line.problem();
        const auto wedge = book.value().wedge_if_named(line.value().lesson.student, options.wedge);
        if (!wedge) return wedge.problem();
        for (const std::int64_t number : numbers.value()) {
            auto swing = book.value().swing(options.lesson, number);
            if (!swing) return swing.problem();
            if (Outcome taken = take_words(options, wedge.value(), swing.value()); !taken) return taken;
            far += far_words(swing.value());
            if (Outcome changed = book.value().change_swing(swing.value()); !changed) return changed;
        }
        return Done{};
    });
    if (!done) return done;
    const std::size_t labelled = numbers.value().size();
    return tell(options, count_words(labelled, "swing", "swings") + " labelled\n" + far,
                {{"labelled", labelled}});
}

}  // namespace

void add_swings(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<SwingsOptions>();
    Arguments* verb = program.add_subcommand("swings", "the swings of a lesson, and what you say of them");
    add_book_options(*verb, *options);
    verb->add_option("--lesson", options->lesson, "the lesson's number")->required()->check(number_of_book());
    add_sure_option(*verb, options->sure_percent);
    set_work(*verb, outcome, [options] { return list(*options); });

    Arguments* labelling =
        add_step(*verb, "label", "say with what and how swings were made, and whether they count", outcome,
                 [options] { return label(*options); });
    labelling->add_option("SWINGS", options->numbers, "their numbers, such as 3 or 3,5-9")->required();
    labelling->add_option("--club", options->wedge, "the student's wedge, by name");
    add_length_option(*labelling, options->length, "how long they were");
    labelling->add_option("--kind", options->kind, "what it was, whatever was found")
        ->check(one_of({"shot", "practice"}));
    auto* word = labelling->add_option_group("word", "whether it counts in the distances");
    word->add_option("--aside", options->reason, "set it aside, for this reason");
    word->add_flag("--keep", options->keep, "keep it, whatever the test for outliers says");
    word->add_flag("--let-test-decide", options->no_word, "take your word back");
    word->require_option(0, 1);
    labelling->add_option("--note", options->note, "whatever you want to keep");
}

}  // namespace footing
