#pragma once

namespace CLI {
class App;
}

namespace footing {

/// What a verb leaves behind for main: set by the verb's callback, returned by the program.
struct VerbOutcome {
    int exit_code = 0;
};

/// Each adds one verb (a subcommand with its options and a callback) to the program. One file a verb:
/// verb_NAME.cpp.
void add_emulate(CLI::App& program, VerbOutcome& outcome);
void add_record(CLI::App& program, VerbOutcome& outcome);
void add_import(CLI::App& program, VerbOutcome& outcome);
void add_analyse(CLI::App& program, VerbOutcome& outcome);
void add_steadiness(CLI::App& program, VerbOutcome& outcome);
void add_report(CLI::App& program, VerbOutcome& outcome);
void add_verify(CLI::App& program, VerbOutcome& outcome);
void add_recover(CLI::App& program, VerbOutcome& outcome);
void add_view(CLI::App& program, VerbOutcome& outcome);
void add_calibrate(CLI::App& program, VerbOutcome& outcome);
void add_check(CLI::App& program, VerbOutcome& outcome);
void add_play(CLI::App& program, VerbOutcome& outcome);
void add_mark(CLI::App& program, VerbOutcome& outcome);
void add_devices(CLI::App& program, VerbOutcome& outcome);
void add_compare(CLI::App& program, VerbOutcome& outcome);

void add_students(CLI::App& program, VerbOutcome& outcome);
void add_wedges(CLI::App& program, VerbOutcome& outcome);
void add_lessons(CLI::App& program, VerbOutcome& outcome);
void add_swings(CLI::App& program, VerbOutcome& outcome);
void add_shots(CLI::App& program, VerbOutcome& outcome);
void add_distances(CLI::App& program, VerbOutcome& outcome);
void add_choose(CLI::App& program, VerbOutcome& outcome);
void add_book(CLI::App& program, VerbOutcome& outcome);

}  // namespace footing
