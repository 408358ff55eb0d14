#include "viewer/lesson/read_loads.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <future>
#include <utility>
#include <vector>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/ground_words.h"
#include "acquisition/record/recording_origin.h"
#include "acquisition/record/recording_reader.h"
#include "analysis/pressure/impossible_loads.h"
#include "viewer/lesson/load_collector.h"
#include "viewer/lesson/value_uncertainty.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

constexpr std::size_t frames_a_block = 1U << 17U;
constexpr std::size_t values_a_block = 1U << 22U;
/// Whoever stands there is taken to weigh this much where the device does not say what a count is worth.
constexpr double assumed_person_n = 735.0;

std::size_t block_frames(const DeviceDescription& device) {
    const std::size_t values = std::max<std::size_t>(values_per_frame(device.layout), 1);
    return std::clamp<std::size_t>(values_a_block / values, 256, frames_a_block);
}

/// Calls `use` with one block after another; the next one is read while `use` works.
template <typename Use>
Outcome for_each_block(RecordingReader& reader, WorkWatch* watch, Use use) {
    const std::size_t step = block_frames(reader.info().device);
    const auto read_at = [&reader, step](std::uint64_t first) {
        return reader.read(first, step, HostTimes::left_out);
    };
    auto next = std::async(std::launch::async, read_at, 0);
    for (std::uint64_t first = 0; first < reader.frame_count(); first += step) {
        Result<FrameBlock> block = next.get();
        if (!block) return block.problem();
        const double part = static_cast<double>(first) / static_cast<double>(reader.frame_count());
        if (watch && !watch->go_on(part)) return given_up("the recording");
        if (first + step < reader.frame_count()) next = std::async(std::launch::async, read_at, first + step);
        use(block.value());
    }
    return Done{};
}

/// How much of the recording is read to see what a count may be worth.
Result<std::vector<double>> total_counts_here_and_there(RecordingReader& reader) {
    constexpr std::uint64_t looks = 64;
    std::vector<double> totals;
    const std::uint64_t step = std::max<std::uint64_t>(reader.frame_count() / looks, 1);
    for (std::uint64_t first = 0; first < reader.frame_count(); first += step) {
        Result<FrameBlock> block = reader.read(first, 1);
        if (!block) return block.problem();
        if (block.value().size() == 0) break;
        double total = 0.0;
        std::visit(
            [&](const auto& values) {
                for (const auto value : values) total += static_cast<double>(value);
            },
            block.value().frame(0).values);
        totals.push_back(total);
    }
    std::sort(totals.begin(), totals.end());
    return totals;
}

double guessed_newtons_per_count(const std::vector<double>& sorted_totals) {
    if (sorted_totals.empty()) return 1.0;
    const double loaded = sorted_totals[sorted_totals.size() * 3 / 4];
    const double lowest = sorted_totals.front();
    const bool someone_stepped_off = loaded - lowest > 0.2 * std::abs(loaded);
    const double person = someone_stepped_off ? loaded - lowest : loaded;
    return person != 0.0 ? assumed_person_n / std::abs(person) : 1.0;
}

Result<Calibration> calibration_of(RecordingReader& reader, FrameUnits units, const std::string& path) {
    const RecordingInfo& info = reader.info();
    if (units == FrameUnits::physical) {
        Calibration physical;
        physical.device_serial = info.device.serial;
        physical.method = "physical";
        physical.relative_u = 0.003;
        if (info.calibration_json.empty()) return physical;
        // How well newtons are known that came from another recording; they need no gains and no zeros.
        Result<Calibration> known = parse_calibration(info.calibration_json, path + ", its calibration");
        if (!known) return known;
        physical = std::move(known).value();
        physical.newtons_per_count.clear();
        physical.zero_counts.clear();
        physical.cell_matrix.clear();
        physical.gain_covariance.clear();
        return physical;
    }
    if (!info.calibration_json.empty()) {
        Result<Calibration> calibration =
            parse_calibration(info.calibration_json, path + ", its calibration");
        if (!calibration) return calibration;
        const Outcome fits = check_calibration(calibration.value(), info.device, path + ", its calibration");
        if (!fits) return fits.problem();
        return calibration;
    }
    double assumed = 1.0;
    if (!info.device.newtons_per_count) {
        const auto totals = total_counts_here_and_there(reader);
        if (!totals) return totals.problem();
        assumed = guessed_newtons_per_count(totals.value());
    }
    return nominal_calibration(info.device, assumed);
}

std::string describe_zeros(const std::vector<ZeroEvent>& zeros, std::uint64_t first_time_us, FrameUnits units,
                           FrameKind kind) {
    if (units == FrameUnits::physical) return "values came as newtons; no zero was taken here";
    if (zeros.empty()) {
        return kind == FrameKind::grid ? "no zero: the mat was never seen empty and at rest"
                                       : "no zero: the plates were never seen empty and at rest";
    }
    const double at_s = static_cast<double>(zeros.front().device_time_us - first_time_us) * seconds_per_us;
    std::string text = fmt::format("zeroed on the empty {} at {:.1f} s", ground_words(kind), at_s);
    if (zeros.size() == 1) return text;
    double most_n = 0.0;
    for (auto zero = zeros.begin() + 1; zero != zeros.end(); ++zero)
        most_n = std::max(most_n, std::abs(zero->shift_n));
    const std::string again =
        zeros.size() == 2 ? "again later" : fmt::format("{} times more", zeros.size() - 1);
    constexpr double least_told_n = 0.05;
    if (most_n < least_told_n) return text + ", " + again + "; it stayed where it was";
    return text + fmt::format(", {}; it moved by at most {:.1f} N", again, most_n);
}

/// The day that a calibration must hold on: that of the recording, so that an old recording never changes;
/// today where it does not say.
std::string day_of(const RecordingInfo& info) {
    return iso_date(info.start.utc_ns != 0 ? info.start.utc_ns : SystemClock().utc_ns());
}

ClockQuality clock_quality(const ClockFit& fit) {
    ClockQuality quality;
    quality.drift_ppm = drift_ppm(fit);
    quality.jitter_ms = fit.residual_sd_ns * ms_per_ns;
    if (!fit.knots.empty()) quality.residual_ms = fit.fit_residual_ns * ms_per_ns;
    return quality;
}

LessonFacts facts_of(const RecordingInfo& info, const std::string& path, const Calibration& calibration) {
    LessonFacts facts;
    facts.file = path;
    facts.hand = info.hand;
    facts.started_utc_ns = info.start.utc_ns;
    facts.zone = info.zone;
    if (info.start.utc_ns != 0) facts.started = wall_time(info.start.utc_ns, info.zone);
    facts.device = info.device.name.empty()
                       ? info.origin
                       : fmt::format("{} (serial number {})", info.device.name, info.device.serial);
    const std::string day = day_of(info);
    facts.calibration = describe_calibration(calibration, day);
    facts.calibration_facts = {calibration_state(calibration, day),
                               calibration.made,
                               calibration.valid_until,
                               std::hypot(calibration.relative_u, ageing_relative_u(calibration, day)),
                               std::hypot(ratio_relative_u(calibration), ageing_relative_u(calibration, day)),
                               calibration.method,
                               calibration.relative_u,
                               calibration.common_relative_u};
    facts.layout = info.device.layout;
    facts.losses = info.losses;
    if (info.start.steady_ns != 0) facts.clock = clock_quality(info.clock);
    if (facts.clock && !info.devices.empty()) facts.clock->joined_ms = joined_residual_ns(info) * ms_per_ns;
    facts.outcome = info.outcome;
    facts.cause = info.cause;
    if (is_imported(info.origin)) facts.origin = RecordingOrigin::imported;
    if (calibration.elements) facts.dead_elements = calibration.elements->dead.size();
    return facts;
}

std::vector<TimeSpan> gaps_in_seconds(const std::vector<Gap>& gaps, std::uint64_t first_time_us) {
    std::vector<TimeSpan> spans;
    const auto seconds = [&](std::uint64_t time_us) {
        return (static_cast<double>(time_us) - static_cast<double>(first_time_us)) * seconds_per_us;
    };
    for (const Gap& gap : gaps) spans.push_back({seconds(gap.from_time_us), seconds(gap.to_time_us)});
    return spans;
}

/// Adds what a person most likely has to do: it is a table not yet imported.
Problem with_a_way_out(Problem problem, const std::string& path) {
    const std::string suffix = std::filesystem::path(path).extension().string();
    if (suffix == ".csv" || suffix == ".c3d") {
        problem.what = "this is no recording yet";
        problem.remedy = "footing import " + path + " --out NEW.h5 makes one of it";
    }
    return problem;
}

struct Collected {
    LoadTrace trace;
    std::vector<ZeroEvent> zeros;
    std::optional<ZeroEvent>
        zero_for_the_start;  ///< the recording began under load: read it again from this zero
    std::uint64_t first_time_us = 0;
};

Result<Collected> collect(RecordingReader& reader, const Calibration& calibration, FrameUnits units,
                          WorkWatch* watch) {
    LoadCollector collector(reader.info().device, calibration, units);
    collector.reserve(reader.frame_count());
    for (const Gap& gap : reader.info().gaps) collector.take_gap(gap);
    Collected collected;
    bool first = true;
    const Outcome read = for_each_block(reader, watch, [&](const FrameBlock& block) {
        if (first && block.size() > 0) collected.first_time_us = block.stamps.front().device_time_us;
        first = false;
        collector.take_block(block);
    });
    if (!read) return read.problem();
    collected.zeros = collector.path().zeros();
    if (const auto& keeper = collector.path().zero_keeper()) {
        if (collected.zeros.empty()) {
            collected.zero_for_the_start = keeper->lowest_quiet();
        } else if (keeper->loaded_before_first_zero()) {
            collected.zero_for_the_start = collected.zeros.front();
        }
    }
    collected.trace = std::move(collector).finish();
    return collected;
}

}  // namespace

Result<RecordedLoads> read_loads(const std::string& path, WorkWatch* watch) {
    Result<RecordingReader> opened = RecordingReader::open(path);
    if (!opened) return with_a_way_out(opened.problem(), path);
    RecordingReader& reader = opened.value();
    const Result<FrameBlock> look = reader.read(0, 1);
    if (!look) return look.problem();
    if (look.value().size() == 0) {
        return Problem{ProblemKind::bad_input, path, "the recording holds no frames",
                       "record again while the device sends"};
    }
    const bool is_double = std::holds_alternative<std::vector<double>>(look.value().values);
    const bool in_newtons = is_double && !reader.info().device.newtons_per_count;
    const FrameUnits units = in_newtons || reader.info().device.layout.kind == FrameKind::components
                                 ? FrameUnits::physical
                                 : FrameUnits::counts;
    Result<Calibration> calibration = calibration_of(reader, units, path);
    if (!calibration) return calibration.problem();

    Result<Collected> collected = collect(reader, calibration.value(), units, watch);
    if (!collected) return collected.problem();
    std::string zero_note = describe_zeros(collected.value().zeros, collected.value().first_time_us, units,
                                           reader.info().device.layout.kind);
    if (collected.value().zero_for_the_start) {
        calibration.value().zero_counts = collected.value().zero_for_the_start->zero_counts;
        const bool by_comparison = collected.value().zeros.empty();
        collected = collect(reader, calibration.value(), units, watch);
        if (!collected) return collected.problem();
        zero_note =
            by_comparison
                ? "zero taken from the lowest quiet reading, since no reading was near the nominal zero"
                : "the recording began under load; the first empty reading serves as its zero";
    }

    RecordedLoads loads;
    loads.facts = facts_of(reader.info(), path, calibration.value());
    loads.facts.zero = zero_note;
    loads.facts.gaps = gaps_in_seconds(reader.info().gaps, collected.value().first_time_us);
    loads.calibration = std::move(calibration).value();
    loads.trace = std::move(collected.value().trace);
    loads.facts.impossible_frames = bridge_impossible_loads(loads.trace);
    loads.uncertainty = value_uncertainty(loads.calibration, loads.facts.layout, day_of(reader.info()),
                                          collected.value().zeros, collected.value().first_time_us);
    return loads;
}

}  // namespace footing
