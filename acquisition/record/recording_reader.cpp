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
#include "acquisition/record/h5_structure.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/recording_facts_reader.h"

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

    void open_datasets() {
        value_format = value_format_of(structure);
        for (const recording::DatasetFormat& format :
             {value_format, frames::counter, frames::device_time, frames::host_time, frames::inputs}) {
            const h5::Dataset& dataset = structure.datasets.at(std::string(format.path));
            datasets.emplace_back(file, dataset);
        }
        namespace sums = recording::checksums;
        for (const recording::DatasetFormat& format :
             {sums::values, sums::counter, sums::device_time, sums::host_time, sums::inputs}) {
            checksums.push_back(read_checksums(file, structure, format));
        }
    }

    /// Where the values of a block go.
    std::span<std::byte> make_values(FrameBlock& block, std::size_t count) const {
        const auto make = [&]<typename Value>(std::vector<Value> values) -> std::span<std::byte> {
            values.resize(count * block.values_per_frame);
            block.values = std::move(values);
            return std::as_writable_bytes(std::span(std::get<std::vector<Value>>(block.values)));
        };
        switch (value_format.type) {
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
    recording::DatasetFormat value_format = frames::counts;
    std::vector<DatasetReader> datasets;                ///< values first, then the four columns of stamps
    std::vector<std::vector<std::uint32_t>> checksums;  ///< of their chunks, where the file has them
    TwoThreads threads;
};

RecordingReader::RecordingReader(std::unique_ptr<State> state) : state_(std::move(state)) {}
RecordingReader::RecordingReader(RecordingReader&&) noexcept = default;
RecordingReader& RecordingReader::operator=(RecordingReader&&) noexcept = default;
RecordingReader::~RecordingReader() = default;

Result<RecordingReader> RecordingReader::open(const std::filesystem::path& path) {
    Result<ReadOnlyFile> file = ReadOnlyFile::open(path);
    if (!file.ok()) return file.problem();
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
    State& state = *state_;
    FrameBlock block;
    block.values_per_frame = values_per_frame(state.info.device.layout);
    if (first >= frame_count()) {
        state.make_values(block, 0);
        return block;
    }
    count = static_cast<std::size_t>(std::min<std::uint64_t>(count, frame_count() - first));
    // A hostile file may claim any number of frames; what is not stored is refused before room is made for
    // it.
    std::vector<Piece> pieces;
    std::size_t bytes = 0;
    for (std::size_t d = 0; d < state.datasets.size(); ++d) {
        if (d == host_time_dataset && host_times == HostTimes::left_out) continue;
        const DatasetReader& dataset = state.datasets[d];
        const std::uint64_t together = dataset.rows_together();
        bytes += count * dataset.row_bytes();
        for (std::uint64_t at = first; at < first + count;) {
            const std::uint64_t end = std::min<std::uint64_t>((at / together + 1) * together, first + count);
            if (!dataset.has_row(at)) return state.damaged(at);
            pieces.push_back({d, at, end - at});
            at = end;
        }
    }
    block.stamps.resize(count);
    const std::span<std::byte> values = state.make_values(block, count);
    constexpr std::uint64_t none = ~std::uint64_t{0};
    std::atomic<std::uint64_t> first_damaged{none};
    state.threads.run(pieces.size(), bytes, [&](std::size_t i, ChunkRoom& room) {
        const Piece& piece = pieces[i];
        const DatasetReader& dataset = state.datasets[piece.dataset];
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
    if (first_damaged != none) return state.damaged(first_damaged);
    return block;
}

RecordingCheck RecordingReader::check() {
    State& state = *state_;
    // Every chunk is decoded and its checksum compared, which also sees chunks that have changed places.
    std::vector<Piece> bands;
    std::vector<std::size_t> first_band;
    for (std::size_t d = 0; d < state.datasets.size(); ++d) {
        first_band.push_back(bands.size());
        const std::uint64_t together = state.datasets[d].rows_together();
        for (std::uint64_t row = 0; row < frame_count(); row += together) {
            bands.push_back({d, row, std::min<std::uint64_t>(together, frame_count() - row)});
        }
    }
    std::vector<std::optional<std::uint32_t>> checksums(bands.size());
    state.threads.run(bands.size(), worth_a_thread_bytes, [&](std::size_t i, ChunkRoom& room) {
        checksums[i] = state.datasets[bands[i].dataset].checksum_of_band(bands[i].first, room);
    });
    RecordingCheck check;
    check.facts = facts_are_whole(state.structure, state.info) ? Facts::as_written : Facts::changed;
    for (std::size_t i = 0; i < bands.size(); ++i) {
        const std::vector<std::uint32_t>& stored = state.checksums[bands[i].dataset];
        const std::size_t band = i - first_band[bands[i].dataset];
        const bool as_written = checksums[i] && (band >= stored.size() || stored[band] == *checksums[i]);
        if (!as_written) check.damaged.push_back({bands[i].first, bands[i].count});
    }
    check.damaged = merged(std::move(check.damaged));
    return check;
}

}  // namespace footing
