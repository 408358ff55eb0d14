#include "acquisition/frame/clock.h"

#include <chrono>

namespace footing {

namespace {
template <typename StdClock>
std::int64_t now_ns() {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(StdClock::now().time_since_epoch()).count();
}
}  // namespace

std::int64_t SystemClock::steady_ns() const { return now_ns<std::chrono::steady_clock>(); }
std::int64_t SystemClock::utc_ns() const { return now_ns<std::chrono::system_clock>(); }

}  // namespace footing
