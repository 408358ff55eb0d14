#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/record/recording_format.h"

namespace footing::h5 {

/// A dataset that grows along its first dimension, chunk by chunk; the chunks come compressed.
struct GrowingDataset {
    std::int64_t handle = -1;
    std::size_t rank = 0;
    std::uint64_t chunk_frames = 0;
};

/// The HDF5 library, as far as a recording needs it; only this and h5_disk include it. After the first
/// failure all further calls do nothing; outcome() tells the first one. One thread at a time.
class FileWriter {
  public:
    /// Creates the file exclusively, in the earliest format that can hold it. Problems name `known_as`: what
    /// the person asked for, where `path` is only a temporary name.
    FileWriter(const std::filesystem::path& path, std::filesystem::path known_as);
    FileWriter(const FileWriter&) = delete;
    FileWriter& operator=(const FileWriter&) = delete;
    ~FileWriter();

    void make_group(std::string_view path);

    /// Attributes of a group or dataset ("/" is the root).
    void put_attribute(std::string_view object, std::string_view name, std::string_view text);
    void put_attribute(std::string_view object, std::string_view name, std::uint32_t number);
    void put_attribute(std::string_view object, std::string_view name, std::uint64_t number);
    void put_attribute(std::string_view object, std::string_view name, double number);

    /// A whole small dataset with its unit; `values` in row-major order. Shape () is a single value.
    template <typename Value>
    void put(const recording::DatasetFormat& format, const std::vector<std::uint64_t>& shape,
             std::span<const Value> values) {
        put_bytes(format, shape, std::as_bytes(values));
    }
    /// Texts as fixed-length strings as long as the longest.
    void put_texts(const recording::DatasetFormat& format, const std::vector<std::uint64_t>& shape,
                   std::span<const std::string> texts);

    /// `frame_shape`: the dimensions after the first.
    [[nodiscard]] GrowingDataset make_growing(const recording::DatasetFormat& format,
                                              const std::vector<std::uint64_t>& frame_shape,
                                              std::uint64_t chunk_frames);
    /// Writes a whole chunk, shuffled and deflated, at a frame that is a multiple of the chunk's length; the
    /// dataset is `frames_then` frames long afterwards.
    void put_chunk(const GrowingDataset& dataset, std::uint64_t first_frame, std::uint64_t frames_then,
                   std::span<const std::byte> compressed);

    /// Writes everything out and closes; then outcome() is final.
    void close();
    [[nodiscard]] Outcome outcome() const;

  private:
    void put_bytes(const recording::DatasetFormat& format, const std::vector<std::uint64_t>& shape,
                   std::span<const std::byte> bytes);
    void put_number(std::string_view object, std::string_view name, std::int64_t type, const void* number);
    void put_on(std::int64_t object, std::string_view name, std::int64_t type, const void* value);
    void put_unit(std::int64_t dataset, std::string_view unit);
    [[nodiscard]] bool usable() const { return file_ >= 0 && disk_error_ == 0 && outcome_.ok(); }
    void fail(std::string_view what);

    std::filesystem::path known_as_;
    int disk_error_ = 0;  ///< of the system, the first one
    std::int64_t file_ = -1;
    std::vector<std::int64_t> growing_;
    Outcome outcome_ = Done{};
};

}  // namespace footing::h5
