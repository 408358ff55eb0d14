#pragma once

#include <cstdint>
#include <cstring>
#include <span>
#include <vector>

#include "acquisition/record/chunk_codec.h"
#include "acquisition/record/h5_writer.h"

namespace footing {

/// One of the datasets of /frames while it is written: collects one chunk of values, then shuffles, deflates
/// and writes it.
class ChunkedColumn {
  public:
    ChunkedColumn(h5::FileWriter& file, const recording::DatasetFormat& format,
                  const std::vector<std::uint64_t>& frame_shape, std::size_t element_bytes,
                  std::uint64_t chunk_frames);

    /// The values of one frame: as many bytes as the column was made for.
    void append(std::span<const std::byte> frame) {
        std::memcpy(values_.data() + filled_ * frame_bytes_, frame.data(), frame_bytes_);
        if (++filled_ == dataset_.chunk_frames) write_chunk();
    }

    /// Writes the last chunk, padded with zeros. Then checksums() is complete: one a chunk.
    void finish();
    [[nodiscard]] std::span<const std::uint32_t> checksums() const { return checksums_; }

  private:
    void write_chunk();

    h5::FileWriter& file_;
    std::size_t element_bytes_;
    std::size_t frame_bytes_;
    h5::GrowingDataset dataset_;
    std::vector<std::byte> values_;
    std::vector<std::byte> shuffled_;
    std::vector<std::uint32_t> checksums_;
    Deflater deflater_;
    std::uint64_t filled_ = 0;
    std::uint64_t written_ = 0;
};

/// Frames in a chunk, so that it holds about recording::chunk_bytes.
[[nodiscard]] std::uint64_t chunk_frames_for(std::size_t frame_bytes);

}  // namespace footing
