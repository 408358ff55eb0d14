#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_transmission.h"
#include "acquisition/device/emulated_truth.h"
#include "acquisition/frame/count_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/interruption.h"
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
    SendingLinesOptions lines;
    std::vector<double> clock_error_ppm;
    double delay_ms = 0.0;
    std::string unplug;
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

/// The two numbers of "FROM:TO", the first not after the second.
Result<std::pair<double, double>> parse_span(const std::string& words) {
    std::pair<double, double> span{0.0, 0.0};
    const char* const end = words.data() + words.size();
    const auto from = std::from_chars(words.data(), end, span.first);
    if (from.ec == std::errc() && from.ptr != end && *from.ptr == ':') {
        const auto to = std::from_chars(from.ptr + 1, end, span.second);
        const bool sound = std::isfinite(span.first) && std::isfinite(span.second);
        if (to.ec == std::errc() && to.ptr == end && sound && span.first >= 0.0 && span.first < span.second)
            return span;
    }
    return Problem{ProblemKind::command_line, "--unplug " + words, "is not FROM:TO in seconds",
                   "write for example --unplug 10:12"};
}

/// One device with both plates, or on two lines the left plate and the right one, each with its own clock.
Result<std::vector<EmulatedDeviceSettings>> settings_for(std::size_t lines,
                                                         const EmulatedDeviceSettings& settings,
                                                         const EmulateOptions& options) {
    if (lines > 2 || (lines == 2 && settings.kind == FrameKind::grid)) {
        return Problem{ProblemKind::command_line, "--udp, --serial, --pty",
                       lines > 2 ? "there are two plates, and more lines than that were given"
                                 : "a mat has one line, and two were given",
                       "give one line, or two for plates that are devices of their own"};
    }
    if (options.clock_error_ppm.size() > lines) {
        return Problem{ProblemKind::command_line, "--clock-error", "there are more clocks than devices",
                       "give one for each line"};
    }
    std::vector<EmulatedDeviceSettings> all(lines, settings);
    for (std::size_t i = 0; i < options.clock_error_ppm.size(); ++i)
        all[i].clock_error_ppm = options.clock_error_ppm[i];
    if (lines == 2) {
        all[0].part = EmulatedDeviceSettings::Part::left_plate;
        all[1].part = EmulatedDeviceSettings::Part::right_plate;
        all[1].first_time_us += 17'000'000;  // switched on earlier
    }
    return all;
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

    const std::size_t lines_given =
        options.lines.udp.size() + options.lines.serial.size() + options.lines.pty.size();
    const auto all_settings = settings_for(lines_given, settings, options);
    if (!all_settings) return all_settings.problem();
    std::pair<double, double> unplugged{0.0, 0.0};
    if (!options.unplug.empty()) {
        const auto span = parse_span(options.unplug);
        if (!span) return span.problem();
        unplugged = span.value();
    }
    auto lines = open_sending_lines(options.lines);
    if (!lines) return lines.problem();
    std::vector<EmulatedDevice> devices;
    for (const EmulatedDeviceSettings& one : all_settings.value()) devices.emplace_back(one);
    const EmulatedDeviceSettings& first = all_settings.value().front();
    if (!options.truth.empty()) {
        if (Outcome done = write_text(options.truth, truth_json(first, devices.front().truth())); !done)
            return done;
    }
    std::vector<TransmitPart> parts;
    for (std::size_t i = 0; i < devices.size(); ++i) {
        TransmitSettings how;
        how.words =
            options.in_text_lines ? TransmitSettings::Words::text_lines : TransmitSettings::Words::packets;
        how.loss_probability = options.loss;
        how.damage_probability = options.damage;
        how.mean_delay_s = options.delay_ms * 1e-3;
        how.seed = options.seed + i;
        if (options.fast->given()) {
            how.speed = options.fast_factor > 0.0 ? options.fast_factor
                                                  : sensible_speed(devices.front().description());
        }
        if (i + 1 == devices.size()) {
            how.unplugged_from_s = unplugged.first;
            how.unplugged_to_s = unplugged.second;
        }
        parts.push_back({&devices[i], lines.value()[i].get(), how});
        tell_line(fmt::format("{} (serial number {}), {} Hz, {}, {:.0f} s at {:.3g} times real time, to {}",
                              devices[i].description().name, devices[i].description().serial,
                              settings.rate_hz, count_words(settings.swings, "swing", "swings"),
                              devices[i].truth().duration_s, how.speed, lines.value()[i]->name()));
    }

    heed_interruption();
    const auto counts = transmit_together(parts, interruption());
    if (!counts) return counts.problem();
    for (std::size_t i = 0; i < devices.size(); ++i) {
        const TransmitCount& sent = counts.value()[i];
        tell_line(fmt::format("{} given to the line; {} lost or damaged on purpose{}",
                              part_words(sent.frames, devices[i].frame_count(), "frame", "frames"),
                              sent.lost_frames.size(),
                              sent.end == TransmitCount::End::stopped       ? "; stopped"
                              : sent.end == TransmitCount::End::reader_gone ? "; the reader has left"
                                                                            : ""));
    }
    if (options.truth.empty()) return Done{};
    return write_text(options.truth, truth_json(first, devices.front().truth(), &counts.value().front()));
}

}  // namespace

void add_emulate(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<EmulateOptions>();
    Arguments* verb = program.add_subcommand("emulate",
                                             "a simulated golfer on a simulated device, sending over a real "
                                             "line; with two lines on two plates that "
                                             "are devices of their own");
    add_sending_lines(*verb, options->lines);
    auto* mat = verb->add_option("--mat", options->mat, "stand on a mat of ROWSxCOLUMNS elements");
    verb->add_flag("--plates", options->on_plates,
                   "stand on two plates with four cells each, as without --mat")
        ->excludes(mat);
    verb->add_option("--rate", options->rate_hz, "frames a second; else 1000 for plates, 200 for a mat")
        ->check(number_between(lowest_rate_hz, highest_rate_hz));
    auto* swings =
        verb->add_option("--swings", options->swings, "how many swings; every third is a practice swing")
            ->check(number_between(0, 10000))
            ->capture_default_str();
    verb->add_option("--seed", options->seed,
                     "another number, another lesson; the same number, the same lesson again")
        ->capture_default_str();
    auto* student =
        verb->add_option(
                "--student", options->student,
                "each number is a student with another build and other habits; 0 does as the coach asks")
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
    verb->add_option("--clock-error", options->clock_error_ppm,
                     "by how many millionths the device's clock is fast, 20 unless said; with two lines "
                     "one for each: 80,-60")
        ->delimiter(',')
        ->check(number_between(-10000.0, 10000.0));
    verb->add_option("--delay", options->delay_ms,
                     "the line holds each frame back, for so many milliseconds on average")
        ->check(number_between(0.0, 10000.0));
    verb->add_option("--unplug", options->unplug,
                     "FROM:TO in seconds: the last line's cable is out meanwhile");
    options->fast = verb->add_option("--fast", options->fast_factor,
                                     "faster than real time, by this factor or as fast as is sensible")
                        ->expected(0, 1)
                        ->check(number_between(1.0, 10000.0));
    verb->add_flag("--text", options->in_text_lines,
                   "send text lines instead of packets, as simple boards do");
    verb->add_option(
            "--weights", options->weights,
            "put weights on the plates instead of a golfer: a table of from_s,to_s,plate,kg,x_mm,y_mm")
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
