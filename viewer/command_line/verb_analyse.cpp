#include <memory>
#include <string>

#include "analysis/report/lesson_json.h"
#include "analysis/report/lesson_table.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/mass_option.h"
#include "viewer/command_line/reading_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"
#include "viewer/lesson/analyse_recording.h"

namespace footing {

namespace {

struct AnalyseOptions {
    std::string file;
    std::string json;
    ReadingOptions reading;
    bool all = false;
    double floor_percent = 50.0;
    MassOption mass;
};

Outcome analyse(const AnalyseOptions& options) {
    auto request = options.reading.request("");
    if (!request) return request.problem();
    request.value().share_floor = options.floor_percent / 100.0;
    request.value().centre_of_mass = options.mass.pendulum();
    const auto result = analyse_recording(options.file, request.value());
    if (!result) return result.problem();
    if (options.json != "-") {
        say_text(lesson_table(result.value(), terminal_columns()));
        if (options.all) say_text(more_numbers_table(result.value(), terminal_columns()));
    }
    if (options.json.empty()) return Done{};
    return write_text(options.json, lesson_json(result.value()) + "\n");
}

}  // namespace

void add_analyse(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<AnalyseOptions>();
    Arguments* verb =
        program.add_subcommand("analyse", "find the swings in a recording and judge each against the band");
    verb->add_option("FILE", options->file, "a recording (.h5)")->required();
    verb->add_option("--json", options->json,
                     "write the numbers as JSON to this file; - writes only JSON to standard output");
    add_reading_options(*verb, options->reading);
    verb->add_flag("--all", options->all, "print the other teaching numbers too, in a second table");
    verb->add_option("--floor", options->floor_percent,
                     "tell how long the lead share was under so many per cent")
        ->check(number_between(0.0, 100.0))
        ->capture_default_str();
    add_mass_option(*verb, options->mass);
    verb->callback([options, &outcome] {
        if (const Outcome done = analyse(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
