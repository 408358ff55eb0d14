#include "acquisition/record/dataset_reader.h"

#include <algorithm>
#include <array>
#include <cstring>

#include "acquisition/decode/crc32c.h"

namespace footing {

DatasetReader::DatasetReader(const ReadOnlyFile& file, const h5::Dataset& dataset)
    : file_(file), dataset_(dataset), row_bytes_(dataset.type.bytes) {
    const std::vector<std::uint64_t>& shape = dataset.dimensions;
    if (!shape.empty()) rows_ = shape[0];
    for (std::size_t k = 1; k < shape.size(); ++k) row_bytes_ *= static_cast<std::size_t>(shape[k]);
    if (dataset.chunk_dimensions.empty()) {
        rows_together_ = std::max<std::uint64_t>(rows_, 1);
        return;
    }
    rows_together_ = dataset.chunk_dimensions[0];
    chunk_bytes_ = dataset.type.bytes;
    for (const std::uint32_t dimension : dataset.chunk_dimensions) chunk_bytes_ *= dimension;
    for (std::size_t k = 1; k < shape.size(); ++k) {
        chunks_across_ *= (shape[k] + dataset.chunk_dimensions[k] - 1) / dataset.chunk_dimensions[k];
    }
}

DatasetReader::Verdict DatasetReader::read(std::uint64_t first, std::span<std::byte> into,
                                           ChunkRoom& room) const {
    if (into.empty()) return Verdict::whole;
    if (dataset_.chunk_dimensions.empty()) {
        if (!dataset_.compact.empty()) {
            const std::size_t from = static_cast<std::size_t>(first) * row_bytes_;
            std::memcpy(into.data(), dataset_.compact.data() + from, into.size());
            return Verdict::whole;
        }
        return file_.read_at(dataset_.address + first * row_bytes_, into) == into.size() ? Verdict::whole
                                                                                         : Verdict::damaged;
    }
    const std::uint64_t end = first + into.size() / row_bytes_;
    for (std::uint64_t row = first / rows_together_ * rows_together_; row < end; row += rows_together_) {
        const std::span<const h5::Chunk> band = chunks_of(row);
        if (band.size() != chunks_across_) return Verdict::damaged;
        for (const h5::Chunk& chunk : band) {
            if (decode(chunk, room) == Verdict::damaged) return Verdict::damaged;
            copy(chunk, room.values, first, into);
        }
    }
    return Verdict::whole;
}

bool DatasetReader::has_row(std::uint64_t row) const {
    return dataset_.chunk_dimensions.empty() ||
           chunks_of(row / rows_together_ * rows_together_).size() == chunks_across_;
}

std::optional<std::uint32_t> DatasetReader::checksum_of_band(std::uint64_t first_row, ChunkRoom& room) const {
    if (dataset_.chunk_dimensions.empty()) return 0;
    const std::span<const h5::Chunk> band = chunks_of(first_row);
    if (band.size() != chunks_across_) return std::nullopt;
    for (const h5::Chunk& chunk : band) {
        if (decode(chunk, room) == Verdict::damaged) return std::nullopt;
    }
    return chunks_across_ == 1 ? crc32c(room.values) : 0;
}

DatasetReader::Verdict DatasetReader::decode(const h5::Chunk& chunk, ChunkRoom& room) const {
    room.stored.resize(chunk.stored_bytes);
    room.values.resize(chunk_bytes_);
    if (file_.read_at(chunk.address, room.stored) != room.stored.size()) return Verdict::damaged;
    const auto was_applied = [&](h5::Filter filter) {
        for (std::size_t i = 0; i < dataset_.filters.size(); ++i) {
            if (dataset_.filters[i] == filter) return (chunk.skipped_filters >> i & 1U) == 0;
        }
        return false;
    };
    const bool shuffled = was_applied(h5::Filter::shuffle) && dataset_.type.bytes > 1;
    std::vector<std::byte>* inflated = &room.stored;
    if (was_applied(h5::Filter::deflate)) {
        inflated = shuffled ? &room.shuffled : &room.values;
        inflated->resize(chunk_bytes_);
        if (room.inflater.inflate(room.stored, *inflated) == Inflater::Verdict::damaged)
            return Verdict::damaged;
    }
    if (inflated->size() != chunk_bytes_) return Verdict::damaged;
    if (shuffled) {
        unshuffle(*inflated, dataset_.type.bytes, room.values);
    } else if (inflated != &room.values) {
        std::memcpy(room.values.data(), inflated->data(), chunk_bytes_);
    }
    return Verdict::whole;
}

/// The chunks whose first row is `first_row`; they are sorted by their origins.
std::span<const h5::Chunk> DatasetReader::chunks_of(std::uint64_t first_row) const {
    const auto begin =
        std::lower_bound(dataset_.chunks.begin(), dataset_.chunks.end(), first_row,
                         [](const h5::Chunk& chunk, std::uint64_t row) { return chunk.origin[0] < row; });
    auto end = begin;
    while (end != dataset_.chunks.end() && end->origin[0] == first_row) ++end;
    return {begin, end};
}

/// Copies what a chunk has of the rows from `first` on. A chunk may reach beyond the dataset on every side.
void DatasetReader::copy(const h5::Chunk& chunk, std::span<const std::byte> values, std::uint64_t first,
                         std::span<std::byte> into) const {
    const std::size_t element = dataset_.type.bytes;
    const std::uint64_t end = std::min(first + into.size() / row_bytes_, rows_);
    const std::uint64_t from = std::max(first, chunk.origin[0]);
    const std::uint64_t to = std::min<std::uint64_t>(end, chunk.origin[0] + dataset_.chunk_dimensions[0]);
    if (from >= to) return;
    // Missing dimensions are of length one.
    const auto& shape = dataset_.dimensions;
    const auto& chunk_shape = dataset_.chunk_dimensions;
    const std::array<std::uint64_t, 2> across{shape.size() > 2 ? shape[1] : 1,
                                              shape.size() > 1 ? shape.back() : 1};
    const std::array<std::uint64_t, 2> chunk_across{shape.size() > 2 ? chunk_shape[1] : 1U,
                                                    shape.size() > 1 ? chunk_shape.back() : 1U};
    const std::array<std::uint64_t, 2> origin{shape.size() > 2 ? chunk.origin[1] : 0,
                                              shape.size() > 2   ? chunk.origin[2]
                                              : shape.size() > 1 ? chunk.origin[1]
                                                                 : 0};
    if (origin[0] >= across[0] || origin[1] >= across[1]) return;
    const std::size_t chunk_row_bytes = static_cast<std::size_t>(chunk_across[0] * chunk_across[1]) * element;
    const std::size_t skipped = static_cast<std::size_t>(from - chunk.origin[0]) * chunk_row_bytes;
    std::byte* target = into.data() + static_cast<std::size_t>(from - first) * row_bytes_;
    if (chunk_row_bytes == row_bytes_) {
        std::memcpy(target, values.data() + skipped, static_cast<std::size_t>(to - from) * row_bytes_);
        return;
    }
    const std::uint64_t lines = std::min(chunk_across[0], across[0] - origin[0]);
    const std::size_t line_bytes =
        static_cast<std::size_t>(std::min(chunk_across[1], across[1] - origin[1])) * element;
    for (std::uint64_t row = from; row < to; ++row) {
        for (std::uint64_t line = 0; line < lines; ++line) {
            const std::size_t source = static_cast<std::size_t>(row - chunk.origin[0]) * chunk_row_bytes +
                                       static_cast<std::size_t>(line * chunk_across[1]) * element;
            const std::size_t place =
                static_cast<std::size_t>((origin[0] + line) * across[1] + origin[1]) * element;
            std::memcpy(into.data() + static_cast<std::size_t>(row - first) * row_bytes_ + place,
                        values.data() + source, line_bytes);
        }
    }
}

}  // namespace footing
