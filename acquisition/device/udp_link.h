#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>

#include "acquisition/device/endpoint.h"
#include "acquisition/device/link.h"
#include "acquisition/frame/clock.h"

namespace footing {

struct UdpLinkOptions {
    HostPort
        bind;  ///< the interface to listen on: loopback, one of this computer's addresses, or 0.0.0.0 for all
    std::size_t receive_buffer_bytes = std::size_t{4} << 20U;  ///< asked for; what is granted is read back
};

/// Below this a burst may overflow the buffer before the device thread gets its turn (R3; a proposed figure).
inline constexpr std::size_t least_comfortable_receive_buffer = std::size_t{256} << 10U;

/// Datagrams that come to one address and port of this computer. The favoured sender gets a socket and a
/// buffer of its own, so that a flood of strangers (R21) costs it nothing: what the system drops then is
/// theirs.
class UdpLink final : public Link {
  public:
    /// `clock` outlives the link.
    UdpLink(UdpLinkOptions options, const Clock& clock);
    ~UdpLink() override;

    Outcome open() override;
    void close() override;
    Outcome receive(PieceTaker& taker, std::chrono::milliseconds patience) override;
    [[nodiscard]] LinkKind kind() const override { return LinkKind::datagrams; }
    void favour(const SenderAddress& sender) override;
    [[nodiscard]] std::uint64_t overflow() const override;
    [[nodiscard]] std::uint64_t foreign_overflow() const override;
    [[nodiscard]] std::string warning() const override;
    [[nodiscard]] std::string name() const override;

    /// Bytes the operating system granted, its own overhead not counted. 0 before open.
    [[nodiscard]] std::size_t granted_receive_buffer() const;
    /// The port in use; differs from what was asked for if that was 0. 0 before open.
    [[nodiscard]] std::uint16_t local_port() const;

  private:
    struct Socket;
    std::unique_ptr<Socket> socket_;
};

}  // namespace footing
