#pragma once

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <pty.h>
#include <sys/socket.h>
#include <termios.h>
#include <unistd.h>

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <functional>
#include <source_location>
#include <span>
#include <stdexcept>
#include <string>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// Ends a test or a soak where the line itself does not do what it must.
inline void must(bool held, const std::source_location& where = std::source_location::current()) {
    if (!held) throw std::runtime_error("the line failed in line " + std::to_string(where.line()));
}

/// A foreign program that sends datagrams from a port of its own: plain sockets, none of our code.
class UdpSender {
  public:
    explicit UdpSender(std::uint16_t to_port) : descriptor_(::socket(AF_INET, SOCK_DGRAM, 0)) {
        to_.sin_family = AF_INET;
        to_.sin_port = htons(to_port);
        to_.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    }
    ~UdpSender() { ::close(descriptor_); }
    UdpSender(const UdpSender&) = delete;
    UdpSender& operator=(const UdpSender&) = delete;

    void send(std::span<const std::byte> bytes) const {
        const ssize_t sent = ::sendto(descriptor_, bytes.data(), bytes.size(), 0,
                                      reinterpret_cast<const sockaddr*>(&to_), sizeof to_);
        must(sent == static_cast<ssize_t>(bytes.size()));
    }

  private:
    int descriptor_;
    sockaddr_in to_{};
};

/// A cable with a board at its far end: a pty, reachable under a path that stays the same when it is plugged
/// in again.
class Cable {
  public:
    explicit Cable(const std::string& name)
        : path_(std::filesystem::temp_directory_path() / (name + std::to_string(::getpid()))) {
        plug_in();
    }
    ~Cable() { unplug(); }
    Cable(const Cable&) = delete;
    Cable& operator=(const Cable&) = delete;

    void plug_in() {
        std::string far_path(256, '\0');
        int near = -1;
        must(::openpty(&board_, &near, far_path.data(), nullptr, nullptr) == 0);
        termios raw{};
        ::tcgetattr(near, &raw);
        ::cfmakeraw(&raw);
        ::tcsetattr(near, TCSANOW, &raw);
        // A pty keeps no bytes for a reader that is not there yet unless somebody holds its near side open.
        near_ = near;
        std::filesystem::remove(path_);
        std::filesystem::create_symlink(far_path.c_str(), path_);
    }

    void unplug() {
        if (board_ < 0) return;
        std::filesystem::remove(path_);
        ::close(near_);
        ::close(board_);
        board_ = near_ = -1;
    }

    void send(std::span<const std::byte> bytes) const {
        while (!bytes.empty()) {
            const ssize_t sent = ::write(board_, bytes.data(), bytes.size());
            must(sent > 0);
            bytes = bytes.subspan(static_cast<std::size_t>(sent));
        }
    }

    [[nodiscard]] std::string path() const { return path_.string(); }

  private:
    std::filesystem::path path_;
    int board_ = -1;
    int near_ = -1;
};

/// Polls until the condition holds; a test that waits for something that never comes fails after ten seconds.
inline SourceState poll_until(FrameSource& source, FrameSink& sink,
                              const std::function<bool(SourceState)>& held) {
    const auto give_up = std::chrono::steady_clock::now() + std::chrono::seconds(10);
    for (;;) {
        const auto state = source.poll(sink, std::chrono::milliseconds(5));
        must(state.ok());
        if (held(state.value())) return state.value();
        must(std::chrono::steady_clock::now() < give_up);
    }
}

}  // namespace footing
