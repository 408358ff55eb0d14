#include "viewer/command_line/program.h"

#include <CLI/CLI.hpp>

#include "viewer/command_line/verbs.h"

namespace footing {

int run_program(int argc, char** argv) {
    CLI::App program{"Footing: where a golfer's weight is, swing by swing, for the short game"};
    program.require_subcommand(1);
    VerbOutcome outcome;
    for (const auto add : {add_emulate, add_record, add_import, add_analyse, add_steadiness, add_report, add_verify,
                           add_recover, add_view, add_calibrate, add_check, add_play, add_devices}) {
        add(program, outcome);
    }
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        const bool asked_for_help = error.get_exit_code() == 0;
        program.exit(error);
        return asked_for_help ? 0 : 2;
    }
    return outcome.exit_code;
}

}  // namespace footing
