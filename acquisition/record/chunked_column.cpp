#include "acquisition/record/chunked_column.h"

#include <algorithm>
#include <bit>

#include "acquisition/decode/crc32c.h"

namespace footing {

namespace {

std::size_t product(const std::vector<std::uint64_t>& shape) {
    std::size_t values = 1;
    for (const std::uint64_t dimension : shape) values *= static_cast<std::size_t>(dimension);
    return values;
}

}  // namespace

std::uint64_t chunk_frames_for(std::size_t frame_bytes) {
    const std::uint64_t fitting = recording::chunk_bytes / std::max<std::size_t>(frame_bytes, 1);
    return std::clamp<std::uint64_t>(std::bit_floor(std::max<std::uint64_t>(fitting, 1)), 1,
                                     recording::most_chunk_frames);
}

ChunkedColumn::ChunkedColumn(h5::FileWriter& file, const recording::DatasetFormat& format,
                             const std::vector<std::uint64_t>& frame_shape, std::size_t element_bytes,
                             std::uint64_t chunk_frames)
    : file_(file),
      element_bytes_(element_bytes),
      frame_bytes_(element_bytes * product(frame_shape)),
      dataset_(file.make_growing(format, frame_shape, chunk_frames)),
      values_(frame_bytes_ * chunk_frames),
      shuffled_(values_.size()) {
    dataset_.chunk_frames = chunk_frames;
}

void ChunkedColumn::finish() {
    if (filled_ == 0) return;
    std::fill(values_.begin() + static_cast<std::ptrdiff_t>(filled_ * frame_bytes_), values_.end(),
              std::byte{0});
    write_chunk();
}

void ChunkedColumn::write_chunk() {
    checksums_.push_back(crc32c(values_));
    shuffle(values_, element_bytes_, shuffled_);
    file_.put_chunk(dataset_, written_, written_ + filled_, deflater_.deflate(shuffled_));
    written_ += filled_;
    filled_ = 0;
}

}  // namespace footing
