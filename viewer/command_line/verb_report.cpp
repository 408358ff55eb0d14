#include <memory>
#include <string>

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/mass_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/sure_option.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/write_report.h"

namespace footing {

namespace {

struct ReportOptions {
    std::string file;
    std::string out;
    std::string band = "70:80";
    double sure = 100.0 * usual_certainty;
    std::string hand;
    std::string student;
    MassOption mass;
};

Outcome report(const ReportOptions& options) {
    if (Outcome name = check_report_name(options.out); !name) return name;
    const auto band = parse_band(options.band);
    if (!band) return band.problem();
    const auto sure = parse_sure(options.sure);
    if (!sure) return sure.problem();
    AnalysisRequest request{band.value(), parse_hand(options.hand), options.student};
    request.sure = sure.value();
    request.centre_of_mass = options.mass.pendulum();
    const auto result = analyse_recording(options.file, request);
    if (!result) return result.problem();
    return write_report(result.value(), options.out);
}

}  // namespace

void add_report(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ReportOptions>();
    Arguments* verb = program.add_subcommand("report", "write a student's report of a recording");
    verb->add_option("FILE", options->file, "a recording (.h5)")->required();
    verb->add_option("--out", options->out, "where to: a name that ends in .pdf, .html or .csv")->required();
    verb->add_option("--student", options->student, "the name at the head of the report");
    verb->add_option("--band", options->band, "lead share to aim at, in per cent")->capture_default_str();
    add_sure_option(*verb, options->sure);
    add_hand_option(*verb, options->hand, "play as this hand, whatever the recording says");
    add_mass_option(*verb, options->mass);
    verb->callback([options, &outcome] {
        if (const Outcome done = report(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
