#pragma once

#include <cstdint>
#include <memory>
#include <optional>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/record/chunked_column.h"
#include "acquisition/record/h5_writer.h"
#include "acquisition/record/recording_format.h"

namespace footing {

/// Where the frames of one table of a recording go, and the checksums of their chunks.
struct FrameTable {
    recording::DatasetFormat counter, device_time, host_time, inputs;
    recording::DatasetFormat counter_checksums, device_time_checksums, host_time_checksums, inputs_checksums,
        value_checksums;
};

/// /frames, and the frames of one of several joined devices.
[[nodiscard]] FrameTable table_of_frames();
[[nodiscard]] FrameTable table_of(const recording::DeviceDatasets& device);

/// The stamps and values of frames on their way into a recording, column by column.
class FrameColumns {
  public:
    FrameColumns(h5::FileWriter& file, const FrameTable& table, PlateLayout layout)
        : file_(file), table_(table), layout_(std::move(layout)) {}

    /// `format`: of the values, nothing where values of this type cannot be stored. False when the frame does
    /// not fit the layout or the frames before it; nothing is kept of it then.
    [[nodiscard]] bool append(const FrameView& frame, const std::optional<recording::DatasetFormat>& format);
    /// Writes what is left, and the checksums; `format` where there were no frames.
    void finish(const recording::DatasetFormat& format, std::size_t element_bytes);

    [[nodiscard]] std::uint64_t frames() const { return frames_; }
    [[nodiscard]] const PlateLayout& layout() const { return layout_; }

  private:
    void make(const recording::DatasetFormat& format, std::size_t element_bytes);

    h5::FileWriter& file_;
    FrameTable table_;
    PlateLayout layout_;
    std::unique_ptr<ChunkedColumn> counter_;
    std::unique_ptr<ChunkedColumn> device_time_;
    std::unique_ptr<ChunkedColumn> host_time_;
    std::unique_ptr<ChunkedColumn> inputs_;
    std::unique_ptr<ChunkedColumn> values_;
    std::size_t value_alternative_ = 0;
    std::uint64_t frames_ = 0;
};

}  // namespace footing
