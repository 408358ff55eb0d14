#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/record/chunk_codec.h"
#include "acquisition/record/h5_structure.h"
#include "acquisition/record/read_only_file.h"

namespace footing {

/// What one thread needs to decode chunks.
struct ChunkRoom {
    Inflater inflater;
    std::vector<std::byte> stored;
    std::vector<std::byte> shuffled;
    std::vector<std::byte> values;
    std::vector<std::byte> column;  ///< for the caller
};

/// Values of a dataset of at most three dimensions, row by row (a row: one index of the first dimension).
/// The const functions may be called from several threads, each with its own room.
class DatasetReader {
  public:
    DatasetReader(const ReadOnlyFile& file, const h5::Dataset& dataset);

    [[nodiscard]] std::uint64_t rows() const { return rows_; }
    [[nodiscard]] std::size_t row_bytes() const { return row_bytes_; }

    /// Rows that are stored together, so that reading them in one go is cheapest.
    [[nodiscard]] std::uint64_t rows_together() const { return rows_together_; }

    enum class Verdict { whole, damaged };

    /// Rows [first, first + into.size() / row_bytes()), which must exist.
    [[nodiscard]] Verdict read(std::uint64_t first, std::span<std::byte> into, ChunkRoom& room) const;

    /// Whether the chunks that hold this row are in the file.
    [[nodiscard]] bool has_row(std::uint64_t row) const;

    /// CRC-32C of the values of the chunk that begins at this row; nothing when it cannot be decoded. Where
    /// values are not chunked or chunks lie side by side, which the writer never makes, it is 0 and only
    /// tells that they decode.
    [[nodiscard]] std::optional<std::uint32_t> checksum_of_band(std::uint64_t first_row,
                                                                ChunkRoom& room) const;

  private:
    [[nodiscard]] Verdict decode(const h5::Chunk& chunk, ChunkRoom& room) const;
    [[nodiscard]] std::span<const h5::Chunk> chunks_of(std::uint64_t first_row) const;
    void copy(const h5::Chunk& chunk, std::span<const std::byte> values, std::uint64_t first,
              std::span<std::byte> into) const;

    const ReadOnlyFile& file_;
    const h5::Dataset& dataset_;
    std::uint64_t rows_ = 1;
    std::size_t row_bytes_ = 0;
    std::uint64_t rows_together_ = 1;
    std::size_t chunk_bytes_ = 0;
    std::uint64_t chunks_across_ = 1;
};

}  // namespace footing
