#pragma once

namespace footing {

class Arguments;

/// What a verb leaves behind for main: set by the verb's callback, returned by the program.
struct VerbOutcome {
    int exit_code = 0;
};

/// Each adds one verb (a subcommand with its options and a callback) to the program. One file a verb:
/// verb_NAME.cpp.
void add_emulate(Arguments& program, VerbOutcome& outcome);
void add_record(Arguments& program, VerbOutcome& outcome);
void add_import(Arguments& program, VerbOutcome& outcome);
void add_export(Arguments& program, VerbOutcome& outcome);
void add_analyse(Arguments& program, VerbOutcome& outcome);
void add_steadiness(Arguments& program, VerbOutcome& outcome);
void add_report(Arguments& program, VerbOutcome& outcome);
void add_verify(Arguments& program, VerbOutcome& outcome);
void add_recover(Arguments& program, VerbOutcome& outcome);
void add_lesson(Arguments& program, VerbOutcome& outcome);
void add_view(Arguments& program, VerbOutcome& outcome);
void add_calibrate(Arguments& program, VerbOutcome& outcome);
void add_check(Arguments& program, VerbOutcome& outcome);
void add_play(Arguments& program, VerbOutcome& outcome);
void add_mark(Arguments& program, VerbOutcome& outcome);
void add_devices(Arguments& program, VerbOutcome& outcome);
void add_compare(Arguments& program, VerbOutcome& outcome);

void add_students(Arguments& program, VerbOutcome& outcome);
void add_wedges(Arguments& program, VerbOutcome& outcome);
void add_lessons(Arguments& program, VerbOutcome& outcome);
void add_swings(Arguments& program, VerbOutcome& outcome);
void add_shots(Arguments& program, VerbOutcome& outcome);
void add_distances(Arguments& program, VerbOutcome& outcome);
void add_choose(Arguments& program, VerbOutcome& outcome);
void add_progress(Arguments& program, VerbOutcome& outcome);
void add_book(Arguments& program, VerbOutcome& outcome);

}  // namespace footing
