// Feeds arbitrary bytes to everything that reads what comes over a line: datagrams, the COBS stream, text
// lines, descriptions, the assembly of grids and the order of frames. The first byte chooses the door; what
// comes out is checked against what must hold for any input.

#include <array>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <string_view>
#include <vector>

#include "acquisition/decode/cobs.h"
#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/description.h"
#include "acquisition/decode/frame_order.h"
#include "acquisition/decode/grid_assembler.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/decode/packet_decoder.h"
#include "acquisition/decode/packet_stream.h"
#include "acquisition/decode/text_stream.h"

namespace {

using namespace footing;
using Bytes = std::span<const std::byte>;

void must(bool held) {
    if (!held) std::abort();
}

/// Checks that frames and gaps cover the counter without overlap, and reads every value.
class CheckingSink final : public FrameSink {
  public:
    void take_frame(const FrameView& frame) override {
        if (newest_) {
            must(frame.stamp.counter == newest_->counter + 1 + missing_);
            must(frame.stamp.device_time_us >= newest_->device_time_us);
        }
        missing_ = 0;
        newest_ = frame.stamp;
        std::visit(
            [this](const auto& values) {
                for (const auto value : values) sum_ += static_cast<double>(value);
            },
            frame.values);
    }
    void take_gap(const Gap& gap) override {
        must(newest_.has_value() && gap.after_counter == newest_->counter);
        missing_ = gap.frames_missing;
    }
    [[nodiscard]] double sum() const { return sum_; }

  private:
    std::optional<FrameStamp> newest_;
    std::uint64_t missing_ = 0;
    double sum_ = 0.0;
};

void check_packet(const Packet& packet) {
    std::array<std::int32_t, most_cells> counts{};
    std::array<double, most_plates * components_per_plate> components{};
    switch (packet.kind) {
        case wire::PacketKind::description:
            (void)parse_description(description_text(packet), "fuzz");
            break;
        case wire::PacketKind::cells:
            copy_counts(packet, counts);
            break;
        case wire::PacketKind::components:
            copy_components(packet, components);
            break;
        case wire::PacketKind::grid_band:
            must(packet.payload.size() == 2U * packet.count);
            break;
    }
}

/// The fuzzer cannot guess a checksum; this makes it right, so that what lies behind it is reached too.
std::vector<std::byte> with_right_checksum(Bytes bytes) {
    std::vector<std::byte> packet(bytes.begin(), bytes.end());
    if (packet.size() < wire::least_packet_bytes) return packet;
    const std::size_t checked = packet.size() - wire::checksum_bytes;
    write_little_endian(packet, checked, crc32c(std::span(packet).first(checked)));
    return packet;
}

void read_datagram(Bytes bytes) {
    const auto packet = decode_datagram(bytes);
    if (packet) check_packet(*packet);
    // Stepping one byte on invalid always ends.
    for (std::size_t at = 0; at < bytes.size();) {
        const DecodedPacket decoded = decode_packet(bytes.subspan(at));
        if (decoded.verdict == Verdict::need_more) break;
        must(decoded.verdict == Verdict::invalid ||
             (decoded.length > 0 && decoded.length <= bytes.size() - at));
        at += decoded.verdict == Verdict::frame ? decoded.length : 1;
    }
}

void read_stream(Bytes bytes) {
    PacketStream stream;
    while (!bytes.empty()) {
        const auto step = stream.step(bytes);
        must(step.taken > 0 && step.taken <= bytes.size());
        if (step.verdict == Verdict::frame) check_packet(step.packet);
        bytes = bytes.subspan(step.taken);
    }
}

void read_text(Bytes bytes) {
    TextStream stream;
    FrameOrderOptions options;
    options.time_width = TimeWidth::bits_32;
    FrameOrder order(options, most_cells);
    CheckingSink sink;
    std::int64_t host_time_ns = 0;
    while (!bytes.empty()) {
        const auto step = stream.step(bytes);
        must(step.taken > 0 && step.taken <= bytes.size());
        bytes = bytes.subspan(step.taken);
        host_time_ns += 1'000'000;
        if (step.verdict == Verdict::frame) {
            order.take({step.frame.counter, step.frame.microseconds, host_time_ns, 0}, step.counts, sink);
        }
    }
    order.release(sink);
}

void read_description(Bytes bytes) {
    const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    const auto device = parse_description(text, "fuzz");
    if (!device) return;
    must(values_per_frame(device.value().layout) <= most_grid_values);
    const auto again = parse_description(description_json(device.value()), "fuzz");
    must(again.ok());
    must(values_per_frame(again.value().layout) == values_per_frame(device.value().layout));
}

void assemble_grid(Bytes bytes) {
    constexpr std::size_t rows = 6;
    constexpr std::size_t columns = 4;
    GridAssembler grid(rows, columns);
    FrameOrder order({}, rows * columns);
    CheckingSink sink;
    const std::array<std::uint16_t, rows * columns> values{};
    std::int64_t host_time_ns = 0;
    // Each four bytes are one band: counter (two bytes), first row, row count.
    for (; bytes.size() >= 4; bytes = bytes.subspan(4)) {
        Packet band;
        band.kind = wire::PacketKind::grid_band;
        band.head.counter = read_little_endian<std::uint16_t>(bytes, 0) - 32768U;
        band.head.device_time_us = std::uint64_t{1} << 40U | (std::uint64_t{band.head.counter} * 1000);
        band.rows = rows;
        band.columns = columns;
        band.first_row = static_cast<std::uint16_t>(std::to_integer<unsigned>(bytes[2]) % rows);
        band.row_count =
            static_cast<std::uint16_t>(1 + std::to_integer<unsigned>(bytes[3]) % (rows - band.first_row));
        band.count = static_cast<std::uint16_t>(band.row_count * columns);
        band.payload = std::as_bytes(std::span(values)).first(2U * band.count);
        const auto step = grid.take(band);
        must(step.verdict != Verdict::invalid);
        if (step.verdict != Verdict::frame) continue;
        must(step.values.size() == rows * columns);
        host_time_ns += 1'000'000;
        order.take({step.head.counter, step.head.device_time_us, host_time_ns, 0}, step.values, sink);
    }
    grid.give_up();
    order.release(sink);
}

void order_frames(Bytes bytes) {
    FrameOrder order({}, 1);
    CheckingSink sink;
    const std::array<double, 1> value{1.0};
    std::int64_t host_time_ns = 0;
    std::uint64_t taken = 0;
    std::uint32_t counter = 4294967200U;
    std::uint64_t base_time_us = std::uint64_t{1} << 40U;
    // Each three bytes are one frame: step of the counter, error of the device's clock, step of the host's.
    for (; bytes.size() >= 3; bytes = bytes.subspan(3)) {
        const auto step = read_little_endian<std::int8_t>(bytes, 0);
        if (step == 127) counter = base_time_us = 0;
        counter += static_cast<std::uint32_t>(step);
        host_time_ns += std::to_integer<std::int64_t>(bytes[2]) * 10'000'000;
        const std::uint64_t clock_error_us = std::to_integer<std::uint64_t>(bytes[1]) * 100;
        const std::uint64_t time_us = base_time_us + std::uint64_t{counter} * 1000 + clock_error_us;
        order.take({counter, time_us, host_time_ns, 0}, std::span<const double>(value), sink);
        ++taken;
        if (taken % 16 == 0) order.pass_time(host_time_ns, sink);
    }
    order.release(sink);
    must(order.frames() + order.duplicated() + order.reordered() == taken);
}

void round_trip_cobs(Bytes bytes) {
    std::vector<std::byte> encoded = cobs_encode(bytes);
    must(encoded.size() <= cobs_most_bytes(bytes.size()));
    const auto length = cobs_decode(encoded, encoded);
    must(length == bytes.size());
    std::vector<std::byte> into(bytes.size() + 1);
    (void)cobs_decode(bytes, into);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const Bytes bytes = std::as_bytes(std::span(data + 1, size - 1));
    switch (data[0] % 9) {
        case 0:
            read_datagram(bytes);
            break;
        case 1:
            read_datagram(with_right_checksum(bytes));
            break;
        case 2:
            read_stream(bytes);
            break;
        case 3: {
            std::vector<std::byte> line = cobs_encode(with_right_checksum(bytes));
            line.push_back(wire::stream_delimiter);
            read_stream(line);
            break;
        }
        case 4:
            read_text(bytes);
            break;
        case 5:
            read_description(bytes);
            break;
        case 6:
            assemble_grid(bytes);
            break;
        case 7:
            order_frames(bytes);
            break;
        default:
            round_trip_cobs(bytes);
            break;
    }
    return 0;
}
