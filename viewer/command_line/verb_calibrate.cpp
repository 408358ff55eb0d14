#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/clean_text.h"
#include "acquisition/frame/clock.h"
#include "acquisition/import/layout_file.h"
#include "acquisition/record/safe_file.h"
#include "viewer/calibration/calibration_guide.h"
#include "viewer/calibration/calibration_plan.h"
#include "viewer/calibration/calibration_words.h"
#include "viewer/calibration/line_log.h"
#include "viewer/calibration/make_calibration.h"
#include "viewer/calibration/readings_file.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/calibration_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/live_line.h"
#include "viewer/command_line/read_text.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

struct CalibrateOptions {
    LiveLineOptions line;
    std::string from;
    std::string device;
    std::string out;
    std::string points;
    std::vector<double> masses_kg;
    bool by_cells = false;
    bool by_plate = false;
    bool is_mat = false;
    int repeats = 1;
    double creep_min = 0.0;
    double walk_s = 20.0;
    std::optional<double> latitude_deg;
    std::optional<double> height_m;
    std::optional<double> gravity_m_s2;
    double mass_tolerance_percent = 0.5;
    int valid_months = 12;
};

constexpr std::chrono::seconds remark_period{5};
constexpr std::chrono::seconds longest_silence{30};

Weighing weighing_of(const CalibrateOptions& options) {
    return weighing_at(options.latitude_deg, options.height_m, options.gravity_m_s2,
                       options.mass_tolerance_percent);
}

std::string today() {
    return iso_date(SystemClock().utc_ns());
}

/// The file that was named, else a free one beside the usual lesson book, where lessons look for it.
Result<std::string> file_for_record(const CalibrateOptions& options, const DeviceDescription& device) {
    if (!options.out.empty()) return options.out;
    const Result<CalibrationShelf> shelf = usual_shelf();
    if (!shelf) return shelf.problem();
    const auto file = shelf.value().new_file(device.serial, today());
    if (!file) return file.problem();
    return file.value().string();
}

Outcome save(const MadeCalibration& made, const DeviceDescription& device, const CalibrateOptions& options,
             const std::string& out) {
    if (const Outcome written = write_new_file(out, calibration_json(made.record)); !written) return written;
    say_text(fmt::format("{}\nThe record is {}; use it with footing record --calibration {}.\n",
                         calibration_words(made.record, device, made.remarks), clean_text(out),
                         options.out.empty() ? "kept" : clean_text(out)));
    return Done{};
}

Outcome calibrate_from_file(const CalibrateOptions& options) {
    const Result<DeviceDescription> device = read_layout_file(options.device);
    if (!device) return device.problem();
    const Result<std::string> text = read_text(options.from);
    if (!text) return text.problem();
    const auto readings = parse_readings(text.value(), options.from, device.value());
    if (!readings) return readings.problem();
    const Result<std::string> out = file_for_record(options, device.value());
    if (!out) return out.problem();
    const auto made = make_calibration(device.value(), readings.value(), weighing_of(options), today(),
                                       options.valid_months);
    if (!made) {
        Problem problem = made.problem();
        problem.place = options.from + ", " + problem.place;
        return problem;
    }
    return save(made.value(), device.value(), options, out.value());
}

Result<CalibrationPlanOptions> plan_options(const CalibrateOptions& options,
                                            const DeviceDescription& device) {
    CalibrationPlanOptions plan;
    plan.masses_kg = options.masses_kg;
    plan.repeats = options.repeats;
    plan.creep_s = 60.0 * options.creep_min;
    plan.walk_s = options.walk_s;
    const bool mat =
        options.is_mat || (device.layout.kind == FrameKind::grid && !options.by_cells && !options.by_plate);
    if (mat) {
        plan.method = CalibrationMethod::mat;
    } else if (!options.points.empty()) {
        plan.method = CalibrationMethod::plate_points;
        const Result<std::string> text = read_text(options.points);
        if (!text) return text.problem();
        auto points = parse_points(text.value(), options.points, device.layout);
        if (!points) return points.problem();
        plan.points = std::move(points).value();
    } else {
        plan.method = options.by_plate ? CalibrationMethod::plate_total : CalibrationMethod::cells;
    }
    return plan;
}

class FramesToGuide final : public FrameSink {
  public:
    explicit FramesToGuide(CalibrationGuide& guide) : guide_(guide) {}
    void take_frame(const FrameView& frame) override {
        guide_.take(frame);
        ++frames_;
    }
    void take_gap(const Gap&) override {}
    [[nodiscard]] std::uint64_t frames() const { return frames_; }

  private:
    CalibrationGuide& guide_;
    std::uint64_t frames_ = 0;
};

/// Shows the guide's words: on a terminal the remark follows in place, elsewhere it is said now and then.
class GuideVoice {
  public:
    void say(const CalibrationGuide& guide) {
        if (!guide.finished() && shown_step_ != guide.step()) {
            shown_step_ = guide.step();
            clear();
            say_line(fmt::format("[{}/{}] {}", guide.step() + 1, guide.step_count(), guide.instruction()));
            std::fflush(stdout);
            shown_remark_.clear();
        }
        const auto now = std::chrono::steady_clock::now();
        if (guide.remark() == shown_remark_ || (!on_terminal_ && now < next_remark_)) return;
        shown_remark_ = guide.remark();
        next_remark_ = now + remark_period;
        if (shown_remark_.empty()) return;
        clear();
        tell_text("      " + clean_text(shown_remark_));
        if (!on_terminal_) tell_text("\n");
        std::fflush(stderr);
    }
    void clear() const {
        if (on_terminal_) tell_text("\r\033[K");
    }

  private:
    bool on_terminal_ = ::isatty(STDERR_FILENO) == 1;
    std::optional<std::size_t> shown_step_;
    std::string shown_remark_;
    std::chrono::steady_clock::time_point next_remark_;
};

/// Feeds the guide until it has all readings; each goes to the log as it is taken.
Outcome be_guided(CalibrationGuide& guide, FrameSource& source, LineLog* log,
                  const DeviceDescription& device) {
    FramesToGuide sink(guide);
    GuideVoice voice;
    EnterKey enter;
    std::size_t logged = 0;
    std::uint64_t frames_before = 0;
    auto last_frame = std::chrono::steady_clock::now();
    while (!guide.finished()) {
        voice.say(guide);
        if (enter.pressed()) guide.accept();
        const auto state = source.poll(sink, poll_period);
        if (!state) return state.problem();
        for (; logged < guide.readings().size() && log != nullptr; ++logged) {
            const Outcome written = log->append(readings_line(guide.readings()[logged], device));
            if (!written) return written;
        }
        const auto now = std::chrono::steady_clock::now();
        if (sink.frames() != frames_before) last_frame = now;
        frames_before = sink.frames();
        if (now - last_frame > longest_silence || state.value() == SourceState::finished) {
            return Problem{ProblemKind::device_failed, source.name(), "the device fell silent",
                           "see that it is on and connected, then begin again"};
        }
        if (interruption()) {
            return Problem{ProblemKind::bad_input, "",
                           fmt::format("stopped at step {} of {}; no record was made", guide.step() + 1,
                                       guide.step_count()),
                           log == nullptr ? "begin again"
                                          : "the readings so far are in " + log->path().string() +
                                                "; begin again, or complete them and give them with --from"};
        }
    }
    voice.clear();
    return Done{};
}

Outcome calibrate_live(const CalibrateOptions& options) {
    // Before the plates are waited for.
    if (const Outcome sound = check_masses(options.masses_kg); !sound) return sound.problem();
    const SystemClock clock;
    const auto source = make_live_source(options.line, clock);
    if (!source) return source.problem();
    const auto opened = source.value()->open(
        std::chrono::milliseconds(static_cast<std::int64_t>(options.line.wait_s * 1000.0)));
    if (!opened) return opened.problem();
    const DeviceDescription& device = opened.value();
    if (!device.newtons_per_count) {
        return Problem{
            ProblemKind::bad_input, source.value()->name(),
            "the device does not say what a count is worth, so a mass cannot be told from a draught",
            "put a rough newtons_per_count into a description and give it with --layout"};
    }
    const auto plan = plan_options(options, device);
    if (!plan) return plan.problem();
    const auto steps = plan_calibration(device, plan.value());
    if (!steps) return steps.problem();
    const Weighing weighing = weighing_of(options);
    const bool is_mat = plan.value().method == CalibrationMethod::mat;
    const Result<std::string> out = file_for_record(options, device);
    if (!out) return out.problem();
    LineLog log;
    if (!is_mat) {
        if (const Outcome created = log.create(out.value() + ".readings.csv"); !created) return created;
        if (const Outcome written = log.append(readings_header(device)); !written) return written;
    }
    say_text(fmt::format(
        "{} (serial number {}) on {}: {} steps. A step is over when the reading has come to rest; Enter "
        "takes "
        "it as it is, Ctrl-C stops.\nLift with straight back, in small pieces, and keep fingers and feet "
        "from "
        "under the masses.\n",
        shown_words(device.name), device.serial, clean_text(source.value()->name()), steps.value().size()));
    CalibrationGuide guide(device, steps.value(), weighing.gravity_m_s2, steadiness_for(plan.value().method));
    heed_interruption();
    const Outcome guided = be_guided(guide, *source.value(), is_mat ? nullptr : &log, device);
    if (!guided) return guided;
    const auto made =
        is_mat ? make_mat_calibration(device, guide.readings(), guide.findings().value_or(MatFindings{}),
                                      weighing, today(), options.valid_months)
               : make_calibration(device, guide.readings(), weighing, today(), options.valid_months);
    if (!made) return made.problem();
    const Outcome saved = save(made.value(), device, options, out.value());
    if (saved) log.remove();  // the record holds the readings
    return saved;
}

Outcome calibrate(const CalibrateOptions& options) {
    if (!options.out.empty()) {
        if (const Outcome is_free = check_name_is_free(options.out); !is_free) return is_free;
    }
    if (options.height_m && !options.latitude_deg)
        return Problem{ProblemKind::command_line, "", "--height without --latitude",
                       "give both, or --gravity"};
    if (options.from.empty()) return calibrate_live(options);
    if (options.device.empty())
        return Problem{ProblemKind::command_line, "", "--from without --device",
                       "give the device's description (JSON)"};
    return calibrate_from_file(options);
}

}  // namespace

void add_calibrate(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<CalibrateOptions>();
    Arguments* verb =
        program.add_subcommand("calibrate", "calibrate plates or a mat with known masses or a known weight");
    Arguments* line = add_live_line(*verb, options->line);
    line->add_option("--from", options->from, "readings taken before, as a table (docs/calibration.md)");
    line->require_option(1);
    verb->add_option("--device", options->device, "with --from: the device's description (JSON)");
    verb->add_option(
        "--out", options->out,
        "the calibration record to make (JSON), never overwritten; unless said, it is kept beside the "
        "lesson book, where lessons take the newest one of their plates");
    verb->add_option("--masses", options->masses_kg, "what stands on the plate in each step, in kg: 10,20,30")
        ->delimiter(',')
        ->check(number_between(0.001, heaviest_mass_kg));
    verb->add_option("--points", options->points,
                     "marked points of the plates (plate,x_mm,y_mm) for a cell matrix");
    auto* way = verb->add_option_group("way", "how to calibrate");
    way->add_flag("--cells", options->by_cells, "masses over each cell (usual for plates)");
    way->add_flag("--plate", options->by_plate, "a known weight on each plate, or masses at --points");
    way->add_flag("--mat", options->is_mat, "walk over a mat, then stand on it");
    way->require_option(0, 1);
    verb->add_option("--repeats", options->repeats, "load and unload each place so many times")
        ->check(number_between(1, most_repeats))
        ->capture_default_str();
    verb->add_option("--creep", options->creep_min, "leave the largest mass on for so many minutes")
        ->check(number_between(0.0, longest_creep_s / 60.0));
    verb->add_option("--walk", options->walk_s, "seconds to walk over a mat")
        ->check(number_between(1.0, longest_walk_s))
        ->capture_default_str();
    verb->add_option("--latitude", options->latitude_deg, "degrees, for local gravity")
        ->check(number_between(-90.0, 90.0));
    verb->add_option("--height", options->height_m, "metres above the sea")
        ->check(number_between(-500.0, 9000.0));
    verb->add_option("--gravity", options->gravity_m_s2, "m/s2, if it is known")
        ->check(number_between(9.7, 9.9))
        ->excludes("--latitude");
    verb->add_option("--mass-tolerance", options->mass_tolerance_percent,
                     "how far the masses may be off, in per cent")
        ->check(number_between(0.0, 20.0))
        ->capture_default_str();
    verb->add_option("--valid-months", options->valid_months,
                     "for how many months the record is valid; 0: without end")
        ->check(number_between(0, 120))
        ->capture_default_str();
    verb->callback([options, &outcome] {
        if (const Outcome done = calibrate(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
