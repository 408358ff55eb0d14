#include "acquisition/device/udp_link.h"

#include <fcntl.h>
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
/// Strangers must not keep the device's frames waiting.
constexpr int strangers_batches_at_once = 2;

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
    /// A socket, and what the operating system dropped of what came to it.
    struct Inlet {
        explicit Inlet(boost::asio::io_context& context) : socket(context) {}

        [[nodiscard]] int descriptor() { return socket.native_handle(); }
        /// A program that is started meanwhile would hold the port for as long as it runs.
        void keep_from_children() { ::fcntl(descriptor(), F_SETFD, FD_CLOEXEC); }
        void allow_sharing(int on) { ::setsockopt(descriptor(), SOL_SOCKET, SO_REUSEPORT, &on, sizeof on); }
        /// Returns the bytes granted.
        std::size_t ask_for_buffer(std::size_t bytes) {
            const int wanted = static_cast<int>(bytes);
            // The second call goes beyond the system's limit where this user may; where not, it fails and
            // changes nothing.
            ::setsockopt(descriptor(), SOL_SOCKET, SO_RCVBUF, &wanted, sizeof wanted);
            if (read_buffer() < bytes) {
                ::setsockopt(descriptor(), SOL_SOCKET, SO_RCVBUFFORCE, &wanted, sizeof wanted);
            }
            const int on = 1;
            ::setsockopt(descriptor(), SOL_SOCKET, SO_RXQ_OVFL, &on, sizeof on);
            dropped_last = 0;
            return read_buffer();
        }
        [[nodiscard]] std::size_t read_buffer() {
            int bytes = 0;
            socklen_t length = sizeof bytes;
            ::getsockopt(descriptor(), SOL_SOCKET, SO_RCVBUF, &bytes, &length);
            return static_cast<std::size_t>(bytes) / 2;  // Linux doubles what it grants, for its own overhead
        }

        udp::socket socket;
        std::uint32_t dropped_last = 0;
    };

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
        door.socket.open(endpoint.protocol(), error);
        if (!error) door.keep_from_children();
        if (!error) door.socket.bind(endpoint, error);
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

    /// Gives the favoured sender a socket of its own on the same port: the system hands a datagram to the
    /// socket that is connected to its sender before any other. Only while this is done may the port be
    /// shared, so that nobody else can join (R8). Where the system refuses, all goes on through the door.
    void connect_to_favoured() {
        boost::system::error_code error;
        if (!own.socket.is_open()) {
            const udp::endpoint here = door.socket.local_endpoint(error);
            if (error) return;
            own.socket.open(here.protocol(), error);
            if (error) return;
            own.keep_from_children();
            door.allow_sharing(1);
            own.allow_sharing(1);
            own.socket.bind(here, error);
            if (!error) own.ask_for_buffer(options.receive_buffer_bytes);
        }
        if (!error && ::connect(own.descriptor(), reinterpret_cast<const sockaddr*>(&favoured_address),
                                sizeof favoured_address) != 0) {
            error = boost::asio::error::connection_refused;
        }
        door.allow_sharing(0);
        own.allow_sharing(0);
        if (error) own.socket.close(error);
    }

    void count_drops(Inlet& inlet, std::uint32_t dropped) {
        const std::uint32_t more = dropped - inlet.dropped_last;
        inlet.dropped_last = dropped;
        const bool ours = &inlet == &own || !favoured || favoured_comes_by_door;
        (ours ? overflow : foreign_overflow) += more;
    }

    Outcome take_from(Inlet& inlet, int most_batches, PieceTaker& taker) {
        for (int turn = 0; turn < most_batches; ++turn) {
            batch->prepare();
            const int count = ::recvmmsg(inlet.descriptor(), batch->messages.data(), datagrams_at_once,
                                         MSG_DONTWAIT, nullptr);
            if (count < 0) {
                const int error = errno;
                if (error == EAGAIN || error == EWOULDBLOCK || error == EINTR || error == ECONNREFUSED)
                    return Done{};
                return problem(fmt::format("the network failed: {}", std::strerror(error)),
                               "check the network");
            }
            const std::int64_t now_ns = clock.steady_ns();
            for (unsigned i = 0; i < static_cast<unsigned>(count); ++i) {
                const SenderAddress sender = sender_of(batch->senders[i]);
                if (favoured == sender) favoured_comes_by_door = &inlet == &door;
                if (const auto dropped = batch->dropped_before(i)) count_drops(inlet, *dropped);
                const auto bytes =
                    std::span<const std::byte>(batch->datagrams[i]).first(batch->messages[i].msg_len);
                taker.take_piece({bytes, now_ns, sender});
            }
            if (static_cast<unsigned>(count) < datagrams_at_once) break;
        }
        return Done{};
    }

    UdpLinkOptions options;
    const Clock& clock;
    boost::asio::io_context context;
    Inlet door{context};  ///< open to everybody
    Inlet own{context};   ///< of the favoured sender
    std::optional<SenderAddress> favoured;
    sockaddr_storage favoured_address{};
    bool favoured_comes_by_door = false;  ///< as when it sends to a broadcast address
    bool connect_asked = false;
    std::unique_ptr<Batch> batch = std::make_unique<Batch>();
    std::size_t granted = 0;
    std::uint16_t port = 0;
    std::uint64_t overflow = 0;
    std::uint64_t foreign_overflow = 0;
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
    socket_->granted = socket_->door.ask_for_buffer(socket_->options.receive_buffer_bytes);
    socket_->port = socket_->door.socket.local_endpoint(error).port();
    return Done{};
}

void UdpLink::close() {
    boost::system::error_code ignored;
    socket_->own.socket.close(ignored);
    socket_->door.socket.close(ignored);
    socket_->favoured.reset();
    socket_->connect_asked = false;
}

Outcome UdpLink::receive(PieceTaker& taker, std::chrono::milliseconds patience) {
    Socket& socket = *socket_;
    const bool has_own = socket.own.socket.is_open();
    std::array<pollfd, 2> waiting{
        {{socket.door.descriptor(), POLLIN, 0}, {has_own ? socket.own.descriptor() : -1, POLLIN, 0}}};
    if (::poll(waiting.data(), waiting.size(), static_cast<int>(patience.count())) <= 0) return Done{};
    if (waiting[1].revents != 0) {
        if (auto taken = socket.take_from(socket.own, batches_at_once, taker); !taken) return taken;
    }
    if (waiting[0].revents != 0) {
        const int batches = has_own ? strangers_batches_at_once : batches_at_once;
        if (auto taken = socket.take_from(socket.door, batches, taker); !taken) return taken;
    }
    if (std::exchange(socket.connect_asked, false)) socket.connect_to_favoured();
    return Done{};
}

void UdpLink::favour(const SenderAddress& sender) {
    for (unsigned i = 0; i < datagrams_at_once; ++i) {
        if (!(sender_of(socket_->batch->senders[i]) == sender)) continue;
        socket_->favoured = sender;
        socket_->favoured_address = socket_->batch->senders[i];
        socket_->favoured_comes_by_door = true;
        socket_->connect_asked = true;
        return;
    }
}

std::uint64_t UdpLink::overflow() const {
    return socket_->overflow;
}

std::uint64_t UdpLink::foreign_overflow() const {
    return socket_->foreign_overflow;
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
