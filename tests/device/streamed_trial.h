#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "acquisition/decode/packet_stream.h"
#include "tests/decode/broken_bytes.h"

namespace footing {

/// Reads what a foreign encoder wrote for a serial line: cells 1 to 256 (packet n holds n counts, the i-th
/// (7919 i mod 65536)(i mod 3)), then descriptions k = 250 to 511 (a zero, k letters x, a zero, y): runs of
/// 254 bytes and more with a zero behind them, where encoders of COBS go wrong. The counter is n, and k.
inline void check_streamed_trial(const Bytes& bytes) {
    PacketStream stream;
    std::uint32_t next = 1;
    int long_runs = 0;
    for (auto rest = std::span<const std::byte>(bytes); !rest.empty();) {
        const auto step = stream.step(rest);
        rest = rest.subspan(step.taken);
        REQUIRE(step.verdict == Verdict::frame);
        if (step.packet.kind == wire::PacketKind::description) {
            const std::string expected =
                std::string(1, '\0') + std::string(step.packet.head.counter, 'x') + std::string("\0y", 2);
            REQUIRE(description_text(step.packet) == expected);
            ++long_runs;
            continue;
        }
        REQUIRE(step.packet.head.counter == next);
        REQUIRE(step.packet.count == next);
        std::vector<std::int32_t> counts(next);
        copy_counts(step.packet, counts);
        for (std::uint32_t i = 0; i < next; ++i)
            REQUIRE(counts[i] == static_cast<std::int32_t>((i * 7919) % 65536 * (i % 3)));
        ++next;
    }
    CHECK(next == 257);
    CHECK(long_runs == 262);
}

}  // namespace footing
