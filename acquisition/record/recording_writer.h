#pragma once

#include <filesystem>
#include <memory>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/result.h"
#include "acquisition/record/recording.h"

namespace footing {

/// Writes one recording (HDF5, docs/recording_format.md). Everything goes into a temporary file beside the
/// target; close() checks it by reading it back, syncs it and gives it its name. Nothing existing is ever
/// overwritten (R14, R15). Destroyed without close(): the temporary file is removed and no recording appears.
/// One thread at a time. Memory: one chunk a dataset, about 1 MB, whatever the length.
class RecordingWriter {
  public:
    /// `info` must hold the device and its layout; its frame count, losses, gaps, notes, swings, outcome, end
    /// and clock are those given to close(). An empty uuid is filled in. Fails with disk_failed when `path`
    /// exists already or its folder cannot be written, with bad_input when the layout exceeds the bounds of
    /// plate_layout.h.
    [[nodiscard]] static Result<RecordingWriter> create(const std::filesystem::path& path,
                                                        const RecordingInfo& info);

    RecordingWriter(RecordingWriter&&) noexcept;
    RecordingWriter& operator=(RecordingWriter&&) noexcept;
    ~RecordingWriter();

    /// Appends frames. Values are raw counts (int32 for cells, uint16 for a grid) or physical values (double,
    /// N or N m); the first frame decides which, later ones must be alike. Fails with bad_input on another
    /// shape, disk_failed on a full disk; after a failure only destruction makes sense.
    [[nodiscard]] Outcome append(const FrameBlock& block);
    [[nodiscard]] Outcome append(const FrameView& frame);
    /// The same for the frames as they came from one of several devices: `device` is its place in
    /// RecordingInfo::devices as create() was given it; int32 counts of cells or components.
    [[nodiscard]] Outcome append_device(std::size_t device, const FrameView& frame);

    /// Writes what is not frames, verifies, syncs, renames. `final_facts` replaces what create() was given;
    /// its frame_count is set to the frames appended.
    [[nodiscard]] Outcome close(RecordingInfo final_facts);

  private:
    struct State;
    explicit RecordingWriter(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

}  // namespace footing
