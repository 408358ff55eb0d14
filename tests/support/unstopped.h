#pragma once

#include <atomic>

#include "acquisition/frame/clock.h"

namespace footing::test {

/// For what runs by the clock on the wall until somebody stops it: nobody does.
inline const SystemClock system_clock;
inline const std::atomic<bool> never_stop{false};

}  // namespace footing::test
