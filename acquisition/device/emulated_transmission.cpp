#include "acquisition/device/emulated_transmission.h"

#include <algorithm>
#include <cstring>
#include <string>
#include <thread>

#include "acquisition/decode/description.h"
#include "acquisition/decode/text_line.h"
#include "acquisition/decode/wire_encoder.h"
#include "acquisition/device/golfer_chance.h"
#include "acquisition/device/line_pacer.h"

namespace footing {

namespace {

using Bytes = std::vector<std::byte>;
constexpr double most_packets_per_s = 20000.0;

Bytes bytes_of(const std::string& text) {
    Bytes bytes(text.size());
    std::memcpy(bytes.data(), text.data(), text.size());
    return bytes;
}

class Transmission {
  public:
    Transmission(EmulatedDevice& device, EmulatedLine& line, const TransmitSettings& settings,
                 const std::atomic<bool>& stop)
        : device_(device),
          line_(line),
          settings_(settings),
          stop_(stop),
          pacer_(settings.speed, stop),
          chance_(settings.seed ^ 0x4c494e45ULL) {}

    Result<TransmitCount> run() {
        if (Outcome ready = line_.wait_for_reader(stop_); !ready) return ready.problem();
        if (Outcome done = send_first_descriptions(); !done) return done.problem();
        pacer_.start();
        for (std::uint64_t index = 0; going_on(); ++index) {
            const std::optional<FrameView> frame = device_.next();
            if (!frame) break;
            pacer_.wait_until(device_.true_time_s(index));
            if (!going_on()) break;
            if (Outcome done = send_frame(*frame, index); !done) return done.problem();
            ++count_.frames;
            if (pacer_.description_due()) {
                if (Outcome done = send_description(frame->stamp); !done) return done.problem();
            }
        }
        if (stop_) count_.end = TransmitCount::End::stopped;
        if (count_.end == TransmitCount::End::lesson_over) line_.drain(stop_);
        return count_;
    }

  private:
    [[nodiscard]] bool going_on() const { return !stop_ && count_.end != TransmitCount::End::reader_gone; }

    Outcome send_first_descriptions() {
        if (settings_.words == TransmitSettings::Words::text_lines) return Done{};
        FrameStamp before;  // nothing has been sampled yet
        for (int i = 0; i < descriptions_before_frames && going_on(); ++i) {
            if (Outcome done = send_description(before); !done) return done;
            std::this_thread::sleep_for(between_first_descriptions);
        }
        return Done{};
    }

    Outcome send_description(const FrameStamp& newest) {
        if (settings_.words == TransmitSettings::Words::text_lines) return Done{};
        Bytes packet = encode_description(head_of(newest), description_json(device_.description()));
        ++count_.descriptions;
        return put(line_.framing() == EmulatedLine::Framing::stream ? stream_form(packet)
                                                                    : std::move(packet));
    }

    [[nodiscard]] PacketHead head_of(const FrameStamp& stamp) const {
        return {device_.description().serial, static_cast<std::uint32_t>(stamp.counter), stamp.device_time_us,
                stamp.inputs};
    }

    [[nodiscard]] std::vector<Bytes> packets_of(const FrameView& frame) const {
        const PacketHead head = head_of(frame.stamp);
        if (const auto* grid = std::get_if<std::span<const std::uint16_t>>(&frame.values)) {
            const Grid& layout = *device_.description().layout.grid;
            return encode_grid_bands(head, layout.rows, layout.columns, *grid);
        }
        const auto counts = std::get<std::span<const std::int32_t>>(frame.values);
        if (settings_.words == TransmitSettings::Words::text_lines) {
            return {bytes_of(encode_text_line(head.counter, static_cast<std::uint32_t>(head.device_time_us),
                                              counts, TextChecksum::nmea))};
        }
        return {encode_cells(head, counts)};
    }

    Outcome send_frame(const FrameView& frame, std::uint64_t index) {
        const bool in_packets = settings_.words == TransmitSettings::Words::packets;
        const bool on_stream = in_packets && line_.framing() == EmulatedLine::Framing::stream;
        bool whole = true;
        for (Bytes& packet : packets_of(frame)) {
            if (settings_.loss_probability > 0.0 && chance_.happens(settings_.loss_probability)) {
                ++count_.packets_lost;
                whole = false;
                continue;
            }
            Bytes bytes = on_stream ? stream_form(packet) : std::move(packet);
            if (settings_.damage_probability > 0.0 && chance_.happens(settings_.damage_probability)) {
                damage(bytes, line_.framing() == EmulatedLine::Framing::stream ? 1 : 0);
                ++count_.packets_damaged;
                whole = false;
            } else {
                ++count_.packets;
            }
            if (Outcome done = put(bytes); !done) return done;
        }
        if (!whole) count_.lost_frames.push_back(index);
        return Done{};
    }

    /// Flips one to four bits, all different, and leaves the end mark alone so that only this packet suffers.
    void damage(Bytes& bytes, std::size_t end_mark_bytes) {
        const std::uint64_t bits = 8 * (bytes.size() - end_mark_bytes);
        const std::uint64_t first = chance_.number() % bits;
        const std::uint64_t flips = 1 + chance_.number() % 4;
        for (std::uint64_t i = 0; i < flips; ++i) {
            const std::uint64_t bit = (first + i * (1 + bits / 7)) % bits;
            bytes[bit / 8] ^= std::byte{1} << (bit % 8);
        }
    }

    Outcome put(const Bytes& bytes) {
        const auto reader = line_.send(bytes, stop_);
        if (!reader) return reader.problem();
        if (reader.value() == EmulatedLine::Reader::gone) count_.end = TransmitCount::End::reader_gone;
        pacer_.packet_sent();
        return Done{};
    }

    EmulatedDevice& device_;
    EmulatedLine& line_;
    const TransmitSettings& settings_;
    const std::atomic<bool>& stop_;
    LinePacer pacer_;
    Chance chance_;
    TransmitCount count_;
};

}  // namespace

double sensible_speed(const DeviceDescription& description) {
    double packets = 1.0;
    if (description.layout.grid) {
        const std::vector<std::uint16_t> empty(values_per_frame(description.layout), 0);
        packets = static_cast<double>(
            encode_grid_bands({}, description.layout.grid->rows, description.layout.grid->columns, empty)
                .size());
    }
    return std::clamp(most_packets_per_s / (description.rate_hz * packets), 1.0, 50.0);
}

Result<TransmitCount> transmit(EmulatedDevice& device, EmulatedLine& line, const TransmitSettings& settings,
                               const std::atomic<bool>& stop) {
    if (settings.words == TransmitSettings::Words::text_lines && device.description().layout.grid) {
        return Problem{ProblemKind::bad_input, line.name(), "text lines carry load cells, not a mat",
                       "leave the mat or the text lines out"};
    }
    return Transmission(device, line, settings, stop).run();
}

}  // namespace footing
