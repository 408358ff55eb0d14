#include "acquisition/device/udp_link.h"

#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>

#include <array>
#include <utility>
// Boost.Asio 1.74 needs <utility> first.
#include <boost/asio.hpp>
#include <cstring>
#include <optional>

#include "acquisition/decode/wire_format.h"

namespace footing {

namespace {

using boost::asio::ip::udp;

/// Larger than any packet, so that a longer datagram is seen to be one.
constexpr std::size_t most_datagram_bytes = wire::most_packet_bytes + 4;
constexpr unsigned datagrams_at_once = 64;
constexpr int batches_at_once = 8;

SenderAddress sender_of(const sockaddr_storage& from) {
    SenderAddress sender;
    if (from.ss_family == AF_INET) {
        sockaddr_in address{};
        std::memcpy(&address, &from, sizeof address);
        std::memcpy(sender.address.data(), &address.sin_addr, sizeof address.sin_addr);
        sender.port = ntohs(address.sin_port);
    } else if (from.ss_family == AF_INET6) {
        sockaddr_in6 address{};
        std::memcpy(&address, &from, sizeof address);
        std::memcpy(sender.address.data(), &address.sin6_addr, sizeof address.sin6_addr);
        sender.port = ntohs(address.sin6_port);
    }
    return sender;
}

/// What one call to the operating system takes: many datagrams, with who sent them and how many were dropped
/// before.
struct Batch {
    struct Control {
        alignas(cmsghdr) std::array<std::byte, CMSG_SPACE(sizeof(std::uint32_t))> bytes;
    };
    std::array<std::array<std::byte, most_datagram_bytes>, datagrams_at_once> datagrams;
    std::array<sockaddr_storage, datagrams_at_once> senders;
    std::array<Control, datagrams_at_once> controls;
    std::array<iovec, datagrams_at_once> vectors;
    std::array<mmsghdr, datagrams_at_once> messages;

    void prepare() {
        for (unsigned i = 0; i < datagrams_at_once; ++i) {
            vectors[i] = {datagrams[i].data(), datagrams[i].size()};
            messages[i] = {};
            messages[i].msg_hdr.msg_name = &senders[i];
            messages[i].msg_hdr.msg_namelen = sizeof senders[i];
            messages[i].msg_hdr.msg_iov = &vectors[i];
            messages[i].msg_hdr.msg_iovlen = 1;
            messages[i].msg_hdr.msg_control = controls[i].bytes.data();
            messages[i].msg_hdr.msg_controllen = controls[i].bytes.size();
        }
    }

    /// How many datagrams this socket had dropped when datagram `i` was queued, if the system says.
    [[nodiscard]] std::optional<std::uint32_t> dropped_before(unsigned i) {
        msghdr& head = messages[i].msg_hdr;
        for (cmsghdr* entry = CMSG_FIRSTHDR(&head); entry != nullptr; entry = CMSG_NXTHDR(&head, entry)) {
            if (entry->cmsg_level != SOL_SOCKET || entry->cmsg_type != SO_RXQ_OVFL) continue;
            std::uint32_t dropped = 0;
            std::memcpy(&dropped, CMSG_DATA(entry), sizeof dropped);
            return dropped;
        }
        return std::nullopt;
    }
};

}  // namespace

struct UdpLink::Socket {
    Socket(UdpLinkOptions wanted, const Clock& host_clock) : options(std::move(wanted)), clock(host_clock) {}

    [[nodiscard]] Problem problem(const std::string& what, const std::string& remedy) const {
        return {ProblemKind::device_failed, place(), what, remedy};
    }
    [[nodiscard]] std::string place() const {
        const bool v6 = options.bind.host.find(':') != std::string::npos;
        const std::string host = v6 ? "[" + options.bind.host + "]" : options.bind.host;
        return fmt::format("UDP {}:{}", host, port != 0 ? port : options.bind.port);
    }

    Outcome bind_to(const udp::endpoint& endpoint) {
        boost::system::error_code error;
        socket.open(endpoint.protocol(), error);
        if (!error) socket.bind(endpoint, error);
        if (error == boost::asio::error::address_in_use) {
            return problem("another program already listens on this port",
                           "close it, or choose another port");
        }
        if (error == boost::asio::error::access_denied) {
            return problem("this user may not listen on this port", "choose a port above 1023");
        }
        if (error)
            return problem("cannot listen: " + error.message(),
                           "give an address of this computer, or 0.0.0.0");
        return Done{};
    }

    void ask_for_buffer() {
        const int descriptor = socket.native_handle();
        const int wanted = static_cast<int>(options.receive_buffer_bytes);
        // The second call goes beyond the system's limit where this user may; where not, it fails and changes
        // nothing.
        ::setsockopt(descriptor, SOL_SOCKET, SO_RCVBUF, &wanted, sizeof wanted);
        if (read_buffer() < options.receive_buffer_bytes) {
            ::setsockopt(descriptor, SOL_SOCKET, SO_RCVBUFFORCE, &wanted, sizeof wanted);
        }
        granted = read_buffer();
        const int on = 1;
        ::setsockopt(descriptor, SOL_SOCKET, SO_RXQ_OVFL, &on, sizeof on);
    }

    [[nodiscard]] std::size_t read_buffer() {
        int bytes = 0;
        socklen_t length = sizeof bytes;
        ::getsockopt(socket.native_handle(), SOL_SOCKET, SO_RCVBUF, &bytes, &length);
        return static_cast<std::size_t>(bytes) / 2;  // Linux doubles what it grants, for its own overhead
    }

    UdpLinkOptions options;
    const Clock& clock;
    boost::asio::io_context context;
    udp::socket socket{context};
    std::unique_ptr<Batch> batch = std::make_unique<Batch>();
    std::size_t granted = 0;
    std::uint16_t port = 0;
    std::uint64_t overflow = 0;
    std::uint32_t dropped_last = 0;
};

UdpLink::UdpLink(UdpLinkOptions options, const Clock& clock)
    : socket_(std::make_unique<Socket>(std::move(options), clock)) {}

UdpLink::~UdpLink() = default;

Outcome UdpLink::open() {
    boost::system::error_code error;
    udp::resolver resolver(socket_->context);
    const auto found =
        resolver.resolve(socket_->options.bind.host, std::to_string(socket_->options.bind.port),
                         udp::resolver::passive, error);
    if (error || found.empty()) {
        return socket_->problem("no such address: " + error.message(),
                                "give an address of this computer, or 0.0.0.0");
    }
    if (auto bound = socket_->bind_to(*found.begin()); !bound) {
        close();
        return bound;
    }
    socket_->ask_for_buffer();
    socket_->port = socket_->socket.local_endpoint(error).port();
    socket_->dropped_last = 0;
    return Done{};
}

void UdpLink::close() {
    boost::system::error_code ignored;
    socket_->socket.close(ignored);
}

Outcome UdpLink::receive(PieceTaker& taker, std::chrono::milliseconds patience) {
    const int descriptor = socket_->socket.native_handle();
    pollfd waiting{descriptor, POLLIN, 0};
    if (::poll(&waiting, 1, static_cast<int>(patience.count())) <= 0) return Done{};
    Batch& batch = *socket_->batch;
    for (int turn = 0; turn < batches_at_once; ++turn) {
        batch.prepare();
        const int count =
            ::recvmmsg(descriptor, batch.messages.data(), datagrams_at_once, MSG_DONTWAIT, nullptr);
        if (count < 0) {
            const int error = errno;
            if (error == EAGAIN || error == EWOULDBLOCK || error == EINTR || error == ECONNREFUSED)
                return Done{};
            return socket_->problem(fmt::format("the network failed: {}", std::strerror(error)),
                                    "check the network");
        }
        const std::int64_t now_ns = socket_->clock.steady_ns();
        for (unsigned i = 0; i < static_cast<unsigned>(count); ++i) {
            if (const auto dropped = batch.dropped_before(i)) {
                socket_->overflow += *dropped - socket_->dropped_last;
                socket_->dropped_last = *dropped;
            }
            const auto bytes =
                std::span<const std::byte>(batch.datagrams[i]).first(batch.messages[i].msg_len);
            taker.take_piece({bytes, now_ns, sender_of(batch.senders[i])});
        }
        if (static_cast<unsigned>(count) < datagrams_at_once) break;
    }
    return Done{};
}

std::uint64_t UdpLink::overflow() const {
    return socket_->overflow;
}

std::string UdpLink::warning() const {
    if (socket_->granted == 0 || socket_->granted >= least_comfortable_receive_buffer) return {};
    return fmt::format(
        "{}: the system grants a receive buffer of only {} kB, so a busy moment may lose frames; raise it "
        "with: "
        "sysctl -w net.core.rmem_max=4194304",
        socket_->place(), socket_->granted >> 10U);
}

std::string UdpLink::name() const {
    return socket_->place();
}

std::size_t UdpLink::granted_receive_buffer() const {
    return socket_->granted;
}

std::uint16_t UdpLink::local_port() const {
    return socket_->port;
}

}  // namespace footing
