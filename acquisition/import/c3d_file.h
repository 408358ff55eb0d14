#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/import/c3d_numbers.h"
#include "acquisition/import/c3d_parameters.h"

namespace footing {

/// Where the bytes of a C3D file come from: a file, or memory in a test.
struct C3dBytes {
    std::uint64_t size = 0;
    /// Reads up to as many bytes as the span holds from an offset; returns how many there were.
    std::function<std::size_t(std::uint64_t, std::span<std::byte>)> read_at;
};

struct C3dEvent {
    double time_s = 0.0;  ///< from the first frame in the file
    std::string label;
};

/// One C3D file: its parameters, and its analog channels in physical units. Memory: the parameters (at most
/// 1 MB of them are read) and one block of data.
class C3dFile {
  public:
    /// Fails with bad_input, naming `place`: no C3D file, damaged, or sizes that contradict each other.
    [[nodiscard]] static Result<C3dFile> open(C3dBytes bytes, const std::string& place);

    [[nodiscard]] const std::string& place() const { return place_; }
    [[nodiscard]] const C3dParameters& parameters() const { return parameters_; }
    [[nodiscard]] std::size_t channel_count() const { return channels_; }
    [[nodiscard]] double analog_rate_hz() const { return analog_rate_hz_; }
    /// Sampling instants of the analog channels that the file really holds.
    [[nodiscard]] std::uint64_t sample_count() const { return frames_ * samples_per_frame_; }
    [[nodiscard]] std::size_t samples_per_point_frame() const { return samples_per_frame_; }
    /// 3-D frames that the file says it has and that are not there: it was cut off.
    [[nodiscard]] std::uint64_t missing_point_frames() const { return missing_frames_; }

    /// Samples [first, first + count) of these channels (0-based, below channel_count), cut off at the end:
    /// (stored - OFFSET) * SCALE * GEN_SCALE. Shape: one row a sample, one column a channel. Fails with
    /// bad_input when the file cannot be read.
    [[nodiscard]] Result<std::vector<double>> read(std::uint64_t first, std::size_t count,
                                                   std::span<const std::size_t> channels) const;

    /// Of the EVENT group or, where there is none, of the header; in the file's order.
    [[nodiscard]] std::vector<C3dEvent> events() const;

  private:
    C3dFile(C3dBytes bytes, std::string place, std::vector<std::byte> header, C3dByteOrder order,
            C3dParameters parameters);
    [[nodiscard]] Outcome measure();
    void read_scales();
    [[nodiscard]] std::vector<C3dEvent> header_events() const;

    C3dBytes bytes_;
    std::string place_;
    std::vector<std::byte> header_bytes_;
    C3dByteOrder order_;
    C3dParameters parameters_;

    enum class Storage { signed_words, unsigned_words, reals } storage_ = Storage::signed_words;
    std::uint64_t data_offset_ = 0;
    std::size_t points_ = 0;
    std::size_t channels_ = 0;
    std::size_t samples_per_frame_ = 0;
    std::uint64_t frame_bytes_ = 0;
    std::uint64_t frames_ = 0;
    std::uint64_t missing_frames_ = 0;
    double point_rate_hz_ = 0.0;
    double analog_rate_hz_ = 0.0;
    double first_frame_ = 1.0;
    std::vector<double> scale_;   ///< of each channel, GEN_SCALE in it
    std::vector<double> offset_;  ///< of each channel, as stored
};

}  // namespace footing
