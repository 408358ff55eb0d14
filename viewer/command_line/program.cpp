#include "viewer/command_line/program.h"

#include <fmt/ranges.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <new>
#include <string>
#include <vector>

#include "acquisition/record/program_version.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

/// What is wrong with the words given, and which help to look into.
Problem wrong_words(const Arguments& program, const std::string& wrong, const std::string& first_word,
                    const std::string& second_word) {
    const std::vector<std::string> verbs = program.subcommand_names();
    if (std::find(verbs.begin(), verbs.end(), first_word) != verbs.end()) {
        const std::vector<std::string> steps = program.subcommand_names(first_word);
        const bool is_step = std::find(steps.begin(), steps.end(), second_word) != steps.end();
        return {ProblemKind::command_line, "", wrong,
                fmt::format("\"footing {}{} --help\" lists the options", first_word,
                            is_step ? " " + second_word : "")};
    }
    const std::string what = first_word.empty() ? "no verb is given" : "\"" + first_word + "\" is no verb";
    return {ProblemKind::command_line, "", what, fmt::format("the verbs are {}", fmt::join(verbs, ", "))};
}

/// What a library throws in spite of all is told like any other problem, and files are closed on the way out.
Arguments::Reading parse_unless_thrown(Arguments& program, int argc, char** argv, VerbOutcome& outcome) {
    const std::string place = argc > 1 ? std::string("footing ") + argv[1] : "footing";
    try {
        return program.parse(argc, argv);
    } catch (const std::bad_alloc&) {
        complain({ProblemKind::bad_input, place, "this computer has too little memory for it",
                  "end other programs, or work on a shorter part"},
                 outcome);
    } catch (const std::exception& thrown) {
        complain({ProblemKind::bad_input, place, std::string("it could not be done: ") + thrown.what(),
                  "check the names and numbers given; with sound ones this is a fault of the program"},
                 outcome);
    }
    return {};
}

}  // namespace

int run_program(int argc, char** argv) {
    Arguments program("Footing: where a golfer's weight is, swing by swing, for the short game");
    program.require_subcommand(1, 1);
    VerbOutcome outcome;
    // As in the man page.
    const struct {
        const char* heading;
        std::vector<void (*)(Arguments&, VerbOutcome&)> verbs;
    } groups[] = {
        {"A lesson", {add_lesson, add_record, add_devices}},
        {"Trust in the plates", {add_check, add_calibrate}},
        {"Swings", {add_view, add_analyse, add_mark, add_compare, add_report, add_steadiness}},
        {"The lesson book",
         {add_students, add_wedges, add_lessons, add_swings, add_shots, add_distances, add_choose,
          add_progress, add_book}},
        {"Recordings as files", {add_import, add_export, add_verify, add_recover}},
        {"Trying it without plates", {add_emulate, add_play}},
    };
    for (const auto& group : groups) {
        program.head_subcommands(group.heading);
        for (const auto add : group.verbs) add(program, outcome);
    }
    program.set_version_flag("--version", std::string(program_version));
    const Arguments::Reading read = parse_unless_thrown(program, argc, argv, outcome);
    if (read.exit_code) outcome.exit_code = *read.exit_code;
    if (!read.wrong.empty())
        complain(wrong_words(program, read.wrong, argc > 1 ? argv[1] : "", argc > 2 ? argv[2] : ""), outcome);
    if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
        complain({ProblemKind::disk_failed, "standard output", "not all of what was said could be written",
                  "see whether the disk is full, or what was to read it has ended"},
                 outcome);
    }
    return outcome.exit_code;
}

}  // namespace footing
