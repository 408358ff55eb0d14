#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/calibrate/zero_words.h"
#include "acquisition/frame/count_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/calibration_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/live_line.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/live_lesson.h"
#include "viewer/lesson/recording_alarms.h"
#include "viewer/lesson/recording_session.h"

namespace footing {

namespace {

struct RecordOptions {
    LiveLinesOptions line;
    std::string out;
    std::vector<std::string> calibrations;
    std::string hand = "right";
    double seconds = 0.0;
    std::size_t swings = 0;
    double idle_s = 0.0;  ///< 0: silence never ends a recording
    bool quiet = false;
};

constexpr auto look_period = std::chrono::milliseconds(20);
constexpr auto status_period = std::chrono::seconds(1);

std::chrono::milliseconds milliseconds_of(double seconds) {
    return std::chrono::milliseconds(static_cast<std::int64_t>(seconds * 1000.0));
}

std::string status_line(const RecordingProgress& progress, const LiveLesson& live) {
    std::string line =
        fmt::format("{:8.1f} s  {} frames, newest {:.0f} ms old, {} lost, {:.1f} MB", progress.duration_s,
                    progress.frames_on_disk, progress.newest_age_s * 1000.0, progress.losses.lost,
                    static_cast<double>(progress.bytes_on_disk) * 1e-6);
    if (progress.jitter_ms) line += fmt::format(", jitter {:.1f} ms", *progress.jitter_ms);
    if (progress.minutes_left) line += fmt::format(", disk for {:.0f} min", *progress.minutes_left);
    if (!live.swings().empty()) line += ", " + count_words(live.swings().size(), "swing", "swings");
    if (live.under_way()) line += fmt::format(", impact at {:.2f} s", live.under_way()->impact->time_s);
    if (progress.joined_residual_ms)
        line += fmt::format(", joined to {:.2f} ms", *progress.joined_residual_ms);
    if (progress.is_partly_silent()) {
        line += ", share not known";
    } else if (const std::optional<double> lead = live.newest_share()) {
        line += fmt::format(", lead foot {:.0f} %", *lead * 100.0);
    }
    return line;
}

/// Watches until there is a reason to stop.
StopReason watch(RecordingSession& recording, const RecordOptions& options) {
    const bool on_terminal = !options.quiet && ::isatty(STDERR_FILENO) == 1;
    LiveLesson live(recording.device(), recording.calibration(), recording.hand());
    RecordingAlarms alarms;
    std::size_t marked = 0;
    std::size_t zeroed = 0;
    auto next_status = std::chrono::steady_clock::now() + status_period;
    while (true) {
        std::this_thread::sleep_for(look_period);
        recording.drain_live(live);
        for (; marked < live.completed_swings(); ++marked) {
            recording.mark_swing({live.swings()[marked].from_s, live.swings()[marked].to_s});
        }
        for (; zeroed < live.zeros().size(); ++zeroed)
            recording.note(zero_note(live.zeros()[zeroed], recording.device().layout.kind));
        const RecordingProgress progress = recording.progress();
        for (const std::string& sentence : alarms.look(progress, recording)) {
            if (options.quiet) continue;
            if (on_terminal) tell_text("\r\033[K");
            tell_line(sentence);
        }
        if (on_terminal && std::chrono::steady_clock::now() >= next_status) {
            next_status += status_period;
            tell_text("\r\033[K" + status_line(progress, live));
            std::fflush(stderr);
        }
        const bool complete = (options.seconds > 0.0 && progress.duration_s >= options.seconds) ||
                              (options.swings > 0 && live.completed_swings() >= options.swings);
        const bool silent = options.idle_s > 0.0 && progress.newest_age_s > options.idle_s &&
                            (progress.frames_on_disk > 0 || progress.newest_age_s > options.line.wait_s);
        const bool over = progress.state == SessionState::finished || progress.state == SessionState::failed;
        if (interruption() || complete || silent || over || progress.problem) {
            if (on_terminal) tell_text("\r\033[K");
            return silent ? StopReason::silent : StopReason::asked;
        }
    }
}

Outcome record(const RecordOptions& options) {
    const SystemClock clock;
    RecordingRequest request;
    request.out = options.out;
    request.hand = parse_hand(options.hand).value_or(Hand::right);
    request.patience = milliseconds_of(options.line.wait_s);
    Result<GivenCalibrations> given = given_calibrations(options.calibrations);
    if (!given) return given.problem();
    std::vector<std::string> told;
    std::mutex telling;  // several devices are waited for at once
    const auto tell_and_keep = [&](const std::string& sentence) {
        const std::lock_guard lock(telling);
        tell_line(sentence);
        told.push_back(sentence);
    };
    if (given.value().kept) {
        const Result<CalibrationShelf> shelf = usual_shelf();
        if (!shelf) return shelf.problem();
        request.kept_calibration = [shelf = shelf.value(), tell_and_keep](const DeviceDescription& device) {
            std::string record = shelf.newest(device);
            if (record.empty())
                tell_and_keep(fmt::format(
                    "no calibration of {} (serial number {}) is kept: footing calibrate makes one",
                    shown_words(device.name), device.serial));
            return record;
        };
    }
    request.calibrations = std::move(given.value().texts);
    Result<std::vector<std::unique_ptr<FrameSource>>> sources =
        make_live_sources(options.line, clock, tell_and_keep);
    if (!sources.ok()) return sources.problem();
    Result<std::unique_ptr<RecordingSession>> started =
        RecordingSession::start(std::move(sources).value(), request, clock);
    if (!started.ok()) return started.problem();
    RecordingSession& recording = *started.value();
    for (const std::string& sentence : told) recording.note(sentence);

    // Until here a signal may end the program: nothing has been recorded.
    heed_interruption();
    if (!options.quiet) {
        tell_line(fmt::format("recording {} from {}; stop with Ctrl-C", shown_words(recording.device_names()),
                              shown_words(recording.source_name())));
    }
    const StopReason reason = watch(recording, options);
    const std::optional<Problem> problem = recording.progress().problem;
    const Result<SalvageReport> report = recording.stop(reason);
    if (!report.ok()) return report.problem();
    say_line(describe_recording(report.value().info, report.value().duration_s, options.out));
    if (problem) return *problem;
    return Done{};
}

}  // namespace

void add_record(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<RecordOptions>();
    Arguments* verb =
        program.add_subcommand("record", "record what a device sends, from now until it is stopped");
    add_live_lines(*verb, options->line);
    verb->add_option("--out", options->out, "the recording to make (.h5); never overwritten")->required();
    auto* seconds =
        verb->add_option("--seconds", options->seconds, "stop after this long, by the device's clock");
    seconds->check(number_between(0.001, 1e7));
    verb->add_option("--swings", options->swings, "stop when so many swings are over")
        ->check(number_between(1, 10000))
        ->excludes(seconds);
    verb->add_option("--calibration", options->calibrations,
                     "calibration record of the device (JSON), or kept for the newest one that is kept "
                     "beside the lesson book; "
                     "with several devices one for each, in any order");
    add_hand_option(*verb, options->hand, "which way the student plays; right if it is not given");
    verb->add_option("--idle", options->idle_s,
                     "stop when a device that was heard is silent for so many seconds; unless said, wait for "
                     "its return")
        ->check(number_between(0.2, 86400.0));
    verb->add_flag("--quiet", options->quiet, "say only how it ended");
    verb->callback([options, &outcome] {
        if (const Outcome done = record(*options); !done.ok()) complain(done.problem(), outcome);
    });
}

}  // namespace footing
