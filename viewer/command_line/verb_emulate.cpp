#include <fmt/format.h>

#include <atomic>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <memory>
#include <string>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_transmission.h"
#include "acquisition/device/emulated_truth.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/read_text.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/sending_line.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/weights_table.h"
#include "viewer/command_line/write_text.h"

namespace footing {

namespace {

constexpr double lowest_rate_hz = 20.0;
constexpr double highest_rate_hz = 20000.0;

struct EmulateOptions {
    SendingLineOptions line;
    std::string mat;
    double rate_hz = 0.0;
    std::size_t swings = 9;
    std::uint64_t seed = 1;
    std::uint64_t student = 0;
    double mass_kg = 0.0;
    std::string hand;
    std::string trigger = "on";
    double loss = 0.0;
    double damage = 0.0;
    Argument* fast = nullptr;
    double fast_factor = 0.0;
    bool on_plates = false;
    bool in_text_lines = false;
    std::string truth;
    std::string weights;
};

std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set from a signal handler");

extern "C" void note_interrupt(int) {
    interrupted = true;
}

Outcome set_mat(const std::string& words, EmulatedDeviceSettings& settings) {
    const char* const end = words.data() + words.size();
    const auto rows = std::from_chars(words.data(), end, settings.rows);
    if (rows.ec == std::errc() && rows.ptr != end && *rows.ptr == 'x') {
        const auto columns = std::from_chars(rows.ptr + 1, end, settings.columns);
        const auto fits = [](std::uint32_t count) { return count >= 4 && count <= 128; };
        if (columns.ec == std::errc() && columns.ptr == end && fits(settings.rows) &&
            fits(settings.columns)) {
            settings.kind = FrameKind::grid;
            return Done{};
        }
    }
    return Problem{ProblemKind::command_line, "--mat " + words, "is not ROWSxCOLUMNS, each from 4 to 128",
                   "write for example --mat 48x48"};
}

Outcome emulate(const EmulateOptions& options) {
    EmulatedDeviceSettings settings;
    if (!options.mat.empty() && options.in_text_lines) {
        return Problem{ProblemKind::command_line, "--text --mat " + options.mat,
                       "text lines carry load cells, not a mat", "leave one of the two out"};
    }
    if (!options.mat.empty()) {
        if (Outcome done = set_mat(options.mat, settings); !done) return done;
    }
    if (!options.weights.empty()) {
        const Result<std::string> text = read_text(options.weights);
        if (!text.ok()) return text.problem();
        Result<std::vector<PlacedWeight>> weights = parse_weights(text.value(), options.weights);
        if (!weights.ok()) return weights.problem();
        settings.weights = std::move(weights).value();
    }
    settings.rate_hz = options.rate_hz > 0.0 ? options.rate_hz : (options.mat.empty() ? 1000.0 : 200.0);
    settings.seed = options.seed;
    settings.swings = settings.weights.empty() ? options.swings : 0;
    settings.golfer = options.student > 0 ? random_style(options.student) : GolferStyle{};
    settings.golfer.hand = parse_hand(options.hand).value_or(settings.golfer.hand);
    if (options.mass_kg > 0.0) settings.golfer.mass_kg = options.mass_kg;
    settings.trigger = options.trigger == "on" ? EmulatedDeviceSettings::Trigger::wired
                                               : EmulatedDeviceSettings::Trigger::absent;

    auto line = open_sending_line(options.line);
    if (!line) return line.problem();
    EmulatedDevice device(settings);
    if (!options.truth.empty()) {
        if (Outcome done = write_text(options.truth, truth_json(settings, device.truth())); !done)
            return done;
    }
    TransmitSettings how;
    how.words =
        options.in_text_lines ? TransmitSettings::Words::text_lines : TransmitSettings::Words::packets;
    how.loss_probability = options.loss;
    how.damage_probability = options.damage;
    how.seed = options.seed;
    if (options.fast->given()) {
        how.speed = options.fast_factor > 0.0 ? options.fast_factor : sensible_speed(device.description());
    }
    tell_line(
        fmt::format("{} (serial number {}), {} Hz, {} swings, {:.0f} s at {:.3g} times real time, to {}",
                    device.description().name, device.description().serial, settings.rate_hz, settings.swings,
                    device.truth().duration_s, how.speed, line.value()->name()));

    interrupted = false;
    std::signal(SIGINT, note_interrupt);
    std::signal(SIGTERM, note_interrupt);
    const auto count = transmit(device, *line.value(), how, interrupted);
    if (!count) return count.problem();
    const TransmitCount& sent = count.value();
    fmt::print(stderr, "{} of {} frames given to the line; {} lost or damaged on purpose{}\n", sent.frames,
               device.frame_count(), sent.lost_frames.size(),
               sent.end == TransmitCount::End::stopped       ? "; stopped"
               : sent.end == TransmitCount::End::reader_gone ? "; the reader has left"
                                                             : "");
    if (options.truth.empty()) return Done{};
    return write_text(options.truth, truth_json(settings, device.truth(), &sent));
}

}  // namespace

void add_emulate(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<EmulateOptions>();
    Arguments* verb = program.add_subcommand(
        "emulate", "a simulated golfer on a simulated device, sending over a real line");
    add_sending_line(*verb, options->line);
    auto* mat = verb->add_option("--mat", options->mat, "stand on a mat of ROWSxCOLUMNS elements");
    verb->add_flag("--plates", options->on_plates,
                   "stand on two plates with four cells each (this is so unless --mat is given)")
        ->excludes(mat);
    verb->add_option("--rate", options->rate_hz, "frames a second; else 1000 for plates, 200 for a mat")
        ->check(number_between(lowest_rate_hz, highest_rate_hz));
    auto* swings =
        verb->add_option("--swings", options->swings, "how many swings; every third is a practice swing")
            ->check(number_between(0, 10000))
            ->capture_default_str();
    verb->add_option("--seed", options->seed,
                     "another number, another lesson; the same number, the same lesson")
        ->capture_default_str();
    auto* student =
        verb->add_option("--student", options->student,
                         "a student with other build and habits for each number; 0 does as the coach asks")
            ->capture_default_str();
    auto* mass = verb->add_option("--mass", options->mass_kg, "the student's mass in kg")
                     ->check(number_between(20.0, 200.0));
    auto* hand = add_hand_option(*verb, options->hand, "which way the student plays");
    verb->add_option("--trigger", options->trigger, "whether the trigger input marks each struck ball")
        ->check(one_of({"on", "off"}))
        ->capture_default_str();
    verb->add_option("--loss", options->loss, "probability that a packet never arrives")
        ->check(number_between(0.0, 1.0));
    verb->add_option("--damage", options->damage, "probability that bits of a packet are flipped")
        ->check(number_between(0.0, 1.0));
    options->fast = verb->add_option("--fast", options->fast_factor,
                                     "faster than real time, by this factor or as fast as is sensible")
                        ->expected(0, 1)
                        ->check(number_between(1.0, 10000.0));
    verb->add_flag("--text", options->in_text_lines,
                   "send text lines instead of packets, as simple boards do");
    verb->add_option(
            "--weights", options->weights,
            "put weights on the plates instead of a golfer: a table of from_s,to_s,plate,kg,x_mm,y_mm")
        ->check(file_name())
        ->excludes(mat)
        ->excludes(swings)
        ->excludes(student)
        ->excludes(mass)
        ->excludes(hand);
    verb->add_option("--truth", options->truth, "write what really happened to this file, as JSON");
    verb->callback([options, &outcome] {
        if (const Outcome done = emulate(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
