#include <fmt/format.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "acquisition/record/safe_file.h"
#include "analysis/report/number_words.h"
#include "analysis/report/text_safety.h"
#include "viewer/book/undone_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/lesson_into_book.h"
#include "viewer/lesson/missing_finishes.h"

namespace footing {

namespace {

struct BookVerbOptions : BookOptions {
    std::string target;
    std::string student;
    std::vector<std::string> folders;
};

Outcome show(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto students = book.value().students();
    if (!students) return students.problem();
    const auto lessons = book.value().lessons(std::nullopt);
    if (!lessons) return lessons.problem();
    const auto recordings = book.value().recordings();
    if (!recordings) return recordings.problem();
    return tell(options,
                fmt::format("{}\n{}, {}, {}\n", book.value().path().string(),
                            count_words(students.value().size(), "student", "students"),
                            count_words(lessons.value().size(), "lesson", "lessons"),
                            count_words(recordings.value().size(), "recording", "recordings")),
                {{"file", book.value().path().string()},
                 {"students", students.value().size()},
                 {"lessons", lessons.value().size()},
                 {"recordings", recordings.value().size()}});
}

Outcome check(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto wrong = book.value().check();
    if (!wrong) return wrong.problem();
    if (wrong.value().empty()) {
        return tell(options, fmt::format("{}: sound\n", book.value().path().string()),
                    {{"file", book.value().path().string()}, {"sound", true}});
    }
    // SQLite tells of every page; the first finding is enough to know.
    const std::string& first = wrong.value().front();
    return Problem{ProblemKind::bad_input, book.value().path().string(),
                   fmt::format("is damaged: {}", shown(first.substr(0, first.find('\n', 1)))),
                   "take the newest backup; \"footing book export FOLDER\" may still read what is left"};
}

Outcome back_up(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    if (Outcome done = book.value().back_up_to(options.target); !done) return done;
    return tell(options, fmt::format("{}: a whole copy, checked\n", options.target),
                {{"backup", options.target}});
}

std::string csv_of(const Book::Table& table) {
    std::string text;
    for (std::size_t i = 0; i < table.columns.size(); ++i) text += (i > 0 ? "," : "") + table.columns[i];
    text += "\r\n";
    for (const Row& row : table.rows) {
        for (std::size_t i = 0; i < row.cells().size(); ++i) {
            if (i > 0) text += ',';
            const Cell& cell = row.cells()[i];
            if (const auto* whole = std::get_if<std::int64_t>(&cell)) text += std::to_string(*whole);
            if (const auto* real = std::get_if<double>(&cell)) text += fmt::format("{}", *real);
            if (const auto* words = std::get_if<std::string>(&cell)) text += csv_text(*words);
        }
        text += "\r\n";
    }
    return text;
}

nlohmann::ordered_json json_of(const Book::Table& table) {
    auto rows = nlohmann::ordered_json::array();
    for (const Row& row : table.rows) {
        nlohmann::ordered_json json;
        for (std::size_t i = 0; i < row.cells().size(); ++i) {
            std::visit(
                [&](const auto& value) {
                    if constexpr (std::is_same_v<std::decay_t<decltype(value)>, std::monostate>) {
                        json[table.columns[i]] = nullptr;
                    } else {
                        json[table.columns[i]] = value;
                    }
                },
                row.cells()[i]);
        }
        rows.push_back(json);
    }
    return rows;
}

Outcome export_to(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto whose = student_or_all(book.value(), options.student);
    if (!whose) return whose.problem();
    const auto tables = book.value().tables(whose.value());
    if (!tables) return tables.problem();
    // The tables hold people's data: for the user only.
    if (::mkdir(options.target.c_str(), 0700) != 0) {
        const int failure = errno;
        return Problem{failure == EEXIST ? ProblemKind::command_line : ProblemKind::disk_failed,
                       options.target, failure == EEXIST ? "exists already" : std::strerror(failure),
                       "write the name of a new folder"};
    }
    nlohmann::ordered_json json;
    std::string words;
    for (const Book::Table& table : tables.value()) {
        const std::string file = options.target + "/" + table.name + ".csv";
        if (Outcome done = write_new_file(file, csv_of(table), FileReaders::owner); !done) return done;
        json[table.name] = json_of(table);
        words += fmt::format("{}: {}\n", file, count_words(table.rows.size(), "row", "rows"));
    }
    return tell(options, words, json);
}

std::string words_of(const FinishesRead& finishes) {
    std::string words;
    if (!finishes.lessons.empty()) {
        words += fmt::format("how the swings ended is now in the book too, of {}: {}\n",
                             count_words(finishes.lessons.size(), "lesson", "lessons"),
                             fmt::join(finishes.lessons, ", "));
    }
    for (const std::string& why : finishes.not_read)
        words += "how the swings ended is not in the book: " + shown_long(why) + "\n";
    return words;
}

Outcome index(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto rebuilt = rebuild_index_of(
        book.value(), std::vector<std::filesystem::path>(options.folders.begin(), options.folders.end()));
    if (!rebuilt) return rebuilt.problem();
    const IndexRebuilt& report = rebuilt.value();
    const auto finishes = read_missing_finishes(book.value());
    if (!finishes) return finishes.problem();
    std::string words = count_words(report.recordings, "recording", "recordings") + " in the index\n";
    for (const std::string& why : report.not_read) words += "not read: " + shown_long(why) + "\n";
    for (const std::string& file : report.twice) words += "a copy of another: " + shown_long(file) + "\n";
    if (report.elsewhere > 0)
        words += fmt::format("{} of them elsewhere, where they were before\n", report.elsewhere);
    if (!report.lessons_without.empty()) {
        words += count_words(report.lessons_without.size(), "lesson is without its recording",
                             "lessons are without their recording") +
                 fmt::format(": {}; name the folder it is in\n", fmt::join(report.lessons_without, ", "));
    }
    words += words_of(finishes.value());
    return tell(options, words,
                {{"recordings", report.recordings},
                 {"not_read", report.not_read},
                 {"elsewhere", report.elsewhere},
                 {"copies", report.twice},
                 {"lessons_without_recording", report.lessons_without},
                 {"finishes_read", finishes.value().lessons},
                 {"finishes_not_read", finishes.value().not_read}});
}

std::string undo_words(const Undone& undone) {
    std::string words = fmt::format("the change of {} UTC is taken back\n", undone.change.made_at);
    for (const std::string& whose : undone.of) words += "  of " + shown(whose) + "\n";
    for (const std::string& part : undone_words(undone.change)) words += "  " + part + "\n";
    words += "  \"footing book redo\" makes it again, until something else is changed\n";
    return words;
}

std::string redo_words(const Undone& made) {
    std::string words = "what was taken back last is made again\n";
    for (const std::string& whose : made.of) words += "  of " + shown(whose) + "\n";
    for (const std::string& part : made_again_words(made.change)) words += "  " + part + "\n";
    return words;
}

nlohmann::ordered_json json_of(const std::vector<UndoneRows>& tables) {
    auto json = nlohmann::ordered_json::array();
    for (const UndoneRows& rows : tables) {
        json.push_back({{"table", rows.table},
                        {"returned", rows.returned},
                        {"changed", rows.changed},
                        {"removed", rows.removed}});
    }
    return json;
}

Outcome undo(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto undone = book.value().undo();
    if (!undone) return undone.problem();
    return tell(options, undo_words(undone.value()),
                {{"made_at", undone.value().change.made_at},
                 {"of", undone.value().of},
                 {"undone", json_of(undone.value().change.rows)}});
}

Outcome redo(const BookVerbOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto made = book.value().redo();
    if (!made) return made.problem();
    return tell(options, redo_words(made.value()),
                {{"of", made.value().of}, {"made_again", json_of(made.value().change.rows)}});
}

}  // namespace

void add_book(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<BookVerbOptions>();
    Arguments* verb = program.add_subcommand("book", "the lesson book's file: where it is, copies, checks");
    add_book_options(*verb, *options);
    set_work(*verb, outcome, [options] { return show(*options); });
    add_step(*verb, "check", "see whether the file is sound", outcome, [options] { return check(*options); });
    add_step(*verb, "backup", "make a whole copy of the book, also while it is in use", outcome,
             [options] { return back_up(*options); })
        ->add_option("FILE", options->target, "the copy to make; never an existing file")
        ->required();
    Arguments* exporting =
        add_step(*verb, "export", "write everything as tables (CSV); with --json as JSON too", outcome,
                 [options] { return export_to(*options); });
    exporting->add_option("FOLDER", options->target, "the folder to make")->required();
    exporting->add_option("--student", options->student, "only what is theirs: name, or #number");
    add_step(*verb, "undo", "take back the newest change, then the one before", outcome,
             [options] { return undo(*options); });
    add_step(*verb, "redo", "make again what was taken back last, unless something was changed since",
             outcome, [options] { return redo(*options); });
    add_step(*verb, "index", "find recordings again, wherever they have been moved to", outcome,
             [options] { return index(*options); })
        ->add_option("FOLDER", options->folders, "folders to look in, and in all below them")
        ->required();
}

}  // namespace footing
