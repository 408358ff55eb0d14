#pragma once

#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <system_error>
#include <vector>

#include "acquisition/record/file_steps.h"
#include "acquisition/record/journal_writer.h"
#include "acquisition/record/recording.h"
#include "acquisition/record/recording_reader.h"
#include "acquisition/record/recording_writer.h"

/// Made-up recordings, and the ways in which files get hurt.
namespace footing::samples {

/// A folder of its own, gone with its contents at the end.
class ScratchFolder {
  public:
    ScratchFolder() : path_(std::filesystem::temp_directory_path() / ("footing-test-" + new_uuid())) {
        std::filesystem::create_directories(path_);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// Two plates of four cells, as common in the trade; 1 kHz.
inline DeviceDescription two_plates() {
    DeviceDescription device;
    device.name = "sample plates";
    device.serial = 4711;
    device.rate_hz = 1000.0;
    device.full_scale_counts = 8388607.0;
    device.newtons_per_count = 0.001;
    const std::vector<PointM> corners{{-0.15, 0.2}, {0.15, 0.2}, {-0.15, -0.2}, {0.15, -0.2}};
    device.layout.kind = FrameKind::cells;
    device.layout.plates = {{"left", {-0.2, 0.0}, corners}, {"right", {0.2, 0.0}, corners}};
    return device;
}

inline DeviceDescription small_mat() {
    DeviceDescription device;
    device.name = "sample mat";
    device.serial = 12;
    device.rate_hz = 200.0;
    device.layout.kind = FrameKind::grid;
    device.layout.grid = Grid{6, 5, 0.01, 0.012, {0.001, -0.002}};
    return device;
}

inline DeviceDescription component_plates() {
    DeviceDescription device = two_plates();
    device.layout.kind = FrameKind::components;
    for (Plate& plate : device.layout.plates) plate.cells.clear();
    return device;
}

inline RecordingInfo info_for(const DeviceDescription& device) {
    RecordingInfo info;
    info.uuid = "6f1d3c50-6bb1-4c1e-9b4e-0c0ffee00001";
    info.zone = "Europe/Berlin";
    info.start = {5'000'000'000, 1'764'066'044'123'000'000};
    info.end = {65'000'000'000, 1'764'066'104'123'000'000};
    info.clock = {1.00002, 4.2e9, 31000.0, 21000.0, 900000.0, {}};
    info.hand = Hand::left;
    info.program_version = "0.1.0";
    info.origin = "UDP 127.0.0.1:9750";
    info.device = device;
    info.calibration_json = R"({"method": "nominal"})";
    return info;
}

/// The frame with this index: 1 ms apart, values that follow from the index alone, so that an invented or
/// moved sample shows.
inline FrameStamp stamp_at(std::uint64_t index) {
    return {100 + index, 5'000'000 + 1000 * index,
            5'000'000'000 + static_cast<std::int64_t>(index) * 1'000'000,
            static_cast<std::uint16_t>(index % 100 == 0 ? 1 : 0)};
}
inline std::int32_t count_at(std::uint64_t index, std::size_t cell) {
    const double wave = 100000.0 * std::sin(0.01 * static_cast<double>(index) + static_cast<double>(cell));
    return static_cast<std::int32_t>(wave) + static_cast<std::int32_t>((index * 2654435761U >> 7U) % 301);
}

inline FrameBlock cell_frames(std::uint64_t first, std::size_t count, std::size_t cells = 8) {
    FrameBlock block;
    block.values_per_frame = cells;
    std::vector<std::int32_t> values;
    for (std::size_t i = 0; i < count; ++i) {
        block.stamps.push_back(stamp_at(first + i));
        for (std::size_t cell = 0; cell < cells; ++cell) values.push_back(count_at(first + i, cell));
    }
    block.values = std::move(values);
    return block;
}

template <typename Value>
FrameBlock frames_of(std::uint64_t first, std::size_t count, std::size_t values_per_frame) {
    FrameBlock block;
    block.values_per_frame = values_per_frame;
    std::vector<Value> values;
    for (std::size_t i = 0; i < count; ++i) {
        block.stamps.push_back(stamp_at(first + i));
        for (std::size_t v = 0; v < values_per_frame; ++v) {
            values.push_back(static_cast<Value>((first + i) * 7 + v) / static_cast<Value>(2));
        }
    }
    block.values = std::move(values);
    return block;
}

/// Whether every frame is the one that stamp_at and count_at give for its counter: nothing invented, nothing
/// moved.
inline bool frames_are_true(const FrameBlock& block) {
    const auto& values = std::get<std::vector<std::int32_t>>(block.values);
    for (std::size_t i = 0; i < block.size(); ++i) {
        const std::uint64_t index = block.stamps[i].counter - 100;
        if (!(block.stamps[i] == stamp_at(index))) return false;
        for (std::size_t cell = 0; cell < block.values_per_frame; ++cell) {
            if (values[i * block.values_per_frame + cell] != count_at(index, cell)) return false;
        }
    }
    return true;
}

inline Outcome write_recording(const std::filesystem::path& path, const RecordingInfo& info,
                               const FrameBlock& frames) {
    Result<RecordingWriter> writer = RecordingWriter::create(path, info);
    if (!writer.ok()) return writer.problem();
    if (Outcome done = writer.value().append(frames); !done.ok()) return done;
    return writer.value().close(info);
}

inline std::vector<char> bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline void put_bytes(const std::filesystem::path& path, const std::vector<char>& bytes) {
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

/// Tiny reproducible chance (xorshift64*, Marsaglia 2003, Vigna 2016).
class Chance {
  public:
    explicit Chance(std::uint64_t seed) : state_(seed | 1U) {}
    std::uint64_t next() {
        state_ ^= state_ >> 12U;
        state_ ^= state_ << 25U;
        state_ ^= state_ >> 27U;
        return state_ * 2685821657736338717ULL;
    }
    std::uint64_t below(std::uint64_t limit) { return next() % limit; }

  private:
    std::uint64_t state_;
};

}  // namespace footing::samples
