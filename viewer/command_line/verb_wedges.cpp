#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "viewer/book/book_place.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

struct WedgesOptions : BookOptions {
    std::string student;
    std::string wedge;
    std::string name;
    double loft_deg = 0.0;
    std::string bag;
};

nlohmann::ordered_json json_of(const Wedge& wedge) {
    return {{"id", wedge.id},
            {"name", wedge.name},
            {"loft_deg", or_null(wedge.loft_deg)},
            {"bag", wedge.bag == Bag::in ? "in" : "out"}};
}

Outcome list(const WedgesOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto student = book.value().student(options.student);
    if (!student) return student.problem();
    const auto wedges = book.value().wedges(student.value().id);
    if (!wedges) return wedges.problem();
    std::vector<std::vector<std::string>> rows;
    auto json = nlohmann::ordered_json::array();
    for (const Wedge& wedge : wedges.value()) {
        rows.push_back({wedge.name, wedge.loft_deg ? fmt::format("{:g}°", *wedge.loft_deg) : "",
                        wedge.bag == Bag::in ? "in the bag" : "out of the bag"});
        json.push_back(json_of(wedge));
    }
    return tell(options,
                rows.empty() ? "no wedge\n" : terminal_table({{"wedge"}, {"loft", Side::right}, {""}}, rows),
                {{"student", student.value().name}, {"wedges", json}});
}

Outcome take_words(const WedgesOptions& options, Wedge& wedge) {
    if (!options.name.empty() || wedge.id == 0) {
        const auto name = tidy_text(options.name, "the name");
        if (!name) return name.problem();
        wedge.name = name.value();
    }
    if (options.loft_deg > 0.0) wedge.loft_deg = options.loft_deg;
    if (!options.bag.empty()) wedge.bag = options.bag == "in" ? Bag::in : Bag::out;
    return Done{};
}

Outcome add(const WedgesOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto student = book.value().student(options.student);
    if (!student) return student.problem();
    Wedge wedge;
    wedge.student = student.value().id;
    if (Outcome done = take_words(options, wedge); !done) return done;
    const auto id = book.value().add_wedge(wedge);
    if (!id) return id.problem();
    wedge.id = id.value();
    return tell(options, fmt::format("wedge {} of {}\n", shown(wedge.name), shown(student.value().name)),
                json_of(wedge));
}

Outcome change(const WedgesOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto student = book.value().student(options.student);
    if (!student) return student.problem();
    Wedge wedge;
    const Outcome done = book.value().in_transaction([&]() -> Outcome {
        const auto found = book.value().wedge(student.value().id, options.wedge);
        if (!found) return found.problem();
        wedge = found.value();
        if (Outcome taken = take_words(options, wedge); !taken) return taken;
        return book.value().change_wedge(wedge);
    });
    if (!done) return done;
    return tell(options,
                fmt::format("wedge {} of {}, changed\n", shown(wedge.name), shown(student.value().name)),
                json_of(wedge));
}

Outcome remove(const WedgesOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto student = book.value().student(options.student);
    if (!student) return student.problem();
    const auto wedge = book.value().wedge(student.value().id, options.wedge);
    if (!wedge) return wedge.problem();
    if (Outcome done = book.value().remove_wedge(wedge.value().id); !done) {
        Problem problem = done.problem();
        if (problem.place.empty()) problem.place = wedge.value().name;
        return problem;
    }
    return tell(
        options,
        fmt::format("wedge {} of {}, removed\n", shown(wedge.value().name), shown(student.value().name)),
        {{"removed", wedge.value().name}});
}

void add_words(Arguments& step, WedgesOptions& options) {
    step.add_option("--loft", options.loft_deg, "in degrees")->check(number_between(1.0, 89.0));
    step.add_option("--bag", options.bag, "whether the student carries it")->check(one_of({"in", "out"}));
}

}  // namespace

void add_wedges(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<WedgesOptions>();
    Arguments* verb = program.add_subcommand("wedges", "a student's wedges");
    add_book_options(*verb, *options);
    verb->add_option("--student", options->student, "name, or #number")->required();
    set_work(*verb, outcome, [options] { return list(*options); });

    Arguments* adding = add_step(*verb, "add", "add a wedge", outcome, [options] { return add(*options); });
    adding->add_option("NAME", options->name, "as you like it: 54, gap wedge …")->required();
    add_words(*adding, *options);
    Arguments* changing = add_step(*verb, "change", "change what the book says of a wedge", outcome,
                                   [options] { return change(*options); });
    changing->add_option("WEDGE", options->wedge, "its name")->required();
    changing->add_option("--name", options->name, "another name");
    add_words(*changing, *options);
    Arguments* removing = add_step(*verb, "remove", "remove a wedge that no swing was made with", outcome,
                                   [options] { return remove(*options); });
    removing->add_option("WEDGE", options->wedge, "its name")->required();
}

}  // namespace footing
