#include "acquisition/decode/packet_stream.h"

#include <algorithm>

namespace footing {

PacketStream::Step PacketStream::step(std::span<const std::byte> bytes) {
    std::size_t at = 0;
    while (at < bytes.size()) {
        const auto rest = bytes.subspan(at);
        const auto zero = std::ranges::find(rest, wire::stream_delimiter);
        const auto run = rest.first(static_cast<std::size_t>(zero - rest.begin()));
        const std::size_t room = held_.size() - length_;
        std::ranges::copy(run.first(std::min(room, run.size())),
                          held_.begin() + static_cast<std::ptrdiff_t>(length_));
        length_ += std::min(room, run.size());
        if (run.size() > room && place_ == Place::in_packet) place_ = Place::in_too_long;
        at += run.size();
        if (zero == rest.end()) break;
        ++at;
        const Step step = close(at);
        if (step.verdict != Verdict::need_more) return step;
    }
    return {Verdict::need_more, bytes.size(), {}};
}

PacketStream::Step PacketStream::close(std::size_t taken) {
    const Place place = place_;
    const std::size_t length = length_;
    place_ = Place::in_packet;
    length_ = 0;
    if (length == 0 && place != Place::in_too_long) return {};  // zeros in a row, as some senders begin with
    const auto encoded = std::span(held_).first(length);
    if (place != Place::in_too_long) {
        if (const auto decoded = cobs_decode(encoded, held_)) {
            if (const auto packet = decode_datagram(std::span(held_).first(*decoded))) {
                return {Verdict::frame, taken, *packet};
            }
        }
    }
    if (place == Place::before_first_zero) return {};
    return {Verdict::invalid, taken, {}};
}

void PacketStream::reset() {
    length_ = 0;
    place_ = Place::before_first_zero;
}

}  // namespace footing
