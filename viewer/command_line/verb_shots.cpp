#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "analysis/report/number_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/distance_option.h"
#include "viewer/command_line/length_option.h"
#include "viewer/command_line/shots_import.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

struct ShotsOptions : BookOptions {
    std::string student;
    std::int64_t lesson = 0;
    std::int64_t swing = 0;
    std::string wedge;
    std::string length;
    std::vector<std::string> carries;
    std::string side;
    std::string strike;
    bool far = false;

    [[nodiscard]] FarCarry far_carry() const { return far ? FarCarry::taken : FarCarry::asked_about; }
};

Outcome list(const ShotsOptions& options) {
    if (options.student.empty())
        return Problem{ProblemKind::command_line, "--student", "is not given", "say whose shots"};
    auto book = open_book(options, OpenAs::to_read);
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
        const std::string name = wedge_name_of(wedges.value(), swing);
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
                             : terminal_table({{"lesson", Side::right},
                                               {"swing", Side::right},
                                               {"wedge"},
                                               {"length"},
                                               {"carry", Side::right},
                                               {"side", Side::right},
                                               {"strike"}},
                                              rows),
                {{"student", student.value().name}, {"shots", json}});
}

/// What was added, for the coach.
struct Added {
    std::vector<double> carries_m;
    std::optional<double> replaced_m;
};

/// What was typed beside one swing, over what is known of it.
Result<Added> put_beside_swing(Book& book, const ShotsOptions& options, DistanceUnit unit,
                               std::optional<std::int64_t> wedge) {
    if (options.carries.size() > 1) {
        return Problem{ProblemKind::command_line, "--carry",
                       "one swing has one carry, and a comma parts several",
                       "give one, with a point, such as 82.5"};
    }
    auto found = book.swing(options.lesson, options.swing);
    if (!found) return found.problem();
    BookSwing& swing = found.value();
    Shot shot = swing.shot.value_or(Shot{});
    Added added;
    if (!options.carries.empty()) {
        const auto carry = parse_carry(options.carries.front(), unit, options.far_carry());
        if (!carry) return carry.problem();
        if (shot.carry_m && *shot.carry_m != carry.value()) added.replaced_m = shot.carry_m;
        shot.carry_m = carry.value();
        added.carries_m = {carry.value()};
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
    if (Outcome done = book.change_swing(swing); !done) return done.problem();
    return added;
}

Result<Added> add_unrecorded(Book& book, const ShotsOptions& options, DistanceUnit unit,
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
    Added added;
    for (const std::string& words : options.carries) {
        const auto carry = parse_carry(words, unit, options.far_carry());
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
        if (const auto done = book.add_swing(swing); !done) return done.problem();
        added.carries_m.push_back(carry.value());
    }
    return added;
}

std::string added_words(const Added& added, const ShotsOptions& options, const Student& student) {
    std::string carries;
    for (const double carry_m : added.carries_m)
        carries += (carries.empty() ? ": " : ", ") + distance_words(carry_m, student.unit, 1);
    if (added.replaced_m) carries += ", which replaces " + distance_words(*added.replaced_m, student.unit, 1);
    return fmt::format("{} of {} in lesson {}{}\n",
                       count_words(std::max<std::size_t>(1, added.carries_m.size()), "shot", "shots"),
                       shown(student.name), options.lesson, carries);
}

Outcome add(const ShotsOptions& options) {
    if (options.carries.empty() && options.strike.empty()) {
        return Problem{ProblemKind::command_line, "shots add", "there is neither a carry nor a strike",
                       "write for example --carry 82 or --strike thin"};
    }
    auto book = open_book(options, OpenAs::existing);
    if (!book) return book.problem();
    Student student;
    Added added;
    const Outcome done = book.value().in_transaction([&]() -> Outcome {
        const auto line = book.value().lesson(options.lesson);
        if (!line) return line.problem();
        const auto whose = book.value().student(line.value().lesson.student);
        if (!whose) return whose.problem();
        student = whose.value();
        const auto wedge = book.value().wedge_if_named(student.id, options.wedge);
        if (!wedge) return wedge.problem();
        const auto put = options.swing > 0
                             ? put_beside_swing(book.value(), options, student.unit, wedge.value())
                             : add_unrecorded(book.value(), options, student.unit, wedge.value());
        if (!put) return put.problem();
        added = put.value();
        return Done{};
    });
    if (!done) return done;
    return tell(options, added_words(added, options, student),
                {{"lesson", options.lesson},
                 {"added", std::max<std::size_t>(1, added.carries_m.size())},
                 {"carries_m", added.carries_m},
                 {"replaced_m", or_null(added.replaced_m)}});
}

}  // namespace

void add_shots(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ShotsOptions>();
    Arguments* verb = program.add_subcommand("shots", "where the balls went");
    add_book_options(*verb, *options);
    verb->add_option("--student", options->student, "whose shots to list: name, or #number");
    verb->add_option("--lesson", options->lesson, "only of this lesson")->check(number_of_book());
    set_work(*verb, outcome, [options] { return list(*options); });

    Arguments* adding = add_step(*verb, "add", "type in carries, beside a recorded swing or without one",
                                 outcome, [options] { return add(*options); });
    adding->add_option("--lesson", options->lesson, "the lesson's number")
        ->required()
        ->check(number_of_book());
    adding->add_option("--swing", options->swing, "the recorded swing's number")
        ->check(number_between(1.0, 1e6));
    adding->add_option("--club", options->wedge, "the student's wedge, by name");
    add_length_option(*adding, options->length, "how long the swing was");
    adding->add_option("--carry", options->carries, "such as 82, 82yd or 75m; several with commas: 82,85,84")
        ->delimiter(',');
    adding->add_flag("--far", options->far, "take a carry too that is farther than any wedge's");
    adding->add_option("--side", options->side, "such as \"3yd left\"");
    adding->add_option("--strike", options->strike, "how the ball was met")
        ->check(one_of({"ball_first", "ground_first", "thin"}));

    add_shots_import(*verb, options, outcome);
}

}  // namespace footing
