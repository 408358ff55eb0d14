#include "acquisition/import/c3d_import.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "acquisition/frame/count_words.h"
#include "acquisition/import/c3d_bridged.h"
#include "acquisition/import/c3d_loads.h"
#include "acquisition/import/c3d_provenance.h"
#include "acquisition/import/last_change.h"
#include "acquisition/import/load_survey.h"
#include "acquisition/record/read_only_file.h"
#include "acquisition/record/recording_origin.h"
#include "acquisition/record/recording_writer.h"

namespace footing {

namespace {

constexpr std::size_t frames_at_once = 4096;
constexpr double trigger_length_s = 0.005;

bool is_strike(const std::string& label) {
    std::string capitals;
    for (const char letter : label) {
        capitals += letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
    }
    return capitals == "IMPACT" || capitals == "TRIGGER" || capitals.ends_with(" IMPACT") ||
           capitals.ends_with(" TRIGGER");
}

/// What the file itself marks, in time order, and what lies outside the recording told in one remark.
struct Marks {
    std::vector<RecordingNote> notes;
    std::vector<std::uint64_t> strikes;  ///< sample at which the trigger goes up, ascending
};

Marks read_marks(const C3dFile& file) {
    const double duration_s = static_cast<double>(file.sample_count()) / file.analog_rate_hz();
    Marks marks;
    std::size_t outside = 0;
    for (const C3dEvent& event : file.events()) {
        if (!(event.time_s >= 0.0 && event.time_s <= duration_s)) {
            ++outside;
            continue;
        }
        const std::string label = event.label.empty() ? "without a name" : event.label;
        marks.notes.push_back(
            {std::llround(event.time_s * static_cast<double>(ns_per_s)), "event in the file: " + label});
        if (is_strike(event.label)) {
            marks.strikes.push_back(
                static_cast<std::uint64_t>(std::llround(event.time_s * file.analog_rate_hz())));
        }
    }
    std::ranges::stable_sort(marks.notes, {}, &RecordingNote::host_time_ns);
    std::ranges::sort(marks.strikes);
    if (outside > 0) {
        marks.notes.push_back({0, count_words(outside, "event of the file lies", "events of the file lie") +
                                      " outside what it holds"});
    }
    return marks;
}

bool trigger_set(const std::vector<std::uint64_t>& strikes, std::uint64_t sample, double rate_hz) {
    const auto after = std::ranges::upper_bound(strikes, sample);
    return after != strikes.begin() &&
           static_cast<double>(sample - *std::prev(after)) < std::max(1.0, trigger_length_s * rate_hz);
}

std::uint64_t device_time_us(std::uint64_t sample, double rate_hz) {
    return static_cast<std::uint64_t>(std::llround(static_cast<double>(sample) / rate_hz / seconds_per_us));
}

/// What was bridged before it was exported is lost, as it was in the recording that was exported.
void tell_loss(const std::vector<BridgedSpan>& bridged, double rate_hz, RecordingInfo& info) {
    for (const BridgedSpan& span : bridged) {
        const std::uint64_t lost = span.past - span.first;
        info.losses.lost += lost;
        info.losses.frames -= lost;
        info.gaps.push_back({span.first - 1, lost, device_time_us(span.first - 1, rate_hz),
                             device_time_us(span.past, rate_hz)});
    }
    if (bridged.empty()) return;
    info.outcome = RecordingOutcome::lossy;
    info.cause = count_words(info.losses.lost, "frame was", "frames were") +
                 " lost before the file was written, in " + count_words(bridged.size(), "gap", "gaps");
}

RecordingInfo facts_of(const C3dFile& file, const C3dLoads& loads, const Marks& marks,
                       const std::vector<BridgedSpan>& bridged, const std::filesystem::path& c3d,
                       const C3dImportOptions& options) {
    const std::string name = c3d.filename().string();
    const double duration_s = static_cast<double>(file.sample_count()) / file.analog_rate_hz();
    RecordingInfo info;
    const C3dProvenance known = c3d_provenance(file.parameters());
    info.zone = known.zone.empty() ? "UTC" : known.zone;
    info.start.utc_ns = known.start_utc_ns.value_or(last_change_utc_ns(c3d));
    info.end.steady_ns = std::llround(duration_s * static_cast<double>(ns_per_s));
    info.end.utc_ns = info.start.utc_ns + info.end.steady_ns;
    info.hand = options.hand;
    info.program_version = options.program_version;
    info.origin = imported_origin(c3d);
    info.device.name = "force plates in " + name;
    info.device.rate_hz = file.analog_rate_hz();
    info.device.layout = loads.layout();
    info.losses.frames = file.sample_count();
    tell_loss(bridged, file.analog_rate_hz(), info);
    if (file.missing_point_frames() > 0) {
        info.outcome = RecordingOutcome::truncated;
        info.cause = "the C3D file is cut off: " + std::to_string(file.missing_point_frames()) +
                     " of its 3-D frames are missing at the end";
    }
    if (!known.start_utc_ns) {
        info.notes.push_back(
            {0, "The file does not say when it was measured; the start is its date of last change."});
    }
    if (known.calibration_is_odd) {
        info.notes.push_back(
            {0,
             "What the file keeps of the plates' calibration cannot be true; their loads count "
             "as not calibrated."});
    }
    if (known.calibration) {
        Calibration calibration = *known.calibration;
        calibration.newtons_per_count.assign(values_per_frame(loads.layout()), 1.0);
        calibration.zero_counts.assign(values_per_frame(loads.layout()), 0.0);
        info.calibration_json = calibration_json(calibration);
    }
    for (const std::string& remark : loads.remarks()) info.notes.push_back({0, remark});
    info.notes.insert(info.notes.end(), marks.notes.begin(), marks.notes.end());
    return info;
}

/// Of all plates together, in one frame of components.
double vertical_of(const std::vector<double>& components, std::size_t frame, std::size_t values_per_frame) {
    constexpr std::size_t fz = 2;
    double sum_n = 0.0;
    for (std::size_t i = fz; i < values_per_frame; i += components_per_plate)
        sum_n += components[frame * values_per_frame + i];
    return sum_n;
}

/// All samples but those that were never measured.
Outcome copy_frames(const C3dFile& file, const C3dLoads& loads, const std::vector<std::uint64_t>& strikes,
                    const std::vector<BridgedSpan>& bridged, WorkWatch* watch, RecordingWriter& writer,
                    LoadSurvey& total) {
    auto lost = bridged.begin();
    for (std::uint64_t first = 0; first < file.sample_count(); first += frames_at_once) {
        const double part = static_cast<double>(first) / static_cast<double>(file.sample_count());
        if (watch && !watch->go_on(part)) return given_up(file.place());
        auto values = loads.read(first, frames_at_once);
        if (!values) return values.problem();
        FrameBlock block;
        block.values_per_frame = values_per_frame(loads.layout());
        const std::size_t count = values.value().size() / block.values_per_frame;
        std::vector<double> kept;
        for (std::size_t i = 0; i < count; ++i) {
            const std::uint64_t sample = first + i;
            while (lost != bridged.end() && sample >= lost->past) ++lost;
            if (lost != bridged.end() && sample >= lost->first) continue;
            FrameStamp stamp;
            stamp.counter = sample;
            stamp.device_time_us = device_time_us(sample, file.analog_rate_hz());
            stamp.inputs =
                trigger_set(strikes, sample, file.analog_rate_hz()) ? trigger_bit : std::uint16_t{0};
            block.stamps.push_back(stamp);
            total.add(vertical_of(values.value(), i, block.values_per_frame));
            const auto from =
                values.value().begin() + static_cast<std::ptrdiff_t>(i * block.values_per_frame);
            kept.insert(kept.end(), from, from + static_cast<std::ptrdiff_t>(block.values_per_frame));
        }
        block.values = std::move(kept);
        if (block.stamps.empty()) continue;
        if (Outcome done = writer.append(block); !done) return done;
    }
    return Done{};
}

std::optional<C3dPlateUse::Foot> foot_named(std::string_view name, Hand hand) {
    using Foot = C3dPlateUse::Foot;
    if (name == "left") return Foot::left;
    if (name == "right") return Foot::right;
    if (name == "whole") return Foot::whole;
    if (name == "lead") return hand == Hand::right ? Foot::left : Foot::right;
    if (name == "trail") return hand == Hand::right ? Foot::right : Foot::left;
    return std::nullopt;
}

}  // namespace

Result<std::vector<C3dPlateUse>> parse_plate_uses(std::string_view text, Hand hand) {
    const Problem unreadable{ProblemKind::command_line, std::string(text), "does not name plates",
                             "write for example left=2,right=1 or lead=1,trail=2 or whole=1"};
    std::vector<C3dPlateUse> uses;
    while (!text.empty()) {
        const std::string_view one = text.substr(0, text.find(','));
        text.remove_prefix(std::min(text.size(), one.size() + 1));
        const std::size_t equals = one.find('=');
        if (equals == std::string_view::npos) return unreadable;
        const auto foot = foot_named(one.substr(0, equals), hand);
        std::size_t plate = 0;
        const std::string_view number = one.substr(equals + 1);
        const auto [end, failure] = std::from_chars(number.data(), number.data() + number.size(), plate);
        if (!foot || failure != std::errc() || end != number.data() + number.size() || plate == 0) {
            return unreadable;
        }
        for (const C3dPlateUse& before : uses) {
            const bool whole = before.foot == C3dPlateUse::Foot::whole || foot == C3dPlateUse::Foot::whole;
            if (before.foot == *foot || before.plate == plate || whole) return unreadable;
        }
        uses.push_back({*foot, plate});
    }
    if (uses.empty()) return unreadable;
    return uses;
}

Result<C3dAxis> parse_c3d_axis(std::string_view text) {
    constexpr std::pair<std::string_view, C3dAxis> axes[] = {
        {"+x", C3dAxis::plus_x}, {"x", C3dAxis::plus_x}, {"-x", C3dAxis::minus_x},
        {"+y", C3dAxis::plus_y}, {"y", C3dAxis::plus_y}, {"-y", C3dAxis::minus_y},
        {"+z", C3dAxis::plus_z}, {"z", C3dAxis::plus_z}, {"-z", C3dAxis::minus_z},
    };
    for (const auto& [name, axis] : axes) {
        if (name == text) return axis;
    }
    return Problem{ProblemKind::command_line, std::string(text), "is no axis",
                   "write +x, -x, +y, -y, +z or -z"};
}

Result<C3dImportSummary> import_c3d(const std::filesystem::path& c3d, const std::filesystem::path& recording,
                                    const C3dImportOptions& options) {
    auto opened = ReadOnlyFile::open(c3d);
    if (!opened) return opened.problem();
    const ReadOnlyFile& bytes = opened.value();
    auto file = C3dFile::open(
        {bytes.size(),
         [&bytes](std::uint64_t offset, std::span<std::byte> into) { return bytes.read_at(offset, into); }},
        c3d.string());
    if (!file) return file.problem();
    const auto loads = C3dLoads::open(file.value(), options);
    if (!loads) return loads.problem();

    const Marks marks = read_marks(file.value());
    const auto bridged = bridged_spans(file.value());
    if (!bridged) return bridged.problem();
    RecordingInfo info = facts_of(file.value(), loads.value(), marks, bridged.value(), c3d, options);
    auto writer = RecordingWriter::create(recording, info);
    if (!writer) return writer.problem();
    LoadSurvey total;
    const Outcome copied = copy_frames(file.value(), loads.value(), marks.strikes, bridged.value(),
                                       options.watch, writer.value(), total);
    if (!copied) return copied.problem();
    std::vector<std::string> doubts;
    if (const std::string doubt = total.doubt(); !doubt.empty()) {
        doubts.push_back(doubt + "; see to the units and scales of the file's force plates");
        info.notes.push_back({0, doubts.back()});
    }
    if (Outcome closed = writer.value().close(info); !closed) return closed.problem();

    C3dImportSummary summary{info.losses.frames, file.value().analog_rate_hz(),
                             static_cast<double>(info.end.steady_ns) * seconds_per_ns,
                             loads.value().remarks(), std::move(doubts)};
    if (!info.cause.empty()) summary.notes.push_back(info.cause);
    return summary;
}

}  // namespace footing
