#include <fmt/format.h>

#include <atomic>
#include <csignal>
#include <cstdio>
#include <memory>
#include <string>

#include "acquisition/device/emulated_line.h"
#include "acquisition/device/emulated_transmission.h"
#include "acquisition/device/play_transmission.h"
#include "acquisition/frame/clock.h"
#include "acquisition/record/replay_source.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

constexpr double patience_for_a_reader_s = 60.0;
constexpr std::chrono::milliseconds patience_for_the_file{0};

struct PlayOptions {
    std::string file;
    std::string udp;
    std::string serial;
    std::string pty;
    double speed = 1.0;
    bool at_sensible_speed = false;
};

std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

extern "C" void note_end_of_play(int) {
    interrupted = true;
}

Result<std::unique_ptr<EmulatedLine>> open_line(const PlayOptions& options) {
    if (!options.udp.empty()) return open_udp_line(options.udp);
    if (!options.serial.empty()) return open_serial_line(options.serial);
    return open_pty_line(options.pty, patience_for_a_reader_s);
}

Result<PlayWireForm> choose_form(const std::string& file, const Clock& clock) {
    ReplaySource frames(file, Pace::as_fast_as_possible, clock);
    const auto device = frames.open(patience_for_the_file);
    if (!device) return device.problem();
    return PlayWireForm::choose(device.value(), frames);
}

std::string ending(PlayCount::End end) {
    switch (end) {
        case PlayCount::End::stopped:
            return "; stopped";
        case PlayCount::End::reader_gone:
            return "; the reader has left";
        case PlayCount::End::recording_over:
            break;
    }
    return "";
}

Outcome play_file(const PlayOptions& options) {
    const SystemClock clock;
    const auto form = choose_form(options.file, clock);
    if (!form) return form.problem();
    ReplaySource frames(options.file, Pace::as_fast_as_possible, clock);
    if (const auto device = frames.open(patience_for_the_file); !device) return device.problem();
    auto line = open_line(options);
    if (!line) return line.problem();

    const double speed =
        options.at_sensible_speed ? sensible_speed(form.value().description()) : options.speed;
    fmt::print(stderr, "{} as {} (serial number {}) at {:.3g} times real time, to {}\n", options.file,
               form.value().description().name, form.value().description().serial, speed,
               line.value()->name());
    interrupted = false;
    std::signal(SIGINT, note_end_of_play);
    std::signal(SIGTERM, note_end_of_play);
    const auto played = play(frames, form.value(), *line.value(), speed, interrupted);
    if (!played) return played.problem();
    const PlayCount& count = played.value();
    fmt::print(stderr, "{} frames given to the line; {} left out in {} gaps, as recorded{}\n", count.frames,
               count.frames_missing, count.gaps, ending(count.end));
    if (count.restarts > 0) {
        fmt::print(stderr, "the device restarted {} times while recording; played without a restart\n",
                   count.restarts);
    }
    return Done{};
}

}  // namespace

void add_play(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<PlayOptions>();
    Arguments* verb = program.add_subcommand(
        "play", "send a recording over a real line as its device did, with what was lost left out");
    verb->add_option("FILE", options->file, "a recording (.h5) or a journal")->required();
    auto* line = verb->add_option_group("line", "where to send to");
    line->add_option("--udp", options->udp, "HOST:PORT to send datagrams to");
    line->add_option("--serial", options->serial, "serial port, PATH[:BAUD]");
    line->add_option(
        "--pty", options->pty,
        "make a pty that record can open under this path, and wait a minute for it to be opened");
    line->require_option(1);
    auto* speed = verb->add_option("--speed", options->speed, "times real time")
                      ->check(number_between(0.01, 10000.0))
                      ->capture_default_str();
    verb->add_flag("--fast", options->at_sensible_speed, "as fast as a receiver on this computer can follow")
        ->excludes(speed);
    verb->callback([options, &outcome] {
        if (const Outcome done = play_file(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
