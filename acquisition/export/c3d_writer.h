#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"

namespace footing {

/// A force plate as C3D describes it, its loads about the middle of its surface. Axes of the file: x to the
/// golfer's right, y ahead, z up.
struct C3dPlateSeries {
    std::string label;  ///< short, for the channels' names: "L", "R", "1"
    double centre_x_m = 0.0;
    double centre_y_m = 0.0;
    double half_width_m = 0.0;   ///< along x
    double half_length_m = 0.0;  ///< along y
    /// Ground's forces on the foot, N, and moments about the middle of the surface, N m: Fx Fy Fz Mx My Mz,
    /// in the axes of the file. Each as long as the others.
    std::array<std::vector<double>, 6> components;
};

/// One more column of numbers, such as the trigger.
struct C3dChannel {
    std::string label;
    std::string description;
    std::vector<double> values;
};

struct C3dEventMark {
    double time_s = 0.0;  ///< from the first sample
    std::string label;
};

/// Where the loads come from and how well they are known: a group of our own (c3d_provenance.h), so that an
/// import of this program knows as much as the recording did.
struct C3dOrigin {
    std::string start_utc;           ///< 2026-11-25T10:20:44.123Z; empty: not known
    std::string zone;                ///< IANA name
    std::string calibration_method;  ///< as in Calibration, and so are the next
    std::string calibration_made;
    std::string calibration_valid_until;
    double relative_u = 0.0;
    double common_relative_u = 0.0;
    bool only_ratios = false;
};

struct C3dContent {
    double rate_hz = 0.0;
    std::vector<C3dPlateSeries> plates;
    std::vector<C3dChannel> channels;
    std::vector<C3dEventMark> events;
    std::string program;
    std::string program_version;
    C3dOrigin origin;
};

/// What the file format could not hold.
struct C3dLeftOut {
    std::uint64_t samples = 0;  ///< at the end, fewer than one 3-D frame
    std::size_t events = 0;     ///< the last ones
};

struct C3dBytesMade {
    std::string bytes;
    C3dLeftOut left_out;
};

/// A C3D file (open standard, c3d.org) of force plates of type 2 without 3-D points: little-endian, real
/// numbers, the ground's forces on the feet in each plate's own axes, whose z points into the floor. A count
/// of frames has 16 bits there: a long recording gets several samples in one 3-D frame. Fails with bad_input
/// when there is no sample, no plate, or columns differ in length.
[[nodiscard]] Result<C3dBytesMade> make_c3d(const C3dContent& content);

}  // namespace footing
