#pragma once

#include <imgui.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "viewer/window/picture.h"

namespace footing {

/// A rectangle of whole px, y down; right and bottom are the first that do not belong to it.
struct PixelBox {
    int left = 0;
    int top = 0;
    int right = 0;
    int bottom = 0;
    friend bool operator==(const PixelBox&, const PixelBox&) = default;
};

/// Finds out which parts of the screen one frame changes, so that only those need drawing: a running head
/// changes a few strips, most of the screen stands still. The screen is divided into tiles; a tile that the
/// same triangles fall on in the same order as in the frame before looks as it did, and is left alone.
class ChangedParts {
  public:
    /// Compares with the frame given before. The parts do not overlap; none: nothing changed. The first
    /// frame, one of another size, and the next one after forget() change everything.
    [[nodiscard]] const std::vector<PixelBox>& compare(const ImDrawData& frame, PixelSize size);

    /// What was drawn is not there any more, or the same triangles look different now (other fonts, another
    /// ground).
    void forget() { columns_ = 0; }

    /// Leaves in `list`, one of the frame that was compared last, only those triangles that fall on the
    /// parts, each clipped to its part; the vertices stay. `which` is the list's place in the frame.
    void keep_parts(ImDrawList& list, std::size_t which) const;

  private:
    /// The tiles that a triangle falls on, both ends included; none when to_row < from_row.
    struct Cover {
        std::int16_t from_column = 0;
        std::int16_t from_row = 0;
        std::int16_t to_column = -1;
        std::int16_t to_row = -1;
    };
    template <typename Visit>
    void each_tile(const Cover& cover, Visit visit) const;
    void mark_tiles(const ImDrawList& list, std::vector<Cover>& covers);
    [[nodiscard]] Cover cover_of(const std::array<ImVec2, 3>& corners, const ImVec4& clip) const;
    void join_tiles();

    std::size_t columns_ = 0;
    std::size_t rows_ = 0;
    PixelSize size_{};
    std::vector<std::uint64_t> before_;  ///< what falls on each tile, one frame ago
    std::vector<std::uint64_t> now_;     ///< the same, of this frame
    std::vector<int> part_of_;           ///< of each tile: place in parts_; -1: it did not change
    std::vector<PixelBox> parts_;
    std::vector<std::vector<Cover>> covers_;  ///< of each list: of its triangles, in order
    std::vector<std::uint64_t> vertices_;     ///< scratch: one number for each vertex of a list
};

}  // namespace footing
