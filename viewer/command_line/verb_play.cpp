#include <fmt/format.h>

#include <cstdio>
#include <memory>
#include <string>

#include "acquisition/device/emulated_transmission.h"
#include "acquisition/device/play_transmission.h"
#include "acquisition/frame/clock.h"
#include "acquisition/frame/count_words.h"
#include "acquisition/record/replay_source.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/sending_line.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

constexpr std::chrono::milliseconds patience_for_the_file{0};

struct PlayOptions {
    std::string file;
    SendingLineOptions line;
    double speed = 1.0;
    bool at_sensible_speed = false;
};

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
    auto line = open_sending_line(options.line);
    if (!line) return line.problem();

    const double speed =
        options.at_sensible_speed ? sensible_speed(form.value().description()) : options.speed;
    tell_line(fmt::format("{} as {} (serial number {}) at {:.3g} times real time, to {}", options.file,
                          shown_words(form.value().description().name), form.value().description().serial,
                          speed, line.value()->name()));
    heed_interruption();
    const auto played = play(frames, form.value(), *line.value(), speed, interruption());
    if (!played) return played.problem();
    const PlayCount& count = played.value();
    tell_line(fmt::format("{} given to the line; {} left out in {}, as recorded{}",
                          count_words(count.frames, "frame", "frames"), count.frames_missing,
                          count_words(count.gaps, "gap", "gaps"), ending(count.end)));
    if (count.restarts > 0) {
        tell_line(fmt::format("the device restarted {} while recording; played without a restart",
                              count_words(count.restarts, "time", "times")));
    }
    return Done{};
}

}  // namespace

void add_play(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<PlayOptions>();
    Arguments* verb = program.add_subcommand(
        "play", "send a recording over a real line as its device did, without the frames that were lost");
    verb->add_option("FILE", options->file, "a recording (.h5) or a journal")->required();
    add_sending_line(*verb, options->line);
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
