#include "acquisition/pipeline/queue_record.h"

#include <cstring>
#include <type_traits>

namespace footing {

static_assert(std::is_trivially_copyable_v<QueueRecordHead>);
static_assert(sizeof(QueueRecordHead) % 8 == 0);

namespace {

using Content = QueueRecordHead::Content;

std::size_t bytes_a_value(Content content) {
    switch (content) {
        case Content::gap:
            return 0;
        case Content::counts:
            return sizeof(std::int32_t);
        case Content::grid:
            return sizeof(std::uint16_t);
        case Content::physical:
            return sizeof(double);
    }
    return 0;
}

/// The bytes were copied from an array of Value, which began its life there with the copy.
template <typename Value>
std::span<const Value> values_in(std::span<const std::byte> bytes, std::size_t count) {
    return {reinterpret_cast<const Value*>(bytes.data()), count};
}

}  // namespace

QueueRecordHead record_head(const FrameView& frame) {
    QueueRecordHead head;
    head.content = static_cast<Content>(frame.values.index() + 1);
    head.value_count = static_cast<std::uint32_t>(value_count(frame.values));
    head.stamp = frame.stamp;
    return head;
}

QueueRecordHead record_head(const Gap& gap) {
    QueueRecordHead head;
    head.gap = gap;
    return head;
}

std::size_t record_bytes(const QueueRecordHead& head) {
    const std::size_t value_bytes = head.value_count * bytes_a_value(head.content);
    return sizeof head + (value_bytes + 7) / 8 * 8;
}

std::size_t most_record_bytes(std::size_t most_values) {
    return sizeof(QueueRecordHead) + most_values * sizeof(double);
}

void write_record(const QueueRecordHead& head, const FrameValues& values, std::span<std::byte> into) {
    std::memcpy(into.data(), &head, sizeof head);
    if (head.value_count == 0) return;
    std::visit(
        [&](const auto& span) { std::memcpy(into.data() + sizeof head, span.data(), span.size_bytes()); },
        values);
}

void hand_out(const QueueRecordHead& head, std::span<const std::byte> values, FrameSink& sink) {
    switch (head.content) {
        case Content::gap:
            sink.take_gap(head.gap);
            return;
        case Content::counts:
            sink.take_frame({head.stamp, values_in<std::int32_t>(values, head.value_count)});
            return;
        case Content::grid:
            sink.take_frame({head.stamp, values_in<std::uint16_t>(values, head.value_count)});
            return;
        case Content::physical:
            sink.take_frame({head.stamp, values_in<double>(values, head.value_count)});
            return;
    }
}

}  // namespace footing
