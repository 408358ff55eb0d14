#include <fmt/format.h>

#include <memory>
#include <string>

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/export_c3d.h"

namespace footing {

namespace {

struct ExportOptions {
    std::string file;
    std::string out;
    std::string hand;
};

Outcome export_to(const ExportOptions& options) {
    if (!options.out.ends_with(".c3d")) {
        return Problem{
            ProblemKind::command_line, options.out, "a recording is exported as C3D",
            "give a name that ends in .c3d; footing report makes .csv, and the recording itself is HDF5"};
    }
    const auto lesson = analyse_recording(options.file, {{}, parse_hand(options.hand), ""});
    if (!lesson) return lesson.problem();
    const Result<std::string> said = export_c3d(lesson.value(), options.out);
    if (!said) return said.problem();
    say_text(said.value() + "\n");
    return Done{};
}

}  // namespace

void add_export(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ExportOptions>();
    Arguments* verb =
        program.add_subcommand("export", "write a recording's loads and events for other programs, as C3D");
    verb->add_option("FILE", options->file, "a recording (.h5)")->required();
    verb->add_option("--out", options->out, "the C3D file to make; never overwritten")->required();
    add_hand_option(*verb, options->hand, "take the golfer as playing this way, whatever the recording says");
    verb->callback([options, &outcome] {
        if (const Outcome done = export_to(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
