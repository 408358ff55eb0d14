#include "acquisition/record/frame_columns.h"

#include <span>
#include <vector>

namespace footing {

namespace {

std::vector<std::uint64_t> frame_shape(const PlateLayout& layout) {
    if (layout.kind == FrameKind::grid && layout.grid) return {layout.grid->rows, layout.grid->columns};
    return {values_per_frame(layout)};
}

}  // namespace

FrameTable table_of_frames() {
    namespace frames = recording::frames;
    namespace sums = recording::checksums;
    return {frames::counter,   frames::device_time, frames::host_time, frames::inputs, sums::counter,
            sums::device_time, sums::host_time,     sums::inputs,      sums::values};
}

FrameTable table_of(const recording::DeviceDatasets& device) {
    return {device.counter,
            device.device_time,
            device.host_time,
            device.inputs,
            device.counter_checksums,
            device.device_time_checksums,
            device.host_time_checksums,
            device.inputs_checksums,
            device.value_checksums};
}

void FrameColumns::make(const recording::DatasetFormat& format, std::size_t element_bytes) {
    const auto add = [&](const recording::DatasetFormat& stamp, std::size_t bytes) {
        return std::make_unique<ChunkedColumn>(file_, stamp, std::vector<std::uint64_t>{}, bytes,
                                               recording::most_chunk_frames);
    };
    counter_ = add(table_.counter, sizeof(std::uint64_t));
    device_time_ = add(table_.device_time, sizeof(std::uint64_t));
    host_time_ = add(table_.host_time, sizeof(std::int64_t));
    inputs_ = add(table_.inputs, sizeof(std::uint16_t));
    const std::size_t frame_bytes = element_bytes * values_per_frame(layout_);
    values_ = std::make_unique<ChunkedColumn>(file_, format, frame_shape(layout_), element_bytes,
                                              chunk_frames_for(frame_bytes));
}

bool FrameColumns::append(const FrameView& frame, const std::optional<recording::DatasetFormat>& format) {
    const bool first = !values_;
    if (!format || value_count(frame.values) != values_per_frame(layout_) ||
        (!first && frame.values.index() != value_alternative_)) {
        return false;
    }
    const std::span<const std::byte> bytes =
        std::visit([](const auto& values) { return std::as_bytes(values); }, frame.values);
    if (first) {
        value_alternative_ = frame.values.index();
        make(*format, bytes.size() / value_count(frame.values));
    }
    const auto number = [](const auto& value) { return std::as_bytes(std::span(&value, 1)); };
    counter_->append(number(frame.stamp.counter));
    device_time_->append(number(frame.stamp.device_time_us));
    host_time_->append(number(frame.stamp.host_time_ns));
    inputs_->append(number(frame.stamp.inputs));
    values_->append(bytes);
    ++frames_;
    return true;
}

void FrameColumns::finish(const recording::DatasetFormat& format, std::size_t element_bytes) {
    if (!values_) make(format, element_bytes);
    const auto finish = [&](ChunkedColumn& column, const recording::DatasetFormat& checksums) {
        column.finish();
        file_.put(checksums, {column.checksums().size()}, column.checksums());
    };
    finish(*counter_, table_.counter_checksums);
    finish(*device_time_, table_.device_time_checksums);
    finish(*host_time_, table_.host_time_checksums);
    finish(*inputs_, table_.inputs_checksums);
    finish(*values_, table_.value_checksums);
}

}  // namespace footing
