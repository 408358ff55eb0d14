#include <fmt/format.h>

#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/count_words.h"
#include "acquisition/import/c3d_import.h"
#include "acquisition/import/csv_import.h"
#include "acquisition/record/program_version.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/bring_in.h"

namespace footing {

namespace {

struct ImportOptions {
    std::string file;
    std::string out;
    std::string hand;
    std::string layout;
    std::string plates;
    std::string ahead;
    std::optional<double> scale;
    bool with_baseline_subtracted = false;
};

void say_made(const std::string& recording, std::uint64_t frames, double rate_hz, double duration_s) {
    say_line(fmt::format("{}: {}, {:.6g} Hz, {:.1f} s", recording, count_words(frames, "frame", "frames"),
                         rate_hz, duration_s));
}

void say_notes(const std::vector<std::string>& notes) {
    for (const std::string& note : notes) say_line("note: " + note);
}

void tell_doubts(const std::vector<std::string>& doubts) {
    for (const std::string& doubt : doubts) tell_line("note: " + doubt);
}

Outcome import_table(const ImportOptions& options) {
    CsvImportOptions how;
    how.watch = &heed_interruption_by_watch();
    how.hand = parse_hand(options.hand).value_or(Hand::right);
    if (!options.layout.empty()) how.layout = options.layout;
    how.newtons_per_unit = options.scale.value_or(1.0);
    const auto summary = import_csv(options.file, options.out, how);
    if (!summary) return summary.problem();
    const CsvImportSummary& made = summary.value();
    say_made(options.out, made.frames, made.rate_hz, made.duration_s);
    if (made.gaps > 0)
        say_line(count_words(made.frames_missing, "line is", "lines are") + " missing, in " +
                 count_words(made.gaps, "gap", "gaps"));
    say_notes(made.notes);
    tell_doubts(made.doubts);
    return Done{};
}

Outcome import_plates(const ImportOptions& options) {
    C3dImportOptions how;
    how.watch = &heed_interruption_by_watch();
    how.hand = parse_hand(options.hand).value_or(Hand::right);
    how.program_version = program_version;
    if (!options.plates.empty()) {
        auto plates = parse_plate_uses(options.plates, how.hand);
        if (!plates) return plates.problem();
        how.plates = std::move(plates).value();
    }
    if (!options.ahead.empty()) {
        const auto ahead = parse_c3d_axis(options.ahead);
        if (!ahead) return ahead.problem();
        how.ahead = ahead.value();
    }
    if (options.with_baseline_subtracted) how.baseline = C3dImportOptions::Baseline::subtracted;
    const auto summary = import_c3d(options.file, options.out, how);
    if (!summary) return summary.problem();
    const C3dImportSummary& made = summary.value();
    say_made(options.out, made.frames, made.rate_hz, made.duration_s);
    say_notes(made.notes);
    tell_doubts(made.doubts);
    return Done{};
}

Outcome import_file(const ImportOptions& options) {
    const bool is_c3d = file_kind(options.file) == FileKind::force_plates;
    const auto only_for = [](const char* option, const char* kind) {
        return Problem{ProblemKind::command_line, option, std::string("is for ") + kind + " only",
                       "leave it out"};
    };
    if (is_c3d && !options.layout.empty()) return only_for("--layout", "CSV");
    if (is_c3d && options.scale) return only_for("--scale", "CSV");
    if (options.scale == 0.0) {
        return Problem{ProblemKind::command_line, "--scale", "0 would leave no load",
                       "write what one of the table's units is in newtons, such as 9.80665 for kilograms"};
    }
    if (!is_c3d && !options.plates.empty()) return only_for("--plates", "C3D");
    if (!is_c3d && !options.ahead.empty()) return only_for("--ahead", "C3D");
    if (!is_c3d && options.with_baseline_subtracted) return only_for("--zero-baseline", "C3D");
    return is_c3d ? import_plates(options) : import_table(options);
}

}  // namespace

void add_import(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ImportOptions>();
    Arguments* verb =
        program.add_subcommand("import", "make a recording of a table of loads (CSV) or of a C3D file");
    verb->add_option("FILE", options->file, "a .csv or .c3d file")->required();
    verb->add_option("--out", options->out, "the recording to make (.h5); must not exist yet")->required();
    add_hand_option(*verb, options->hand, "which way the student plays; right if it is not given");
    Argument* layout = verb->add_option("--layout", options->layout,
                                        "where the cells are, or the grid's size: JSON; for CSV");
    verb->add_option(
            "--scale", options->scale,
            "multiply the loads by this: 9.80665 for kilograms, 4.44822 for pounds, -1 where they are "
            "below zero; for CSV (cells have it in the layout)")
        ->check(number_between(-1e6, 1e6))
        ->excludes(layout);
    verb->add_option("--plates", options->plates,
                     "who stands on which plate: left=1,right=2 or lead=1,trail=2 or whole=1; for C3D");
    verb->add_option("--ahead", options->ahead, "where the toes point to: +x, -y, …; for C3D");
    verb->add_flag("--zero-baseline", options->with_baseline_subtracted,
                   "subtract the mean of the unloaded frames that the file names; for C3D");
    verb->callback([options, &outcome] {
        if (const Outcome done = import_file(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
