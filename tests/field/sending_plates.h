#pragma once

#include <atomic>
#include <chrono>
#include <cstdint>
#include <thread>

#include "tests/device/real_lines.h"
#include "tests/device/sent_packets.h"

namespace footing {

/// Plates with eight cells that send 1,000 frames a second over UDP on a thread of their own, at real time,
/// with the description each 100 ms; each frame shows its counter.
class SendingPlates {
  public:
    explicit SendingPlates(std::uint16_t port, std::uint32_t serial = test_serial)
        : sender_(port), serial_(serial), thread_([this] { run(); }) {}
    ~SendingPlates() {
        over_ = true;
        thread_.join();
    }
    SendingPlates(const SendingPlates&) = delete;
    SendingPlates& operator=(const SendingPlates&) = delete;

    /// The device goes on counting, but nothing leaves it.
    void fall_silent() { silent_ = true; }
    void speak_again() { silent_ = false; }
    /// Frames sent so far, silence not counted.
    [[nodiscard]] std::uint64_t sent() const { return sent_; }

  private:
    void run() {
        using namespace std::chrono;
        const auto begin = steady_clock::now();
        for (std::uint32_t counter = 0; !over_; ++counter) {
            std::this_thread::sleep_until(begin + milliseconds(counter));
            if (silent_) continue;
            if (counter % 100 == 0) sender_.send(described(eight_cells(serial_), counter));
            sender_.send(cells(counter, serial_));
            ++sent_;
        }
    }

    UdpSender sender_;
    std::uint32_t serial_;
    std::atomic<bool> over_{false};
    std::atomic<bool> silent_{false};
    std::atomic<std::uint64_t> sent_{0};
    std::thread thread_;  ///< last: it uses all of the above
};

}  // namespace footing
