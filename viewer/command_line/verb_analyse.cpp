#include <CLI/CLI.hpp>
#include <cstdio>
#include <memory>
#include <string>

#include "analysis/report/lesson_json.h"
#include "analysis/report/lesson_table.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/sure_option.h"
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
};

Outcome analyse(const AnalyseOptions& options) {
    const auto band = parse_band(options.band);
    if (!band) return band.problem();
    const auto sure = parse_sure(options.sure);
    if (!sure) return sure.problem();
    const auto result =
        analyse_recording(options.file, {band.value(), parse_hand(options.hand), "", sure.value()});
    if (!result) return result.problem();
    if (options.json != "-") std::fputs(lesson_table(result.value()).c_str(), stdout);
    if (options.json.empty()) return Done{};
    return write_text(options.json, lesson_json(result.value()) + "\n");
}

}  // namespace

void add_analyse(CLI::App& program, VerbOutcome& outcome) {
    auto options = std::make_shared<AnalyseOptions>();
    CLI::App* verb =
        program.add_subcommand("analyse", "find the swings in a recording and judge each against the band");
    verb->add_option("FILE", options->file, "a recording (.h5)")->required();
    verb->add_option("--json", options->json,
                     "write the numbers as JSON to this file; - writes only JSON to standard output");
    verb->add_option("--band", options->band, "lead share to aim at, in per cent")->capture_default_str();
    add_sure_option(*verb, options->sure);
    add_hand_option(*verb, options->hand, "play as this hand, whatever the recording says");
    verb->callback([options, &outcome] {
        if (const Outcome done = analyse(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
