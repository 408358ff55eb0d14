#include "acquisition/device/emulated_line.h"

#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <termios.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>
#include <utility>

#include <boost/asio.hpp>

#include "acquisition/device/endpoint.h"

namespace footing {

namespace {

namespace asio = boost::asio;
using asio::ip::udp;
using Steady = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr milliseconds look_again{20};
constexpr milliseconds most_wait_to_write{2000};
constexpr milliseconds drain_time{1000};

Problem failed(const std::string& place, const std::string& what, const std::string& remedy) {
    return {ProblemKind::device_failed, place, what, remedy};
}

/// Writes all of it to a descriptor that does not block; waits at most two seconds for room.
Outcome write_all(int descriptor, std::span<const std::byte> bytes, const std::string& name,
                  const std::atomic<bool>& stop) {
    const Steady::time_point give_up = Steady::now() + most_wait_to_write;
    while (!bytes.empty() && !stop) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written > 0) {
            bytes = bytes.subspan(static_cast<std::size_t>(written));
            continue;
        }
        if (written < 0 && errno != EAGAIN && errno != EINTR) {
            return failed(name, "cannot send: " + std::generic_category().message(errno),
                          "check the cable and what is plugged in");
        }
        if (Steady::now() > give_up) {
            return failed(name, "nobody has taken the bytes for two seconds",
                          "start the program that reads this line first");
        }
        pollfd room{descriptor, POLLOUT, 0};
        ::poll(&room, 1, static_cast<int>(look_again.count()));
    }
    return Done{};
}

class UdpLine final : public EmulatedLine {
  public:
    UdpLine(std::string name, const udp::endpoint& to)
        : name_("UDP " + std::move(name)), socket_(context_), to_(to) {
        socket_.open(to.protocol());
    }
    Framing framing() const override { return Framing::datagram; }
    std::string name() const override { return name_; }

    Result<Reader> send(std::span<const std::byte> packet, const std::atomic<bool>& stop) override {
        boost::system::error_code error;
        do {
            socket_.send_to(asio::buffer(packet.data(), packet.size()), to_, 0, error);
            if (error != asio::error::no_buffer_space && error != asio::error::would_block) break;
            std::this_thread::sleep_for(milliseconds(1));
        } while (!stop);
        if (error && !stop)
            return failed(name_, "cannot send: " + error.message(), "check the address and the network");
        return Reader::listening;
    }

  private:
    std::string name_;
    asio::io_context context_;
    udp::socket socket_;
    udp::endpoint to_;
};

class SerialLine final : public EmulatedLine {
  public:
    explicit SerialLine(std::string path) : path_(std::move(path)), port_(context_) {}

    Outcome open(unsigned baud) {
        boost::system::error_code error;
        port_.open(path_, error);
        if (error)
            return failed(path_, "cannot open it: " + error.message(),
                          "check the path and who else has it open");
        using asio::serial_port_base;
        port_.set_option(serial_port_base::character_size(8), error);
        port_.set_option(serial_port_base::flow_control(serial_port_base::flow_control::none), error);
        port_.set_option(serial_port_base::parity(serial_port_base::parity::none), error);
        port_.set_option(serial_port_base::stop_bits(serial_port_base::stop_bits::one), error);
        port_.set_option(serial_port_base::baud_rate(baud), error);
        serial_port_base::baud_rate granted;
        if (!error) port_.get_option(granted, error);
        if (error || granted.value() != baud) {
            return failed(path_, "is no serial line, or cannot run at " + std::to_string(baud) + " baud",
                          "name a serial port, and a speed it can do");
        }
        ::fcntl(port_.native_handle(), F_SETFL, ::fcntl(port_.native_handle(), F_GETFL) | O_NONBLOCK);
        return Done{};
    }
    Framing framing() const override { return Framing::stream; }
    std::string name() const override { return path_; }

    Result<Reader> send(std::span<const std::byte> packet, const std::atomic<bool>& stop) override {
        if (Outcome done = write_all(port_.native_handle(), packet, path_, stop); !done)
            return done.problem();
        return Reader::listening;
    }
    void drain(const std::atomic<bool>& stop) override {
        if (!stop) ::tcdrain(port_.native_handle());
    }

  private:
    std::string path_;
    asio::io_context context_;
    asio::serial_port port_;
};

class PtyLine final : public EmulatedLine {
  public:
    PtyLine(std::string link, double patience_s) : link_(std::move(link)), patience_s_(patience_s) {}
    PtyLine(const PtyLine&) = delete;
    PtyLine& operator=(const PtyLine&) = delete;
    ~PtyLine() override {
        if (linked_) ::unlink(link_.c_str());
        if (far_side_ >= 0) ::close(far_side_);
    }

    Outcome open() {
        far_side_ = ::posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
        char near_side[128] = {};
        if (far_side_ < 0 || ::grantpt(far_side_) != 0 || ::unlockpt(far_side_) != 0 ||
            ::ptsname_r(far_side_, near_side, sizeof near_side) != 0) {
            return failed(link_, "cannot make a pty: " + std::generic_category().message(errno), "");
        }
        // Opened and closed once: raw from now on, and the far side can tell that nobody is there.
        const int slave = ::open(near_side, O_RDWR | O_NOCTTY | O_CLOEXEC);
        termios raw{};
        if (slave < 0 || ::tcgetattr(slave, &raw) != 0) {
            return failed(link_, "cannot set up a pty: " + std::generic_category().message(errno), "");
        }
        ::cfmakeraw(&raw);
        ::tcsetattr(slave, TCSANOW, &raw);
        ::close(slave);

        std::error_code error;
        if (std::filesystem::is_symlink(link_, error) && !std::filesystem::exists(link_, error))
            ::unlink(link_.c_str());
        if (::symlink(near_side, link_.c_str()) != 0) {
            return failed(link_, "cannot make a link of this name: " + std::generic_category().message(errno),
                          "give a path that does not exist yet, in a folder that does");
        }
        linked_ = true;
        return Done{};
    }
    Framing framing() const override { return Framing::stream; }
    std::string name() const override { return link_; }

    Outcome wait_for_reader(const std::atomic<bool>& stop) override {
        const auto give_up = Steady::now() + std::chrono::duration<double>(patience_s_);
        while (!stop && !somebody_reads()) {
            if (Steady::now() > give_up) {
                return failed(link_, "nobody opened it", "start the program that reads it");
            }
            std::this_thread::sleep_for(look_again);
        }
        // Give the reader a moment to set its port up, which may discard what has come by then.
        std::this_thread::sleep_for(milliseconds(100));
        return Done{};
    }

    Result<Reader> send(std::span<const std::byte> packet, const std::atomic<bool>& stop) override {
        if (!somebody_reads()) return Reader::gone;
        if (Outcome done = write_all(far_side_, packet, link_, stop); !done) {
            if (!somebody_reads()) return Reader::gone;
            return done.problem();
        }
        return Reader::listening;
    }

    void drain(const std::atomic<bool>& stop) override {
        const auto end = Steady::now() + drain_time;
        while (!stop && somebody_reads() && Steady::now() < end) std::this_thread::sleep_for(look_again);
    }

  private:
    [[nodiscard]] bool somebody_reads() const {
        pollfd state{far_side_, POLLOUT, 0};
        return ::poll(&state, 1, 0) >= 0 && (state.revents & POLLHUP) == 0;
    }

    std::string link_;
    double patience_s_;
    int far_side_ = -1;
    bool linked_ = false;
};

}  // namespace

Result<std::unique_ptr<EmulatedLine>> open_udp_line(const std::string& host_and_port) {
    const auto to = parse_host_port(host_and_port);
    if (!to) return to.problem();
    asio::io_context context;
    udp::resolver resolver(context);
    boost::system::error_code error;
    const auto found = resolver.resolve(to.value().host, std::to_string(to.value().port),
                                        udp::resolver::numeric_service, error);
    if (error || found.empty()) {
        return failed(host_and_port, "no such host: " + error.message(),
                      "check the name or give its address");
    }
    try {
        return std::unique_ptr<EmulatedLine>(
            std::make_unique<UdpLine>(host_and_port, found.begin()->endpoint()));
    } catch (const boost::system::system_error& refused) {
        return failed(host_and_port, std::string("cannot open a socket: ") + refused.what(), "");
    }
}

Result<std::unique_ptr<EmulatedLine>> open_serial_line(const std::string& path_and_baud) {
    const auto port = parse_serial_port(path_and_baud);
    if (!port) return port.problem();
    auto line = std::make_unique<SerialLine>(port.value().path);
    if (Outcome opened = line->open(port.value().baud); !opened) return opened.problem();
    return std::unique_ptr<EmulatedLine>(std::move(line));
}

Result<std::unique_ptr<EmulatedLine>> open_pty_line(const std::string& link, double patience_s) {
    auto line = std::make_unique<PtyLine>(link, patience_s);
    if (Outcome opened = line->open(); !opened) return opened.problem();
    return std::unique_ptr<EmulatedLine>(std::move(line));
}

}  // namespace footing
