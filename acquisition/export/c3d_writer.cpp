#include "acquisition/export/c3d_writer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <string_view>

#include "acquisition/export/c3d_parameter_writer.h"
#include "acquisition/frame/units.h"
#include "acquisition/import/c3d_format.h"

namespace footing {

namespace {

/// Some readers take the count of frames for a number with a sign.
constexpr std::uint64_t most_frames = 32767;
constexpr std::size_t most_samples_a_frame_and_channel = 65535;
/// Lengths of arrays are bytes.
constexpr std::size_t most_events = 255;

/// How the samples are parted into 3-D frames.
struct Frames {
    std::uint64_t count = 0;
    std::size_t samples_per_frame = 1;
};

Frames frames_of(std::size_t samples) {
    Frames frames;
    frames.samples_per_frame = (samples + most_frames - 1) / most_frames;
    frames.count = samples / frames.samples_per_frame;
    return frames;
}

/// From the axes of the file into those of a plate whose x is the file's x, and whose z points into the
/// floor.
constexpr std::array<double, 6> into_plate_axes{1.0, -1.0, -1.0, 1.0, -1.0, -1.0};

struct Column {
    std::span<const double> values;
    double factor = 1.0;
};

struct Channels {
    std::vector<Column> columns;
    std::vector<std::string> labels;
    std::vector<std::string> descriptions;
    std::vector<std::string> units;
};

Channels channels_of(const C3dContent& content) {
    constexpr std::array<std::string_view, 6> names{"FX", "FY", "FZ", "MX", "MY", "MZ"};
    Channels channels;
    for (const C3dPlateSeries& plate : content.plates) {
        for (std::size_t i = 0; i < names.size(); ++i) {
            // Moments in the unit of lengths, as the standard asks.
            const double unit = i < 3 ? 1.0 : mm_per_metre;
            channels.columns.push_back({plate.components[i], into_plate_axes[i] * unit});
            channels.labels.push_back(fmt::format("{}{}", names[i], plate.label));
            channels.descriptions.push_back(
                fmt::format("{} on the foot, plate {}", i < 3 ? "force" : "moment", plate.label));
            channels.units.emplace_back(i < 3 ? "N" : "Nmm");
        }
    }
    for (const C3dChannel& channel : content.channels) {
        channels.columns.push_back({channel.values, 1.0});
        channels.labels.push_back(channel.label);
        channels.descriptions.push_back(channel.description);
        channels.units.emplace_back("");
    }
    return channels;
}

/// x, y, z of the corners in mm. They go round from the plate's own +x +y on, as its axes do: right behind,
/// left behind, left ahead, right ahead.
std::vector<double> corners_mm(const std::vector<C3dPlateSeries>& plates) {
    constexpr std::array<std::array<double, 2>, 4> around{{{1, -1}, {-1, -1}, {-1, 1}, {1, 1}}};
    std::vector<double> corners;
    for (const C3dPlateSeries& plate : plates) {
        for (const auto& [right, ahead] : around) {
            corners.push_back((plate.centre_x_m + right * plate.half_width_m) * mm_per_metre);
            corners.push_back((plate.centre_y_m + ahead * plate.half_length_m) * mm_per_metre);
            corners.push_back(0.0);
        }
    }
    return corners;
}

std::vector<int> count_up(std::size_t from, std::size_t count) {
    std::vector<int> numbers;
    for (std::size_t i = 0; i < count; ++i) numbers.push_back(static_cast<int>(from + i));
    return numbers;
}

void add_events(C3dParameterWriter& into, std::span<const C3dEventMark> events) {
    if (events.empty()) return;
    std::vector<double> times;
    std::vector<std::string> labels;
    for (const C3dEventMark& event : events) {
        const double minutes = std::floor(event.time_s / 60.0);
        times.push_back(minutes);
        times.push_back(event.time_s - 60.0 * minutes);
        labels.push_back(event.label);
    }
    into.begin_group("EVENT");
    into.word("USED", static_cast<int>(events.size()));
    into.texts("CONTEXTS", std::vector<std::string>(events.size(), "General"));
    into.texts("LABELS", labels);
    into.reals("TIMES", times, {2, events.size()});
}

void add_origin(C3dParameterWriter& into, const C3dOrigin& origin) {
    namespace names = c3d::provenance;
    into.begin_group(names::group);
    if (!origin.start_utc.empty()) into.text(names::start_utc, origin.start_utc);
    if (!origin.zone.empty()) into.text(names::zone, origin.zone);
    if (origin.calibration_method.empty()) return;
    into.text(names::method, origin.calibration_method);
    if (!origin.calibration_made.empty()) into.text(names::made, origin.calibration_made);
    if (!origin.calibration_valid_until.empty())
        into.text(names::valid_until, origin.calibration_valid_until);
    into.real(names::relative_u, origin.relative_u);
    into.real(names::common_u, origin.common_relative_u);
    into.word(names::only_ratios, origin.only_ratios ? 1 : 0);
}

std::string parameter_section(const C3dContent& content, const Channels& channels, const Frames& frames,
                              std::size_t data_block) {
    const std::size_t plates = content.plates.size();
    C3dParameterWriter write;
    write.begin_group("POINT");
    write.word("USED", 0);
    write.word("FRAMES", static_cast<int>(frames.count));
    write.word("DATA_START", static_cast<int>(data_block));
    write.real("SCALE", -1.0);
    write.real("RATE", content.rate_hz / static_cast<double>(frames.samples_per_frame));
    write.text("UNITS", "mm");
    write.text("X_SCREEN", "+X");
    write.text("Y_SCREEN", "+Z");

    write.begin_group("ANALOG");
    write.word("USED", static_cast<int>(channels.columns.size()));
    write.texts("LABELS", channels.labels);
    write.texts("DESCRIPTIONS", channels.descriptions);
    write.real("GEN_SCALE", 1.0);
    write.reals("SCALE", std::vector<double>(channels.columns.size(), 1.0), {channels.columns.size()});
    write.words("OFFSET", std::vector<int>(channels.columns.size(), 0), {channels.columns.size()});
    write.texts("UNITS", channels.units);
    write.real("RATE", content.rate_hz);

    write.begin_group("FORCE_PLATFORM");
    write.word("USED", static_cast<int>(plates));
    write.words("TYPE", std::vector<int>(plates, 2), {plates});
    write.words("CHANNEL", count_up(1, 6 * plates), {6, plates});
    write.reals("CORNERS", corners_mm(content.plates), {3, 4, plates});
    write.reals("ORIGIN", std::vector<double>(3 * plates, 0.0), {3, plates});
    write.words("ZERO", {0, 0}, {2});

    add_events(write, std::span(content.events).first(std::min(content.events.size(), most_events)));

    add_origin(write, content.origin);
    write.begin_group("MANUFACTURER");
    write.text("SOFTWARE", content.program);
    write.text("VERSION", content.program_version);
    return write.section();
}

std::string header_block(const Channels& channels, const Frames& frames, double rate_hz,
                         std::size_t data_block) {
    std::string block(c3d::block_bytes, '\0');
    const auto word = [&](std::size_t offset, std::size_t value) {
        put_c3d_word(block, offset, static_cast<std::uint16_t>(value));
    };
    block[c3d::parameter_block_offset] = 2;
    block[c3d::key_offset] = static_cast<char>(c3d::key);
    word(c3d::point_count_offset, 0);
    word(c3d::analog_count_offset, channels.columns.size() * frames.samples_per_frame);
    word(c3d::first_frame_offset, 1);
    word(c3d::last_frame_offset, frames.count);
    put_c3d_real(block, c3d::point_scale_offset, -1.0F);
    word(c3d::data_block_offset, data_block);
    word(c3d::samples_per_frame_offset, frames.samples_per_frame);
    put_c3d_real(block, c3d::point_rate_offset,
                 static_cast<float>(rate_hz / static_cast<double>(frames.samples_per_frame)));
    return block;
}

std::string data_section(const Channels& channels, const Frames& frames) {
    const std::uint64_t samples = frames.count * frames.samples_per_frame;
    std::string data(samples * channels.columns.size() * sizeof(float), '\0');
    std::size_t at = 0;
    for (std::uint64_t sample = 0; sample < samples; ++sample) {
        for (const Column& column : channels.columns) {
            put_c3d_real(data, at, static_cast<float>(column.values[sample] * column.factor));
            at += sizeof(float);
        }
    }
    return data;
}

Outcome check(const C3dContent& content, const Channels& channels) {
    const auto wrong = [](const std::string& what, const std::string& remedy) {
        return Problem{ProblemKind::bad_input, "C3D", what, remedy};
    };
    if (content.plates.empty()) return wrong("no plate to write", "give at least one");
    const std::size_t samples = channels.columns.front().values.size();
    if (samples == 0) return wrong("no frame to write", "record again with the plates on");
    for (const Column& column : channels.columns) {
        if (column.values.size() != samples)
            return wrong("columns differ in length", "give each sample a value");
    }
    if (channels.columns.size() * frames_of(samples).samples_per_frame > most_samples_a_frame_and_channel) {
        return wrong(fmt::format("{} samples are more than the format can count", samples),
                     "write a shorter stretch");
    }
    return Done{};
}

std::size_t blocks(std::size_t bytes) {
    return (bytes + c3d::block_bytes - 1) / c3d::block_bytes;
}

}  // namespace

Result<C3dBytesMade> make_c3d(const C3dContent& content) {
    const Channels channels = channels_of(content);
    if (const Outcome sound = check(content, channels); !sound) return sound.problem();
    const std::size_t samples = channels.columns.front().values.size();
    const Frames frames = frames_of(samples);

    // Where the data begin depends on how long the parameters are, which does not depend on that number.
    const std::size_t parameter_blocks = blocks(parameter_section(content, channels, frames, 0).size());
    const std::size_t data_block = 2 + parameter_blocks;
    std::string parameters = parameter_section(content, channels, frames, data_block);
    parameters.resize(parameter_blocks * c3d::block_bytes, '\0');
    parameters[c3d::parameter_block_count_offset] = static_cast<char>(parameter_blocks);

    C3dBytesMade made;
    made.bytes = header_block(channels, frames, content.rate_hz, data_block) + parameters;
    made.bytes += data_section(channels, frames);
    made.left_out.samples = samples - frames.count * frames.samples_per_frame;
    made.left_out.events = content.events.size() - std::min(content.events.size(), most_events);
    return made;
}

}  // namespace footing
