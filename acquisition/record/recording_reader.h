#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/result.h"
#include "acquisition/record/recording.h"

namespace footing {

/// Frames of a recording that could not be read back: a damaged chunk.
struct DamagedStretch {
    std::uint64_t first_frame = 0;
    std::uint64_t frame_count = 0;
};

/// Whether what a recording says of itself (device, layout, losses, outcome) is what was written.
enum class Facts { as_written, changed };

struct RecordingCheck {
    Facts facts = Facts::as_written;
    std::vector<DamagedStretch> damaged;  ///< in order, apart from each other
    /// The same for the frames as they came of each of several devices.
    std::vector<std::vector<DamagedStretch>> devices;
    [[nodiscard]] bool devices_are_whole() const;
};

/// Whether the host's arrival times of the frames are wanted: who only analyses has no use for them.
enum class HostTimes { read, left_out };

/// Reads one recording (HDF5). The file may come from a stranger: only known groups, types, ranks, sizes and
/// units are taken, no external links or storage, no filters but deflate and shuffle (R22); whatever is wrong
/// is a bad_input that names the place. The file is mapped and must not be changed meanwhile. Not
/// synchronised: one thread at a time; several readers of one file are fine.
class RecordingReader {
  public:
    [[nodiscard]] static Result<RecordingReader> open(const std::filesystem::path& path);

    RecordingReader(RecordingReader&&) noexcept;
    RecordingReader& operator=(RecordingReader&&) noexcept;
    ~RecordingReader();

    /// All but the frames. Stays valid as long as the reader.
    [[nodiscard]] const RecordingInfo& info() const;
    [[nodiscard]] std::uint64_t frame_count() const;

    /// Frames [first, first + count), cut off at the end of the recording; empty beyond it. Decodes on two
    /// threads; blocks of 65,536 frames or more are fastest. Fails with bad_input on a damaged chunk.
    /// Host times that are left out are 0.
    [[nodiscard]] Result<FrameBlock> read(std::uint64_t first, std::size_t count,
                                          HostTimes host_times = HostTimes::read);

    /// The same for the frames as they came from one of several devices; `device`: place in info().devices.
    [[nodiscard]] Result<FrameBlock> read_device(std::size_t device, std::uint64_t first, std::size_t count);

    /// Reads everything and compares it with the checksums in the file.
    [[nodiscard]] RecordingCheck check();

  private:
    struct State;
    explicit RecordingReader(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

}  // namespace footing
