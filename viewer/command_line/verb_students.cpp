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
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/written_words.h"

namespace footing {

namespace {

struct StudentsOptions : BookOptions {
    std::string search;
    std::string who;
    std::string name;
    std::string hand;
    double weight_kg = 0.0;
    std::string unit;
    std::string consent;
    std::optional<std::string> notes;
    bool namesake = false;
    bool sure = false;
};

nlohmann::ordered_json json_of(const Student& student) {
    nlohmann::ordered_json json;
    json["id"] = student.id;
    json["name"] = student.name;
    json["hand"] = hand_name(student.hand);
    json["weight_kg"] = or_null(student.weight_kg);
    json["unit"] = unit_name(student.unit);
    json["consent"] = consent_name(student.consent);
    json["consent_date"] = text_or_null(student.consent_date);
    json["notes"] = student.notes;
    return json;
}

Outcome list(const StudentsOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto lines = book.value().students(options.search);
    if (!lines) return lines.problem();
    std::vector<std::vector<std::string>> rows;
    auto json = nlohmann::ordered_json::array();
    for (const StudentLine& line : lines.value()) {
        const Student& student = line.student;
        rows.push_back({fmt::format("#{}", student.id), student.name, hand_name(student.hand),
                        unit_name(student.unit), consent_name(student.consent), std::to_string(line.lessons),
                        std::to_string(line.swings), line.last_lesson});
        json.push_back(json_of(student));
        json.back()["lessons"] = line.lessons;
        json.back()["swings"] = line.swings;
        json.back()["last_lesson"] = text_or_null(line.last_lesson);
    }
    const std::string text = rows.empty() ? "no student\n"
                                          : terminal_table({{"", Side::right},
                                                            {"name"},
                                                            {"hand"},
                                                            {"unit"},
                                                            {"consent"},
                                                            {"lessons", Side::right},
                                                            {"swings", Side::right},
                                                            {"last lesson"}},
                                                           rows);
    return tell(options, text, {{"students", json}});
}

/// What the options say, put over what is known already.
Outcome take_words(const StudentsOptions& options, Student& student) {
    if (!options.name.empty() || student.id == 0) {
        const auto name = tidy_text(options.name, "the name");
        if (!name) return name.problem();
        student.name = name.value();
    }
    if (const auto hand = parse_hand(options.hand)) student.hand = *hand;
    if (options.weight_kg > 0.0) student.weight_kg = options.weight_kg;
    if (!options.unit.empty())
        student.unit = options.unit == "m" ? DistanceUnit::metres : DistanceUnit::yards;
    if (const auto consent = consent_called(options.consent)) {
        student.consent = *consent;
        student.consent_date = *consent == Consent::not_asked ? "" : date_of_today();
    }
    return take_note(options.notes, "--notes", student.notes);
}

Outcome add(const StudentsOptions& options) {
    Student student;
    if (Outcome done = take_words(options, student); !done) return done;
    auto book = open_book(options, OpenAs::create_if_absent);
    if (!book) return book.problem();
    const auto id =
        book.value().add_student(student, options.namesake ? Namesakes::allowed : Namesakes::refused);
    if (!id) return id.problem();
    student.id = id.value();
    return tell(options, fmt::format("student #{}: {}\n", student.id, shown(student.name)), json_of(student));
}

Outcome change(const StudentsOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    Student student;
    const Outcome done = book.value().in_transaction([&]() -> Outcome {
        const auto found = book.value().student(options.who);
        if (!found) return found.problem();
        student = found.value();
        if (Outcome taken = take_words(options, student); !taken) return taken;
        return book.value().change_student(student,
                                           options.namesake ? Namesakes::allowed : Namesakes::refused);
    });
    if (!done) return done;
    return tell(options, fmt::format("student #{}: {}, changed\n", student.id, shown(student.name)),
                json_of(student));
}

Outcome remove(const StudentsOptions& options) {
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    const auto student = book.value().student(options.who);
    if (!student) return student.problem();
    if (!options.sure) {
        return Problem{ProblemKind::command_line, student.value().name,
                       "would be removed with every wedge, lesson, swing and shot",
                       "\"footing book backup FILE\" keeps a copy; add --yes to remove"};
    }
    const auto removed = book.value().remove_student(student.value().id);
    if (!removed) return removed.problem();
    return tell(options, removed_words(removed.value()), removed_json(removed.value()));
}

void add_words(Arguments& step, StudentsOptions& options) {
    add_hand_option(step, options.hand, "which way the student plays");
    step.add_option("--weight", options.weight_kg, "in kg")->check(number_between(10.0, 400.0));
    step.add_option("--units", options.unit, "in which the student plays")->check(one_of({"yd", "m"}));
    step.add_option("--consent", options.consent, "to be recorded; kept with today's date")
        ->check(one_of({"yes", "no", "unknown"}));
    step.add_option("--notes", options.notes, "whatever you want to keep");
    step.add_flag("--namesake", options.namesake, "someone else of this name is in the book already");
}

}  // namespace

void add_students(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<StudentsOptions>();
    Arguments* verb = program.add_subcommand("students", "the students in the lesson book");
    add_book_options(*verb, *options);
    verb->add_option("--search", options->search, "only names with this in them");
    set_work(*verb, outcome, [options] { return list(*options); });

    Arguments* adding = add_step(*verb, "add", "add a student", outcome, [options] { return add(*options); });
    adding->add_option("NAME", options->name, "the name")->required();
    add_words(*adding, *options);
    Arguments* changing = add_step(*verb, "change", "change what the book says of a student", outcome,
                                   [options] { return change(*options); });
    changing->add_option("STUDENT", options->who, "name, or #number")->required();
    changing->add_option("--name", options->name, "another name");
    add_words(*changing, *options);
    Arguments* removing = add_step(*verb, "remove", "remove a student with all that is theirs", outcome,
                                   [options] { return remove(*options); });
    removing->add_option("STUDENT", options->who, "name, or #number")->required();
    removing->add_flag("--yes", options->sure, "yes, it shall go");
}

}  // namespace footing
