#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "analysis/pressure/steadiness.h"
#include "analysis/statistics/summary.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"
#include "viewer/lesson/read_loads.h"

namespace footing {

namespace {

/// A shorter hole may be bridged by a straight line: sway is slow.
constexpr double longest_bridge_s = 0.1;
/// Scoppa et al. 2013, Gait Posture 37:290, ask for at least so long a measurement (from memory).
constexpr double posturography_s = 25.0;
/// Sway is slower than 0.5 Hz for the most part (Santos & Duarte 2016: a mean of 0.1 to 0.4 Hz), so less than
/// this holds not even half of one.
constexpr double shortest_s = 1.0;

struct SteadinessOptions {
    std::string file;
    std::string json;
    double from_s = 0.0;
    double to_s = std::numeric_limits<double>::infinity();
};

enum class Standing { still, restless };

bool is_short(const Steadiness& measures) {
    return measures.duration_s < posturography_s;
}

std::string steadiness_json(const Steadiness& measures, Standing standing) {
    nlohmann::ordered_json json;
    json["duration_s"] = measures.duration_s;
    json["samples"] = measures.samples;
    json["rate_hz"] = measures.rate_hz;
    json["area_cm2"] = measures.area_cm2;
    json["velocity_cm_s"] = measures.velocity_cm_s;
    json["mean_frequency_hz"] = measures.mean_frequency_hz;
    json["path_cm"] = measures.path_cm;
    json["rms_x_cm"] = measures.rms_x_cm;
    json["rms_y_cm"] = measures.rms_y_cm;
    json["range_x_cm"] = measures.range_x_cm;
    json["range_y_cm"] = measures.range_y_cm;
    json["left_share"] = measures.left_share ? nlohmann::ordered_json(*measures.left_share) : nullptr;
    json["short_window"] = is_short(measures);
    json["stood_still"] = standing == Standing::still;
    return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

/// Whether somebody stood there at all: quiet standing keeps the load within a per cent or two of its mean
/// and the centre of pressure within a few centimetres (common practice, no source for these limits, which
/// lie well beyond). A mean speed would not do: noise alone makes one.
Standing standing_of(const LoadTrace& trace, const Steadiness& measures, double from_s, double to_s) {
    constexpr double widest_range_cm = 10.0;
    constexpr double largest_load_sd = 0.05;
    std::vector<double> load_n;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        if (trace.time_s[i] >= from_s && trace.time_s[i] <= to_s) load_n.push_back(trace.total_n[i]);
    }
    const bool restless = load_n.size() > 1 && standard_deviation(load_n) > largest_load_sd * mean(load_n);
    const bool wide = measures.range_x_cm > widest_range_cm || measures.range_y_cm > widest_range_cm;
    return restless || wide ? Standing::restless : Standing::still;
}

std::string steadiness_table(const Steadiness& measures, Standing standing) {
    std::string text = fmt::format(
        "Centre of pressure over {:.2f} s ({} samples at {:.1f} Hz)\n"
        "  area of the 95 % prediction ellipse  {:10.2f} cm2\n"
        "  mean speed                           {:10.2f} cm/s\n"
        "  mean frequency                       {:10.2f} Hz\n"
        "  path                                 {:10.1f} cm\n"
        "  rms  across, ahead                   {:10.2f} {:6.2f} cm\n"
        "  range across, ahead                  {:10.2f} {:6.2f} cm\n",
        measures.duration_s, measures.samples, measures.rate_hz, measures.area_cm2, measures.velocity_cm_s,
        measures.mean_frequency_hz, measures.path_cm, measures.rms_x_cm, measures.rms_y_cm,
        measures.range_x_cm, measures.range_y_cm);
    if (measures.left_share) {
        text +=
            fmt::format("  load on the left foot                {:10.1f} %\n", *measures.left_share * 100.0);
    }
    text += "These describe how someone stood here. They are no medical finding.\n";
    if (is_short(measures)) {
        text += fmt::format(
            "A short window: {:.1f} s is no posturography, which takes {:.0f} s or more. Compare these "
            "numbers "
            "with others over as long a time only, and with no published ones.\n",
            measures.duration_s, posturography_s);
    }
    if (standing == Standing::restless) {
        text +=
            "Nobody stood still here: these numbers say nothing of steadiness. Choose a part of quiet "
            "standing by --from and --to.\n";
    }
    return text;
}

Outcome measure(const SteadinessOptions& options) {
    if (options.from_s >= options.to_s)
        return Problem{ProblemKind::command_line, "", "--from is not before --to",
                       "give the earlier instant with --from, the later one with --to"};
    const auto loads = read_loads(options.file);
    if (!loads) return loads.problem();
    const double lasts_s = loads.value().trace.size() > 0 ? loads.value().trace.time_s.back() : 0.0;
    if (options.from_s >= lasts_s) {
        return Problem{ProblemKind::command_line, options.file,
                       fmt::format("the recording lasts {:.2f} s, so nothing of it lies after {:.2f} s",
                                   lasts_s, options.from_s),
                       "choose an earlier part by --from and --to"};
    }
    const double window_s = std::min(options.to_s, lasts_s) - options.from_s;
    if (window_s < shortest_s) {
        return Problem{ProblemKind::bad_input, options.file,
                       fmt::format("{:.2f} s are too short to see anybody sway; {:.0f} s are the least",
                                   window_s, shortest_s),
                       "choose a longer part of quiet standing by --from and --to"};
    }
    for (const TimeSpan& gap : loads.value().facts.gaps) {
        if (gap.to_s <= options.from_s || gap.from_s >= options.to_s ||
            gap.to_s - gap.from_s < longest_bridge_s)
            continue;
        return Problem{
            ProblemKind::bad_input, options.file,
            fmt::format("frames are missing from {:.2f} to {:.2f} s, within what is to be measured",
                        gap.from_s, gap.to_s),
            "choose a part without a gap by --from and --to"};
    }
    auto measures = steadiness(loads.value().trace, options.from_s, options.to_s);
    if (!measures) {
        Problem problem = measures.problem();
        problem.place = options.file;
        return problem;
    }
    const Standing standing =
        standing_of(loads.value().trace, measures.value(), options.from_s, options.to_s);
    if (options.json != "-") say_text(steadiness_table(measures.value(), standing));
    if (options.json.empty()) return Done{};
    return write_text(options.json, steadiness_json(measures.value(), standing));
}

}  // namespace

void add_steadiness(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<SteadinessOptions>();
    Arguments* verb = program.add_subcommand(
        "steadiness", "posturography measures of the centre of pressure in quiet standing");
    verb->add_option("FILE", options->file, "a recording (.h5)")->required();
    verb->add_option("--json", options->json,
                     "write the numbers as JSON to this file; - writes only JSON to standard output");
    verb->add_option("--from", options->from_s, "from this many seconds after the first frame")
        ->check(number_between(0.0, 1e7));
    verb->add_option("--to", options->to_s, "up to this many seconds after the first frame")
        ->check(number_between(0.0, 1e7));
    verb->callback([options, &outcome] {
        if (const Outcome done = measure(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
