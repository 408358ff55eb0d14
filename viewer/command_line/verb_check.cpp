#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <optional>
#include <string>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/clean_text.h"
#include "acquisition/frame/clock.h"
#include "viewer/calibration/make_calibration.h"
#include "viewer/calibration/quick_check.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/calibration_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/live_line.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

struct CheckWords {
    LiveLineOptions line;
    std::optional<double> weight_kg;
    double weight_tolerance_kg = 0.3;
    std::string calibration;
    std::string json;
    std::optional<double> latitude_deg;
    double idle_s = 120.0;
};

Result<Calibration> calibration_for(const CheckWords& words, const DeviceDescription& device) {
    if (words.calibration.empty()) return nominal_calibration(device, 1.0);
    const Result<GivenCalibrations> given = given_calibrations({words.calibration});
    if (!given) return given.problem();
    std::string text = given.value().kept ? "" : given.value().texts.front();
    if (given.value().kept) {
        const Result<CalibrationShelf> shelf = usual_shelf();
        if (!shelf) return shelf.problem();
        text = shelf.value().newest(device);
        if (text.empty())
            return Problem{ProblemKind::bad_input, "--calibration kept",
                           fmt::format("no calibration of {} (serial number {}) is kept",
                                       shown_words(device.name), device.serial),
                           "make one with footing calibrate, or name its file"};
    }
    Result<Calibration> calibration = parse_calibration(text, words.calibration);
    if (!calibration) return calibration;
    if (const Outcome fits = check_calibration(calibration.value(), device, words.calibration); !fits)
        return fits.problem();
    return calibration;
}

class FramesToCheck final : public FrameSink {
  public:
    explicit FramesToCheck(QuickCheck& check) : check_(check) {}
    void take_frame(const FrameView& frame) override { check_.take(frame); }
    void take_gap(const Gap&) override {}

  private:
    QuickCheck& check_;
};

/// Everything but the JSON goes to standard error, so that --json - leaves only JSON on standard output.
Outcome be_led(QuickCheck& check, FrameSource& source, double idle_s) {
    FramesToCheck sink(check);
    EnterKey enter;
    std::optional<CheckStep> shown;
    std::string shown_remark;
    const bool on_terminal = ::isatty(STDERR_FILENO) == 1;
    auto step_began = std::chrono::steady_clock::now();
    while (!check.finished()) {
        if (shown != check.step()) {
            shown = check.step();
            shown_remark.clear();
            step_began = std::chrono::steady_clock::now();
            if (on_terminal) tell_text("\r\033[K");
            tell_line(check.instruction());
        }
        if (on_terminal && check.remark() != shown_remark) {
            shown_remark = check.remark();
            tell_text("\r\033[K      " + clean_text(shown_remark));
        }
        if (enter.pressed()) check.accept();
        const auto state = source.poll(sink, poll_period);
        if (!state) return state.problem();
        const std::chrono::duration<double> waited = std::chrono::steady_clock::now() - step_began;
        if (waited.count() > idle_s) {
            return Problem{
                ProblemKind::device_failed, source.name(),
                fmt::format("nothing came of \"{}\" for {:.0f} s", check.instruction(), idle_s),
                check.remark().empty() ? "see that the device sends, and check again" : check.remark()};
        }
        if (interruption())
            return Problem{ProblemKind::bad_input, "", "the check was stopped", "check again"};
    }
    return Done{};
}

Outcome check(const CheckWords& words) {
    const SystemClock clock;
    const auto source = make_live_source(words.line, clock);
    if (!source) return source.problem();
    const auto opened = source.value()->open(
        std::chrono::milliseconds(static_cast<std::int64_t>(words.line.wait_s * 1000.0)));
    if (!opened) return opened.problem();
    const DeviceDescription& device = opened.value();
    if (!device.newtons_per_count && words.calibration.empty() &&
        device.layout.kind != FrameKind::components) {
        return Problem{ProblemKind::bad_input, source.value()->name(),
                       "the device does not say what a count is worth",
                       "give --calibration, or a description with newtons_per_count with --layout"};
    }
    const Result<Calibration> calibration = calibration_for(words, device);
    if (!calibration) return calibration.problem();
    const Weighing weighing = weighing_at(words.latitude_deg, std::nullopt, std::nullopt, 0.0);
    CheckOptions options;
    options.weight_kg = words.weight_kg;
    options.weight_tolerance_kg = words.weight_tolerance_kg;
    options.gravity_m_s2 = weighing.gravity_m_s2;
    options.gravity_relative_u = weighing.gravity_relative_u;
    if (device.layout.kind != FrameKind::components) {
        tell_line(fmt::format("{} (serial number {}), {}", shown_words(device.name), device.serial,
                              describe_calibration(calibration.value(), iso_date(clock.utc_ns()))));
    }
    QuickCheck quick_check(device, calibration.value(), options);
    heed_interruption();
    if (const Outcome led = be_led(quick_check, *source.value(), words.idle_s); !led) return led;
    const CheckResult result = quick_check.result();
    if (words.json != "-") say_text(check_words(result));
    if (!words.json.empty()) return write_text(words.json, check_json(result));
    return Done{};
}

}  // namespace

void add_check(Arguments& program, VerbOutcome& outcome) {
    auto words = std::make_shared<CheckWords>();
    Arguments* verb = program.add_subcommand(
        "check", "see whether the plates agree with a known weight and with each other, in a minute");
    add_live_line(*verb, words->line)->require_option(1);
    verb->add_option("--weight", words->weight_kg,
                     "kg, of whoever stands on the plates, as dressed and with what is carried")
        ->check(number_between(15.0, 300.0));
    verb->add_option("--weight-tolerance", words->weight_tolerance_kg, "kg, how far that may be off")
        ->check(number_between(0.0, 10.0))
        ->capture_default_str();
    verb->add_option("--calibration", words->calibration,
                     "calibration record of the device (JSON), or kept for the newest one that is kept "
                     "beside the lesson book");
    verb->add_option("--latitude", words->latitude_deg, "degrees, for local gravity")
        ->check(number_between(-90.0, 90.0));
    verb->add_option("--idle", words->idle_s, "give up when a step takes longer than so many seconds")
        ->check(number_between(1.0, 86400.0))
        ->capture_default_str();
    verb->add_option("--json", words->json,
                     "write the result as JSON to this file; - writes only JSON to standard output");
    verb->callback([words, &outcome] {
        if (const Outcome done = check(*words); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
