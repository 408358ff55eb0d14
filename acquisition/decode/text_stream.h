#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>

#include "acquisition/decode/packet_decoder.h"
#include "acquisition/decode/text_line.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

/// Finds text lines in the bytes of a serial line. Holds at most one line; never allocates.
class TextStream {
  public:
    struct Step {
        Verdict verdict = Verdict::need_more;
        std::size_t taken = 0;                 ///< of the bytes given; call again with the rest
        TextFrame frame;                       ///< for a frame
        std::span<const std::int32_t> counts;  ///< for a frame, valid until the next step
    };

    /// Takes bytes up to the end of the next line. need_more: all were taken. invalid: the line was none of
    /// ours; reading goes on behind it. The first line is passed over, because the port may have been opened
    /// in the middle of it: half a number is a number too. So are empty lines and comments.
    [[nodiscard]] Step step(std::span<const std::byte> bytes);

    /// As if the line had just been opened.
    void reset();

  private:
    [[nodiscard]] Step close(std::size_t taken);

    std::array<char, most_text_line_bytes> line_{};
    std::array<std::int32_t, most_cells> counts_{};
    std::size_t length_ = 0;
    enum class Place { before_first_end, in_line, in_too_long } place_ = Place::before_first_end;
};

}  // namespace footing
