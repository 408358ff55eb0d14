#include "acquisition/device/emulated_transmission.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <deque>
#include <optional>
#include <string>
#include <thread>
#include <utility>

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
                 LinePacer& pacer, const std::atomic<bool>& stop)
        : device_(device),
          line_(line),
          settings_(settings),
          stop_(stop),
          pacer_(pacer),
          chance_(settings.seed ^ 0x4c494e45ULL) {}

    Outcome wait_for_reader() { return line_.wait_for_reader(stop_); }
    /// What the device says before its first frame, once; `going_on()` is to be asked before.
    Outcome introduce() { return send_description({}); }
    [[nodiscard]] bool speaks_of_itself() const {
        return settings_.words == TransmitSettings::Words::packets;
    }
    [[nodiscard]] bool going_on() const { return !stop_ && count_.end != TransmitCount::End::reader_gone; }

    /// When the next frame goes out, in true seconds; nothing when there is none.
    [[nodiscard]] std::optional<double> next_due_s() {
        if (!going_on()) return std::nullopt;
        if (!next_) {
            next_ = device_.next();
            if (!next_) return std::nullopt;
            due_s_ = std::max(due_s_, device_.true_time_s(index_) + delay_s());
        }
        return due_s_;
    }

    Outcome send_next() {
        const FrameView frame = *std::exchange(next_, std::nullopt);
        newest_ = frame.stamp;
        const double time_s = device_.true_time_s(index_);
        ++count_.frames;
        if (time_s >= settings_.unplugged_from_s && time_s < settings_.unplugged_to_s) {
            unplugged_ = true;
            count_.lost_frames.push_back(index_++);
            return Done{};
        }
        unplugged_ = false;
        return send_frame(frame, index_++);
    }

    Outcome describe_again() { return unplugged_ ? Outcome(Done{}) : send_description(newest_); }

    TransmitCount finish() {
        if (stop_) count_.end = TransmitCount::End::stopped;
        if (count_.end == TransmitCount::End::lesson_over) line_.drain(stop_);
        return count_;
    }

  private:
    [[nodiscard]] double delay_s() {
        if (settings_.mean_delay_s <= 0.0) return 0.0;
        return -settings_.mean_delay_s * std::log(std::max(chance_.between(0.0, 1.0), 1e-12));
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
    LinePacer& pacer_;
    Chance chance_;
    TransmitCount count_;
    std::optional<FrameView> next_;
    std::uint64_t index_ = 0;
    double due_s_ = 0.0;
    FrameStamp newest_;
    bool unplugged_ = false;
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

Result<std::vector<TransmitCount>> transmit_together(const std::vector<TransmitPart>& parts,
                                                     const std::atomic<bool>& stop) {
    LinePacer pacer(parts.front().settings.speed, stop);
    std::deque<Transmission> all;
    for (const TransmitPart& part : parts) {
        if (part.settings.words == TransmitSettings::Words::text_lines &&
            part.device->description().layout.grid) {
            return Problem{ProblemKind::bad_input, part.line->name(),
                           "text lines carry load cells, not a mat", "leave the mat or the text lines out"};
        }
        all.emplace_back(*part.device, *part.line, part.settings, pacer, stop);
        if (Outcome ready = all.back().wait_for_reader(); !ready) return ready.problem();
    }
    for (int i = 0; i < descriptions_before_frames; ++i) {
        bool any = false;
        for (Transmission& one : all) {
            if (!one.speaks_of_itself() || !one.going_on()) continue;
            any = true;
            if (Outcome done = one.introduce(); !done) return done.problem();
        }
        if (any) std::this_thread::sleep_for(between_first_descriptions);
    }
    pacer.start();
    while (true) {
        Transmission* next = nullptr;
        double due_s = 0.0;
        for (Transmission& one : all) {
            const std::optional<double> due = one.next_due_s();
            if (!due || (next != nullptr && due_s <= *due)) continue;
            next = &one;
            due_s = *due;
        }
        if (next == nullptr) break;
        pacer.wait_until(due_s);
        if (stop) break;
        if (Outcome done = next->send_next(); !done) return done.problem();
        if (!pacer.description_due()) continue;
        for (Transmission& one : all) {
            if (!one.going_on()) continue;
            if (Outcome done = one.describe_again(); !done) return done.problem();
        }
    }
    std::vector<TransmitCount> counts;
    for (Transmission& one : all) counts.push_back(one.finish());
    return counts;
}

Result<TransmitCount> transmit(EmulatedDevice& device, EmulatedLine& line, const TransmitSettings& settings,
                               const std::atomic<bool>& stop) {
    Result<std::vector<TransmitCount>> counts = transmit_together({{&device, &line, settings}}, stop);
    if (!counts) return counts.problem();
    return std::move(counts.value().front());
}

}  // namespace footing
