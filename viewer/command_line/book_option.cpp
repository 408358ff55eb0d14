#include "viewer/command_line/book_option.h"

#include <cstdio>
#include <nlohmann/json.hpp>
#include <utility>

#include "viewer/book/book_place.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/write_text.h"

namespace footing {

void add_book_options(Arguments& verb, BookOptions& options) {
    verb.add_option("--book", options.book, "the lesson book's file; else the one in the user's data folder");
    verb.add_option("--json", options.json,
                    "write the answer as JSON to this file; - writes only JSON to standard output");
}

Arguments* add_step(Arguments& verb, const std::string& name, const std::string& help, VerbOutcome& outcome,
                    std::function<Outcome()> work) {
    verb.require_subcommand(0, 1);
    Arguments* step = verb.add_subcommand(name, help);
    step->fallthrough();
    set_work(*step, outcome, std::move(work));
    return step;
}

void set_work(Arguments& verb, VerbOutcome& outcome, std::function<Outcome()> work) {
    verb.callback([&verb, &outcome, work = std::move(work)] {
        if (verb.subcommand_given()) return;
        if (const Outcome done = work(); !done) complain(done.problem(), outcome);
    });
}

Result<Book> open_book(const BookOptions& options, OpenAs how) {
    if (!options.book.empty()) return Book::open(options.book, how);
    const auto place = usual_book_place();
    if (!place) return place.problem();
    return Book::open(place.value(), how);
}

Result<std::optional<std::int64_t>> student_or_all(Book& book, const std::string& name) {
    if (name.empty()) return std::optional<std::int64_t>();
    const auto student = book.student(name);
    if (!student) return student.problem();
    return std::optional<std::int64_t>(student.value().id);
}

Outcome tell(const BookOptions& options, const std::string& text, const nlohmann::ordered_json& json) {
    if (options.json != "-") say_text(text);
    if (options.json.empty()) return Done{};
    return write_text(options.json,
                      json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n",
                      FileReaders::owner);
}

}  // namespace footing
