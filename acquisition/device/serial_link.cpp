#include "acquisition/device/serial_link.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <utility>
// Boost.Asio 1.74 needs <utility> first.
#include <boost/asio.hpp>
#include <cerrno>
#include <cstring>

namespace footing {

namespace {

using boost::asio::serial_port_base;

constexpr int reads_at_once = 16;

bool means_gone(int error) {
    return error == EIO || error == ENODEV || error == ENXIO || error == ENOENT || error == EBADF;
}

}  // namespace

struct SerialLink::Line {
    Line(SerialPort wanted, const Clock& host_clock) : wanted_port(std::move(wanted)), clock(host_clock) {}

    [[nodiscard]] Problem problem(const std::string& what, const std::string& remedy) const {
        return {ProblemKind::device_failed, wanted_port.path, what, remedy};
    }

    [[nodiscard]] Problem cannot_open(const boost::system::error_code& error) const {
        switch (error.value()) {
            case ENOENT:
            case ENODEV:
            case ENXIO:
                return problem("there is no such port", "plug the plates in, or choose another port");
            case EACCES:
            case EPERM:
                return problem("this user may not open this port",
                               "add the user to the group dialout and log in again");
            case EBUSY:
                return taken();
            case ENOTTY:
                return problem("this is not a serial port", "choose another port");
            default:
                return problem("cannot open the port: " + error.message(), "check the cable and the port");
        }
    }

    [[nodiscard]] Problem taken() const {
        return problem("another program holds this port", "close it, or choose another port");
    }

    /// TIOCEXCL keeps later openers out, except root; the lock also tells us of an earlier one.
    Outcome claim() {
        const int descriptor = port.native_handle();
        if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) return taken();
        ::ioctl(descriptor, TIOCEXCL);
        return Done{};
    }

    Outcome configure() {
        boost::system::error_code error;
        port.set_option(serial_port_base::baud_rate(wanted_port.baud), error);
        serial_port_base::baud_rate granted;
        if (!error) port.get_option(granted, error);
        // A driver may refuse a speed by keeping the old one.
        if (error || granted.value() != wanted_port.baud) {
            return problem(fmt::format("the port does not run at {} baud", wanted_port.baud),
                           "choose a speed that both the port and the board know, for example 115200");
        }
        port.set_option(serial_port_base::character_size(8), error);
        port.set_option(serial_port_base::parity(serial_port_base::parity::none), error);
        port.set_option(serial_port_base::stop_bits(serial_port_base::stop_bits::one), error);
        port.set_option(serial_port_base::flow_control(serial_port_base::flow_control::none), error);
        return Done{};
    }

    SerialPort wanted_port;
    const Clock& clock;
    boost::asio::io_context context;
    boost::asio::serial_port port{context};
    std::array<std::byte, 4096> bytes{};
};

SerialLink::SerialLink(SerialPort port, const Clock& clock)
    : line_(std::make_unique<Line>(std::move(port), clock)) {}

SerialLink::~SerialLink() {
    close();
}

Outcome SerialLink::open() {
    boost::system::error_code error;
    line_->port.open(line_->wanted_port.path, error);
    if (error) return line_->cannot_open(error);
    for (const auto step : {&Line::claim, &Line::configure}) {
        if (auto done = (*line_.*step)(); !done) {
            close();
            return done;
        }
    }
    return Done{};
}

void SerialLink::close() {
    if (!line_->port.is_open()) return;
    ::ioctl(line_->port.native_handle(), TIOCNXCL);
    boost::system::error_code ignored;
    line_->port.close(ignored);
}

Outcome SerialLink::receive(PieceTaker& taker, std::chrono::milliseconds patience) {
    const int descriptor = line_->port.native_handle();
    const auto gone = [&] { return line_->problem("the device is gone", "plug it in again"); };
    pollfd waiting{descriptor, POLLIN, 0};
    if (::poll(&waiting, 1, static_cast<int>(patience.count())) <= 0) return Done{};
    for (int turn = 0; turn < reads_at_once; ++turn) {
        const ssize_t count = ::read(descriptor, line_->bytes.data(), line_->bytes.size());
        if (count == 0 && turn > 0) return Done{};
        if (count == 0) return gone();
        if (count < 0) {
            const int error = errno;
            if (error == EAGAIN || error == EWOULDBLOCK || error == EINTR) return Done{};
            if (means_gone(error)) return gone();
            return line_->problem(fmt::format("the port failed: {}", std::strerror(error)),
                                  "check the cable");
        }
        const auto taken = std::span<const std::byte>(line_->bytes).first(static_cast<std::size_t>(count));
        taker.take_piece({taken, line_->clock.steady_ns(), {}});
        if (taken.size() < line_->bytes.size()) break;
    }
    return Done{};
}

std::string SerialLink::name() const {
    return line_->wanted_port.path;
}

}  // namespace footing
