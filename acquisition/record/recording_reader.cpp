#include "acquisition/record/recording_reader.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <cstring>
#include <functional>
#include <optional>
#include <thread>
#include <utility>

#include "acquisition/decode/crc32c.h"
#include "acquisition/record/dataset_reader.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/frame_columns.h"
#include "acquisition/record/h5_structure.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/recording_facts_reader.h"
#include "acquisition/record/recording_format_check.h"

namespace footing {

namespace {

namespace frames = recording::frames;

/// Place of the host's times among the datasets of the frames.
constexpr std::size_t host_time_dataset = 3;

/// Rows of one dataset that lie in one chunk.
struct Piece {
    std::size_t dataset = 0;
    std::uint64_t first = 0;
    std::uint64_t count = 0;
};

/// Less than this is decoded sooner than a thread is started.
constexpr std::size_t worth_a_thread_bytes = std::size_t{1} << 20;

/// Runs work(i, room) for each i < count, on this thread and, if there is enough to do, on a second one.
class TwoThreads {
  public:
    void run(std::size_t count, std::size_t bytes, const std::function<void(std::size_t, ChunkRoom&)>& work) {
        std::atomic<std::size_t> next{0};
        const auto loop = [&](ChunkRoom& room) {
            for (std::size_t i = next++; i < count; i = next++) work(i, room);
        };
        if (count < 2 || bytes < worth_a_thread_bytes || std::thread::hardware_concurrency() < 2) {
            loop(rooms_[0]);
            return;
        }
        std::thread helper([&] { loop(rooms_[1]); });
        loop(rooms_[0]);
        helper.join();
    }

  private:
    std::array<ChunkRoom, 2> rooms_;
};

template <typename Value>
void spread(std::span<const std::byte> column, std::span<FrameStamp> stamps, Value FrameStamp::*member) {
    for (std::size_t i = 0; i < stamps.size(); ++i) {
        std::memcpy(&(stamps[i].*member), column.data() + i * sizeof(Value), sizeof(Value));
    }
}

/// In order, and those that touch joined.
std::vector<DamagedStretch> merged(std::vector<DamagedStretch> stretches) {
    std::sort(stretches.begin(), stretches.end(),
              [](const DamagedStretch& a, const DamagedStretch& b) { return a.first_frame < b.first_frame; });
    std::vector<DamagedStretch> joined;
    for (const DamagedStretch& stretch : stretches) {
        if (!joined.empty() && stretch.first_frame <= joined.back().first_frame + joined.back().frame_count) {
            const std::uint64_t end = std::max(joined.back().first_frame + joined.back().frame_count,
                                               stretch.first_frame + stretch.frame_count);
            joined.back().frame_count = end - joined.back().first_frame;
        } else {
            joined.push_back(stretch);
        }
    }
    return joined;
}

}  // namespace

struct RecordingReader::State {
    State(ReadOnlyFile opened, h5::Structure read, std::string name)
        : file(std::move(opened)), structure(std::move(read)), place(std::move(name)) {}

    /// Frames in five datasets of one length, and the checksums of their chunks.
    struct Table {
        recording::ElementType value_type = recording::ElementType::int32;
        std::size_t values_per_frame = 0;
        std::uint64_t frames = 0;
        std::vector<DatasetReader> datasets;                ///< values first, then the four columns of stamps
        std::vector<std::vector<std::uint32_t>> checksums;  ///< of their chunks, where the file has them
    };

    Table open_table(const recording::DatasetFormat& values, const FrameTable& formats) const {
        Table table;
        table.value_type = values.type;
        for (const recording::DatasetFormat& format :
             {values, formats.counter, formats.device_time, formats.host_time, formats.inputs}) {
            table.datasets.emplace_back(file, structure.datasets.at(std::string(format.path)));
        }
        for (const recording::DatasetFormat& format :
             {formats.value_checksums, formats.counter_checksums, formats.device_time_checksums,
              formats.host_time_checksums, formats.inputs_checksums}) {
            table.checksums.push_back(read_checksums(file, structure, format));
        }
        return table;
    }

    void open_datasets() {
        whole = open_table(value_format_of(structure), table_of_frames());
        whole.values_per_frame = values_per_frame(info.device.layout);
        whole.frames = info.frame_count;
        for (std::size_t i = 0; i < info.devices.size(); ++i) {
            const recording::DeviceDatasets& datasets = recording::device_datasets().at(i);
            devices.push_back(open_table(
                info.device.layout.kind == FrameKind::components ? datasets.components : datasets.counts,
                table_of(datasets)));
            devices.back().values_per_frame = values_per_frame(info.devices[i].device.layout);
            devices.back().frames = info.devices[i].frame_count;
        }
    }

    Result<FrameBlock> read(const Table& table, std::uint64_t first, std::size_t count, HostTimes host_times);
    std::vector<DamagedStretch> damaged_in(const Table& table);

    /// Where the values of a block go.
    static std::span<std::byte> make_values(FrameBlock& block, recording::ElementType type,
                                            std::size_t count) {
        const auto make = [&]<typename Value>(std::vector<Value> values) -> std::span<std::byte> {
            values.resize(count * block.values_per_frame);
            block.values = std::move(values);
            return std::as_writable_bytes(std::span(std::get<std::vector<Value>>(block.values)));
        };
        switch (type) {
            case recording::ElementType::int32:
                return make(std::vector<std::int32_t>());
            case recording::ElementType::uint16:
                return make(std::vector<std::uint16_t>());
            default:
                return make(std::vector<double>());
        }
    }

    [[nodiscard]] Problem damaged(std::uint64_t frame) const {
        return {ProblemKind::bad_input, place + ", frame " + std::to_string(frame),
                "is damaged and cannot be read", "footing recover writes a new file of what is left"};
    }

    ReadOnlyFile file;
    h5::Structure structure;
    std::string place;
    RecordingInfo info;
    Table whole;
    std::vector<Table> devices;
    TwoThreads threads;
};

RecordingReader::RecordingReader(std::unique_ptr<State> state) : state_(std::move(state)) {}
RecordingReader::RecordingReader(RecordingReader&&) noexcept = default;
RecordingReader& RecordingReader::operator=(RecordingReader&&) noexcept = default;
RecordingReader::~RecordingReader() = default;

Result<RecordingReader> RecordingReader::open(const std::filesystem::path& path) {
    Result<ReadOnlyFile> file = ReadOnlyFile::open(path);
    if (!file.ok()) {
        const std::filesystem::path journal = journal_of(path);
        if (is_there(path) || !is_there(journal)) return file.problem();
        if (const auto readable = ReadOnlyFile::open(journal); !readable) return readable.problem();
        return Problem{ProblemKind::bad_input, path.string(),
                       "the recording was never closed, but its journal is there",
                       "footing recover " + journal.string() + " --out NEW.h5 makes a recording of it"};
    }
    if (file.value().size() == 0) {
        return Problem{ProblemKind::bad_input, path.string(), "is empty (0 bytes)", "choose another file"};
    }
    if (looks_like_journal(path)) {
        return Problem{ProblemKind::bad_input, path.string(),
                       "is the journal of a recording that was not closed",
                       "make a recording of it: footing recover " + path.string() + " --out FILE.h5"};
    }
    Result<h5::Structure> structure = h5::read_structure(file.value(), path.string());
    if (!structure.ok()) return structure.problem();
    if (Outcome fit = check_format(structure.value(), path.string()); !fit.ok()) return fit.problem();
    auto state =
        std::make_unique<State>(std::move(file).value(), std::move(structure).value(), path.string());
    Result<RecordingInfo> info = read_facts(state->file, state->structure, state->place);
    if (!info.ok()) return info.problem();
    state->info = std::move(info).value();
    state->open_datasets();
    return RecordingReader(std::move(state));
}

const RecordingInfo& RecordingReader::info() const {
    return state_->info;
}
std::uint64_t RecordingReader::frame_count() const {
    return state_->info.frame_count;
}

Result<FrameBlock> RecordingReader::read(std::uint64_t first, std::size_t count, HostTimes host_times) {
    return state_->read(state_->whole, first, count, host_times);
}

Result<FrameBlock> RecordingReader::read_device(std::size_t device, std::uint64_t first, std::size_t count) {
    return state_->read(state_->devices.at(device), first, count, HostTimes::read);
}

Result<FrameBlock> RecordingReader::State::read(const Table& table, std::uint64_t first, std::size_t count,
                                                HostTimes host_times) {
    FrameBlock block;
    block.values_per_frame = table.values_per_frame;
    if (first >= table.frames) {
        make_values(block, table.value_type, 0);
        return block;
    }
    count = static_cast<std::size_t>(std::min<std::uint64_t>(count, table.frames - first));
    // A hostile file may claim any number of frames; what is not stored is refused before room is made for
    // it.
    std::vector<Piece> pieces;
    std::size_t bytes = 0;
    for (std::size_t d = 0; d < table.datasets.size(); ++d) {
        if (d == host_time_dataset && host_times == HostTimes::left_out) continue;
        const DatasetReader& dataset = table.datasets[d];
        const std::uint64_t together = dataset.rows_together();
        bytes += count * dataset.row_bytes();
        for (std::uint64_t at = first; at < first + count;) {
            const std::uint64_t end = std::min<std::uint64_t>((at / together + 1) * together, first + count);
            if (!dataset.has_row(at)) return damaged(at);
            pieces.push_back({d, at, end - at});
            at = end;
        }
    }
    block.stamps.resize(count);
    const std::span<std::byte> values = make_values(block, table.value_type, count);
    constexpr std::uint64_t none = ~std::uint64_t{0};
    std::atomic<std::uint64_t> first_damaged{none};
    threads.run(pieces.size(), bytes, [&](std::size_t i, ChunkRoom& room) {
        const Piece& piece = pieces[i];
        const DatasetReader& dataset = table.datasets[piece.dataset];
        const auto from = static_cast<std::size_t>(piece.first - first);
        const auto rows = static_cast<std::size_t>(piece.count);
        std::span<std::byte> into = values;
        if (piece.dataset == 0) {
            into = values.subspan(from * dataset.row_bytes(), rows * dataset.row_bytes());
        } else {
            room.column.resize(rows * dataset.row_bytes());
            into = room.column;
        }
        if (dataset.read(piece.first, into, room) == DatasetReader::Verdict::damaged) {
            std::uint64_t known = first_damaged;
            while (piece.first < known && !first_damaged.compare_exchange_weak(known, piece.first)) {
            }
            return;
        }
        const std::span<FrameStamp> stamps = std::span(block.stamps).subspan(from, rows);
        switch (piece.dataset) {
            case 1:
                spread(into, stamps, &FrameStamp::counter);
                break;
            case 2:
                spread(into, stamps, &FrameStamp::device_time_us);
                break;
            case host_time_dataset:
                spread(into, stamps, &FrameStamp::host_time_ns);
                break;
            case 4:
                spread(into, stamps, &FrameStamp::inputs);
                break;
            default:
                break;
        }
    });
    if (first_damaged != none) return damaged(first_damaged);
    return block;
}

RecordingCheck RecordingReader::check() {
    RecordingCheck check;
    check.facts = facts_are_whole(state_->structure, state_->info) ? Facts::as_written : Facts::changed;
    check.damaged = state_->damaged_in(state_->whole);
    for (const State::Table& device : state_->devices) check.devices.push_back(state_->damaged_in(device));
    return check;
}

bool RecordingCheck::devices_are_whole() const {
    return std::all_of(devices.begin(), devices.end(),
                       [](const auto& stretches) { return stretches.empty(); });
}

std::vector<DamagedStretch> RecordingReader::State::damaged_in(const Table& table) {
    // Every chunk is decoded and its checksum compared, which also sees chunks that have changed places.
    std::vector<Piece> bands;
    std::vector<std::size_t> first_band;
    for (std::size_t d = 0; d < table.datasets.size(); ++d) {
        first_band.push_back(bands.size());
        const std::uint64_t together = table.datasets[d].rows_together();
        for (std::uint64_t row = 0; row < table.frames; row += together) {
            bands.push_back({d, row, std::min<std::uint64_t>(together, table.frames - row)});
        }
    }
    std::vector<std::optional<std::uint32_t>> checksums(bands.size());
    threads.run(bands.size(), worth_a_thread_bytes, [&](std::size_t i, ChunkRoom& room) {
        checksums[i] = table.datasets[bands[i].dataset].checksum_of_band(bands[i].first, room);
    });
    std::vector<DamagedStretch> stretches;
    for (std::size_t i = 0; i < bands.size(); ++i) {
        const std::vector<std::uint32_t>& stored = table.checksums[bands[i].dataset];
        const std::size_t band = i - first_band[bands[i].dataset];
        const bool as_written = checksums[i] && (band >= stored.size() || stored[band] == *checksums[i]);
        if (!as_written) stretches.push_back({bands[i].first, bands[i].count});
    }
    return merged(std::move(stretches));
}

}  // namespace footing
