#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"

namespace footing {

struct PixelSize {
    int width = 1280;
    int height = 720;
    friend bool operator==(const PixelSize&, const PixelSize&) = default;
};

/// What a window shows, as pixels: rows from the top, red green blue, 8 bits each, no gaps between rows.
struct Picture {
    PixelSize size;
    std::vector<std::uint8_t> rgb;
};

/// Writes a PNG so that the picture is whole or absent (write_file_safely). Fails with disk_failed.
[[nodiscard]] Outcome write_png(const Picture& picture, const std::string& path);

/// Reads a PNG of any kind as red green blue on white. Fails with bad_input.
[[nodiscard]] Result<Picture> read_png(const std::string& path);

}  // namespace footing
