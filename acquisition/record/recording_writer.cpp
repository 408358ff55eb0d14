#include "acquisition/record/recording_writer.h"

#include <algorithm>
#include <optional>
#include <system_error>
#include <utility>
#include <vector>

#include "acquisition/record/chunked_column.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/recording_facts_writer.h"
#include "acquisition/record/recording_reader.h"

namespace footing {

namespace {

namespace frames = recording::frames;

std::vector<std::uint64_t> frame_shape(const PlateLayout& layout) {
    if (layout.kind == FrameKind::grid && layout.grid) return {layout.grid->rows, layout.grid->columns};
    return {values_per_frame(layout)};
}

/// Where values of this type of this kind of frame are stored; nothing where they cannot be.
std::optional<recording::DatasetFormat> value_format(FrameKind kind, const FrameValues& values) {
    const bool physical = std::holds_alternative<std::span<const double>>(values);
    switch (kind) {
        case FrameKind::cells:
            if (physical) return frames::counts_n;
            if (std::holds_alternative<std::span<const std::int32_t>>(values)) return frames::counts;
            return std::nullopt;
        case FrameKind::grid:
            if (physical) return frames::grid_n;
            if (std::holds_alternative<std::span<const std::uint16_t>>(values)) return frames::grid;
            return std::nullopt;
        case FrameKind::components:
            break;
    }
    if (physical) return frames::components;
    return std::nullopt;
}

Outcome check_layout(const PlateLayout& layout, const std::filesystem::path& path) {
    std::size_t cells = 0;
    for (const Plate& plate : layout.plates) cells += plate.cells.size();
    const std::size_t values = values_per_frame(layout);
    if (values == 0 || layout.plates.size() > most_plates || cells > most_cells ||
        values > most_grid_values) {
        return Problem{ProblemKind::bad_input, path.string(), "a recording cannot hold plates of this layout",
                       "see docs/recording_format.md for its bounds"};
    }
    return Done{};
}

}  // namespace

struct RecordingWriter::State {
    State(std::filesystem::path target_path, RecordingInfo facts)
        : target(std::move(target_path)),
          temporary(temporary_beside(target)),
          info(std::move(facts)),
          file(temporary, target) {}
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        file.close();
        std::error_code ignored;
        if (!published) std::filesystem::remove(temporary, ignored);
    }

    void make_columns(const recording::DatasetFormat& format, std::size_t element_bytes) {
        const auto add = [&](const recording::DatasetFormat& stamp, std::size_t bytes) {
            return std::make_unique<ChunkedColumn>(file, stamp, std::vector<std::uint64_t>{}, bytes,
                                                   recording::most_chunk_frames);
        };
        counter = add(frames::counter, sizeof(std::uint64_t));
        device_time = add(frames::device_time, sizeof(std::uint64_t));
        host_time = add(frames::host_time, sizeof(std::int64_t));
        inputs = add(frames::inputs, sizeof(std::uint16_t));
        const std::size_t frame_bytes = element_bytes * values_per_frame(info.device.layout);
        values = std::make_unique<ChunkedColumn>(file, format, frame_shape(info.device.layout), element_bytes,
                                                 chunk_frames_for(frame_bytes));
    }

    std::filesystem::path target;
    std::filesystem::path temporary;
    RecordingInfo info;
    h5::FileWriter file;
    std::unique_ptr<ChunkedColumn> counter;
    std::unique_ptr<ChunkedColumn> device_time;
    std::unique_ptr<ChunkedColumn> host_time;
    std::unique_ptr<ChunkedColumn> inputs;
    std::unique_ptr<ChunkedColumn> values;
    std::size_t value_alternative = 0;
    std::uint64_t frame_count = 0;
    bool published = false;
};

RecordingWriter::RecordingWriter(std::unique_ptr<State> state) : state_(std::move(state)) {}
RecordingWriter::RecordingWriter(RecordingWriter&&) noexcept = default;
RecordingWriter& RecordingWriter::operator=(RecordingWriter&&) noexcept = default;
RecordingWriter::~RecordingWriter() = default;

Result<RecordingWriter> RecordingWriter::create(const std::filesystem::path& path,
                                                const RecordingInfo& info) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) return exists_already(path);
    if (Outcome possible = check_layout(info.device.layout, path); !possible.ok()) return possible.problem();
    auto state = std::make_unique<State>(path, info);
    if (state->info.uuid.empty()) state->info.uuid = new_uuid();
    state->file.make_group(frames::group);
    if (!state->file.outcome().ok()) return state->file.outcome().problem();
    return RecordingWriter(std::move(state));
}

Outcome RecordingWriter::append(const FrameBlock& block) {
    for (std::size_t i = 0; i < block.size(); ++i) {
        if (Outcome done = append(block.frame(i)); !done.ok()) return done;
    }
    return Done{};
}

Outcome RecordingWriter::append(const FrameView& frame) {
    State& state = *state_;
    const bool first = !state.values;
    const auto format = value_format(state.info.device.layout.kind, frame.values);
    if (!format || value_count(frame.values) != values_per_frame(state.info.device.layout) ||
        (!first && frame.values.index() != state.value_alternative)) {
        return Problem{ProblemKind::bad_input, "frame " + std::to_string(state.frame_count),
                       "its values do not fit the layout of the plates", ""};
    }
    const std::span<const std::byte> bytes =
        std::visit([](const auto& values) { return std::as_bytes(values); }, frame.values);
    if (first) {
        state.value_alternative = frame.values.index();
        state.make_columns(*format, bytes.size() / value_count(frame.values));
    }
    const auto number = [](const auto& value) { return std::as_bytes(std::span(&value, 1)); };
    state.counter->append(number(frame.stamp.counter));
    state.device_time->append(number(frame.stamp.device_time_us));
    state.host_time->append(number(frame.stamp.host_time_ns));
    state.inputs->append(number(frame.stamp.inputs));
    state.values->append(bytes);
    ++state.frame_count;
    return state.file.outcome();
}

Outcome RecordingWriter::close(RecordingInfo final_facts) {
    State& state = *state_;
    if (final_facts.uuid.empty()) final_facts.uuid = state.info.uuid;
    if (!state.values) {
        const FrameKind kind = state.info.device.layout.kind;
        const bool is_grid = kind == FrameKind::grid;
        state.make_columns(is_grid                    ? frames::grid
                           : kind == FrameKind::cells ? frames::counts
                                                      : frames::components,
                           is_grid                    ? 2
                           : kind == FrameKind::cells ? 4
                                                      : 8);
    }
    state.file.make_group(recording::checksums::group);
    const auto finish = [&](ChunkedColumn& column, const recording::DatasetFormat& checksums) {
        column.finish();
        state.file.put(checksums, {column.checksums().size()}, column.checksums());
    };
    finish(*state.counter, recording::checksums::counter);
    finish(*state.device_time, recording::checksums::device_time);
    finish(*state.host_time, recording::checksums::host_time);
    finish(*state.inputs, recording::checksums::inputs);
    finish(*state.values, recording::checksums::values);
    final_facts.frame_count = state.frame_count;
    final_facts.device.layout = state.info.device.layout;
    write_facts(state.file, final_facts);
    state.file.close();
    if (!state.file.outcome().ok()) return state.file.outcome();

    Result<RecordingReader> written = RecordingReader::open(state.temporary);
    if (!written.ok()) return written.problem();
    const RecordingCheck check = written.value().check();
    if (check.facts != Facts::as_written || !check.damaged.empty() ||
        written.value().frame_count() != state.frame_count) {
        return Problem{ProblemKind::disk_failed, state.temporary.string(),
                       "what was written is not what can be read back", "check the disk"};
    }
    Outcome named = publish(state.temporary, state.target);
    state.published = named.ok();
    return named;
}

}  // namespace footing
