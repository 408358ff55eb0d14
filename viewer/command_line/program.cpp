#include "viewer/command_line/program.h"

#include <CLI/CLI.hpp>
#include <string>

#include "acquisition/record/program_version.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

/// What is wrong with the words given, and which help to look into.
Problem wrong_words(const CLI::App& program, const CLI::ParseError& error, const std::string& first_word) {
    std::string verbs;
    for (const CLI::App* verb : program.get_subcommands([](const CLI::App*) { return true; })) {
        if (verb->get_name() == first_word) {
            return {ProblemKind::command_line, "", error.what(),
                    "\"footing " + first_word + " --help\" lists the options"};
        }
        verbs += (verbs.empty() ? "" : ", ") + verb->get_name();
    }
    const std::string what = first_word.empty() ? "no verb is given" : "\"" + first_word + "\" is no verb";
    return {ProblemKind::command_line, "", what, "the verbs are " + verbs};
}

}  // namespace

int run_program(int argc, char** argv) {
    CLI::App program{"Footing: where a golfer's weight is, swing by swing, for the short game"};
    program.require_subcommand(1);
    VerbOutcome outcome;
    for (const auto add :
         {add_emulate, add_record, add_import,    add_analyse,  add_compare,   add_steadiness,
          add_report,  add_verify, add_recover,   add_view,     add_calibrate, add_check,
          add_play,    add_mark,   add_devices,   add_students, add_wedges,    add_lessons,
          add_swings,  add_shots,  add_distances, add_choose,   add_book}) {
        add(program, outcome);
    }
    program.set_version_flag("--version", std::string(program_version));
    try {
        program.parse(argc, argv);
    } catch (const CLI::Success& help_or_version) {
        return program.exit(help_or_version);
    } catch (const CLI::ParseError& error) {
        complain(wrong_words(program, error, argc > 1 ? argv[1] : ""), outcome);
    }
    return outcome.exit_code;
}

}  // namespace footing
