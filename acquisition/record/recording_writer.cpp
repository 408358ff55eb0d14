#include "acquisition/record/recording_writer.h"

#include <algorithm>
#include <deque>
#include <optional>
#include <system_error>
#include <utility>
#include <vector>

#include "acquisition/record/file_steps.h"
#include "acquisition/record/frame_columns.h"
#include "acquisition/record/recording_facts_writer.h"
#include "acquisition/record/recording_reader.h"

namespace footing {

namespace {

namespace frames = recording::frames;

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

/// The same for one of several joined devices, which send counts of cells or components.
std::optional<recording::DatasetFormat> device_format(std::size_t device, FrameKind kind,
                                                      const FrameValues& values) {
    const recording::DeviceDatasets& datasets = recording::device_datasets().at(device);
    const bool counts = std::holds_alternative<std::span<const std::int32_t>>(values);
    const bool physical = std::holds_alternative<std::span<const double>>(values);
    if (kind == FrameKind::cells && counts) return datasets.counts;
    if (kind == FrameKind::components && physical) return datasets.components;
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
          file(temporary, target),
          frames(file, table_of_frames(), info.device.layout) {}
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() {
        file.close();
        std::error_code ignored;
        if (!published) std::filesystem::remove(temporary, ignored);
    }

    Outcome add(FrameColumns& columns, const FrameView& frame,
                const std::optional<recording::DatasetFormat>& format) {
        if (!columns.append(frame, format)) {
            return Problem{ProblemKind::bad_input, "frame " + std::to_string(columns.frames()),
                           "its values do not fit the layout of the plates", ""};
        }
        return file.outcome();
    }

    std::filesystem::path target;
    std::filesystem::path temporary;
    RecordingInfo info;
    h5::FileWriter file;
    FrameColumns frames;
    std::deque<FrameColumns> devices;  ///< of the joined devices
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
    if (info.devices.size() > recording::devices::most) {
        return Problem{ProblemKind::bad_input, path.string(), "a recording cannot hold so many devices",
                       "see docs/recording_format.md for its bounds"};
    }
    auto state = std::make_unique<State>(path, info);
    if (state->info.uuid.empty()) state->info.uuid = new_uuid();
    state->file.make_group(frames::group);
    if (!info.devices.empty()) state->file.make_group(recording::devices::group);
    for (std::size_t i = 0; i < info.devices.size(); ++i) {
        const recording::DeviceDatasets& datasets = recording::device_datasets().at(i);
        state->file.make_group(datasets.group);
        state->devices.emplace_back(state->file, table_of(datasets), info.devices[i].device.layout);
    }
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
    return state.add(state.frames, frame, value_format(state.info.device.layout.kind, frame.values));
}

Outcome RecordingWriter::append_device(std::size_t device, const FrameView& frame) {
    State& state = *state_;
    return state.add(state.devices.at(device), frame,
                     device_format(device, state.info.device.layout.kind, frame.values));
}

Outcome RecordingWriter::close(RecordingInfo final_facts) {
    State& state = *state_;
    if (final_facts.uuid.empty()) final_facts.uuid = state.info.uuid;
    const FrameKind kind = state.info.device.layout.kind;
    state.file.make_group(recording::checksums::group);
    const bool is_grid = kind == FrameKind::grid;
    const bool is_cells = kind == FrameKind::cells;
    state.frames.finish(is_grid    ? frames::grid
                        : is_cells ? frames::counts
                                   : frames::components,
                        is_grid    ? 2
                        : is_cells ? 4
                                   : 8);
    final_facts.frame_count = state.frames.frames();
    final_facts.device.layout = state.info.device.layout;
    final_facts.devices.resize(state.devices.size());
    for (std::size_t i = 0; i < state.devices.size(); ++i) {
        const recording::DeviceDatasets& datasets = recording::device_datasets().at(i);
        state.devices[i].finish(is_cells ? datasets.counts : datasets.components, is_cells ? 4 : 8);
        final_facts.devices[i].frame_count = state.devices[i].frames();
    }
    write_facts(state.file, final_facts);
    state.file.close();
    if (!state.file.outcome().ok()) return state.file.outcome();

    Result<RecordingReader> written = RecordingReader::open(state.temporary);
    if (!written.ok()) return written.problem();
    const RecordingCheck check = written.value().check();
    if (check.facts != Facts::as_written || !check.damaged.empty() ||
        written.value().frame_count() != state.frames.frames() || !check.devices_are_whole()) {
        return Problem{ProblemKind::disk_failed, state.temporary.string(),
                       "what was written is not what can be read back", "check the disk"};
    }
    Outcome named = publish(state.temporary, state.target);
    state.published = named.ok();
    return named;
}

}  // namespace footing
