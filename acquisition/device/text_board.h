#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

#include "acquisition/decode/text_stream.h"

namespace footing {

/// A simple board sends lines of counts and says nothing of itself. This watches its first lines and
/// concludes how many cells it has and how fast it samples.
class TextBoardObserver {
  public:
    void take(const TextFrame& frame);
    /// Known after a few lines with the same number of cells.
    [[nodiscard]] std::optional<std::size_t> cells() const;
    /// By the board's own counter and clock, over all lines since the number of cells last changed; 0 before
    /// cells() is known or when its clock stands still.
    [[nodiscard]] double rate_hz() const;

  private:
    std::size_t cells_ = 0;
    std::size_t lines_ = 0;
    TextFrame first_;
    TextFrame newest_;
};

/// What is assumed of a board that comes without a layout file: two cells, a left and a right one; four, a
/// plate with a cell in each corner; eight, a left and a right plate of that kind; else, one plate with its
/// cells in a line from left to right. The positions are those of a plate of 0.3 m x 0.5 m: shares do not
/// depend on them, centres of pressure do.
[[nodiscard]] DeviceDescription assumed_text_board(std::size_t cells, double rate_hz);

}  // namespace footing
