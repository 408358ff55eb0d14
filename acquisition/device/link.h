#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// Who sent a datagram. All zero on a serial line.
struct SenderAddress {
    std::array<std::byte, 16> address{};  ///< IPv6, or IPv4 in its first four bytes
    std::uint16_t port = 0;
    friend bool operator==(const SenderAddress&, const SenderAddress&) = default;
};

/// One datagram, or some bytes of a serial line. Not owned.
struct Piece {
    std::span<const std::byte> bytes;
    std::int64_t host_time_ns =
        0;  ///< host's steady clock when the bytes were taken from the operating system
    SenderAddress sender;
};

/// Takes what a link receives, in order. Must not block, allocate or throw.
class PieceTaker {
  public:
    virtual ~PieceTaker() = default;
    virtual void take_piece(const Piece& piece) = 0;
};

enum class LinkKind { datagrams, serial_stream };

/// A way by which bytes come in. One thread calls all of these. Between open and close, receive allocates
/// nothing and takes no lock.
class Link {
  public:
    virtual ~Link() = default;

    /// Fails with device_failed and names the port. May be called again after close.
    virtual Outcome open() = 0;
    virtual void close() = 0;

    /// Gives what has come to the taker; when there is nothing, waits at most `patience`. Takes a bounded
    /// amount, so that a flood cannot hold the caller. Fails with device_failed when the device is gone:
    /// close, and try open again.
    virtual Outcome receive(PieceTaker& taker, std::chrono::milliseconds patience) = 0;

    [[nodiscard]] virtual LinkKind kind() const = 0;
    /// From now on this sender is the device, whatever others send must not cost it anything; until close.
    /// Called from take_piece only, with the sender of that piece.
    virtual void favour(const SenderAddress& /*sender*/) {}
    /// Datagrams, possibly the device's, that the operating system dropped because they were not taken in
    /// time; since the first open.
    [[nodiscard]] virtual std::uint64_t overflow() const { return 0; }
    /// The same of datagrams that were not from the favoured sender.
    [[nodiscard]] virtual std::uint64_t foreign_overflow() const { return 0; }
    /// What a coach should know of the open link (a small buffer, say), one sentence; or empty.
    [[nodiscard]] virtual std::string warning() const { return {}; }
    /// For people: "UDP 127.0.0.1:9750".
    [[nodiscard]] virtual std::string name() const = 0;
};

}  // namespace footing
