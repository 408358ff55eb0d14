#include "viewer/window/changed_parts.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <utility>

namespace footing {

namespace {

constexpr int tile_px = 32;
constexpr std::uint64_t odd_factor = 0x9E3779B97F4A7C15U;  // 2^64 over the golden ratio: spreads bits well
constexpr int unchanged = -1;

std::uint64_t mixed(std::uint64_t sum, std::uint64_t next) {
    sum = (sum ^ next) * odd_factor;
    return sum ^ (sum >> 31U);
}

std::uint64_t bits(float a, float b) {
    std::uint32_t low = 0;
    std::uint32_t high = 0;
    std::memcpy(&low, &a, sizeof low);
    std::memcpy(&high, &b, sizeof high);
    return std::uint64_t{high} << 32U | low;
}

std::uint64_t number_of(const ImDrawVert& vertex) {
    return mixed(mixed(mixed(1, bits(vertex.pos.x, vertex.pos.y)), bits(vertex.uv.x, vertex.uv.y)),
                 vertex.col);
}

std::uint64_t number_of(const ImDrawCmd& command) {
    return mixed(mixed(mixed(1, bits(command.ClipRect.x, command.ClipRect.y)),
                       bits(command.ClipRect.z, command.ClipRect.w)),
                 reinterpret_cast<std::uintptr_t>(command.TextureId));
}

/// The tile that a px lies in, held to those that there are; what is no number lies in the first.
std::int16_t tile_at(float px, std::size_t tiles) {
    const float tile = std::floor(px / static_cast<float>(tile_px));
    if (!(tile > 0.0F)) return 0;
    return static_cast<std::int16_t>(std::min(tile, static_cast<float>(tiles - 1)));
}

}  // namespace

/// Calls with the place of each tile that is covered.
template <typename Visit>
void ChangedParts::each_tile(const Cover& cover, Visit visit) const {
    for (int row = cover.from_row; row <= cover.to_row; ++row) {
        const std::size_t first = static_cast<std::size_t>(row) * columns_;
        for (int column = cover.from_column; column <= cover.to_column; ++column)
            visit(first + static_cast<std::size_t>(column));
    }
}

const std::vector<PixelBox>& ChangedParts::compare(const ImDrawData& frame, PixelSize size) {
    const bool anew = columns_ == 0 || size != size_;
    size_ = size;
    columns_ = static_cast<std::size_t>((size.width + tile_px - 1) / tile_px);
    rows_ = static_cast<std::size_t>((size.height + tile_px - 1) / tile_px);
    now_.assign(columns_ * rows_, 0);
    covers_.resize(static_cast<std::size_t>(frame.CmdListsCount));
    for (std::size_t list = 0; list < covers_.size(); ++list)
        mark_tiles(*frame.CmdLists[list], covers_[list]);
    part_of_.assign(now_.size(), unchanged);
    parts_.clear();
    if (anew) {
        parts_.push_back({0, 0, size.width, size.height});
        std::ranges::fill(part_of_, 0);
    } else {
        join_tiles();
    }
    std::swap(before_, now_);
    return parts_;
}

void ChangedParts::mark_tiles(const ImDrawList& list, std::vector<Cover>& covers) {
    vertices_.clear();
    for (const ImDrawVert& vertex : list.VtxBuffer) vertices_.push_back(number_of(vertex));
    covers.clear();
    for (const ImDrawCmd& command : list.CmdBuffer) {
        const std::uint64_t of_command = number_of(command);
        for (unsigned at = 0; at + 2 < command.ElemCount; at += 3) {
            const ImDrawIdx* corner = list.IdxBuffer.Data + command.IdxOffset + at;
            const std::size_t a = command.VtxOffset + corner[0];
            const std::size_t b = command.VtxOffset + corner[1];
            const std::size_t c = command.VtxOffset + corner[2];
            const ImDrawVert* vertices = list.VtxBuffer.Data;
            const Cover cover =
                cover_of({vertices[a].pos, vertices[b].pos, vertices[c].pos}, command.ClipRect);
            covers.push_back(cover);
            const std::uint64_t triangle =
                mixed(mixed(mixed(of_command, vertices_[a]), vertices_[b]), vertices_[c]);
            each_tile(cover, [&](std::size_t tile) { now_[tile] = mixed(now_[tile], triangle); });
        }
    }
}

ChangedParts::Cover ChangedParts::cover_of(const std::array<ImVec2, 3>& corners, const ImVec4& clip) const {
    const auto [left, right] = std::minmax({corners[0].x, corners[1].x, corners[2].x});
    const auto [top, bottom] = std::minmax({corners[0].y, corners[1].y, corners[2].y});
    if (!(left < clip.z && right > clip.x && top < clip.w && bottom > clip.y)) return {};
    // A px more on each side: what a corner's fraction rounds to is the driver's affair.
    return {tile_at(std::max(left, clip.x) - 1.0F, columns_), tile_at(std::max(top, clip.y) - 1.0F, rows_),
            tile_at(std::min(right, clip.z) + 1.0F, columns_),
            tile_at(std::min(bottom, clip.w) + 1.0F, rows_)};
}

/// Runs of changed tiles in a row; one with the run above it where both are as wide.
void ChangedParts::join_tiles() {
    const auto edge = [](std::size_t tiles, int most) {
        return std::min(static_cast<int>(tiles) * tile_px, most);
    };
    for (std::size_t row = 0; row < rows_; ++row) {
        const std::size_t first = row * columns_;
        for (std::size_t column = 0; column < columns_; ++column) {
            if (now_[first + column] == before_[first + column]) continue;
            std::size_t end = column + 1;
            while (end < columns_ && now_[first + end] != before_[first + end]) ++end;
            const PixelBox run{edge(column, size_.width), edge(row, size_.height), edge(end, size_.width),
                               edge(row + 1, size_.height)};
            int part = row > 0 ? part_of_[first - columns_ + column] : unchanged;
            if (part != unchanged) {
                PixelBox& above = parts_[static_cast<std::size_t>(part)];
                const bool as_wide =
                    above.left == run.left && above.right == run.right && above.bottom == run.top;
                if (as_wide) {
                    above.bottom = run.bottom;
                } else {
                    part = unchanged;
                }
            }
            if (part == unchanged) {
                part = static_cast<int>(parts_.size());
                parts_.push_back(run);
            }
            std::fill(part_of_.begin() + static_cast<std::ptrdiff_t>(first + column),
                      part_of_.begin() + static_cast<std::ptrdiff_t>(first + end), part);
            column = end;  // the tile there did not change
        }
    }
}

void ChangedParts::keep_parts(ImDrawList& list, std::size_t which) const {
    const auto none = std::numeric_limits<std::size_t>::max();
    std::vector<std::vector<ImDrawIdx>> corners(parts_.size());
    std::vector<std::size_t> newest(parts_.size(), none);  // triangle of each part
    ImVector<ImDrawCmd> commands;
    ImVector<ImDrawIdx> indices;
    std::size_t triangle = 0;
    for (const ImDrawCmd& command : list.CmdBuffer) {
        for (unsigned at = 0; at + 2 < command.ElemCount; at += 3, ++triangle) {
            const ImDrawIdx* corner = list.IdxBuffer.Data + command.IdxOffset + at;
            each_tile(covers_[which][triangle], [&](std::size_t tile) {
                if (part_of_[tile] == unchanged) return;
                const auto part = static_cast<std::size_t>(part_of_[tile]);
                if (std::exchange(newest[part], triangle) != triangle)
                    corners[part].insert(corners[part].end(), corner, corner + 3);
            });
        }
        for (std::size_t part = 0; part < parts_.size(); ++part) {
            if (corners[part].empty()) continue;
            ImDrawCmd kept = command;
            const PixelBox& box = parts_[part];
            kept.ClipRect = {std::max(kept.ClipRect.x, static_cast<float>(box.left)),
                             std::max(kept.ClipRect.y, static_cast<float>(box.top)),
                             std::min(kept.ClipRect.z, static_cast<float>(box.right)),
                             std::min(kept.ClipRect.w, static_cast<float>(box.bottom))};
            kept.IdxOffset = static_cast<unsigned>(indices.Size);
            kept.ElemCount = static_cast<unsigned>(corners[part].size());
            for (const ImDrawIdx corner : corners[part]) indices.push_back(corner);
            commands.push_back(kept);
            corners[part].clear();
        }
    }
    list.CmdBuffer.swap(commands);
    list.IdxBuffer.swap(indices);
}

}  // namespace footing
