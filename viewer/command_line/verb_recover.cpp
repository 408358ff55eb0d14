#include <fmt/format.h>

#include <memory>
#include <string>

#include "acquisition/frame/count_words.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/fold.h"
#include "acquisition/record/journal_reader.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/recording_session.h"

namespace footing {

namespace {

/// The journal where the recording itself was never made.
std::string what_is_there(const std::string& file) {
    const std::string journal = journal_of(file).string();
    return !is_there(file) && is_there(journal) ? journal : file;
}

Outcome recover_to(const std::string& file, const std::string& out) {
    const std::string input = what_is_there(file);
    const Result<SalvageReport> report = recover(input, out, &heed_interruption_by_watch());
    if (!report.ok()) return report.problem();
    const SalvageReport& saved = report.value();
    say_line(describe_recording(saved.info, saved.duration_s, out));
    if (saved.frames_lost > 0) {
        say_line(fmt::format("  lost to the damage: {}, about {:.3f} s",
                             count_words(saved.frames_lost, "frame", "frames"), saved.seconds_lost));
    } else {
        say_line("  lost to damage: 0 frames, 0 s");
    }
    if (saved.journal_damage.cut_off_bytes > 0) {
        say_line(fmt::format("  at its end {} half written when the recording stopped",
                             count_words(saved.journal_damage.cut_off_bytes, "byte was", "bytes were")));
    }
    say_line(fmt::format(
        "  {} is as it was; it may be deleted once footing verify is content with the new recording", input));
    return Done{};
}

}  // namespace

void add_recover(Arguments& program, VerbOutcome& outcome) {
    struct Options {
        std::string file;
        std::string out;
    };
    auto options = std::make_shared<Options>();
    Arguments* verb =
        program.add_subcommand("recover", "make a new recording of a journal or of a damaged recording");
    verb->add_option("FILE", options->file, "a journal or a damaged recording; it is never changed")
        ->required();
    verb->add_option("--out", options->out, "the recording to make (.h5); never overwritten")->required();
    verb->callback([options, &outcome] {
        if (const Outcome done = recover_to(options->file, options->out); !done.ok())
            complain(done.problem(), outcome);
    });
}

}  // namespace footing
