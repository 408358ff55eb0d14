#include "acquisition/record/chunk_codec.h"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <vector>

#include <isa-l/igzip_lib.h>

namespace footing {

namespace {

// One word a step, its bytes gathered from or spread to the planes: loops that the compiler turns into vector
// code.
template <typename Word>
void unshuffle_words(const std::uint8_t* planes, std::size_t count, std::byte* into) {
    for (std::size_t i = 0; i < count; ++i) {
        Word word = 0;
        for (std::size_t k = 0; k < sizeof(Word); ++k) {
            word = static_cast<Word>(word |
                                     static_cast<Word>(static_cast<Word>(planes[k * count + i]) << (8 * k)));
        }
        std::memcpy(into + i * sizeof(Word), &word, sizeof(Word));
    }
}

template <typename Word>
void shuffle_words(const std::byte* words, std::size_t count, std::uint8_t* planes) {
    for (std::size_t k = 0; k < sizeof(Word); ++k) {
        for (std::size_t i = 0; i < count; ++i) {
            Word word;
            std::memcpy(&word, words + i * sizeof(Word), sizeof(Word));
            planes[k * count + i] = static_cast<std::uint8_t>(word >> (8 * k));
        }
    }
}

}  // namespace

void shuffle(std::span<const std::byte> bytes, std::size_t element_bytes, std::span<std::byte> into) {
    const std::size_t count = bytes.size() / element_bytes;
    auto* planes = reinterpret_cast<std::uint8_t*>(into.data());
    switch (element_bytes) {
        case 2:
            shuffle_words<std::uint16_t>(bytes.data(), count, planes);
            break;
        case 4:
            shuffle_words<std::uint32_t>(bytes.data(), count, planes);
            break;
        case 8:
            shuffle_words<std::uint64_t>(bytes.data(), count, planes);
            break;
        default:
            for (std::size_t i = 0; i < count; ++i) {
                for (std::size_t k = 0; k < element_bytes; ++k)
                    into[k * count + i] = bytes[i * element_bytes + k];
            }
    }
    std::copy(bytes.begin() + static_cast<std::ptrdiff_t>(count * element_bytes), bytes.end(),
              into.begin() + static_cast<std::ptrdiff_t>(count * element_bytes));
}

void unshuffle(std::span<const std::byte> bytes, std::size_t element_bytes, std::span<std::byte> into) {
    const std::size_t count = bytes.size() / element_bytes;
    const auto* planes = reinterpret_cast<const std::uint8_t*>(bytes.data());
    switch (element_bytes) {
        case 2:
            unshuffle_words<std::uint16_t>(planes, count, into.data());
            break;
        case 4:
            unshuffle_words<std::uint32_t>(planes, count, into.data());
            break;
        case 8:
            unshuffle_words<std::uint64_t>(planes, count, into.data());
            break;
        default:
            for (std::size_t i = 0; i < count; ++i) {
                for (std::size_t k = 0; k < element_bytes; ++k)
                    into[i * element_bytes + k] = bytes[k * count + i];
            }
    }
    std::copy(bytes.begin() + static_cast<std::ptrdiff_t>(count * element_bytes), bytes.end(),
              into.begin() + static_cast<std::ptrdiff_t>(count * element_bytes));
}

struct Deflater::State {
    isal_zstream stream{};
    std::vector<std::uint8_t> level_room = std::vector<std::uint8_t>(ISAL_DEF_LVL1_DEFAULT);
    std::vector<std::byte> output;
};

Deflater::Deflater() : state_(std::make_unique<State>()) {}
Deflater::~Deflater() = default;

std::span<const std::byte> Deflater::deflate(std::span<const std::byte> bytes) {
    isal_zstream& stream = state_->stream;
    isal_deflate_init(&stream);
    stream.level = 1;
    stream.level_buf = state_->level_room.data();
    stream.level_buf_size = static_cast<std::uint32_t>(state_->level_room.size());
    stream.gzip_flag = IGZIP_ZLIB;
    stream.end_of_stream = 1;
    // Stored blocks are the worst case; the rest is more room than they need.
    state_->output.resize(bytes.size() + bytes.size() / 8 + 4096);
    stream.next_in = reinterpret_cast<std::uint8_t*>(const_cast<std::byte*>(bytes.data()));
    stream.avail_in = static_cast<std::uint32_t>(bytes.size());
    stream.next_out = reinterpret_cast<std::uint8_t*>(state_->output.data());
    stream.avail_out = static_cast<std::uint32_t>(state_->output.size());
    if (isal_deflate(&stream) != COMP_OK || stream.internal_state.state != ZSTATE_END) return {};
    return std::span<const std::byte>(state_->output).first(stream.total_out);
}

struct Inflater::State {
    inflate_state stream{};
};

Inflater::Inflater() : state_(std::make_unique<State>()) {}
Inflater::~Inflater() = default;

Inflater::Verdict Inflater::inflate(std::span<const std::byte> bytes, std::span<std::byte> into) {
    inflate_state& stream = state_->stream;
    isal_inflate_init(&stream);
    stream.crc_flag = ISAL_ZLIB;
    stream.next_in = reinterpret_cast<std::uint8_t*>(const_cast<std::byte*>(bytes.data()));
    stream.avail_in = static_cast<std::uint32_t>(bytes.size());
    stream.next_out = reinterpret_cast<std::uint8_t*>(into.data());
    stream.avail_out = static_cast<std::uint32_t>(into.size());
    const int code = isal_inflate(&stream);
    const bool whole =
        code == ISAL_DECOMP_OK && stream.block_state == ISAL_BLOCK_FINISH && stream.avail_out == 0;
    return whole ? Verdict::whole : Verdict::damaged;
}

}  // namespace footing
