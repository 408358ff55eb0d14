#include "acquisition/device/line_pacer.h"

#include <algorithm>
#include <thread>

namespace footing {

namespace {

using std::chrono::milliseconds;

constexpr int most_packets_at_once = 64;
constexpr std::chrono::microseconds rest{200};
constexpr milliseconds most_delay{20};
constexpr milliseconds longest_sleep{50};

}  // namespace

void LinePacer::start() {
    start_ = Steady::now();
    next_description_ = start_ + between_descriptions;
}

void LinePacer::wait_until(double time_s) {
    const auto due =
        start_ + std::chrono::duration_cast<Steady::duration>(std::chrono::duration<double>(time_s / speed_));
    const Steady::time_point now = Steady::now();
    if (now > due + most_delay) start_ += now - due - most_delay;
    if (due > now + rest) {
        at_once_ = 0;
        for (auto left = due - now; left.count() > 0 && !stop_; left = due - Steady::now()) {
            std::this_thread::sleep_for(std::min<Steady::duration>(left, longest_sleep));
        }
    } else if (at_once_ >= most_packets_at_once) {
        at_once_ = 0;
        std::this_thread::sleep_for(rest);
    }
}

bool LinePacer::description_due() {
    if (Steady::now() < next_description_) return false;
    next_description_ += between_descriptions;
    return true;
}

}  // namespace footing
