#pragma once

#include <cstddef>
#include <memory>
#include <span>

namespace footing {

/// Byte shuffle as HDF5's filter 2 does it: all first bytes of the elements, then all second bytes, … A rest
/// that is no whole element is copied. `into` is as long as `bytes` and apart from it.
void shuffle(std::span<const std::byte> bytes, std::size_t element_bytes, std::span<std::byte> into);
void unshuffle(std::span<const std::byte> bytes, std::size_t element_bytes, std::span<std::byte> into);

/// Deflate in the zlib wrapping (RFC 1950, HDF5's filter 1) by ISA-L. One thread at a time.
class Deflater {
  public:
    Deflater();
    ~Deflater();
    /// The compressed bytes, valid until the next call; empty when it failed.
    [[nodiscard]] std::span<const std::byte> deflate(std::span<const std::byte> bytes);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

class Inflater {
  public:
    Inflater();
    ~Inflater();
    enum class Verdict { whole, damaged };
    /// Fills `into` exactly. `damaged`: no zlib stream, another length, or a wrong Adler-32 checksum.
    [[nodiscard]] Verdict inflate(std::span<const std::byte> bytes, std::span<std::byte> into);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace footing
