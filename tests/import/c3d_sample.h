#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/import/c3d_file.h"
#include "acquisition/import/c3d_geometry.h"
#include "acquisition/import/c3d_numbers.h"

namespace footing::test {

/// A C3D file made up by a test, byte for byte from the public description of the format (c3d.org). Plain
/// data: set what the test needs, then ask for the bytes.
struct C3dSample {
    enum class Storage { words, unsigned_words, reals };

    C3dByteOrder order = C3dByteOrder::intel;
    Storage storage = Storage::reals;
    double point_rate_hz = 100.0;
    std::size_t samples_per_frame = 10;
    std::size_t points = 2;
    std::size_t first_frame = 1;
    std::string length_unit = "mm";
    double unit_m = 1e-3;

    struct PlateSample {
        int type = 2;
        std::array<C3dVector, 4> corners_m{};
        C3dVector origin_m{};
        std::vector<double> matrix;  ///< 36, first index fastest
    };
    std::vector<PlateSample> plates;
    std::vector<std::vector<double>> channels;  ///< physical values of each channel over time
    std::vector<double> scale;                  ///< of each channel; 1 where absent
    std::vector<double> offset;                 ///< of each channel; 0 where absent
    double general_scale = 1.0;
    std::vector<std::string> units;  ///< of each channel
    std::array<int, 2> zero{0, 0};
    struct Event {
        double time_s;
        std::string label;
        std::string context;
    };
    std::vector<Event> events;

    [[nodiscard]] std::vector<std::byte> bytes() const;
};

/// Those bytes as a file in memory; `bytes` must live on.
[[nodiscard]] C3dBytes in_memory(const std::vector<std::byte>& bytes);

/// A real number in four bytes, in the order of a processor.
[[nodiscard]] std::array<std::byte, 4> real_bytes(float value, C3dByteOrder order);

/// Corners of a plate: its centre, its own x and y axes, and its sizes along them.
[[nodiscard]] std::array<C3dVector, 4> corners_of(const C3dVector& centre, const C3dVector& x,
                                                  const C3dVector& y, double size_x_m, double size_y_m);

/// What the channels of a plate read while a foot presses on it: the ground's force on the foot `force_n`
/// acts at `cop_m` from the plate's centre, both in the plate's own axes (z into the floor), with a free
/// moment `twist_n_m` about z. From statics alone. Types 2, 3 (origin: half distances, depth) and 4 (by
/// solving the matrix).
[[nodiscard]] std::vector<double> channels_under(const C3dSample::PlateSample& plate,
                                                 const C3dVector& force_n, const C3dVector& cop_m,
                                                 double twist_n_m, double moment_unit_n_m);

}  // namespace footing::test
