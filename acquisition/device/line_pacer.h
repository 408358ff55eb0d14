#pragma once

#include <atomic>
#include <chrono>

namespace footing {

/// When a device describes itself: so often before its first frame, and then each second.
inline constexpr int descriptions_before_frames = 5;
inline constexpr std::chrono::milliseconds between_first_descriptions{100};
inline constexpr std::chrono::milliseconds between_descriptions{1000};

/// Keeps a sender to its time, on the thread that sends. A receiver's socket buffer is finite: after 64
/// packets without a rest there is one, and a sender that was kept from sending does not make up for more
/// than 20 ms.
class LinePacer {
  public:
    /// `speed`: times real time. `stop` must outlive this; once true, nothing is waited for.
    LinePacer(double speed, const std::atomic<bool>& stop) : speed_(speed), stop_(stop) {}

    /// Now is time 0.
    void start();
    void wait_until(double time_s);
    void packet_sent() { ++at_once_; }
    /// Whether it is time for the device to describe itself again; true once a second.
    [[nodiscard]] bool description_due();

  private:
    using Steady = std::chrono::steady_clock;
    double speed_;
    const std::atomic<bool>& stop_;
    Steady::time_point start_;
    Steady::time_point next_description_;
    int at_once_ = 0;
};

}  // namespace footing
