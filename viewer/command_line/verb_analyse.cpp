#include <memory>
#include <string>

#include "analysis/report/lesson_json.h"
#include "analysis/report/lesson_table.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/mass_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/sure_option.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"
#include "viewer/lesson/analyse_recording.h"

namespace footing {

namespace {

struct AnalyseOptions {
    std::string file;
    std::string json;
    std::string band = "70:80";
    double sure = 100.0 * usual_certainty;
    std::string hand;
    bool all = false;
    double floor_percent = 50.0;
    MassOption mass;
};

Outcome analyse(const AnalyseOptions& options) {
    const auto band = parse_band(options.band);
    if (!band) return band.problem();
    const auto sure = parse_sure(options.sure);
    if (!sure) return sure.problem();
    AnalysisRequest request{band.value(), parse_hand(options.hand), ""};
    request.share_floor = options.floor_percent / 100.0;
    request.sure = sure.value();
    request.centre_of_mass = options.mass.pendulum();
    const auto result = analyse_recording(options.file, request);
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
    verb->add_option("--band", options->band, "lead share to aim at, in per cent")->capture_default_str();
    add_sure_option(*verb, options->sure);
    add_hand_option(*verb, options->hand, "take the golfer as playing this way, whatever the recording says");
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
